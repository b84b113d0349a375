"""Fields for amounts of nutrients: a number in the nutrient's own unit, or an amount with a unit of the
caller's.

What comes out is what was sent, so that a saved recipe stays as its author wrote it; the calculation
converts it.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from marshmallow import ValidationError

from ..nutrition.stated import accepted_names
from ..units.amounts import MOST_UNIT_CHARACTERS, UnitRefused, fitting_units, in_own_unit, own_units
from .fields import Amounts, Number, shown

LARGEST = 100_000_000
_PARTS = {"amount", "unit"}


class NutrientAmount(Number):
    """An amount of the nutrient `tag` from `least` to `most` in its own unit; or {"amount", "unit"}."""

    def __init__(self, tag: str, least: float = 0, most: float = LARGEST, **kwargs: Any) -> None:
        super().__init__(least, most, unit=own_units()[tag], **kwargs)
        self.tag = tag
        self.remedy = 'write the number alone, or {"amount": …, "unit": …}'

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> Any:
        if not isinstance(value, dict):
            return super()._deserialize(value, attr, data, **kwargs)
        if set(value) != _PARTS or not isinstance(unit := value["unit"], str):
            raise self.refuse(value)
        amount = Number(0, LARGEST).deserialize(value["amount"])
        try:
            converted = in_own_unit(self.tag, {"amount": amount, "unit": unit[: MOST_UNIT_CHARACTERS + 1]})
        except UnitRefused as refused:
            raise ValidationError({"unit": [f"{refused}; write one of these."]}) from None
        if not self.least <= converted <= self.most:
            raise self.make_error("invalid", found=f"{shown(amount)} {unit}")
        return {"amount": amount, "unit": unit}

    def json_schema(self) -> dict[str, Any]:
        units = {"type": "string", "description": f"One of {', '.join(fitting_units(self.tag))}."}
        plain = {"type": "number", **super().json_schema()}
        return {"type": ["number", "object"], "anyOf": [plain, with_unit(units)]}


class StatedAmounts(Amounts):
    """An object of amounts by tag, as answers have it, or by the name that packets print."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(Number(0, LARGEST), accepted_names(), **kwargs)

    def _one(self, name: str, amount: Any) -> Any:
        if name not in self.names:
            return super()._one(name, amount)
        return NutrientAmount(self.names[name]).deserialize(amount)

    def json_schema(self) -> dict[str, Any]:
        amount = {"anyOf": [{"type": "number", "minimum": 0}, with_unit({"type": "string"})]}
        return {**super().json_schema(), "additionalProperties": amount}


def with_unit(unit: Mapping[str, Any]) -> dict[str, Any]:
    """JSON Schema of an amount with its unit."""
    return {
        "type": "object",
        "properties": {"amount": {"type": "number", "minimum": 0}, "unit": unit},
        "required": ["amount", "unit"],
        "additionalProperties": False,
    }
