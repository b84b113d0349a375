"""Dry heat on a piece of meat or fish: juice and salt drip away unless a sauce catches them."""

from __future__ import annotations

from collections.abc import Collection

from .clauses import Clause
from .happenings import DRY, PROTEINS, SOLIDS, Happening
from .method_words import small_words
from .reading_state import COLD, ReadingState

DRY_HEAT = small_words("dry_heat")
_JUICES = frozenset({"juices", "drippings", "gravy", "dripping", "pan-juices"})
DRIPS = _JUICES | {"grease", "fat"}
_OVEN_C = 120.0
_SAUCED = small_words("sauced")
_MOIST = frozenset({"stock", "milk", "wine", "pasta", "grain", "legume", "bread", "flour", "cheese"})
_MINCED = frozenset({"mince", "ground", "minced", "bacon", "rasher", "pancetta", "guanciale"})


def read_roast(state: ReadingState, clause: Clause) -> None:
    """Take a clause that roasts, grills or smokes a piece of meat or fish that lies in no sauce."""
    unsaid = clause.base not in DRY_HEAT
    if (unsaid and not (clause.hours and in_the_oven(clause))) or clause.negated or clause.has(*_SAUCED):
        return
    foods = _pieces(state, clause)
    if unsaid:  # only of what was salted: there the juice that drips away matters
        foods = {
            n: s for n, s in (foods or state.main_foods()).items() if state.latest(COLD, (n,)) is not None
        }
    if not foods and clause.base == "bake" and (loaf := _loaf(state)):
        state.roast = Happening("roast", clause, foods=loaf, closed=True, confidence=0.85)
        state.roast.take_time(clause)  # begun once its fat is poured off
    if not foods or _lies_in_liquid(state, foods) or (unsaid and _lies_in_fat(state, clause, foods)):
        return
    kind = "smoke" if clause.base.endswith("smoke") else "roast"
    known = state.latest((kind,), foods)
    if known is not None:
        known.take_time(clause, more=not unsaid)
        return
    roast = Happening(kind, clause, foods=foods, closed=True, confidence=0.85)
    state.begin(roast, clause)
    state.roast = roast


def _lies_in_fat(state: ReadingState, clause: Clause, foods: Collection[int]) -> bool:
    """ "Push the legs under the fat and cook in the oven for 3 hours": so long it lies in fat."""
    fried = state.latest(("fry",), foods)
    timed = fried is not None and bool(clause.hours) and fried.hours is clause.hours[0]
    return timed or (fried is not None and fried.clause is clause)


def in_the_oven(clause: Clause) -> bool:
    """ "200 degrees, 1 hour", "put it in a hot oven for 40 minutes"."""
    hot = clause.celsius is not None and clause.celsius >= _OVEN_C
    return (
        bool(clause.hours)
        and (hot or clause.has("oven"))
        and clause.act in ("", "put", "cook", "let", "other")
    )


def goes_into_oven(clause: Clause) -> bool:
    """ "Cover and leave in a low oven, 150 C", of which only a later clause says how long."""
    if "oven" not in clause.words or clause.act not in ("hold", "put"):
        return False
    at = next(i for i, token in enumerate(clause.tokens) if token.text == "oven")
    near = {token.text for token in clause.tokens[max(0, at - 4) : at]}
    return not near.isdisjoint(("in", "into")) and clause.words.isdisjoint(_UNHEATED)


_UNHEATED = frozenset({"off", "light", "cold", "cool", "cooled"})


def catch_juices(state: ReadingState, clause: Clause) -> None:
    """ "Stir the flour into the juices", "serve with the drippings": what a roast drips is eaten."""
    roast = state.roast
    if (
        clause.act in ("discard", "drain")
        and roast is not None
        and not any(h is roast for h in state.happened)
    ):
        state.begin(roast)
        return
    if _JUICES.isdisjoint(clause.words) and "ravy" not in clause.heading:
        return
    roast = state.latest(("roast",))
    if roast is None or roast.clause.sentence == clause.sentence:
        return
    if clause.act in ("discard", "drain", "dry") or clause.has("away", "fat", "clear", "until"):
        return
    roast.caught = True


def more_time(clause: Clause, roast: Happening) -> None:
    """ "… for 30 minutes, then at 180 °C for 1 hour more": the time of a roast goes on."""
    if (
        roast.clause.method == clause.method
        and roast.hours is None
        and clause.act in ("", "cook", "let", "other", "put")
    ):
        roast.take_time(clause)


def _pieces(state: ReadingState, clause: Clause) -> dict[int, float]:
    direct = state.solids(clause, direct=True)
    foods = {line: share for line, share in direct.items() if state.kind(line) in PROTEINS}
    if direct and not foods:
        return {}
    if not foods:
        foods = dict.fromkeys((line for line in state.last_foods if state.kind(line) in PROTEINS), 1.0)
        if clause.base == "bake" and not _is_near(state, clause):
            return {}
        if not foods and clause.base != "bake" and clause.has("the", "your") and not state.lines_of(clause):
            foods = state.main_foods()
    if clause.base != "grill" and any(_is_minced(state, line) for line in foods):
        return {}
    return foods


def _is_minced(state: ReadingState, line: int) -> bool:
    return not _MINCED.isdisjoint(state.lines[line].text.lower().replace(",", " ").split())


def _loaf(state: ReadingState) -> dict[int, float]:
    """The loaf or the balls that minced meat was mixed to."""
    meats = state.index.of_kinds("meat", "poultry")
    minced = {n for n in meats if _is_minced(state, n)}
    mixed = [company for company in state.company if company & minced]
    lines = set().union(*mixed)
    wet = any(state.kind(n) in ("stock", "wine", "pasta", "legume") for n in lines)
    return {} if wet else dict.fromkeys(sorted(lines), 1.0)


def _is_near(state: ReadingState, clause: Clause) -> bool:
    """Whether the meat was spoken of in this sentence or the one before."""
    return state.last_place is not None and clause.method - state.last_place <= 1


def _lies_in_liquid(state: ReadingState, foods: dict[int, float]) -> bool:
    """Whether the piece was stirred or laid together with what catches its juice."""
    in_bath = {n for each in state.happened if each.kind in COLD for n in each.foods}
    if set(foods) & state.under_sauce - in_bath or any(
        set(foods) & set(each.foods)
        for each in state.happened
        if each.kind in ("boil", "simmer") and not each.closed
    ):
        return True
    marinades = {n for each in state.happened if each.kind in (*COLD, "dredge") for n in each.liquid}
    for company in state.company:
        if set(foods) & company:
            kinds = {state.kind(line) for line in company - set(foods) - marinades}
            if kinds & _MOIST or kinds & (SOLIDS - PROTEINS - {"vegetable", "potato", "fruit", "egg"}) - DRY:
                return True
    return False
