"""An answer as a dietitian's spreadsheet: CSV, one row an ingredient, nutrients as columns, then the sums."""

from __future__ import annotations

import csv
import io
import math
from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any

import numpy as np
from numpy.typing import NDArray

from ..core.documents import every_food
from ..core.numbers import shown
from ..foods.nutrients import NUTRIENTS
from ..nutrition.energy import KJ_PER_KCAL, with_derived
from .panel import is_complete

Document = Mapping[str, Any]
ValuesOf = Callable[[str], NDArray[Any] | None]

_ABOUT = ("row", "component", "line", "food_code", "food", "grams", "grams_low", "grams_high", "grams_basis")
_COLUMNS = (
    *((nutrient.tag, nutrient.unit) for nutrient in NUTRIENTS),
    ("ENERC_KJ", "kJ"),
    ("CHOAVL", "g"),
    ("SALT", "g"),
    ("ADDED_SUGARS", "g"),
)
"""Tag and unit: the dataset's nutrients, then what follows from them."""

_RISKY = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠")
"""How a cell begins that spreadsheet programs may take for a formula."""

FIGURES = 6

Cell = str | float | None


def recipe_csv(answer: Document, values_of: ValuesOf) -> str:
    """The answer as CSV text (RFC 4180, lines ended by CR LF; a cell that is not known is empty).

    values_of: amounts per 100 g of a food by its code, shape (len(NUTRIENTS),), NaN = not known; None = no
    such food. Rows by the column `row`: ingredient (as listed, each food of a line that names several),
    uncounted (what its sodium may be, likely, and why), listed_total, eaten_per_serving and its _low and
    _high, eaten_per_100g. The last column says of each sum whether its sodium is complete. Text that could
    be taken for a formula begins with an apostrophe. Added sugars are told of the dish alone.
    """
    listed = [(each, _listed_amounts(each, values_of)) for each in every_food(answer)]
    out = io.StringIO()
    writer = csv.writer(out)
    writer.writerow([*_ABOUT, *(f"{tag} ({unit})" for tag, unit in _COLUMNS), "sodium_status"])
    writer.writerows(map(_safe, _rows(answer, listed)))
    return out.getvalue()


def _rows(answer: Document, listed: list[tuple[Document, list[Cell]]]) -> Iterator[list[Cell]]:
    yield from ([*_about_ingredient(ingredient), *amounts, None] for ingredient, amounts in listed)
    yield from map(_uncounted, answer.get("sodium", {}).get("uncounted", ()))
    status = "complete" if is_complete(answer) else "incomplete"
    weights = [ingredient["grams"] for ingredient, _ in listed]
    totals: list[Cell] = [_total(column) for column in _columns(listed)]
    yield [*_sum_row("listed_total", _total(weights), totals), status]
    serving, hundred = answer["per_serving"], answer["per_100g"]
    for row, key in (
        ("eaten_per_serving", "amount"),
        ("eaten_per_serving_low", "low"),
        ("eaten_per_serving_high", "high"),
    ):
        yield [*_sum_row(row, serving["weight_g"], _answered(serving, key)), status]
    yield [*_sum_row("eaten_per_100g", 100.0, _answered(hundred, "amount")), status]


def _uncounted(gap: Document) -> list[Cell]:
    """A row for what was not counted: why, and in the column of sodium the likely mg that it may hold."""
    about: list[Cell] = ["uncounted", None, gap["line"], None, None, None, None, None]
    reach = f"{gap['why']}; {_number(gap['low_mg'])} to {_number(gap['high_mg'])} mg of sodium"
    amounts = [gap["likely_mg"] if tag == "NA" else None for tag, _ in _COLUMNS]
    return [*about, reach, *amounts, "incomplete"]


def _about_ingredient(ingredient: Document) -> list[Cell]:
    food = ingredient["food"] or {"code": None, "name": None}
    weights = (ingredient[key] for key in ("grams", "grams_low", "grams_high", "grams_basis"))
    return ["ingredient", ingredient["component"], ingredient["line"], food["code"], food["name"], *weights]


def _sum_row(row: str, weight_g: Cell, amounts: list[Cell]) -> list[Cell]:
    about: list[Cell] = [row, None, None, None, None, weight_g, None, None, None]
    return [*about, *amounts]


def _listed_amounts(ingredient: Document, values_of: ValuesOf) -> list[Cell]:
    food, grams = ingredient["food"], ingredient["grams"]
    values = values_of(food["code"]) if food else None
    stated = ingredient.get("packet_per_100g") or ingredient.get("recipe_per_100g") or {}
    if values is None and stated:
        values = np.full(len(NUTRIENTS), math.nan)
    if values is None or grams is None:
        return [None] * len(_COLUMNS)
    per_100g = dict(zip((nutrient.tag for nutrient in NUTRIENTS), values.tolist(), strict=True))
    per_100g |= stated
    known = {tag: value * grams / 100 for tag, value in per_100g.items() if not math.isnan(value)}
    if "ENERC" in known:
        known["ENERC_KJ"] = known["ENERC"] * KJ_PER_KCAL
    amounts = with_derived(known)
    return [amounts.get(tag) for tag, _ in _COLUMNS]


def _columns(listed: list[tuple[Document, list[Cell]]]) -> Iterator[list[Cell]]:
    return ([amounts[place] for _, amounts in listed] for place in range(len(_COLUMNS)))


def _total(cells: Iterable[Cell]) -> float | None:
    """The sum of what is known; None where nothing is."""
    known = [cell for cell in cells if isinstance(cell, (int, float))]
    return math.fsum(known) if known else None


def _answered(part: Document, key: str) -> list[Cell]:
    nutrients = part["nutrients"]
    return [nutrients[tag][key] if tag in nutrients else None for tag, _ in _COLUMNS]


def _safe(cells: Iterable[Cell]) -> list[str]:
    return [_safe_text(cell) if isinstance(cell, str) else _number(cell) for cell in cells]


def _safe_text(text: str) -> str:
    return f"'{text}" if text.startswith(_RISKY) else text


def _number(value: float | None) -> str:
    return "" if value is None else shown(value, FIGURES)
