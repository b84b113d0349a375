"""Rounding as label rules write it: exact steps, half-way values up, and no harm from binary fractions."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

_SIGNIFICANT = 9
"""An amount is read to nine significant digits: 140.00000000000003 mg is 140 mg, not above a limit of 140."""


def exact(amount: float) -> Decimal:
    """An amount as a decimal, to nine significant digits. Raises ValueError unless it is finite."""
    value = Decimal(f"{amount:.{_SIGNIFICANT}g}")
    if not value.is_finite():
        raise ValueError(f"an amount must be finite, got {amount}")
    return value


def to_step(amount: Decimal, step: Decimal) -> Decimal:
    """The nearest multiple of `step`, half-way values up (no rule settles them; trade practice is up)."""
    return (amount / step).quantize(Decimal(1), ROUND_HALF_UP) * step


def to_figures(amount: Decimal, figures: int) -> Decimal:
    """To so many significant figures, half-way values up."""
    if not amount:
        return amount
    return to_step(amount, Decimal(1).scaleb(amount.adjusted() - figures + 1))


def plain(amount: Decimal) -> str:
    """As it is printed: no exponent, no trailing zeros after the point."""
    text = f"{amount:f}"
    return (text.rstrip("0").rstrip(".") or "0") if "." in text else text


def whole_percent(amount: float, of: float) -> int:
    """`amount` as a whole per cent of `of` (above 0), half-way values up."""
    return int(to_step(exact(amount) * 100 / exact(of), Decimal(1)))


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
