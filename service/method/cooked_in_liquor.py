"""Liquors of the list that are heated first and that food cooks in, where the method says that not all of the
liquor is eaten: "bring the stock to a simmer, add the chicken … you won't need the rest".

Where all of it is eaten, as of soups and stews, food and liquor are one dish and there is no step.
"""

from __future__ import annotations

from collections.abc import Collection, Sequence

from .clauses import Clause
from .happenings import PROTEINS, SOLIDS, Happening
from .left_to_the_cook import grams_in
from .liquor_fates import Fate, fate_of_liquor
from .method_words import HEATS, small_words
from .reading_state import COLD, HOT, ReadingState
from .strained import STRAINS
from .waters import water_for

_KINDS = frozenset({"stock", "milk", "wine", "acid"})
_LIQUORS = small_words("liquor")
_LEAST_G = 250.0
"""Liquor, g, from which on food is cooked in it and taken out; common practice, no source."""
_GOES_IN = frozenset({"put", "boil", "simmer", "cook", "heat", "hold", "mix", "coat", "other", "", "let"})
_BEGINS = HEATS | {"put", "coat"}
_ELSEWHERE = frozenset(
    {"meanwhile", "another", "separate", "separately", "bowl", "oven", "frying", "fry", "bake"}
)
_APART = frozenset({"without", "except", "from"})
_SOON = 4
"""Clauses after which what was poured into a pan is on the fire, or food in it."""


def cook_in_liquors(state: ReadingState, clauses: Sequence[Clause]) -> None:
    """Begin the pots of liquors of which the method throws some away, and give each its fate."""
    if not state.index.by_kind.keys() & _KINDS:
        return
    for line in state.index.of_kinds(*_KINDS):
        if _LIQUORS.isdisjoint(state.lines[line].words[-1:]) and state.kind(line) == "acid":
            continue  # cider vinegar
        begin = _begin(clauses, line)
        if begin is not None and grams_in(state, (line,)) >= _LEAST_G:
            _cook_in(state, clauses, line, begin)


def _begin(clauses: Sequence[Clause], line: int) -> int | None:
    """The first clause that puts a liquor on the fire, or over what goes on it next; no oven's."""
    for i, clause in enumerate(clauses):
        if "line" not in clause.speaks or clause.negated or clause.act not in _BEGINS:
            continue
        for mention in clause.mentions:
            if line in mention.lines and mention.prep not in _APART:
                break
        else:
            continue
        for near in clauses[i : i + _SOON]:
            if near.words & _ELSEWHERE or near.act == "fry":
                break
            if near.act in HEATS:
                return i
    return None


def _cook_in(state: ReadingState, clauses: Sequence[Clause], line: int, begin: int) -> None:
    if any(line in h.liquid for h in state.happened if h.kind in COLD):
        return
    own = next((h for h in state.happened if h.kind in HOT and line in h.liquid), None)
    goes_in, foods = (begin, own.foods) if own is not None else _food_put_in(state, clauses, begin, line)
    if not foods:
        return
    out = _place_out(state, clauses, goes_in, foods)
    fate = fate_of_liquor(clauses[begin + 1 :])
    heats = clauses[begin].act in HEATS
    if not (_parts(state, clauses, out, fate, foods) and (heats or fate.is_said)):
        return
    if own is not None:
        in_part = fate.ml is not None or fate.share is not None
        if fate.is_said and own.kept_ml is None and (in_part or not own.drained):
            _leave_thrown(state, own, clauses[begin:])
            _settle(own, fate)
        return
    end = fate.thrown_at if out is None else clauses[out].place
    within = [c for c in clauses[begin:] if end is None or c.place < end]
    if any(state.lines_of(c, ("flour",)) for c in within):
        return  # a sauce or a gravy
    pot = _taken_for_water(state, clauses[begin], foods) or Happening("simmer", clauses[goes_in])
    _fill(state, pot, within, clauses[out:] if out is not None else (), line, foods)
    timed = next((c for c in within if c.hours and c.place >= clauses[goes_in].place), None)
    if timed is not None and pot.hours is None:
        pot.take_time(timed)
    _settle(pot, fate)


def _food_put_in(
    state: ReadingState, clauses: Sequence[Clause], begin: int, line: int
) -> tuple[int, dict[int, float]]:
    """The clause in which food comes to the liquor, and that food: the first of what goes in, or what lay in
    the pot before."""
    if clauses[begin].is_of_it():
        return begin, _spoken_before(state, clauses, begin)
    since = begin
    for i in range(begin, len(clauses)):
        clause = clauses[i]
        if i > begin and (clause.act in _OUT or clause.act == "fry" or i > since + _SOON):
            break
        if foods := _solids_in(state, clause, line, first=i == begin):
            return i, foods
        if clause.act in HEATS:
            since = i
        if i == begin and "it" in clause.speaks:
            break
    before = {} if clauses[begin].act in HEATS else _spoken_before(state, clauses, begin)
    if before:
        return begin, before
    return begin, {n: s for c in clauses[begin : since + 2] for n, s in state.lines_of(c, _ALONE).items()}


_ALONE = ("aromatic",)
"""What gives taste to other food, and is cooked by itself where there is none: garlic in milk."""


_OUT = frozenset({"drain", "remove", "discard"})


def _solids_in(state: ReadingState, clause: Clause, line: int, *, first: bool) -> dict[int, float]:
    if clause.negated or clause.act not in _GOES_IN or clause.words & _ELSEWHERE:
        return {}
    if not first and "water" in clause.speaks and clause.act in HEATS:
        return {}  # in a pot of its own
    return {n: s for n, s in state.solids(clause).items() if n != line}


def _spoken_before(state: ReadingState, clauses: Sequence[Clause], begin: int) -> dict[int, float]:
    """ "Put the pears in a pan. Pour the cider over them": the food spoken of last."""
    for clause in reversed(clauses[max(0, begin - _SOON) : begin]):
        if clause.act in _OUT:
            return {}
        if foods := state.solids(clause):
            return foods if clause.act in _GOES_IN and not clause.words & _ELSEWHERE else {}
    return {}


def _place_out(
    state: ReadingState, clauses: Sequence[Clause], goes_in: int, foods: Collection[int]
) -> int | None:
    """Where the food leaves its liquor; bare "drain" is of the food that was spoken of last."""
    last = set(foods)
    for i in range(goes_in, len(clauses)):
        if _is_out(state, clauses[i], foods) and not last.isdisjoint(foods):
            return i
        if i > goes_in and clauses[i].act != "put":
            last = set(state.solids(clauses[i])) or last
    return None


_NO_LEAVING = ("heat", "lid", "oven", "scum", "drained", "paper")


def _is_out(state: ReadingState, clause: Clause, foods: Collection[int]) -> bool:
    """Whether the food leaves its liquor in a clause: "drain", "lift out the pears"."""
    if clause.negated or clause.act not in ("drain", "remove") or clause.has(*_NO_LEAVING):
        return False
    named = state.solids(clause, direct=True)
    if clause.base in STRAINS:
        return not named.keys().isdisjoint(foods)
    return not named or not named.keys().isdisjoint(foods)


def _parts(
    state: ReadingState, clauses: Sequence[Clause], out: int | None, fate: Fate, foods: Collection[int]
) -> bool:
    """Whether food and liquor part, and not all of the liquor is eaten."""
    if fate.thrown or out is None:
        return fate.thrown
    drained = clauses[out].act == "drain"
    if fate.ml is not None or fate.share is not None:
        later = clauses[out + 1 :]
        return drained or (
            fate.said_at >= clauses[out].place and not any(_comes_back(state, c, foods) for c in later)
        )
    return drained and not fate.uses


def _comes_back(state: ReadingState, clause: Clause, foods: Collection[int]) -> bool:
    """ "Put the chicken back in the pot": the liquor was never parted from it."""
    back = clause.base == "return" or clause.has("back")
    return back and clause.vessel() == "pot" and not state.solids(clause).keys().isdisjoint(foods)


def _taken_for_water(state: ReadingState, clause: Clause, foods: Collection[int]) -> Happening | None:
    """The pot of water that was taken for granted, as of pasta, where it boils in the liquor."""
    return next(
        (
            h
            for h in state.happened
            if h.kind in HOT
            and h.clause.place >= clause.place
            and h.foods.keys() <= set(foods)
            and not h.liquid
            and not (h.water and (h.water.is_salted or h.water.amount))
        ),
        None,
    )


def _fill(
    state: ReadingState,
    pot: Happening,
    within: Sequence[Clause],
    after: Sequence[Clause],
    line: int,
    foods: dict[int, float],
) -> None:
    """Put into a pot what clauses name while the food is in it. What is lifted out is its food, with what
    the method speaks of afterwards; all else is left with the liquor."""
    beside: dict[int, float] = {}
    for clause in within:
        if clause.act in _GOES_IN and not clause.words & _ELSEWHERE:
            beside |= state.lines_of(clause)
    eaten = {n: s for n, s in beside.items() if state.kind(n) in SOLIDS}
    drained = bool(after) and after[0].act == "drain"
    if not drained and (flesh := {n for n in {**foods, **eaten} if state.kind(n) in PROTEINS}):
        later = {n for c in after if c.act != "discard" for m in c.mentions for n in m.lines}
        eaten = {n: s for n, s in eaten.items() if n in flesh or n in later}
    pot.foods = {n: s for n, s in foods.items() if n in eaten or n not in beside} | eaten or dict(foods)
    poured = state.lines_of(within[0]).get(line, 1.0)  # and none of what is ladled off afterwards
    pot.liquid = {n: s for n, s in beside.items() if n not in pot.foods} | {line: poured}
    watered = next((c for c in within if c.act in _WATERS and state.water_of(c) is not None), None)
    pot.water = water_for(state, watered) if watered is not None else None
    pot.extra, pot.heated, pot.closed = set(), True, True
    if all(pot is not each for each in state.happened):
        later_on = [i for i, h in enumerate(state.happened) if h.clause.place > pot.clause.place]
        state.happened.insert(later_on[0] if later_on else len(state.happened), pot)


_WATERS = frozenset({"put", "coat"})


def _leave_thrown(state: ReadingState, pot: Happening, clauses: Sequence[Clause]) -> None:
    """ "Discard the stock and the leeks": what goes with the liquor is none of its food."""
    named = (state.lines_of(c) for c in clauses if c.act == "discard" and not c.negated)
    gone = {n for lines in named for n in lines} & pot.foods.keys()
    if gone and gone != pot.foods.keys():
        pot.liquid |= {n: s for n, s in pot.foods.items() if n in gone}
        pot.foods = {n: s for n, s in pot.foods.items() if n not in gone}


def _settle(pot: Happening, fate: Fate) -> None:
    """Let as much of the liquor be eaten as is said, and pour the rest away."""
    pot.drained, pot.lifted, pot.guessed, pot.extra = True, False, False, set()
    pot.kept_ml = fate.ml
    pot.eaten = None if fate.ml is not None else fate.share or 0.0
