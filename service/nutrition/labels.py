"""Label views: what a US, EU or UK label would print of an answer, row by row, with what was decided and why.

Per cent of a daily value or reference intake is taken of the amount before rounding; where the declared
amount is 0 it is 0, so that no row says "0 g" and "2 %". What is not known is said to be so, never 0.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import asdict, dataclass
from functools import cache
from typing import Any

from ..core.errors import Fault, InvalidRequest
from ..core.tables import Row, load
from .dietary_references import daily_value, reference_intake
from .energy import Amounts, eu_energy, with_derived
from .label_rounding import Declared, declare
from .reference_amounts import ReferenceAmount, reference_amount
from .tolerances import tolerance

INCOMPLETE = "incomplete"
"""What stands in place of a figure for sodium or salt where not all of it was counted."""

SIGNIFICANT_PERCENT = 15
"""A vitamin or mineral may stand on an EU label from this per cent of its NRV in 100 g on (Annex XIII A)."""


@dataclass(frozen=True, slots=True)
class Rule:
    """One row of a label. rounding, percent: rules of label_rounding.csv; depth: 0, or 1 and 2 for parts."""

    tag: str
    name: str
    unit: str
    depth: int
    rounding: str
    percent: str
    presence: str
    front: bool


@dataclass(frozen=True, slots=True)
class Column:
    """Amounts to be declared side by side. basis: "per_serving", "per_100g" or "per_reference_amount"."""

    basis: str
    weight_g: float
    amounts: Amounts


@dataclass(frozen=True, slots=True)
class _Scheme:
    table: str
    rounding: str
    statement: str
    source: str
    conventions: tuple[str, ...]


_COMMON = (
    "Half-way values are rounded up.",
    "Per cent is taken of the amount before rounding, and is 0 where the declared amount is 0.",
)
_EU_COMMON = (
    "Salt is all sodium times 2.5; energy is by the factors of Annex XIV; carbohydrate is without fibre.",
    "Amounts are by weight; a drink needs its density to be declared per 100 ml.",
)
_SCHEMES = {
    "fda": _Scheme(
        "label_rules_fda",
        "fda",
        "The % Daily Value (DV) tells you how much a nutrient in a serving of food contributes to a daily "
        "diet. 2,000 calories a day is used for general nutrition advice.",
        "21 CFR 101.9",
        (
            *_COMMON,
            "Calories are by the specific factors of each food (101.9(c)(1)(i)(A)).",
            "Protein has no % Daily Value, which would need the quality of the protein.",
        ),
    ),
    "eu": _Scheme(
        "label_rules_eu",
        "eu",
        "Reference intake of an average adult (8400 kJ/2000 kcal)",
        "Regulation (EU) No 1169/2011, Annex XV, and the Commission's guidance of December 2012",
        (*_COMMON, *_EU_COMMON),
    ),
    "uk": _Scheme(
        "label_rules_eu",
        "eu",
        "Reference intake of an average adult (8400 kJ/2000 kcal)",
        "Regulation (EU) No 1169/2011 as retained in UK law, Article 30(3)(b)",
        (*_COMMON, *_EU_COMMON, "Numbers only: no colours and no words for high or low are given."),
    ),
}
SCHEMES = tuple(_SCHEMES)


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
    """What a label under a scheme ("fda", "eu", "uk") would print.

    per_serving, per_100g: amounts by tag, likely values, each in the unit of seed_foods/nutrients.csv, and
    ADDED_SUGARS in g where known. coverage: share (0 to 1) of the weight whose value is known, by tag.
    dish_class: an id of reference_amounts.csv; then fda has a column for the reference amount as well.
    audience: whose daily values (fda only). complete: whether all sodium was counted; where it was not,
    sodium and salt are declared by no figure. Raises InvalidRequest for an unknown scheme, dish class or
    audience.
    """
    rules = _scheme(scheme)
    reference = reference_amount(dish_class)
    given = [Column("per_serving", serving_weight_g, per_serving), Column("per_100g", 100.0, per_100g)]
    columns = list(_columns(scheme, given, reference))
    documents = [_column_document(scheme, column, columns, coverage or {}, audience) for column in columns]
    if not complete:
        documents = [_without_sodium(document) for document in documents]
    return {
        "scheme": scheme,
        "statement": rules.statement,
        "source": rules.source,
        "conventions": list(rules.conventions),
        "serving": _serving(serving_weight_g, reference),
        "sodium_complete": complete,
        "columns": documents,
        "incomplete": _incomplete(rules.table, coverage or {}),
    }


def _scheme(scheme: str) -> _Scheme:
    try:
        return _SCHEMES[scheme]
    except KeyError:
        message = f"There is no label {scheme!r}; choose one of: {', '.join(SCHEMES)}."
        raise InvalidRequest([Fault("/label", message)]) from None


def _columns(scheme: str, given: list[Column], reference: ReferenceAmount | None) -> Iterator[Column]:
    serving, hundred = given
    if scheme != "fda":
        yield from (Column(c.basis, c.weight_g, _eu_amounts(c.amounts)) for c in (hundred, serving))
        return
    yield serving
    if reference and reference.amount_g:
        share = reference.amount_g / 100
        amounts = {tag: amount * share for tag, amount in hundred.amounts.items()}
        yield Column("per_reference_amount", reference.amount_g, amounts)


def _eu_amounts(amounts: Amounts) -> dict[str, float]:
    derived = {tag: amount for tag, amount in with_derived(amounts).items() if tag != "ENERC"}
    energy = eu_energy(amounts)
    return derived if energy is None else derived | {"ENERC": energy.kcal, "ENERC_KJ": energy.kj}


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
        }
    return document


def _column_document(
    scheme: str, column: Column, columns: list[Column], coverage: Mapping[str, float], audience: str | None
) -> dict[str, Any]:
    hundred = next((c.amounts for c in columns if c.basis == "per_100g"), column.amounts)
    rows = [
        _row_document(scheme, rule, column, coverage.get(_counted(rule.tag)), audience)
        for rule in rules_of(_SCHEMES[scheme].table)
        if _is_shown(scheme, rule, column, hundred)
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


def _is_shown(scheme: str, rule: Rule, column: Column, per_100g: Amounts) -> bool:
    if scheme == "uk":
        return rule.front and (column.basis == "per_serving" or rule.tag.startswith("ENERC"))
    if rule.presence == "required":
        return True
    return rule.tag in column.amounts and (
        rule.presence == "voluntary" or _is_significant(rule.tag, per_100g)
    )


def _is_significant(tag: str, per_100g: Amounts) -> bool:
    reference = reference_intake(tag)
    return reference is not None and 100 * per_100g.get(tag, 0.0) >= SIGNIFICANT_PERCENT * reference


def _row_document(
    scheme: str, rule: Rule, column: Column, coverage: float | None, audience: str | None
) -> dict[str, Any]:
    amount = column.amounts.get(rule.tag)
    document: dict[str, Any] = {
        "tag": rule.tag,
        "name": rule.name,
        "depth": rule.depth,
        "unit": rule.unit,
        "amount": amount,
        "declared": None,
        "percent": None,
        "coverage": coverage,
    }
    if amount is None:
        return document | {"note": "not known"}
    declared = declare(_SCHEMES[scheme].rounding, rule.rounding, max(amount, 0.0))
    document["declared"] = words(scheme, rule, declared)
    document["percent"] = _percent(scheme, rule, amount, declared, audience)
    if column.basis == "per_100g" or scheme == "fda":
        document["tolerance"] = _tolerance(_SCHEMES[scheme].rounding, rule.tag, declared)
    return document


def words(scheme: str, rule: Rule, declared: Declared) -> str:
    """The declared amount with its unit, as it is printed (a US label has no unit after calories)."""
    if scheme != "fda":
        return f"{declared.words} {rule.unit}"
    return declared.words if rule.tag == "ENERC" else f"{declared.words} {rule.unit.replace('µg', 'mcg')}"


def _percent(scheme: str, rule: Rule, amount: float, declared: Declared, audience: str | None) -> int | None:
    reference = daily_value(rule.tag, audience) if scheme == "fda" else reference_intake(rule.tag)
    if not rule.percent or reference is None:
        return None
    if not declared.amount:
        return 0
    percent = declare(_SCHEMES[scheme].rounding, rule.percent, 100 * max(amount, 0.0) / reference)
    return int(percent.amount)


def _tolerance(scheme: str, tag: str, declared: Declared) -> dict[str, Any] | None:
    found = tolerance(scheme, tag, float(declared.amount))
    return asdict(found) if found else None


_COUNTED = {"SALT": "NA", "ENERC_KJ": "ENERC", "CHOAVL": "CHOCDF", "ADDED_SUGARS": "SUGAR"}


def _counted(tag: str) -> str:
    """The dataset's nutrient that a derived one is worked out from."""
    return _COUNTED.get(tag, tag)


def _incomplete(table: str, coverage: Mapping[str, float]) -> list[dict[str, Any]]:
    """Rows whose amount is a floor, since the dataset does not know it for part of the weight."""
    shares = [(rule.tag, coverage.get(_counted(rule.tag))) for rule in rules_of(table)]
    return [{"tag": tag, "coverage": share} for tag, share in shares if share is not None and share < 1]


@cache
def rules_of(table: str) -> tuple[Rule, ...]:
    """The rows of a label table, in the order in which they are printed."""
    return load(table, _rule)


def _rule(row: Row) -> Rule:
    return Rule(
        tag=row["tag"],
        name=row["name"],
        unit=row["unit"],
        depth=int(row["depth"]),
        rounding=row["rounding"],
        percent=row["percent"],
        presence=row["presence"],
        front=row.get("front") == "yes",
    )
