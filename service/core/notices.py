"""What a calculation tells about itself: the assumptions it rests on and the notices it gives."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, NamedTuple

from .spread import Spread
from .tables import row_of

Severity = Literal["info", "check", "stop"]

MEASURED = "measured in the kitchen"
STATED = "stated by the caller"
"""Sources of figures that are no table's."""


class Assumption(NamedTuple):
    """A figure that the answer rests on, with the spread that is meant to hold it nine times in ten.

    id: stable name, unique within an answer ("step-0-diffusivity"); equal ids share one random draw.
    value: the spread, in `unit`.
    source: where the figure comes from, in words; "measured", "stated by the caller", a publication,
        "common practice, no source" or "from memory".
    step: index of the step it belongs to, or None.
    """

    id: str
    value: Spread
    unit: str
    source: str
    step: int | None = None

    @property
    def row(self) -> str:
        """The row of the tables that it is ("drip:meat/roast"); "" where it is of none."""
        return row_of(self.source)


@dataclass(frozen=True, slots=True)
class Notice:
    """Something the reader of an answer should know.

    code: stable, kebab-case. severity: "info" (good to know), "check" (a person should look) or
    "stop" (do not cook or publish this as it stands). pointer: JSON Pointer into the request.
    """

    code: str
    severity: Severity
    message: str
    pointer: str = ""

    def below(self, pointer: str) -> Notice:
        """The same notice, its pointer prefixed by `pointer`."""
        return Notice(self.code, self.severity, self.message, pointer + self.pointer)


DEFER = "Local codes and licensed practice come first."
"""How every notice of safety ends: none is a clearance, and the rules held here are not everybody's."""


def safety_notice(code: str, severity: Severity, message: str, pointer: str = "") -> Notice:
    """A notice that ends by deferring to local codes and licensed practice."""
    return Notice(code, severity, f"{message} {DEFER}", pointer)
