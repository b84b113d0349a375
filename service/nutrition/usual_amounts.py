"""Usual amounts that stand in where a recipe says none (usual_amounts.csv)."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from ..core.notices import Assumption
from ..core.spread import Spread
from ..core.tables import rows


@dataclass(frozen=True, slots=True)
class UsualAmount:
    """A row of the table: its spread in `unit`, and its source, which knows the row."""

    name: str
    spread: Spread
    unit: str
    source: str

    @property
    def assumption(self) -> Assumption:
        """What an answer that rests on it says of it."""
        return Assumption(f"usual/{self.name}", self.spread, self.unit, self.source)


@cache
def usual(name: str) -> UsualAmount:
    """The amount of that id. Raises KeyError where there is none."""
    found = {row["id"]: row for row in rows("usual_amounts")}[name]
    return UsualAmount(name, Spread.from_mapping(found), found["unit"], found["source"])
