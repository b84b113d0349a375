"""A food's own household weights, asked by volume in a form or by count."""

from __future__ import annotations

import math
from collections.abc import Collection
from dataclasses import dataclass
from fnmatch import fnmatchcase
from functools import lru_cache

from ...core.numbers import shown
from ...core.sourced import SourcedFigure
from ...core.spread import Spread
from ...core.tables import HOUSEHOLD, Source, rows
from ...lines.line import Line
from ...units.kitchen_units import dimension, find, reach, to_millilitres
from ..food import Food, Household
from ..matching.folding import fold
from . import typical

_POURED, _LEVEL, _SAME_FORM, _NO_FORM, _OTHER_FORM = 0.02, 0.05, 0.07, 0.1, 0.2
"""Give or take, as a share: a liquid; a food of one form; the form asked for; none asked for; another."""
_LIQUID_GROUPS = frozenset({"0400", "1400"})
_PIECE = 0.2
_FORMS_LAST = frozenset({"loose", "sifted", "mashed", "whipped"})
"""Forms that a line without a form does not mean."""
_WHOLE_UNITS = frozenset({"fruit", "item", "each", "unit", "whole", "egg"})
_SIZES = frozenset({"small", "medium", "large", "extra large", "jumbo"})
_NOT_A_FILLING = ("hulls", "in shell", "with pits", "yield", "as purchased")
"""Labels of a cup of what is bought, weighed when it is ready to eat."""
_PART_OF_ANIMAL = "yield from"
"""In labels of the share of one part in a pound of the whole animal, which is no piece."""
_FORMLESS_UNITS = ("oz", "lb", "serving", "nlea serving")


@dataclass(frozen=True, slots=True)
class Own:
    """A weight of the food's own.

    fits: it may be meant by the form or size asked for; exact: it is of that very form; drained: its can's
    liquid is off; poured: it is of a liquid.
    """

    figure: SourcedFigure
    basis: str
    fits: bool
    exact: bool = False
    drained: bool = False
    poured: bool = False


@dataclass(frozen=True, slots=True)
class _Label:
    """A household label, read. millilitres: volume of its amount, None where it is not a volume."""

    millilitres: float | None
    forms: frozenset[str]
    unit: str | None
    unit_words: str
    form: str
    filling: bool


@lru_cache(maxsize=8192)
def _read(label: str) -> _Label:
    household = Household(label, 1.0)
    unit_words = household.unit
    words = unit_words.split()
    unit, rest = None, words
    for count in (2, 1):
        unit = find(" ".join(words[:count])) if words else None
        if unit:
            rest = words[count:]
            break
    named = {word.strip(",()") for word in (*rest, *household.form.split())}
    volume = to_millilitres(unit or "") if reach(unit).is_exact else None
    forms = typical.forms_in(named)
    if "not packed" in label.lower():
        forms = forms - {"packed"} | {"loose"}
    return _Label(
        millilitres=volume * household.amount if volume else None,
        forms=forms,
        unit=unit,
        unit_words=unit_words,
        form=f"{unit_words} {household.form}",
        filling=volume is not None and not any(word in label.lower() for word in _NOT_A_FILLING),
    )


def by_volume(food: Food, forms: Collection[str], millilitres: float) -> Own | None:
    """g in one millilitre by the household weight that fits best; None where the food has none by volume.

    forms: what the line says of its form. millilitres: of the unit asked for; the nearest volume wins a tie.
    """
    best: tuple[tuple[int, float], Household, _Label] | None = None
    for household in food.household if millilitres > 0 else ():
        label = _read(household.label)
        if label.millilitres is None or not label.filling or _excepted(food.code, household.label):
            continue
        distance = abs(math.log(label.millilitres / millilitres))
        rank = (_form_rank(label.forms, forms), distance)
        if best is None or rank < best[0]:
            best = rank, household, label
    if best is None:
        return None
    (form_rank, distance), household, label = best
    same = _SAME_FORM if label.forms else _POURED if food.group_code in _LIQUID_GROUPS else _LEVEL
    share = (same, _NO_FORM, _OTHER_FORM, _OTHER_FORM)[form_rank]
    per_ml = household.grams / (label.millilitres or 1.0)
    how = "household weight" if distance < 0.05 else "by household weight"
    basis = f"{how} of {food.name} ({household.label} = {shown(household.grams)} g)"
    poured = food.group_code in _LIQUID_GROUPS
    figure = SourcedFigure(Spread.within(per_ml, share), _source(food, household.label))
    return Own(figure, basis, form_rank < 2, form_rank == 0, poured=poured)


def _source(food: Food, label: str) -> Source:
    """The food's source, as the row of its household weight."""
    return Source(food.source, f"{HOUSEHOLD}:{food.code}/{label}")


def _form_rank(listed: Collection[str], asked: Collection[str]) -> int:
    """0: the form asked for, or neither says any; 1: only one says; 2: not what is meant; 3: another form."""
    if not listed:
        return 1 if asked else 0
    if not asked:
        return 2 if _FORMS_LAST.intersection(listed) else 1
    return 0 if set(listed) & set(asked) else 3


def by_count(food: Food, unit: str | None, line: Line) -> Own | None:
    """g of one `unit` of the food (None: one of the food itself) by its household weights."""
    fallback: Own | None = None
    for household in food.household:
        label = _read(household.label)
        if household.label.lower().startswith(_FORMLESS_UNITS) or label.millilitres is not None:
            continue
        if _PART_OF_ANIMAL in household.label or _excepted(food.code, household.label):
            continue
        rank = _count_rank(label, unit, line)
        if rank is None:
            continue
        each = household.grams / household.amount
        basis = f"household weight of {food.name} ({household.label} = {shown(household.grams)} g)"
        drained = "drained" in f"{household.label} {food.name}".lower()
        figure = SourcedFigure(Spread.within(each, _PIECE), _source(food, household.label))
        own = Own(figure, basis, rank, drained=drained)
        if rank:
            return own
        fallback = fallback or own
    return fallback


@lru_cache(maxsize=8192)
def _excepted(code: str, label: str) -> bool:
    """Whether a label is not what a recipe counts by (household_exceptions.csv)."""
    listed = rows("household_exceptions")
    return any(row["code"] in {code, "*"} and fnmatchcase(label, row["label"]) for row in listed)


def _count_rank(label: _Label, unit: str | None, line: Line) -> bool | None:
    """True: the piece asked for; False: a piece of another or unstated size; None: no such piece."""
    size = label.unit_words if label.unit_words in _SIZES else _size_in(f"{label.unit_words} {label.form}")
    if unit is not None:
        if label.unit != unit or dimension(unit) in {"mass", "volume"}:
            return None
        return size == (line.size or "medium") if size else not line.size
    words = frozenset(fold(line.food_words))
    named = fold(label.unit_words)
    piece = label.unit_words in _SIZES | _WHOLE_UNITS or (bool(named) and words.issuperset(named))
    if not piece:
        return None
    if dimension(label.unit) == "container":
        return False  # "3 canned chipotles" are no three cans where a chipotle has a weight
    return size == (line.size or "medium") if size else not line.size


def _size_in(form: str) -> str:
    """The size that a label names among other words; form in lower case. What is mini is small."""
    return next(
        (size for size in ("small", "medium", "large") if size in form), "small" if "mini" in form else ""
    )
