"""Reference values for people: daily values and intakes by audience, and an amount as a share of them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass
from functools import cache
from typing import Any

from ..core.checked import law_name, stated_by
from ..core.errors import Fault, InvalidRequest
from ..core.numbers import whole_percent
from ..core.tables import Row, load, rows

DEFAULT_AUDIENCE = "adult"
_MARKS = ("verified", "verified-2nd", "memory")


@dataclass(frozen=True, slots=True)
class Audience:
    """A group of people. covers: the plain groups it stands for."""

    audience: str
    name: str
    covers: frozenset[str]


@dataclass(frozen=True, slots=True)
class ReferenceValue:
    """A figure per day, in `unit`, that an intake of `tag` is compared with.

    kind: "daily_value", "reference_intake", "nutrient_reference_value", "daily_limit", "daily_minimum",
    "recommended_allowance" and "reference_nutrient_intake" (enough for nearly everyone, no limits),
    "adequate_intake" (enough, no limit) or "chronic_disease_risk_reduction".
    mark: how well the figure is known: "verified", "verified-2nd" (by a quotation) or "memory".
    row: its name among the rows of law (`core/checked.py`).
    """

    reference: str
    kind: str
    tag: str
    audience: str
    value: float
    unit: str
    source: str
    mark: str
    note: str
    row: str


@cache
def audiences() -> dict[str, Audience]:
    """Every audience by its id."""
    return {audience.audience: audience for audience in load("audiences", _audience)}


@cache
def all_values() -> tuple[ReferenceValue, ...]:
    """Every reference value in the table."""
    return load("reference_values", _reference_value)


@cache
def scheme_names() -> dict[str, str]:
    """The name of each scheme, by its id."""
    return {row["reference"]: row["name"] for row in rows("reference_schemes")}


def covered(audience: str | None) -> frozenset[str]:
    """The plain groups that an audience stands for; adults where none is named.

    Raises InvalidRequest where there is no such audience.
    """
    try:
        return audiences()[audience or DEFAULT_AUDIENCE].covers
    except KeyError:
        known = ", ".join(audiences())
        message = f"There is no audience {audience!r}; choose one of: {known}."
        raise InvalidRequest([Fault("/audience", message)]) from None


@cache
def values_for(audience: str | None = None) -> tuple[ReferenceValue, ...]:
    """The values that apply to an audience, in the order of the table. Raises InvalidRequest."""
    wanted = covered(audience)
    return tuple(value for value in all_values() if audiences()[value.audience].covers & wanted)


def reference_values(audience: str | None = None) -> list[dict[str, Any]]:
    """The values that apply to an audience (adults where none is named), as documents.

    Raises InvalidRequest where there is no such audience.
    """
    return [_document(value) for value in values_for(audience)]


def audience_documents() -> list[dict[str, str]]:
    """The audiences a caller may name."""
    return [{"audience": each.audience, "name": each.name} for each in audiences().values()]


def sodium_references(audience: str | None = None) -> list[dict[str, Any]]:
    """What a sodium intake is set against, in mg a day: {id, name, kind, limit_mg, per, source, mark, row,
    checked_against, note}.

    One for each scheme that has a figure for the audience; where an audience holds several groups with
    different figures, the lowest. Raises InvalidRequest where there is no such audience.
    """
    lowest: dict[str, ReferenceValue] = {}
    for value in values_for(audience):
        if value.tag == "NA":
            held = lowest.setdefault(value.reference, value)
            lowest[value.reference] = min(held, value, key=lambda each: each.value)
    return [_sodium_document(value) for value in lowest.values()]


def percent_of(amount: float, reference: float) -> int:
    """An amount as a whole per cent of a reference value in the same unit, half-way values up.

    Raises ValueError where the reference is not above 0.
    """
    if not reference > 0:
        raise ValueError(f"a reference value must be above 0, got {reference}")
    return whole_percent(amount, reference)


def reference_value(references: Sequence[str], tag: str, audience: str | None = None) -> float | None:
    """The value of a nutrient, in its own unit, under the first of some references that has one; else None.

    Raises InvalidRequest where there is no such audience.
    """
    found = (_by_tag(reference, audience).get(tag) for reference in references)
    return next((value for value in found if value is not None), None)


def daily_value(tag: str, audience: str | None = None) -> float | None:
    """The FDA daily value of a nutrient, in its own unit, or None where there is none."""
    return reference_value(("fda_daily_value",), tag, audience)


def daily_values(audience: str | None = None) -> Mapping[str, float]:
    """The FDA daily values by tag, each in its nutrient's own unit."""
    return _by_tag("fda_daily_value", audience)


@cache
def _by_tag(reference: str, audience: str | None) -> dict[str, float]:
    found: dict[str, float] = {}
    for value in values_for(audience):
        if value.reference == reference:
            found.setdefault(value.tag, value.value)
    return found


def _document(value: ReferenceValue) -> dict[str, Any]:
    names = {"name": scheme_names()[value.reference], "audience_name": audiences()[value.audience].name}
    return asdict(value) | names | {"checked_against": list(stated_by(value.row))}


def _sodium_document(value: ReferenceValue) -> dict[str, Any]:
    return {
        "id": value.reference,
        "name": scheme_names()[value.reference],
        "kind": value.kind,
        "limit_mg": value.value,
        "per": "day",
        "source": value.source,
        "mark": value.mark,
        "row": value.row,
        "checked_against": list(stated_by(value.row)),
        "note": value.note,
    }


def _audience(row: Row) -> Audience:
    return Audience(row["audience"], row["name"], frozenset(row["covers"].split() or [row["audience"]]))


def _reference_value(row: Row) -> ReferenceValue:
    if row["audience"] not in audiences():
        raise ValueError(f"no audience {row['audience']!r}")
    if row["reference"] not in scheme_names():
        raise ValueError(f"no scheme {row['reference']!r}")
    if row["mark"] not in _MARKS:
        raise ValueError(f"mark must be one of {_MARKS}, got {row['mark']!r}")
    value = float(row["value"])
    if not value > 0:
        raise ValueError(f"a value must be above 0, got {value}")
    name = law_name("reference_values", row)
    return ReferenceValue(**{**row, "value": value, "row": name})  # type: ignore[arg-type]
