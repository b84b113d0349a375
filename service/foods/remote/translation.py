"""FoodData Central's documents -> kept foods: numbers to tags, units and basis checked, portions to measures.

Nothing is taken on trust: a figure whose unit is not of the kind that we know for its number is left out and
said so; what no food can be, or what is not given by weight, is refused whole.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from ...core.errors import SaltledgerError
from ...core.numbers import shown, whole
from ...core.tables import load
from ..nutrients import NUTRIENTS
from .kept import PREFIX, KeptFood

Document = Mapping[str, Any]

PROXIMATES = ("WATER", "PROCNT", "FAT", "CHOCDF", "ASH")
"""What together makes up a food, but for its alcohol."""

WHOLE_G = (90.0, 112.0)
"""What they may sum to in 100 g: measured each by itself, they miss 100 by a little."""

_GRAMS = {"g": 1.0, "mg": 1e-3, "µg": 1e-6}
_KCAL = {"kcal": 1.0, "kj": 1 / 4.184}
_SPELLED = {"ug": "µg", "mcg": "µg", "\u03bcg": "µg", "grm": "g"}
_NOT_BY_WEIGHT = frozenset(("ml", "mlt", "l", "fl oz"))
_UNIT_OF = {nutrient.tag: nutrient.unit for nutrient in NUTRIENTS}


class UnusableFood(SaltledgerError):
    """A food of the second source that cannot be taken; code: its own, reason: in words."""

    def __init__(self, code: str, reason: str) -> None:
        self.code, self.reason = code, reason
        super().__init__(code, reason)

    def __str__(self) -> str:
        return f"{self.code} cannot be used: {self.reason}."


@dataclass(frozen=True, slots=True)
class _Wanted:
    number: str
    tag: str
    unit: str


def kept_food(document: Any, retrieved: str) -> KeptFood:
    """The food that a document of the `food` or `foods` endpoint describes; retrieved: an ISO date.

    Raises UnusableFood: it is not of the published shape, is not given by weight, or is no possible food.
    """
    try:
        return _kept(document, retrieved)
    except (KeyError, TypeError, ValueError, AttributeError) as fault:
        code = f"{PREFIX}{document.get('fdcId')}" if isinstance(document, dict) else PREFIX
        raise UnusableFood(code, f"it is not described as published ({type(fault).__name__})") from fault


def _kept(document: Document, retrieved: str) -> KeptFood:
    code = f"{PREFIX}{int(document['fdcId'])}"
    if str(document.get("servingSizeUnit") or "").lower() in _NOT_BY_WEIGHT:
        raise UnusableFood(code, "its figures are of 100 ml, and its density is not known")
    refused: list[str] = []
    per_100g = _amounts(document["foodNutrients"], refused)
    _possible(code, per_100g)
    return KeptFood(
        code=code,
        name=_line(document["description"]),
        group=_line(_group(document)),
        kind=_line(document["dataType"]),
        published=_date(document),
        retrieved=retrieved,
        per_100g=per_100g,
        household=tuple(_measures(document.get("foodPortions") or ())),
        refused=tuple(refused),
    )


def _line(text: Any) -> str:
    """Text on one line, of a length that a name may have. Raises ValueError where there is none."""
    words = " ".join("".join(c if c.isprintable() else " " for c in str(text or "")).split())[:300]
    if not words:
        raise ValueError("no text")
    return words


def _group(document: Document) -> Any:
    """Its food group: the three kinds of food name it in three ways."""
    for key in ("foodCategory", "wweiaFoodCategory", "brandedFoodCategory"):
        given = document.get(key)
        if isinstance(given, Mapping):
            given = given.get("description") or given.get("wweiaFoodCategoryDescription")
        if given:
            return given
    return "Not given"


def _date(document: Document) -> str:
    """The day of its release as YYYY-MM-DD; '' where none is given. FDC writes month/day/year."""
    given = str(document.get("publicationDate") or document.get("publishedDate") or "")
    month, slash, rest = given.partition("/")
    if not slash:
        return given[:10]
    day, _, year = rest.partition("/")
    return f"{int(year):04d}-{int(month):02d}-{int(day):02d}"


# Figures.


def _amounts(listed: Iterable[Document], refused: list[str]) -> dict[str, float]:
    """Amounts by tag; what cannot be taken is told in `refused`."""
    given = {number: (amount, unit) for number, amount, unit in map(_figure, listed) if amount is not None}
    amounts: dict[str, float] = {}
    for wanted in load("remote_nutrients", lambda row: _Wanted(row["number"], row["tag"], row["unit"])):
        if wanted.tag in amounts or wanted.number not in given:
            continue
        try:
            amounts[wanted.tag] = _amount(*given[wanted.number], wanted)
        except ValueError as fault:
            refused.append(f"{wanted.tag}: {fault}")
    return amounts


def _figure(entry: Document) -> tuple[str, Any, str]:
    """Number, amount and unit, as the details (`nutrient`) or the abridged form and the search give them."""
    nutrient = entry.get("nutrient")
    if isinstance(nutrient, Mapping):
        return str(nutrient.get("number")), entry.get("amount"), str(nutrient.get("unitName"))
    number = entry.get("nutrientNumber") or entry.get("number")
    return str(number), entry.get("value", entry.get("amount")), str(entry.get("unitName"))


def _amount(given: Any, unit: str, wanted: _Wanted) -> float:
    """The figure in our unit. Raises ValueError with what is wrong with it."""
    if isinstance(given, bool) or not isinstance(given, int | float) or not math.isfinite(given):
        raise ValueError("its amount is no number")
    amount = float(given) * _factor(unit, wanted)
    if amount < 0:
        raise ValueError(f"{given} {unit} is below nothing")
    if amount * _GRAMS.get(_UNIT_OF[wanted.tag], 0.0) > 100:
        raise ValueError(f"{given} {unit} in 100 g")
    return amount


def _factor(unit: str, wanted: _Wanted) -> float:
    """What turns a figure in that unit into ours. Raises ValueError: a unit of another kind."""
    found = _SPELLED.get(unit.lower(), unit.lower())
    for units in (_GRAMS, _KCAL):
        if found in units and wanted.unit.lower() in units:
            return units[found] / units[wanted.unit.lower()]
    if found == wanted.unit.lower():
        return 1.0
    raise ValueError(f"found the unit {unit!r}, wanted {wanted.unit}")


def _possible(code: str, per_100g: Mapping[str, float]) -> None:
    """Raises UnusableFood where the figures cannot be those of 100 g of a food."""
    if "NA" not in per_100g:
        raise UnusableFood(code, "its sodium is not known")
    if per_100g.get("ENERC", 0.0) > 905:
        raise UnusableFood(code, f"{whole(per_100g['ENERC'])} kcal in 100 g is more than pure fat has")
    parts = [per_100g.get(tag) for tag in PROXIMATES]
    total = sum(part for part in parts if part is not None) + per_100g.get("ALC", 0.0)
    if total > WHOLE_G[1] or (None not in parts and total < WHOLE_G[0]):
        raise UnusableFood(code, f"its parts sum to {whole(total)} g in 100 g")


# Measures.


def _measures(portions: Iterable[Document]) -> Iterator[tuple[str, float]]:
    """Household measures, labelled as SR28 labels them: "1 cup, chopped"."""
    for portion in portions:
        grams = portion.get("gramWeight")
        label = _label(portion)
        if isinstance(grams, int | float) and not isinstance(grams, bool) and 0 < grams < 1e5 and label:
            yield label, float(grams)


def _label(portion: Document) -> str:
    described = str(portion.get("portionDescription") or "").strip()
    if described and described.lower() != "quantity not specified":
        return described[:80]
    unit = str((portion.get("measureUnit") or {}).get("name") or "")
    said = [part for part in (unit, str(portion.get("modifier") or "")) if part and part != "undetermined"]
    amount = portion.get("amount")
    number = shown(amount, 6) if isinstance(amount, int | float) and amount > 0 else "1"
    return f"{number} {', '.join(said)}"[:80] if said else ""
