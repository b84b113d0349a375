"""What a method goes on speaking of, and which lines are put together: they share their salt."""

from __future__ import annotations

from typing import TYPE_CHECKING

from .clause_words import goal, is_afresh, is_in_new_pot
from .clauses import Clause
from .happenings import SOLIDS

if TYPE_CHECKING:
    from .happenings import Happening
    from .reading_state import ReadingState

_MOST = 40
"""Companies that are kept: more than any recipe has, so that any method is read in its length."""
_FLAVOURS = frozenset({"salt", "spice", "herb"})
_COOKERS = frozenset({"cooker", "slow-cooker", "crockpot", "crock-pot", "crock", "instant"})
"""What food stews in, in its own juice at least, before it is browned under a grill."""
_STEWS = frozenset({"water", "made"})


_READY = frozenset({"prepare", "get", "assemble", "measure", "weigh", "chop", "cut", "slice", "peel", "wash"})


def gets_all_ready(clause: Clause) -> bool:
    """ "Prepare all the ingredients", "make sure to chop everything first": nothing is put together yet."""
    return clause.base in _READY and not clause.heading


def keep_company(state: ReadingState, clause: Clause, spoken: set[int]) -> None:
    """Which lines were put together: what lies in one dish catches each other's juice."""
    if "it" in clause.speaks:
        state.turn_of_it = state.turn
    over = clause.base == "pour" and clause.has("over") and "water" not in clause.speaks
    stews = clause.act in ("put", "cook") and not _COOKERS.isdisjoint(clause.words)
    if stews or (over and clause.vessel() != "pan"):
        solids = state.solids(clause)
        state.under_sauce.update(solids)
        if not solids or (stews and "it" in clause.speaks):
            state.under_sauce.update(state.last_foods)
    jars = clause.act == "hold" and clause.vessel() == "bowl"
    if clause.act == "season" and "flour" in map(state.kind, spoken):
        state.company.append(spoken)  # "season the flour with the salt"
    if not (jars or clause.act in {"mix", "put", "coat", "heat"}) or not (spoken or state.last_foods):
        return
    if clause.act == "heat" and len(spoken) < 2:
        return
    whole = "all" in clause.speaks and len(spoken) > 1  # "mix the breading ingredients"
    unsaid = not (whole or state.solids(clause, direct=True))
    adds = clause.base in ("fold", "stir") or (clause.act == "put" and not is_in_new_pot(clause))
    if state.last_foods and ((adds and len(spoken) == 1) or unsaid):
        spoken = spoken | set(state.last_foods)
    if len(spoken) > 1:
        state.company = [*state.company[-_MOST:], spoken]


def attend(state: ReadingState, clause: Clause, begun: Happening | None) -> None:
    """Keep in mind which happening the method speaks of, until it speaks of other foods or vessels."""
    if begun is not None:
        state.attention = begun
        return
    now = state.attention
    if now is None or clause.base == "tie":  # "tie the peas in a cloth bag and hang it in with them"
        return
    if not clause.mentions:
        state.attention = None if is_afresh(clause) else now
        return
    direct = {n for m in clause.mentions if m.prep in ("", "with") and not goal(clause, m) for n in m.lines}
    others = direct - now.foods.keys() - now.liquid.keys() - now.extra
    pans = clause.act in {"heat", "put", "fry", "mix", ""} and clause.vessel() == "pan"
    waits = now is state.pot and not now.heated and clause.act in ("put", "mix")
    beside = _FLAVOURS | {"aromatic"} if waits else _FLAVOURS  # garlic, into the cold water
    foods = bool(others) and not all(state.kind(n) in beside for n in others)
    stews = now.kind == "fry" and not _STEWS.isdisjoint(clause.speaks)
    if foods or stews or (pans and not clause.has("lid")) or is_afresh(clause):
        state.attention = None


def goes_on_with_spice(state: ReadingState, clause: Clause) -> bool:
    """ "Toast the chillies. Soak in hot water": what the clause before named, and none of it a food. But
    "put it in a pot with the peppercorns. Cover with water" goes on with it."""
    if not clause.speaks <= _IN_WATER or state.turn_of_it == state.turn:
        return False
    before = [n for n, turn in state.last_spoken.items() if turn == state.turn - 1]
    return bool(before) and SOLIDS.isdisjoint(map(state.kind, before))


_IN_WATER = frozenset({"water", "vessel", "it"})


_BOIL = frozenset({"boil", "cook", "simmer"})


def boils(state: ReadingState, clause: Clause, line: int) -> bool:
    """Whether a line of which nobody knows what it is goes into hot water or lay in some: "boil the skirret",
    "put it in a pot of water", "add the gourd" to one that waits, "lift out the skirret"."""
    if clause.act in _BOIL or any(line in each.foods for each in state.happened):
        return True
    waits = state.pot is not None and not state.pot.foods and state.attention is state.pot
    return clause.act == "put" and (waits or "water" in clause.speaks)
