"""Milk that becomes something else: soured with a culture, or parted into curds and whey."""

from __future__ import annotations

import re
from collections.abc import Collection

from .clauses import Clause
from .happenings import SALTING, Happening
from .reading_state import ReadingState

_STANDS = frozenset({"hold", "let", "put", "other", ""})
_CULTURES = frozenset({"yogurt", "yoghurt", "kefir", "culture", "buttermilk", "starter"})
_LEAST_CULTURE_H = 3.0
_COLD_PLACES = frozenset({"fridge", "refrigerator", "refrigerate", "chill", "cold", "keep", "keeps", "store"})


def sets_milk(state: ReadingState, clause: Clause) -> bool:
    """ "Leave the jars in the oven for 12 hours", of a list of milk and a little yoghurt: the milk sours."""
    if not clause.hours or clause.act not in _STANDS or clause.hours[0].likely < _LEAST_CULTURE_H:
        return False
    if not clause.words.isdisjoint(_COLD_PLACES) and "warm" not in clause.words:
        return False
    milks = state.index.of_kinds("milk")
    cultures = {n for n in milks if _CULTURES & set(state.lines[n].words)}
    fresh = {n for n in milks if n not in cultures and "milk" in state.lines[n].words}
    alone = all(line.kind in ("milk", "other", "sweet") for line in state.index.lines)
    if not (fresh and cultures and alone) or state.latest(("ferment",)) is not None:
        return False
    soured = dict.fromkeys(sorted(fresh | cultures), 1.0)
    state.begin(Happening("ferment", clause, foods=soured, eaten=1.0, closed=True, confidence=0.8), clause)
    return True


_CLOTH = (
    r"(?:cheese ?cloths?|muslins?|cloths?|jelly bag|(?:coffee|paper) filters?|nut(?:[ -]milk)? bag"
    r"|(?:tea|dish|kitchen) ?towels?)"
)
_WHEY_CLOTH = re.compile(rf"\b{_CLOTH}\b", re.IGNORECASE)
_INTO_CLOTH = re.compile(rf"\b(?:in|into|through|onto) (?:[\w-]+ ){{0,3}}{_CLOTH}\b", re.IGNORECASE)
_LINED = re.compile(rf"\b{_CLOTH}[ -]lined\b|\blined with (?:[\w-]+ ){{0,3}}{_CLOTH}\b", re.IGNORECASE)
_RUNS = frozenset({"hang", "drip", "drain", "strain", "whey"})
_SIEVES = frozenset({"sieve", "colander", "strainer", "filter"})
_CURDS = frozenset({"yogurt", "milk", "curd", "quark", "kefir", "skyr"})
_SET = _CURDS - {"milk"}
_PUTS = frozenset({"put", "other", ""})


def loses_whey(state: ReadingState, clause: Clause) -> bool:
    """ "Hang the yoghurt in muslin for 48 hours": whey runs off with the salt that is dissolved in it."""
    if not _lets_run(clause):
        return False
    said = state.spoken.keys() | state.lines_of(clause).keys()
    curds = {n: 1.0 for n in state.index.of_kinds("milk") if n in said and _CURDS & set(state.lines[n].words)}
    if not curds or state.latest(("drain",), curds) is not None or not _parts(state, clause, curds):
        return False
    salts = {n for company in state.company if company & curds.keys() for n in company}
    liquid = {n: 1.0 for n in salts if state.kind(n) in SALTING}
    state.begin(Happening("drain", clause, foods=curds, liquid=liquid, drained=True, closed=True, named=True))
    state.kinds.update(dict.fromkeys(curds, "cheese"))
    state.last_foods = tuple(curds)
    return True


_PARTS = frozenset({"curd", "curds", "whey", "curdled", "cheese"})
_RENNETS = frozenset({"rennet", "vinegar", "lemon", "lime", "acid"})


_BESIDE_CURDS = frozenset({"milk", "salt", "herb", "spice", "oil", "other"})


def _parts(state: ReadingState, clause: Clause, curds: Collection[int]) -> bool:
    """Whether it has set: milk does with rennet, a culture or an acid, or if somebody says so."""
    if any(_CULTURES.union(_SET) & set(state.lines[n].words) for n in curds):
        return True
    if not clause.words.isdisjoint(_PARTS):
        return True
    alone = all(line.kind in _BESIDE_CURDS for line in state.index.lines)
    return alone or any(not _RENNETS.isdisjoint(line.words) for line in state.index.lines)


def _lets_run(clause: Clause) -> bool:
    """Whether what a clause speaks of drips through a cloth, or for a time through a sieve."""
    if clause.base in _RUNS or not _RUNS.isdisjoint(clause.words):
        sieved = bool(clause.hours) and not _SIEVES.isdisjoint(clause.words)
        return sieved or _WHEY_CLOTH.search(clause.sentence) is not None
    if clause.act not in _PUTS or "lid" in clause.words:
        return False  # "wrap the lid in a cloth", of rice that steams
    return _LINED.search(clause.text) is not None or (
        _INTO_CLOTH.search(clause.text) is not None and "towel" not in clause.words
    )
