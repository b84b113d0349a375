"""Time that food lies on in changed water: "soak 12 hours; new water; 12 hours", "soak another 12"."""

from __future__ import annotations

import re
from dataclasses import replace

from .clauses import Clause
from .happenings import Happening
from .times_and_sizes import Span

_BARE = re.compile(r"\b(?:another|further|for) (?P<n>\d+(?:\.\d+)?)(?: more| longer)?[.;,]?$", re.IGNORECASE)
_UNIT = re.compile(r"\b\d+(?: | ?- ?\d+ )?(?P<unit>hours?|hrs?|h|days?|minutes?|mins?)\b", re.IGNORECASE)
_HOURS = {"h": 1.0, "d": 24.0, "m": 1 / 60}
_CHANGED = re.compile(
    r"\b(?:chang\w+|renew\w*|refresh\w*|replac\w+) (?:the|its|their) water\b[^.]{0,9}$"
    r"|\b(?:fresh|new|clean)(?: cold)? water\b[^.\w]{0,3}(?:and |then |again )*$",
    re.IGNORECASE,
)


def with_unit_of(bath: Happening, clause: Clause) -> Clause:
    """A clause whose number takes its unit from the bath before: "soak 12 hours. … Soak another 12"."""
    bare = _BARE.search(clause.text) if not clause.hours else None
    unit = _UNIT.search(bath.clause.text) if bare is not None else None
    if bare is None or unit is None:
        return clause
    hours = float(bare["n"]) * _HOURS[unit["unit"][0].lower()]
    return replace(clause, hours=(Span(hours, hours, hours, 0, 0),))


def lies_in_new_water(bath: Happening, clause: Clause) -> bool:
    """Whether the words before a clause change the water in which food lies on from then."""
    if not clause.hours:
        return False
    if not (clause.act or clause.mentions) and bath.water_changes:
        return True  # "new water; 8 hours"
    return _CHANGED.search(clause.sentence.partition(clause.text)[0]) is not None
