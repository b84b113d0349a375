"""How an amount is declared under the rules of a label: the bands of seed_foods/label_rounding.csv."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import cache

from ..core.numbers import exact, plain, to_figures, to_step
from ..core.tables import Row, load
from .label_schemes import label_schemes

_FORMS = ("zero", "step", "figures", "less_than")


@dataclass(frozen=True, slots=True)
class Declared:
    """An amount as it is printed. amount: the figure that stands there; less_than: it is an upper end."""

    amount: Decimal
    words: str
    less_than: bool = False


@dataclass(frozen=True, slots=True)
class Reach:
    """The upper end of a band of amounts: None where it has no end; the end itself `including` or not."""

    end: Decimal | None
    including: bool

    @classmethod
    def from_mapping(cls, row: Mapping[str, str]) -> Reach:
        """From a row with the columns `below` (blank: no end) and `including` (yes or no)."""
        end = Decimal(row["below"]) if row["below"] else None
        return cls(end, {"yes": True, "no": False, "": False}[row["including"]])

    def holds(self, amount: Decimal) -> bool:
        return self.end is None or amount < self.end or (self.including and amount == self.end)


@dataclass(frozen=True, slots=True)
class Band:
    """Amounts within `reach`, and above the band before it, are declared in one `form`."""

    scheme: str
    rule: str
    reach: Reach
    form: str
    value: Decimal

    def declare(self, amount: Decimal) -> Declared:
        if self.form == "less_than":
            return Declared(self.value, _less_than(self.scheme).format(plain(self.value)), less_than=True)
        rounded = self._rounded(amount)
        return Declared(rounded, plain(rounded))

    def _rounded(self, amount: Decimal) -> Decimal:
        if self.form == "zero":
            return Decimal(0)
        return to_step(amount, self.value) if self.form == "step" else to_figures(amount, int(self.value))


def declare(scheme: str, rule: str, amount: float) -> Declared:
    """An amount under a rounding rule ("sodium", "macronutrient", …) of a scheme ("fda" or "eu").

    amount: in the unit that the rule is written in, 0 or more. Raises ValueError below 0 or not finite.
    """
    value = exact(amount)
    if value < 0:
        raise ValueError(f"a declared amount must be 0 or more, got {amount}")
    if not value:
        return Declared(Decimal(0), "0")
    return next(band for band in bands(scheme, rule) if band.reach.holds(value)).declare(value)


@cache
def _less_than(rounding: str) -> str:
    """How an upper end is written under the rounding rules that a scheme names."""
    return next(each.less_than for each in label_schemes().values() if each.rounding == rounding)


@cache
def bands(scheme: str, rule: str) -> tuple[Band, ...]:
    """The bands of a rule, lowest first. Raises ValueError where the scheme has no such rule."""
    found = _by_rule().get((scheme, rule))
    if found is None:
        raise ValueError(f"there is no rounding rule {rule!r} of {scheme!r}")
    return found


@cache
def _by_rule() -> dict[tuple[str, str], tuple[Band, ...]]:
    grouped: dict[tuple[str, str], list[Band]] = defaultdict(list)
    for band in load("label_rounding", _band):
        grouped[band.scheme, band.rule].append(band)
    return {key: tuple(found) for key, found in grouped.items()}


def _band(row: Row) -> Band:
    if row["form"] not in _FORMS:
        raise ValueError(f"form must be one of {_FORMS}, got {row['form']!r}")
    value = Decimal(row["value"] or 0)
    return Band(row["scheme"], row["rule"], Reach.from_mapping(row), row["form"], value)
