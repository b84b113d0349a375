"""Reference amounts customarily consumed, by the class of dish that a caller names."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from ..core.checked import law_name
from ..core.errors import Fault, InvalidRequest
from ..core.tables import Row, load

_KINDS = ("food", "mixed_product", "oil", "main_dish", "meal")


@dataclass(frozen=True, slots=True)
class ReferenceAmount:
    """What is eaten of a class of dish at one sitting.

    amount_g: None where the rule gives a volume or a household measure (`measure`), or nothing at all.
    kind: "food", "mixed_product", "oil", "main_dish" or "meal": which limits of claims.csv apply.
    row: its name among the rows of law (`core/checked.py`).
    """

    dish_class: str
    name: str
    amount_g: float | None
    measure: str
    kind: str
    source: str
    mark: str
    row: str


@cache
def reference_amounts() -> dict[str, ReferenceAmount]:
    """Every class of dish by its id."""
    return {each.dish_class: each for each in load("reference_amounts", _reference_amount)}


def reference_amount(dish_class: str | None) -> ReferenceAmount | None:
    """The reference amount of a class of dish, None where none is named.

    Raises InvalidRequest where there is no such class.
    """
    if dish_class is None:
        return None
    try:
        return reference_amounts()[dish_class]
    except KeyError:
        known = ", ".join(reference_amounts())
        message = f"There is no class of dish {dish_class!r}; choose one of: {known}."
        raise InvalidRequest([Fault("/dish_class", message)]) from None


def _reference_amount(row: Row) -> ReferenceAmount:
    if row["kind"] not in _KINDS:
        raise ValueError(f"kind must be one of {_KINDS}, got {row['kind']!r}")
    amount = float(row["amount_g"]) if row["amount_g"] else None
    name = law_name("reference_amounts", row)
    return ReferenceAmount(**{**row, "amount_g": amount, "row": name})  # type: ignore[arg-type]
