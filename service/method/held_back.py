"""Parts of a marinade or sauce: "set half aside", "pour two thirds over the tuna"."""

from __future__ import annotations

import re

from .clauses import Clause
from .happenings import PROTEINS
from .left_to_the_cook import grams_roughly
from .method_words import phrasing
from .parts_said import millilitres, part_said
from .reading_state import COLD, ReadingState

_KEEPS = frozenset({"reserve", "reserving", "aside", "keep", "save", "back", "saving", "keeping", "hold"})
_MIXED = frozenset({"marinade", "sauce", "mixture", "dressing", "it", "glaze", "paste"})


_TAKES = frozenset(
    {"pour", "spoon", "put", "transfer", "tip", "decant", "scoop", "measure", "take", "ladle", "go", "remove"}
)
_KEPT = phrasing("set_aside")
_SOME = 0.25
"""Of a marinade what "some of it" is that is kept back; common practice, no source."""
_OTHERS = frozenset({"other", "rest", "remainder", "remaining", "second"})


def rest_of_bath(state: ReadingState, clause: Clause) -> dict[int, float]:
    """ "The other half goes over the cabbage": what is left of a brine or marinade in part of which other
    food lies already."""
    bath = state.latest(COLD)
    if (
        clause.words.isdisjoint(_OTHERS)
        or bath is None
        or not set(bath.foods).isdisjoint(state.solids(clause))
    ):
        return {}
    return {n: round(1.0 - share, 4) for n, share in bath.liquid.items() if 0.0 < share < 1.0}


_UNKNOWN_G = 40.0
"""What a line weighs that does not say so, g."""


def _keeps(clause: Clause) -> bool:
    """ "Set half aside", "pour half into a jar and keep it for the sauce"."""
    if not _KEEPS.isdisjoint(clause.words):
        return True
    takes = clause.base in _TAKES or clause.act == "discard"  # "pour off 60 ml and keep it"
    if not takes or not (part_said(clause) or millilitres(clause)):
        return False
    return bool(_KEPT.search(clause.sentence))


_MEASURED = re.compile(
    r"\w of (?:the |this |that |your )?(?:marinade|mixture|sauce|mix|dressing|it)\b", re.IGNORECASE
)


def _goes_to_food(state: ReadingState, clause: Clause) -> float | None:
    """ "Put half in a bag with the pork", "pour two thirds of it over the fish": the part of what was stirred
    in which food lies, whatever becomes of the rest."""
    if clause.act == "remove" or (part := part_said(clause)) is None:
        return None
    lines = [m for m in clause.mentions if m.kind == "line"]
    over = any(m.prep in _ONTO and not PROTEINS.isdisjoint(map(state.kind, m.lines)) for m in lines)
    return part if over and all(m.prep and m.portion is None for m in lines) else None


_ONTO = frozenset({"over", "on", "onto", "with", "in", "into", "to"})


def hold_back(state: ReadingState, clause: Clause) -> None:
    """Note how much of what was stirred together is kept from the food that will lie in it."""
    mixture = state.mixture
    if clause.negated:
        return
    if clause.base in _TAKES and (part := _goes_to_food(state, clause)) is not None:
        mixture.taken = part
        return
    if not _keeps(clause):
        if "of" in clause.words and _MEASURED.search(clause.text) and (ml := millilitres(clause)) is not None:
            mixture.taken = _of_mixture(state, ml) or mixture.taken  # "pour 1/2 cup of it over the chicken"
        return
    if _MIXED.isdisjoint(clause.words) and any(m.kind == "line" and not m.prep for m in clause.mentions):
        return  # "reserve half the butter"; but "put half in a bag with the pork"
    part = part_said(clause)
    if part is None and (ml := millilitres(clause)) is not None:
        part = _of_mixture(state, ml)
    if part is None and clause.has("some", "few", "little", "bit") and "vessel" not in clause.speaks:
        part = _SOME
    if part is not None:
        mixture.taken = 1.0 - part


def _of_mixture(state: ReadingState, ml: float) -> float | None:
    """What part of all that was stirred together so many millilitres are."""
    whole = sum(grams_roughly(state.lines[n]) or _UNKNOWN_G for n in state.mixture.lines)
    return min(ml / whole, 1.0) if whole else None
