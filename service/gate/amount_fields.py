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
from ..units.nutrient_amounts import (
    MOST_UNIT_CHARACTERS,
    WEIGHT_UNITS,
    UnitRefused,
    fitting_units,
    grams_of,
    in_own_unit,
    own_units,
)
from .fields import Amounts, Number, shown

LARGEST = 100_000_000
_PARTS = {"amount", "unit"}


class WithUnit(Number):
    """A number from `least` to `most` in a unit of its own; or {"amount", "unit"} in one that fits."""

    def __init__(self, own: str, least: float, most: float, **kwargs: Any) -> None:
        super().__init__(least, most, unit=own, **kwargs)
        self.remedy = 'write the number alone, or {"amount": …, "unit": …}'

    def converted(self, stated: Mapping[str, Any]) -> float:
        """An amount with its unit, as a number in the own one. Raises UnitRefused."""
        raise NotImplementedError

    def fitting(self) -> tuple[str, ...]:
        """Units that fit."""
        raise NotImplementedError

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> Any:
        if not isinstance(value, dict):
            return super()._deserialize(value, attr, data, **kwargs)
        if set(value) != _PARTS or not isinstance(unit := value["unit"], str):
            raise self.refuse(value)
        amount = Number(0, LARGEST).deserialize(value["amount"])
        try:
            converted = self.converted({"amount": amount, "unit": unit[: MOST_UNIT_CHARACTERS + 1]})
        except UnitRefused as refused:
            raise ValidationError({"unit": [f"{refused}; write one of these."]}) from None
        if not self.least <= converted <= self.most:
            raise self.make_error("invalid", found=f"{shown(amount)} {unit}")
        return {"amount": amount, "unit": unit}

    def json_schema(self) -> dict[str, Any]:
        units = {"type": "string", "description": f"One of {', '.join(self.fitting())}."}
        plain = {"type": "number", **super().json_schema()}
        return {"type": ["number", "object"], "anyOf": [plain, with_unit(units)]}


class NutrientAmount(WithUnit):
    """An amount of the nutrient `tag`."""

    def __init__(self, tag: str, least: float = 0, most: float = LARGEST, **kwargs: Any) -> None:
        super().__init__(own_units()[tag], least, most, **kwargs)
        self.tag = tag

    def converted(self, stated: Mapping[str, Any]) -> float:
        return in_own_unit(self.tag, stated)

    def fitting(self) -> tuple[str, ...]:
        return fitting_units(self.tag)


class Weight(WithUnit):
    """A weight, in g where no unit is given."""

    def __init__(self, least: float, most: float, **kwargs: Any) -> None:
        super().__init__("g", least, most, **kwargs)

    def converted(self, stated: Mapping[str, Any]) -> float:
        return grams_of(stated)

    def fitting(self) -> tuple[str, ...]:
        return WEIGHT_UNITS


class Measured(WithUnit):
    """What came out of a measurement; `in_unit_of` turns it into the unit of what was measured."""

    def __init__(self, least: float, most: float, **kwargs: Any) -> None:
        super().__init__("that of what was measured", least, most, **kwargs)

    def converted(self, stated: Mapping[str, Any]) -> float:
        return float(stated["amount"])

    def fitting(self) -> tuple[str, ...]:
        return tuple(dict.fromkeys((*fitting_units("NA"), *WEIGHT_UNITS)))


def in_unit_of(what: str, stated: Any) -> float:
    """A measured amount in the unit that `what` names, mg of sodium or g. Raises ValidationError."""
    try:
        return grams_of(stated) if what == "weight_g" else in_own_unit("NA", stated)
    except UnitRefused as refused:
        raise ValidationError({"amount": {"unit": [f"{refused}; write one of these."]}}) from None


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
