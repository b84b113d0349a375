"""Numbers rounded and written: exact steps, half-way values up, and no harm from binary fractions."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal, getcontext

_SIGNIFICANT = 9
"""An amount is read to nine significant digits: 140.00000000000003 mg is 140 mg, not above a limit of 140."""

_PLAINLY_WHOLE, _BINARY_HARM = 10_000, 1e-3
"""Per cents up to the first that lie farther than the second from a half-way value round alike, whether they
are read as decimals or not: nine significant digits tell more."""

_APART = 1e-7
"""Amounts that differ by a larger part than this do so in nine significant digits."""


def exact(amount: float) -> Decimal:
    """An amount as a decimal, to nine significant digits. Raises ValueError unless it is finite."""
    value = Decimal(f"{amount:.{_SIGNIFICANT}g}")
    if not value.is_finite():
        raise ValueError(f"an amount must be finite, got {amount}")
    return value


def is_within(amount: float, limit: float, *, strictly: bool = False) -> bool:
    """Whether an amount is at most a limit (above 0), or below it, as they are read to nine digits."""
    if abs(amount - limit) > _APART * limit:
        return amount < limit
    return exact(amount) < exact(limit) if strictly else exact(amount) <= exact(limit)


def to_step(amount: Decimal, step: Decimal) -> Decimal:
    """The nearest multiple of `step`, half-way values up (no rule settles them; trade practice is up)."""
    steps = amount / step
    if steps.adjusted() >= getcontext().prec - 1:
        return amount  # more figures than are kept: nothing is left to round
    return steps.quantize(Decimal(1), ROUND_HALF_UP) * step


def to_figures(amount: Decimal, figures: int) -> Decimal:
    """To so many significant figures, half-way values up."""
    if not amount:
        return amount
    return to_step(amount, Decimal(1).scaleb(amount.adjusted() - figures + 1))


def plain(amount: Decimal, *, grouped: bool = False) -> str:
    """As it is printed: no exponent, no trailing zeros after the point; grouped: commas between thousands."""
    text = format(amount, ",f" if grouped else "f")
    return (text.rstrip("0").rstrip(".") or "0") if "." in text else text


_MANY = 1e9


def shown(value: float, figures: int = 3, *, decimals: int | None = None, grouped: bool = False) -> str:
    """A number as people read it: to so many significant figures, but never coarser than whole units.

    decimals: at most so many. grouped: commas between thousands. Raises ValueError unless it is finite.
    """
    if not grouped and -_MANY < value < _MANY and value == int(value):
        return str(int(value))  # as nearly half of all are
    amount = exact(value)
    places = max(figures - 1 - amount.adjusted(), 0)
    rounded = to_step(amount, Decimal(1).scaleb(-places if decimals is None else -min(places, decimals)))
    return plain(rounded, grouped=grouped) if rounded else "0"


def whole(value: float) -> str:
    """A number to whole units, commas between thousands. Raises ValueError unless it is finite."""
    return shown(value, decimals=0, grouped=True)


def percent(share: float) -> str:
    """A share (1 is all of it) as a whole per cent, as in "24 %"."""
    return f"{whole(100 * share)} %"


def whole_percent(amount: float, of: float) -> int:
    """`amount` as a whole per cent of `of` (above 0), half-way values up."""
    above_half = 100 * amount / of + 0.5
    if 0 < above_half < _PLAINLY_WHOLE and abs(above_half - round(above_half)) > _BINARY_HARM:
        return int(above_half)
    return int(to_step(exact(amount) * 100 / exact(of), Decimal(1)))
