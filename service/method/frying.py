"""Fat that food is fried in, deep or in a film, and fat that it is kept in."""

from __future__ import annotations

import re
from collections.abc import Iterable

from .clauses import Clause
from .fat_depth import (
    DEEP_C,
    FATS,
    THIN_LAYER,
    THINLY,
    is_in_depth,
    is_much,
    is_soaked_up,
    is_spread,
    is_told_deep,
    may_be_much,
)
from .happenings import PROTEINS, SOLIDS, Happening
from .listed import ListedLine
from .method_words import class_of, phrasing, small_words
from .reading_state import HOT, ReadingState
from .thrown_out import FLAVOURS

NO_COATING = small_words("no_coating")
_KEEPS_FAT = small_words("keeps_fat")
_KEPT = frozenset({"keeping", "covered", "submerged", "cover", "remaining", "left"})
_IN_BATHS = frozenset({"deep-fry", "shallow-fry"})
_WATERY = ("wine", "stock", "milk", "water")


_INTO_FAT = re.compile(
    r"\b(?:in|into)\b[^.;]{0,30}(?:\b(?:hot|heated|boiling|smoking|sizzling)\b|\d ?[°º] ?[CF]\b)[^.;,]{0,15}"
    + FATS,
    re.IGNORECASE,
)
"""Food that goes into fat that is hot: it fries there, whatever the verb."""


def read_frying(state: ReadingState, clause: Clause) -> None:
    """Take a clause that heats fat or fries in it."""
    said = clause.text.lower()
    if ("cover" in said or "thin" in said) and THIN_LAYER.search(said):
        state.fats_thin |= set(state.lines_of(clause, ("oil",))) or set(_only_fat(state, clause))
    readies = clause.act in _READIES or clause.base == "set"
    if readies and (fats := heated_in_depth(state, clause)):
        state.fat_is_hot = True
        state.fats_in_depth |= fats if is_told_deep(clause) else set()
    elif _unlisted_in_depth(state, clause):
        state.fat_is_hot = True
    elif state.fat_is_hot and _heats_other(clause, said):
        state.fat_is_hot = False
    if clause.base in _KEEPS_FAT or not _KEPT.isdisjoint(clause.words):
        state.fats_left |= {n for n in state.lines_of(clause, ("oil",)) if is_much(state.lines[n])}
        state.fats_left |= {n for n in _only_fat(state, clause) if is_much(state.lines[n])}
    if clause.negated or not NO_COATING.isdisjoint(clause.words):
        return
    hot_fat = state.fat_is_hot and (clause.act in ("cook", "simmer", "put") or clause.has("under"))
    if clause.act == "fry" or _swims(state, clause) or (hot_fat and _goes_into_fat(state, clause)):
        _fry(state, clause)
    if clause.act in ("fry", "cook") and any(each.kind == "dredge" for each in state.happened):
        _fry_coated(state, clause)


_ELSEWHERE = frozenset({"oven", "bake", "microwave", "grill", "air", "sauce", "through"})


def _fry_coated(state: ReadingState, clause: Clause) -> None:
    """ "Heat a spoonful of oil, add the crumbed chicken and cook": all of so little fat goes along."""
    foods = {n: s for n, s in state.foods(clause).items() if state.kind(n) in SOLIDS}
    coating = state.latest(("dredge",), foods)
    if coating is None or state.latest(("fry", *HOT), foods) or not _ELSEWHERE.isdisjoint(clause.words):
        return
    if clause.base in ("brown", "sear") or (clause.celsius is not None and clause.act == "cook"):
        return  # before or in the oven
    said = state.lines_of(clause, ("oil",)) or {
        n: 1.0 for n in state.index.of_kinds("oil") if state.spoken.get(n)
    }
    said = {n: s for n, s in said.items() if not (is_much(state.lines[n]) or n in state.fats_in_depth)}
    fats = sorted(said, key=lambda n: state.last_spoken.get(n, 0))[-1:]
    if not fats:
        return
    own = foods.keys() & coating.foods.keys()
    fried = Happening(
        "fry", clause, foods=dict.fromkeys(own, 1.0), liquid=dict.fromkeys(fats, 1.0), closed=True
    )
    fried.eaten = 1.0
    state.begin(fried, clause)


_IN_ITS_PAN = re.compile(
    r"\b(?:in|into|to) the (?:same |hot |frying |heated )*(?:pan|skillet|wok|pot|fryer)\b"
)
_SHAPED = small_words("shaped")
_DROPS = small_words("drops")


def _heats_other(clause: Clause, said: str) -> bool:
    """Whether a clause goes on with another pan than that of the hot fat."""
    heats = clause.act == "heat" and bool(clause.mentions)
    return heats or (bool(clause.vessel()) and not _IN_ITS_PAN.search(said))


def _goes_into_fat(state: ReadingState, clause: Clause) -> bool:
    """Whether food is put into fat that is hot: by name, or as what was stirred or shaped before."""
    if state.solids(clause):
        return True
    meant = not _SHAPED.isdisjoint(clause.words) or "it" in clause.speaks
    return clause.base in _DROPS and meant and not state.lines_of(clause)


def _swims(state: ReadingState, clause: Clause) -> bool:
    """Whether food goes into fat that is hot, or that is deep: "lower the balls into the oil", "put the
    wire basket into the hot fat"."""
    if clause.act not in {"", "put", "cook", "other", "let"}:
        return False
    said = clause.text.lower()
    if not any(map(said.__contains__, _DEEP_IN)):
        return False
    if "oil" in said and _INTO_FAT.search(clause.text):
        return True
    if clause.base == "fill" or not _INTO_DEEP.search(clause.text):
        return False
    if any(state.kind(n) == "oil" for m in clause.mentions if not m.prep for n in m.lines):
        return False  # "pour the oil into the fryer"
    return bool(state.fats_in_depth) or any(map(is_much, state.index.by_kind.get("oil", ())))


_DEEP_IN = ("oil", "fat", "lard", "ghee", "dripping", "fryer")
_INTO_DEEP = phrasing("into_fat")


def heated_in_depth(state: ReadingState, clause: Clause) -> set[int]:
    """The lines of fat of which a clause makes a bath to fry in."""
    if not (clause.act in _READIES or clause.base == "set"):
        return set()
    named = set(state.lines_of(clause, ("oil",))) or set(_only_fat(state, clause))
    if not named or _goes_in_among(clause, named):
        return set()
    deep = is_told_deep(clause)
    named = named if is_in_depth(clause.text) else named - state.fats_thin
    return {n for n in named if is_much(state.lines[n]) or (deep and may_be_much(state.lines[n]))}


_READIES = frozenset({"heat", "put", "let", ""})


def _goes_in_among(clause: Clause, fats: set[int]) -> bool:
    """ "Add the beans, tahini and oil", "tip in the oil and the spices": one of many things, and no bath."""
    if clause.act != "put" or clause.celsius is not None:
        return False
    beside = {n for m in clause.mentions if m.prep == "" for n in m.lines}
    return not beside.isdisjoint(fats) and not beside <= fats and not is_in_depth(clause.text)


def _only_fat(state: ReadingState, clause: Clause) -> tuple[int, ...]:
    """The fat of the list where the method says "oil" or "fat" and means it."""
    if not (clause.has("oil", "fat", "lard", "ghee", "dripping") or _fries_deep(clause)):
        return ()
    fats = [n for n in state.index.of_kinds("oil") if state.lines[n].purpose == "fryer"]
    fats = fats or [n for n in state.index.of_kinds("oil") if not is_spread(state.lines[n])]
    return tuple(fats) if len(fats) == 1 else ()


_IN_TWO_WORDS = re.compile(r"\b(?:deep|shallow)[- ]fr", re.IGNORECASE)


def _fries_deep(clause: Clause) -> bool:
    """ "Deep-fry", in one word or two."""
    return clause.base in _IN_BATHS or (clause.base == "fry" and bool(_IN_TWO_WORDS.search(clause.sentence)))


_LITTLE_FAT = phrasing("little_fat")


def _fry(state: ReadingState, clause: Clause) -> None:
    if clause.base in ("sweat", "soften") or _LITTLE_FAT.search(clause.text):
        return
    if state.lines_of(clause, _WATERY) or state.water_of(clause) is not None:
        return  # meat in wine and lard stews there
    if all(is_spread(state.lines[n]) for n in state.index.of_kinds("oil")):
        _fry_unlisted(state, clause)
        if not state.index.of_kinds("oil"):
            return
    hot = clause.celsius is not None and clause.celsius >= DEEP_C
    deep = (hot or is_in_depth(clause.sentence)) and not THINLY.search(clause.sentence)
    state.fats_in_depth |= {n for n in _only_fat(state, clause) if deep and may_be_much(state.lines[n])}
    oils = [
        n for n in state.index.lines if n.kind == "oil" and (is_much(n) or n.index in state.fats_in_depth)
    ]
    foods = {n: s for n, s in state.foods(clause).items() if state.kind(n) in SOLIDS} or _stirred(state)
    if oils and _begins_sauce(state, clause, foods, oils):
        state.fats_in_depth, state.fat_is_hot = set(), False
        state.fats_thin |= {n.index for n in oils}
        return
    if oils and not deep and (greasy := {n.index for n in oils if is_soaked_up(state, n, foods)}):
        state.fats_thin |= greasy
        state.fat_is_hot = False
        oils = [n for n in oils if n.index not in greasy]
    if not state.solids(clause) and _only_flavours(state, clause):
        state.fat_is_hot, state.fats_in_depth = False, set()
        return  # "garlic into the hot oil", beside the mince that is in the pan
    if _has_own_fat(state, clause) and not any(n.heading == clause.heading for n in oils):
        return
    coating = state.latest(("dredge",))
    if coating is not None and foods and foods.keys() <= coating.liquid.keys():
        foods = dict(coating.foods)  # the egg went on them
    if not oils or not foods:
        return
    foods |= dict.fromkeys(state.stirred_with(foods, _of_batter(clause)), 1.0)
    if (fried := state.latest(("fry",), foods)) is not None and len(foods) == 1:
        fried.take_time(clause, more=clause.has(*_ONCE_MORE))
        return  # fried once more
    if (known := state.latest(("fry",))) is not None and (not clause.hours or set(foods) & set(known.foods)):
        known.foods.update(foods)
        return
    pot = Happening("fry", clause, foods=foods, liquid={line.index: 1.0 for line in oils[:1]}, closed=True)
    state.begin(pot, clause)
    state.last_heat = "fry"


def _of_batter(clause: Clause) -> frozenset[str]:
    """The kinds of what fries with a food that it was stirred with: all pieces of "spoonfuls", else meat."""
    return SOLIDS - {"egg"} if not _SHAPED.isdisjoint(clause.words) else PROTEINS


_BULBS = frozenset({"onion", "shallot", "leek", "scallion", "garlic"})
_CRISP = frozenset({"crisp", "crispy", "drain", "slotted", "paper", "ring", "deep", "batches", "dark"})


def _begins_sauce(
    state: ReadingState, clause: Clause, foods: Iterable[int], fats: Iterable[ListedLine]
) -> bool:
    """ "Fry the onion in plenty of oil": how a sauce begins, of fat that nobody measures and none leaves."""
    if clause.celsius is not None or _fries_deep(clause) or any(map(is_much, fats)):
        return False
    if _MEASURED.search(clause.sentence) or not _CRISP.isdisjoint(clause.words):
        return False
    onions = all(not _BULBS.isdisjoint(state.lines[n].words) for n in foods)
    return onions and state.latest(("dredge",), foods) is None


def _stirred(state: ReadingState) -> dict[int, float]:
    """The pieces of what was stirred to a batter last."""
    lines = () if state.mixture.closed else state.mixture.lines
    return {n: 1.0 for n in lines if state.kind(n) in SOLIDS - {"egg"}}


def _has_own_fat(state: ReadingState, clause: Clause) -> bool:
    """Whether the part of the list that a clause works on has a fat of its own to fry in."""
    fats = state.index.by_kind.get("oil", ())
    return bool(clause.heading) and any(n.heading == clause.heading for n in fats)


def fry_on(state: ReadingState, clause: Clause, fried: Happening) -> None:
    """ "Brown for 10 minutes; lower the heat, cover and cook 30 minutes": the time of frying goes on."""
    goes_on = clause.act in ("simmer", "cook") or clause.base in ("continue", "turn", "flip")
    same = clause.celsius is None and _OFF_THE_FAT.isdisjoint(clause.words)
    same = same and state.taken_out.isdisjoint(fried.foods)
    if goes_on and same and not clause.negated and not state.lines_of(clause):
        fried.take_time(clause, more=True)


def _only_flavours(state: ReadingState, clause: Clause) -> bool:
    """Whether what a clause puts into the fat is only to give it its taste."""
    return any(m.prep == "" and not FLAVOURS.isdisjoint(map(state.kind, m.lines)) for m in clause.mentions)


_FATTY = frozenset({"oil", "fat", "lard", "dripping", "shortening"})


def _unlisted_in_depth(state: ReadingState, clause: Clause) -> bool:
    """ "Heat 2 cm of oil in a pan", of a list that has no fat but butter."""
    if _FATTY.isdisjoint(clause.words) or not all(
        is_spread(state.lines[n]) for n in state.index.of_kinds("oil")
    ):
        return False
    if not is_in_depth(clause.text) or THINLY.search(clause.text):
        return False
    return _MEASURED.search(clause.text) is not None or state.latest(("dredge",)) is not None


_MEASURED = re.compile(r"\b(?:cm|mm|centim|millim|inch|finger|depth|deep|half)|\d\s?in\b", re.IGNORECASE)
"""How deep fat is; "enough oil" says so only where what fries in it was coated."""


def _fry_unlisted(state: ReadingState, clause: Clause) -> None:
    """ "Deep fry them", of a list that has no fat: in as much as that takes."""
    foods = {n: s for n, s in state.foods(clause).items() if state.kind(n) in SOLIDS}
    known = state.latest(("fry",))
    deep = _fries_deep(clause) or state.fat_is_hot or _unlisted_in_depth(state, clause)
    if not foods or not deep or (known is not None and foods.keys() <= known.foods.keys()):
        return
    state.begin(Happening("fry", clause, foods=foods, closed=True), clause)


_OFF_THE_FAT = small_words("off_the_fat")
_ONCE_MORE = frozenset({"another", "more", "further", "continue", "longer", "second", "other"})
_FRYING_OIL = {True: "1 to 2 l", False: "200 to 500 ml"}
"""Fat for frying in depth or shallowly, where nobody says how much; common practice, no source."""


def fat_to_fry_in(clause: Clause, listed: ListedLine | None = None) -> str:
    """As much fat as frying takes where its line gives no amount, or where no line lists it."""
    deep = "deep" in f"{listed.text if listed else ''} {clause.sentence}".lower()
    if listed is None:
        return f"{_FRYING_OIL[deep]} vegetable oil"
    named = listed.line.food_words
    known = class_of(tuple(named.lower().split())) == listed.kind
    return f"{_FRYING_OIL[deep]} {named if known else 'oil'}"
