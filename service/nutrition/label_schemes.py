"""Label schemes: what tells the label of one law from that of another, as data."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from ..core.tables import Row, load
from .dietary_references import reference_value


@dataclass(frozen=True, slots=True)
class LabelRow:
    """One row of a label.

    rounding, percent: rules of label_rounding.csv; depth: 0, or 1 and 2 for parts of the row above. presence:
    "required", "voluntary" or "significant". front: it stands on the front of pack too. printed_name,
    printed_unit: as the label has them; `{}` in a name is where the amount stands.
    """

    tag: str
    name: str
    unit: str
    depth: int
    rounding: str
    percent: str
    presence: str
    front: bool
    printed_name: str
    printed_unit: str


@dataclass(frozen=True, slots=True)
class LabelScheme:
    """A row of label_schemes.csv, whose head says what each column means."""

    scheme: str
    rows: tuple[LabelRow, ...]
    rounding: str
    bases: tuple[str, ...]
    tolerance_bases: tuple[str, ...]
    energy: str
    references: tuple[str, ...]
    by_audience: bool
    significant_percent: float
    small_reference_g: float
    front_per_100g: tuple[str, ...]
    caption: str
    lead: tuple[str, ...]
    first_head: str
    percent_head: str
    less_than: str
    statement: str
    conventions: tuple[str, ...]
    source: str
    mark: str

    def reference(self, tag: str, audience: str | None = None) -> float | None:
        """What a day's intake of a nutrient is compared with, in its own unit; None: nothing."""
        return reference_value(self.references, tag, audience if self.by_audience else None)

    def shows(self, row: LabelRow, basis: str, per_100g: Mapping[str, float], *, known: bool) -> bool:
        """Whether a row stands in the column of a basis. known: its amount is."""
        if self.front_per_100g:
            return row.front and (basis == "per_serving" or row.tag in self.front_per_100g)
        if row.presence == "significant":
            reference = self.reference(row.tag)
            if reference is None or not known:
                return False
            return 100 * per_100g.get(row.tag, 0.0) >= self.significant_percent * reference
        return known or row.presence == "required"


@cache
def label_schemes() -> dict[str, LabelScheme]:
    """Every scheme by its id ("fda", "eu", "uk"), in the order of the table."""
    return {each.scheme: each for each in load("label_schemes", _scheme)}


def _scheme(row: Row) -> LabelScheme:
    lists = {key: tuple(row[key].split()) for key in _LISTS}
    texts = {key: tuple(row[key].split("|")) for key in ("lead", "conventions")}
    numbers = {key: float(row[key] or 0) for key in ("significant_percent", "small_reference_g")}
    parts = {"rows": load(row["rows"], _row), "by_audience": row["by_audience"] == "yes"}
    return LabelScheme(**{**row, **lists, **texts, **numbers, **parts})  # type: ignore[arg-type]


_LISTS = ("bases", "tolerance_bases", "references", "front_per_100g")


def _row(row: Row) -> LabelRow:
    named = {"printed_name": row["name"], "printed_unit": row["unit"]}
    typed = {"depth": int(row["depth"]), "front": row.get("front") == "yes"}
    return LabelRow(**{**named, **row, **typed})  # type: ignore[arg-type]
