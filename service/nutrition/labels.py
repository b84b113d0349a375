"""Label views: what a US, EU or UK label would print of an answer, row by row, with what was decided and why.

Per cent of a daily value or reference intake is taken of the amount before rounding; where the declared
amount is 0 it is 0, so that no row says "0 g" and "2 %". What is not known is said to be so, never 0.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass
from typing import Any

from ..core.checked import stated_by
from ..core.errors import Fault, InvalidRequest
from .energy import Amounts, energy_by, with_derived
from .label_rounding import Declared, declare
from .label_schemes import LabelRow, LabelScheme, label_schemes
from .reference_amounts import ReferenceAmount, reference_amount
from .tolerances import tolerance

INCOMPLETE = "incomplete"
"""What stands in place of a figure for sodium or salt where not all of it was counted."""


@dataclass(frozen=True, slots=True)
class Column:
    """Amounts to be declared side by side. basis: "per_serving", "per_100g" or "per_reference_amount"."""

    basis: str
    weight_g: float
    amounts: Amounts


def label_view(
    scheme: str,
    per_serving: Amounts,
    per_100g: Amounts,
    *,
    serving_weight_g: float,
    dish_class: str | None = None,
    coverage: Mapping[str, float] | None = None,
    audience: str | None = None,
    complete: bool = True,
) -> dict[str, Any]:
    """What a label under a scheme of label_schemes.csv ("fda", "eu", "uk") would print.

    per_serving, per_100g: amounts by tag, likely values, each in the unit of seed_foods/nutrients.csv, and
    ADDED_SUGARS in g where known. coverage: share (0 to 1) of the weight whose value is known, by tag.
    dish_class: an id of reference_amounts.csv; then fda has a column for the reference amount as well.
    audience: whose daily values (fda only). complete: whether all sodium was counted; where it was not,
    sodium and salt are declared by no figure. Raises InvalidRequest for an unknown scheme, dish class or
    audience.
    """
    rules = _scheme(scheme)
    reference = reference_amount(dish_class)
    columns = _columns(rules, per_serving, per_100g, serving_weight_g, reference)
    documents = [_column_document(rules, column, per_100g, coverage or {}, audience) for column in columns]
    if not complete:
        documents = [_without_sodium(document) for document in documents]
    return {
        "scheme": scheme,
        "statement": rules.statement,
        "source": str(rules.source),
        "conventions": list(rules.conventions),
        "serving": _serving(serving_weight_g, reference),
        "sodium_complete": complete,
        "columns": documents,
        "incomplete": _incomplete(rules.rows, coverage or {}),
    }


def _scheme(scheme: str) -> LabelScheme:
    try:
        return label_schemes()[scheme]
    except KeyError:
        message = f"There is no label {scheme!r}; choose one of: {', '.join(label_schemes())}."
        raise InvalidRequest([Fault("/label", message)]) from None


def _columns(
    scheme: LabelScheme,
    per_serving: Amounts,
    per_100g: Amounts,
    serving_weight_g: float,
    reference: ReferenceAmount | None,
) -> list[Column]:
    """The columns of a scheme, each with what its rows are worked out from."""
    found = {"per_serving": (serving_weight_g, per_serving), "per_100g": (100.0, per_100g)}
    if reference and reference.amount_g:
        share = reference.amount_g / 100
        by_share = {tag: amount * share for tag, amount in per_100g.items()}
        found["per_reference_amount"] = (reference.amount_g, by_share)
    return [
        Column(basis, found[basis][0], _amounts(scheme, found[basis][1]))
        for basis in scheme.bases
        if basis in found
    ]


def _amounts(scheme: LabelScheme, amounts: Amounts) -> dict[str, float]:
    """The amounts with what follows from them, energy by the scheme's own factors where it has some."""
    derived = with_derived(amounts)
    if scheme.energy:
        derived.pop("ENERC", None)
        if energy := energy_by(scheme.energy, amounts):
            derived |= {"ENERC": energy.kcal, "ENERC_KJ": energy.kj}
    return derived


def _serving(weight_g: float, reference: ReferenceAmount | None) -> dict[str, Any]:
    document: dict[str, Any] = {"weight_g": weight_g, "reference_amount": None}
    if reference:
        document["reference_amount"] = {
            "dish_class": reference.dish_class,
            "name": reference.name,
            "measure": reference.measure,
            "amount_g": reference.amount_g,
            "servings_in_it": weight_g and reference.amount_g and reference.amount_g / weight_g,
            "source": reference.source,
            "mark": reference.mark,
            "row": reference.row,
            "checked_against": list(stated_by(reference.row)),
        }
    return document


def _column_document(
    scheme: LabelScheme,
    column: Column,
    per_100g: Amounts,
    coverage: Mapping[str, float],
    audience: str | None,
) -> dict[str, Any]:
    rows = [
        _row_document(scheme, row, column, coverage.get(_counted(row.tag)), audience)
        for row in scheme.rows
        if scheme.shows(row, column.basis, per_100g, known=row.tag in column.amounts)
    ]
    return {"basis": column.basis, "weight_g": column.weight_g, "rows": rows}


def _without_sodium(column: dict[str, Any]) -> dict[str, Any]:
    """A column whose sodium or salt is said to be incomplete, and declared by no figure."""
    rows = [
        {**row, "declared": None, "percent": None, "tolerance": None, "note": INCOMPLETE}
        if _counted(row["tag"]) == "NA"
        else row
        for row in column["rows"]
    ]
    return {**column, "rows": rows}


def _row_document(
    scheme: LabelScheme, row: LabelRow, column: Column, coverage: float | None, audience: str | None
) -> dict[str, Any]:
    amount = column.amounts.get(row.tag)
    document: dict[str, Any] = {
        "tag": row.tag,
        "name": row.name,
        "depth": row.depth,
        "unit": row.unit,
        "amount": amount,
        "declared": None,
        "percent": None,
        "coverage": coverage,
    }
    if amount is None:
        return document | {"note": "not known"}
    declared = declare(scheme.rounding, row.rounding, max(amount, 0.0))
    document["declared"] = f"{declared.words} {row.printed_unit}".rstrip()
    document["percent"] = _percent(scheme, row, amount, declared, audience)
    if column.basis in scheme.tolerance_bases:
        found = tolerance(scheme.rounding, row.tag, float(declared.amount))
        document["tolerance"] = asdict(found) if found else None
    return document


def _percent(
    scheme: LabelScheme, row: LabelRow, amount: float, declared: Declared, audience: str | None
) -> int | None:
    reference = scheme.reference(row.tag, audience)
    if not row.percent or reference is None:
        return None
    if not declared.amount:
        return 0
    return int(declare(scheme.rounding, row.percent, 100 * max(amount, 0.0) / reference).amount)


_COUNTED = {"SALT": "NA", "ENERC_KJ": "ENERC", "CHOAVL": "CHOCDF", "ADDED_SUGARS": "SUGAR"}


def _counted(tag: str) -> str:
    """The dataset's nutrient that a derived one is worked out from."""
    return _COUNTED.get(tag, tag)


def _incomplete(rows: Sequence[LabelRow], coverage: Mapping[str, float]) -> list[dict[str, Any]]:
    """Rows whose amount is a floor, since the dataset does not know it for part of the weight."""
    shares = [(row.tag, coverage.get(_counted(row.tag))) for row in rows]
    return [{"tag": tag, "coverage": share} for tag, share in shares if share is not None and share < 1]
