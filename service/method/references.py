"""What a method says by pointing back: "as above", "the same way", "repeat with the rest"."""

from __future__ import annotations

import re
from dataclasses import replace

from .clauses import Clause
from .done_before import RELATIVES
from .happenings import DRY, Happening, Water
from .liquors import in_one_pot
from .method_words import phrasing
from .reading_state import COLD, HOT, ReadingState

_AS_BEFORE = phrasing("as_before")
_POINTS = frozenset({"as", "same", "likewise", "ditto", "similarly", "repeat"})
_AGAIN = re.compile(
    r"\brepeat\b|^(?:and |then )?(?:do )?(?:the )?same (?:again )?(?:with|for)\b", re.IGNORECASE
)
_NEAR = 3
"""Paragraphs, at the most, from what is done to where it is repeated."""
_BY_ACT = {
    "boil": HOT, "simmer": HOT, "cook": HOT, "fry": ("fry",), "roast": ("roast", "smoke"),
    "dredge": ("dredge",), "brine": ("brine",), "marinate": ("marinate",), "soak": ("soak",),
    "cure": ("dry_cure",), "season": ("dry_cure",),
    "coat": ("dredge", "dry_cure"), "rinse": ("drain",), "drain": ("drain",),
}  # fmt: skip


def read_reference(state: ReadingState, clause: Clause) -> bool:
    """Take a clause that has done to other food what was done before; whether it was one."""
    if not RELATIVES.isdisjoint(clause.words) and _tells_again(state, clause):
        return True
    if clause.act == "coat" and not _MORE.isdisjoint(clause.words) and _salts_again(state, clause):
        return True
    if not _DOES.isdisjoint(clause.words) and _water_again(state, clause):
        return True
    if _POINTS.isdisjoint(clause.words):
        return False
    again = _AGAIN.search(clause.text) if clause.base in ("repeat", "") else None
    if clause.negated or not (again or _AS_BEFORE.search(clause.text)):
        return False
    kinds = (*COLD, *HOT, "fry", "dredge", "roast") if again else _BY_ACT.get(clause.act, ())
    foods = state.solids(clause, direct=not again) or ({} if again else state.solids(clause))
    if not clause.act and clause.hours and state.happened and state.happened[-1].kind in HOT:
        kinds, foods = HOT, foods or dict.fromkeys(state.last_foods, 1.0)  # "cabbage: as above, 2 minutes"
    before = state.latest(kinds) if kinds and foods else None
    if before is not None and before.kind == "dredge" and all(state.kind(n) == "egg" for n in foods):
        return False  # "repeat with the egg", which is the next coat
    if again and before is not None and clause.method - before.clause.method > _NEAR:
        return False  # "repeat with the other wrappers": what was told last is done again
    foods = {n: s for n, s in foods.items() if before is None or n not in before.foods}
    if before is None or not foods:
        return False
    if before.kind in HOT and before.lifted and (again or not clause.act):
        in_one_pot(state, clause, before, foods)
        state.happened[-1].lifted, state.pot = True, None  # lifted out as the ones before
    elif before.kind in HOT and before.water is not None:
        _boil_again(state, clause, before, foods)
    else:
        before.foods.update(foods)  # one brine, flour or fat for both
    return True


def _tells_again(state: ReadingState, clause: Clause) -> bool:
    """ "Add the cod that you soaked for a day", behind the sentence that soaked it."""
    if clause.verb is None or clause.verb.form != "past" or not clause.hours:
        return False
    before = state.latest(COLD, state.solids(clause, direct=True))
    return before is not None and before.hours is not None and before.hours.likely == clause.hours[0].likely


_DOES = frozenset({"repeat", "do"})
_ONCE_AGAIN = re.compile(
    r"(?:^|\band |\bthen )(?:repeat\b|do (?:the same|this|it|that) (?:once )?(?:again|more|twice|with)\b)",
    re.IGNORECASE,
)
_WATER_GOES = frozenset({"drain", "drained", "pour", "tip", "throw", "discard", "rinse"})


def _water_again(state: ReadingState, clause: Clause) -> bool:
    """ "Drain and do the same again with cold water", "pour off and repeat": the food lies or boils
    in fresh water once more."""
    before = state.happened[-1] if state.happened else None
    if before is None or before.kind not in ("soak", *HOT) or not before.drained or "line" in clause.speaks:
        return False
    if _ONCE_AGAIN.search(clause.text) is None or clause.method != before.clause.method:
        return False
    goes = {word.strip(",.;") for word in clause.sentence.lower().split()} & _WATER_GOES
    plain = {"water"}.issuperset(map(state.kind, before.liquid)) and not (
        before.water and before.water.is_salted
    )
    if not plain or not (goes or "water" in clause.speaks):
        return False
    hours = None if clause.hours else before.hours
    more = Happening(before.kind, clause, foods=dict(before.foods), hours=hours, water=Water(), eaten=0.0)
    more.heated, more.drained, more.closed = before.heated, True, True
    state.begin(more, clause)
    return True


_LIES_ON = re.compile(r"\b(?:another|more|further|once again)\b", re.IGNORECASE)
_MORE = frozenset({"rest", "remaining", "remainder", "other", "second", "again"})


def _salts_again(state: ReadingState, clause: Clause) -> bool:
    """ "Pour off the liquid and rub in the rest": the cure goes on, with the salt that is left."""
    before = state.happened[-1] if state.happened else None
    if before is None or before.kind != "dry_cure" or before.rinsed or not before.closed:
        return False
    if not (clause.hours or _LIES_ON.search(clause.sentence)):
        return False  # "brush it off, then rub with the remaining salt": that stays on it
    more = {n: 1.0 for n, s in state.lines_of(clause, DRY).items() if n in before.liquid or s < 0}
    named = state.solids(clause, direct=True)
    if state.pending is not None or (named and named.keys().isdisjoint(before.foods)):
        return False
    before.liquid = dict.fromkeys({**before.liquid, **more}, 1.0)
    before.closed = before.drained = False
    before.take_time(clause, more=True)
    return True


def _boil_again(state: ReadingState, clause: Clause, before: Happening, foods: dict[int, float]) -> None:
    """Another pot like the one before: as much water to the food, as salty, as long."""
    pot = Happening(before.kind, clause, foods=foods, hours=before.hours, celsius=before.celsius, heated=True)
    pot.water = replace(before.water) if before.water else None
    salts = [n for n in before.liquid if state.kind(n) == "salt"]
    pot.liquid = {n: s for n, s in before.liquid.items() if state.kind(n) not in ("water", "salt")}
    if pot.water is not None and salts:
        pot.water.strength = pot.water.strength or "salted"
        said = state.amounts.get(salts[0])
        if said or state.lines[salts[0]].line.amount is not None:
            pot.water.salt = f"{said[0]} salt" if said else state.lines[salts[0]].text
    pot.drained = True
    if clause.hours:
        pot.hours = clause.hours[0]
    state.begin(pot)
    state.pot = None
