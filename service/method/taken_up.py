"""Water of a pot that its food takes up, or that boils away: none of it is left to be poured off."""

from __future__ import annotations

import re

from .clauses import Clause
from .happenings import Happening

_GONE = ("absorb", "evaporat", "gone", "away", "off", "no ", "dr", "up")
_KEEPS = re.compile(
    r"water (?:is|has been|gets) (?:fully |all )?(?:taken|soaked) up|absorb|evaporat"
    r"|(?:water|liquid) (?:is|has) (?:all |almost |nearly )?(?:gone|(?:been )?(?:boiled|cooked) (?:off|away))"
    r"|(?:drinks?|drunk|drank|(?:soaks?|takes?|taken|sucks?) up) (?:up )?(?:all )?(?:the )?(?:water|liquid)"
    r"|no (?:more )?(?:water|liquid) (?:is left|remains)",
    re.IGNORECASE,
)


def note_absorbed(pot: Happening, clause: Clause) -> None:
    """Note where a clause says that a pot's water is gone: "until the rice has drunk up the water"."""
    if any(map(clause.text.__contains__, _GONE)) and _KEEPS.search(clause.text):
        pot.absorbed = True
