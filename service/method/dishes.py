"""What food is stirred into, where it is a dressing, a filling, a dough or a sauce and no bath."""

from __future__ import annotations

import re

from .clauses import Clause
from .happenings import PROTEINS
from .method_words import small_words
from .reading_state import HOT, ReadingState

_OF_SAUCES = frozenset({"vegetable", "legume", "pasta", "grain", "potato", "stock", "fruit"})
"""What is stirred with these and water is a sauce or a soup, and no brine."""
_SALADS = frozenset({"pasta", "grain", "potato", "bread"})
"""What lies in no bath of meat or vegetables: with a dressing it is a salad."""
_READY = small_words("ready")


def proteins_ready(state: ReadingState, solids: dict[int, float]) -> bool:
    """Whether fish or meat is cooked, smoked or of a can: what it is stirred into is a dressing."""
    lines = [state.lines[n] for n in solids if state.kind(n) in PROTEINS]
    return bool(lines) and all(
        line.is_canned or _READY & set(line.text.lower().replace(",", " ").split()) for line in lines
    )


def is_dish(state: ReadingState, solids: dict[int, float], own: dict[int, float], *, watery: bool) -> bool:
    """Whether what food is stirred into is a dressing, a filling, a dough or a sauce, and no bath."""
    kinds = set(map(state.kind, own))
    if not kinds.isdisjoint(_SALADS):
        return True  # with a dressing, or "cover with the meat sauce", of a dish in layers
    if any({"mayonnaise", "mayo"} & set(state.lines[n].words) for n in own):
        return True
    if proteins_ready(state, solids) or (kinds & {"flour", "bread", "egg"} and _is_mince(state, solids)):
        return True
    sauce = bool(kinds & _OF_SAUCES) and not kinds & {"acid", "wine"}
    return watery and (sauce or _is_dough(state, own))


def in_a_pan(clause: Clause) -> bool:
    """ "Add the wine and the mussels" to a pan, or to what sweats in the same sentence: it is no bath."""
    if clause.vessel() == "pan":
        return True
    said_before = clause.sentence[: max(clause.sentence.find(clause.text), 0)]
    return clause.base == "add" and _SWEATS.search(said_before) is not None


_SWEATS = re.compile(r"\b(?:sweat|soften|saut[eé]|fry|sizzle|brown)\b", re.IGNORECASE)


def _is_dough(state: ReadingState, lines: dict[int, float]) -> bool:
    """Whether flour is stirred into the water: a dough or a batter, and no brine."""
    return any(state.kind(n) == "flour" and "bicarbonate" not in state.lines[n].words for n in lines)


def _is_mince(state: ReadingState, solids: dict[int, float]) -> bool:
    return any({"mince", "minced", "ground"} & set(state.lines[n].text.lower().split()) for n in solids)


_WITH_EGG = frozenset({"flour", "savoury", "wine"})
"""What meat lies in with an egg that is beaten, and no salad is made of."""


def with_raw_egg(
    state: ReadingState, solids: dict[int, float], own: dict[int, float]
) -> tuple[dict[int, float], dict[int, float]]:
    """ "Mix the beef with soy sauce, egg white and cornflour": food, and what it lies in with the egg."""
    kinds = set(map(state.kind, solids))
    if "egg" not in kinds or kinds.isdisjoint(PROTEINS):
        return solids, own
    wet = not _WITH_EGG.isdisjoint(map(state.kind, own))
    raw = {n for n in solids if state.kind(n) == "egg" and (wet or "white" in state.lines[n].words)}
    raw = {n for n in raw if "boiled" not in state.lines[n].text and state.latest(HOT, (n,)) is None}
    return {n: s for n, s in solids.items() if n not in raw}, own | {n: solids[n] for n in raw}
