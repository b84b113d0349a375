"""How far a laboratory's figure may lie from the declared one before a label is wrong."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from functools import cache

from ..core.numbers import exact
from ..core.tables import Row, load
from .label_rounding import Reach


@dataclass(frozen=True, slots=True)
class Tolerance:
    """From `low` to `high` in the nutrient's unit; None where there is no limit that way."""

    low: float | None
    high: float | None
    source: str
    mark: str


@dataclass(frozen=True, slots=True)
class _Rule:
    scheme: str
    tags: frozenset[str]
    reach: Reach
    down: Decimal | None
    up: Decimal | None
    is_percent: bool
    source: str
    mark: str

    def holds(self, scheme: str, tag: str, declared: Decimal) -> bool:
        return scheme == self.scheme and tag in self.tags and self.reach.holds(declared)

    def around(self, declared: Decimal) -> Tolerance:
        unit = declared / 100 if self.is_percent else Decimal(1)
        low = None if self.down is None else float(max(declared - self.down * unit, Decimal(0)))
        high = None if self.up is None else float(declared + self.up * unit)
        return Tolerance(low, high, self.source, self.mark)


def tolerance(scheme: str, tag: str, declared: float) -> Tolerance | None:
    """The range that a found amount must lie in, for a declared amount (EU: per 100 g) of a nutrient.

    scheme: "fda" or "eu". None where the scheme has no rule for the nutrient.
    """
    amount = exact(declared)
    rule = next((rule for rule in _rules() if rule.holds(scheme, tag, amount)), None)
    return rule.around(amount) if rule else None


@cache
def _rules() -> tuple[_Rule, ...]:
    return load("label_tolerances", _rule)


def _rule(row: Row) -> _Rule:
    return _Rule(
        scheme=row["scheme"],
        tags=frozenset(row["tags"].split()),
        reach=Reach.from_mapping(row),
        down=_number(row["down"]),
        up=_number(row["up"]),
        is_percent={"percent": True, "g": False}[row["unit"]],
        source=row["source"],
        mark=row["mark"],
    )


def _number(cell: str) -> Decimal | None:
    return Decimal(cell) if cell else None
