"""The nutrients: their tags, units and order in every array of amounts (table: seed_foods/nutrients.csv)."""

from __future__ import annotations

from dataclasses import dataclass

from ..core.tables import Row, load


@dataclass(frozen=True, slots=True)
class Nutrient:
    """One nutrient.

    tag: INFOODS tagname. unit: "g", "mg", "µg", "kcal" or "IU", per 100 g of food. decimals: as USDA prints.
    source_column: place in USDA's ABBREV.txt (0 is the code), None where the figure is derived by us.
    dissolves: the nutrient goes where the water goes.
    """

    tag: str
    name: str
    unit: str
    decimals: int
    source_column: int | None
    dissolves: bool
    tag_source: str
    note: str


def _nutrient(row: Row) -> Nutrient:
    column = row["source_column"]
    return Nutrient(
        tag=row["tag"],
        name=row["name"],
        unit=row["unit"],
        decimals=int(row["decimals"]),
        source_column=int(column) if column else None,
        dissolves=row["dissolves"] == "yes",
        tag_source=row["tag_source"],
        note=row["note"],
    )


NUTRIENTS: tuple[Nutrient, ...] = load("nutrients", _nutrient)
"""Every nutrient, in array order."""

INDEX: dict[str, int] = {nutrient.tag: place for place, nutrient in enumerate(NUTRIENTS)}
"""Place of each nutrient in an array, by tag."""

TAGS = tuple(INDEX)
"""Every nutrient's tag, in array order."""
