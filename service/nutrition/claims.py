"""Sodium claims and limits of food law: which are met at the likely figure, which still at the high one.

A claim here says only what its sodium limits say. Other conditions (no salt among the ingredients for "free",
fat and added sugars for "healthy", wording) are for the person who prints it: a check, not a clearance.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from itertools import groupby
from typing import Any

from ..core.checked import law_name, stated_by
from ..core.documents import figure
from ..core.numbers import is_within
from ..core.spread import Spread
from ..core.tables import Row, load
from .label_schemes import label_schemes
from .reference_amounts import ReferenceAmount, reference_amount

SMALL = "per_50g_if_small"
"""The basis of limits that hold for small reference amounts alone (21 CFR 101.61(b)); the other measure of
the rule, 2 tablespoons or less, is left out, since it needs the density."""

STRICTLY_BELOW, AT_MOST = "below", "at_most"


@dataclass(frozen=True, slots=True)
class Condition:
    """One limit of a claim: sodium in mg on a `basis`, for the `kinds` of dish that it is for.

    row: its name among the rows of law (`core/checked.py`).
    """

    id: str
    name: str
    scheme: str
    sort: str
    kinds: frozenset[str]
    basis: str
    holds: str
    limit_mg: float
    source: str
    mark: str
    row: str

    def is_met(self, sodium_mg: float) -> bool:
        return is_within(sodium_mg, self.limit_mg, strictly=self.holds == STRICTLY_BELOW)

    def misses_by_mg(self, sodium_mg: float) -> float:
        over_mg = sodium_mg - self.limit_mg
        return figure(over_mg) if over_mg > 0 else 0.0


@dataclass(frozen=True, slots=True)
class _Judged:
    """A condition, what there is of sodium on its basis, and what open questions may add there."""

    condition: Condition
    sodium_mg: Spread
    open_mg: float

    @property
    def filled(self) -> float:
        """The likely figure as a share of its limit; above 1 where it is missed."""
        return self.sodium_mg.likely / self.condition.limit_mg

    @property
    def is_met(self) -> bool:
        return self.condition.is_met(self.sodium_mg.likely)

    @property
    def is_met_at_most(self) -> bool:
        """Whether it is met whatever the open questions are answered with."""
        return self.condition.is_met(self.sodium_mg.likely + self.open_mg)


@cache
def conditions() -> tuple[Condition, ...]:
    """Every condition of every claim, those of one claim together."""
    return load("claims", _condition)


def sodium_claims(
    per_serving_mg: Spread,
    per_100g_mg: Spread,
    *,
    serving_weight_g: float,
    dish_class: str | None = None,
    complete: bool = True,
    open_mg: float = 0.0,
) -> list[dict[str, Any]]:
    """Each claim and limit: {id, name, scheme, sort, limit_mg, basis, amount_mg, met, judgement,
    met_at_likely, met_at_high, misses_by_mg, misses_by_mg_at_high, conditions, source, mark, row,
    checked_against, note}.

    complete: whether all sodium was counted; where it was not, no claim is judged: `met` and all that goes
    with it is None. `met` is that at the likely figure. open_mg: what a serving may hold besides, while
    questions about the recipe are open; a claim that this much would miss is not judged either.

    per_serving_mg, per_100g_mg: sodium in mg. dish_class: an id of reference_amounts.csv; where none is
    named, or its reference amount has no weight, the serving stands in for it and `note` says so.
    limit_mg, basis and amount_mg, source, mark, row and checked_against (`stated_by`) are those of the
    condition that is missed by most, or met by least.
    Raises InvalidRequest for an unknown dish class.
    """
    reference = reference_amount(dish_class)
    weight_g = reference.amount_g if reference and reference.amount_g else serving_weight_g
    is_serving = weight_g == serving_weight_g
    bases = _bases(per_serving_mg, per_100g_mg, weight_g, is_serving=is_serving)
    open_per_100g = Spread.exact(open_mg * 100 / serving_weight_g)
    opened = _bases(Spread.exact(open_mg), open_per_100g, weight_g, is_serving=is_serving)
    kind = reference.kind if reference else "mixed_product"
    wanted = (each for each in conditions() if kind in each.kinds and _counts(each, weight_g))
    return [
        _claim_document(
            [_Judged(each, bases[each.basis], opened[each.basis].likely) for each in group],
            _note(reference),
            complete=complete,
        )
        for _, group in groupby(wanted, key=lambda each: each.id)
    ]


def _bases(
    per_serving: Spread, per_100g: Spread, reference_g: float, *, is_serving: bool
) -> dict[str, Spread]:
    amounts = {
        "per_serving": per_serving,
        "per_100g": per_100g,
        "per_reference_amount": per_serving if is_serving else per_100g.scaled(reference_g / 100),
        SMALL: per_100g.scaled(0.5),
    }
    return {basis: Spread(*map(figure, (mg.low, mg.likely, mg.high))) for basis, mg in amounts.items()}


def _counts(condition: Condition, reference_g: float) -> bool:
    return condition.basis != SMALL or reference_g <= label_schemes()[condition.scheme].small_reference_g


def _claim_document(judged: list[_Judged], note: str, *, complete: bool) -> dict[str, Any]:
    worst = max(judged, key=lambda each: each.filled)
    condition = worst.condition
    return {
        "id": condition.id,
        "name": condition.name,
        "scheme": condition.scheme,
        "sort": condition.sort,
        "limit_mg": condition.limit_mg,
        "basis": condition.basis,
        "amount_mg": worst.sodium_mg.as_dict(),
        **(_judgement(judged, worst) if complete and not _hangs_on_questions(judged) else dict(_NOT_JUDGED)),
        "conditions": list(_condition_documents(judged)),
        "source": condition.source,
        "mark": condition.mark,
        "row": condition.row,
        "checked_against": list(stated_by(condition.row)),
        "note": note if _has_reference_amounts(condition.scheme) else "",
    }


_NOT_JUDGED: Mapping[str, Any] = {
    "met": None,
    "judgement": "cannot be assessed",
    "met_at_likely": None,
    "met_at_high": None,
    "misses_by_mg": None,
    "misses_by_mg_at_high": None,
}
"""What is said of a claim where not all sodium was counted, or where it hangs on an open question."""


def _hangs_on_questions(judged: list[_Judged]) -> bool:
    """Whether a claim is met as the recipe was read, and may be missed as its open questions are answered."""
    return all(each.is_met for each in judged) and not all(each.is_met_at_most for each in judged)


def _judgement(judged: list[_Judged], worst: _Judged) -> dict[str, Any]:
    is_met = all(each.is_met for each in judged)
    return {
        "met": is_met,
        "judgement": "met" if is_met else "not met",
        "met_at_likely": is_met,
        "met_at_high": all(each.condition.is_met(each.sodium_mg.high) for each in judged),
        "misses_by_mg": worst.condition.misses_by_mg(worst.sodium_mg.likely),
        "misses_by_mg_at_high": worst.condition.misses_by_mg(worst.sodium_mg.high),
    }


def _condition_documents(judged: list[_Judged]) -> Iterator[dict[str, Any]]:
    for each in judged:
        yield {
            "basis": each.condition.basis,
            "holds": each.condition.holds,
            "limit_mg": each.condition.limit_mg,
            "amount_mg": each.sodium_mg.as_dict(),
        }


def _has_reference_amounts(scheme: str) -> bool:
    return "per_reference_amount" in label_schemes()[scheme].bases


def _note(reference: ReferenceAmount | None) -> str:
    if reference is None:
        return (
            "No dish class was named: the serving stands in for the reference amount, and the limits of a "
            "mixed product are used. Name dish_class for the rule itself."
        )
    if reference.amount_g is None and reference.measure:
        return (
            f"The reference amount is {reference.measure}; the serving stands in for it. Weigh that measure."
        )
    return ""


def _condition(row: Row) -> Condition:
    if row["holds"] not in (STRICTLY_BELOW, AT_MOST):
        raise ValueError(f"holds must be {STRICTLY_BELOW} or {AT_MOST}, got {row['holds']!r}")
    made = {"kinds": frozenset(row["kinds"].split()), "limit_mg": float(row["limit_mg"])}
    return Condition(**{**row, **made, "row": law_name("claims", row)})  # type: ignore[arg-type]
