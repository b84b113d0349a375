"""Amounts of nutrients as callers give them: a number in the nutrient's own unit, or with a unit of their
own.

The one place for it: packet values, custom foods, measurements, targets. pint does the conversion and is
loaded when the first unit is named, since it takes longer to load than the dataset; what recipes hold as a
rule never needs it.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Any

from ..core.tables import load

Stated = float | Mapping[str, Any]
"""A number in the nutrient's own unit, or {"amount": number, "unit": text}."""

DERIVED_UNITS = {"ENERC_KJ": "kJ", "SALT": "g", "CHOAVL": "g", "ADDED_SUGARS": "g"}
"""Units of what answers derive beside the nutrients of nutrients.csv."""

MOST_UNIT_CHARACTERS = 24

_WORD = re.compile(r"[A-Za-zµμ]{1,24}")
_SPELLED = {"mcg": "microgram", "ug": "microgram", "μg": "microgram", "µg": "microgram", "Cal": "kilocalorie"}
_CHARGES = {"meq": 1.0, "milliequivalent": 1.0, "eq": 1000.0, "equivalent": 1000.0}
"""mmol of charge in units of charge, which need the valence."""

_FITTING = {
    "mass": ("g", "mg", "µg", "kg", "oz"),
    "energy": ("kcal", "kJ", "cal", "J"),
    "substance": ("mmol", "mol", "µmol", "mEq"),
}


WEIGHT_UNITS = ("g", "kg", "mg", "oz", "lb", "grain")
"""Units in which a weight may be given; pint knows more."""


class UnitRefused(ValueError):
    """A unit that does not fit a nutrient. unit: as given; tag: the nutrient; fitting: units that do."""

    def __init__(self, unit: str, tag: str, fitting: tuple[str, ...]) -> None:
        super().__init__(unit, tag, fitting)
        self.unit, self.tag, self.fitting = unit, tag, fitting

    def __str__(self) -> str:
        return (
            f"Found the unit {self.unit[:40]!r}, wanted one that fits {self.tag}: {', '.join(self.fitting)}"
        )


@dataclass(frozen=True, slots=True)
class Substance:
    """What an amount of substance of a nutrient weighs; valence: charges of one ion."""

    g_per_mol: float
    valence: int


@cache
def substances() -> dict[str, Substance]:
    """The nutrients that may be given in mmol, by tag."""
    rows = load(
        "molar_masses", lambda row: (row["tag"], Substance(float(row["g_per_mol"]), int(row["valence"])))
    )
    return dict(rows)


@cache
def own_units() -> dict[str, str]:
    """The unit in which a plain number is meant, by tag."""
    nutrients = load("nutrients", lambda row: (row["tag"], row["unit"]))
    return dict(nutrients) | DERIVED_UNITS


def fitting_units(tag: str) -> tuple[str, ...]:
    """Units in which an amount of a nutrient may be given, its own first. KeyError: no such tag."""
    own = own_units()[tag]
    if own == "IU":
        return (own,)
    others = _FITTING["energy" if own in ("kcal", "kJ") else "mass"]
    substance = _FITTING["substance"] if tag in substances() else ()
    return tuple(dict.fromkeys((own, *others, *substance)))


def in_own_unit(tag: str, stated: Stated) -> float:
    """A stated amount as a number in the nutrient's own unit. Raises UnitRefused; KeyError: no such tag."""
    if not isinstance(stated, Mapping):
        return float(stated)
    amount, unit, own = float(stated["amount"]), str(stated["unit"]).strip(), own_units()[tag]
    return amount if unit == own else amount * _factor(tag, unit)


def grams_of(stated: Stated) -> float:
    """A stated weight in g: a number, or an amount with a unit of mass. Raises UnitRefused."""
    if not isinstance(stated, Mapping):
        return float(stated)
    unit = str(stated["unit"]).strip()
    return float(stated["amount"]) * _grams_in(unit)


@lru_cache(maxsize=256)
def _grams_in(unit: str) -> float:
    for quantity in _quantities(unit):
        if quantity.check("[mass]"):
            return float(quantity.to("gram").magnitude)
    raise UnitRefused(unit, "a weight", WEIGHT_UNITS)


@lru_cache(maxsize=1024)
def _factor(tag: str, unit: str) -> float:
    """The nutrient's own units in one `unit`."""
    own, substance = own_units()[tag], substances().get(tag)
    charge = _CHARGES.get(unit.lower())
    if charge is not None and substance is not None:
        return charge / substance.valence * _factor(tag, "mmol")
    for quantity in _quantities(unit) if own != "IU" else ():
        if substance is not None and quantity.check("[substance]"):
            quantity *= _registry().Quantity(substance.g_per_mol, "g/mol")  # noqa: PLW2901 - as mass from here on
        wanted = _registry().Quantity(1.0, _SPELLED.get(own, own))
        if quantity.check(wanted.dimensionality):
            return float((quantity / wanted).to("dimensionless").magnitude)
    raise UnitRefused(unit, tag, fitting_units(tag))


def _quantities(unit: str) -> Iterator[Any]:
    """One `unit` as pint knows it, as it is spelled and in small letters; only a word is read, no expression.

    Small letters go first where the spelling is none of the usual: nobody weighs sodium in megagrams.
    """
    if not _WORD.fullmatch(unit):
        return
    usual = unit in _SPELLED or any(unit in units for units in _FITTING.values())
    for spelled in (unit,) if usual else dict.fromkeys((unit.lower(), unit)):
        try:
            yield _registry().Quantity(1.0, _SPELLED.get(spelled, spelled))
        except Exception:
            continue


@cache
def _registry() -> Any:
    # Imported here: it is needed by few requests, and takes longer to load than the whole dataset.
    from pint import UnitRegistry  # noqa: PLC0415

    return UnitRegistry()
