"""What a clause says in passing of a liquid: "the drained pasta", "clean under a running tap"."""

from __future__ import annotations

import re

from .clauses import Clause
from .reading_state import COLD, HOT, ReadingState

_TAP = re.compile(
    r"\brun (?:some )?(?:cold |fresh )*water (?:over|through)\b|"
    r"\b(?:under|beneath|in) (?:a |the |cold |running |gently )*(?:running (?:cold )?(?:water|tap)|tap)\b",
    re.IGNORECASE,
)


def under_the_tap(state: ReadingState, clause: Clause) -> None:
    """ "Scrape it clean under a running tap": it is rinsed."""
    if clause.act == "rinse" or not clause.has("tap", "running", "run") or not _TAP.search(clause.text):
        return
    found = state.latest(COLD)
    if found is not None and clause.act in ("dry", "remove", "other", "put", "hold", ""):
        found.rinsed = found.drained = found.closed = True
        found.rinsing = found.rinsing or clause
        found.eaten = 0.0 if found.kind == "dry_cure" else found.eaten


def adjectives(state: ReadingState, clause: Clause) -> None:
    """ "Add the drained pasta", "the rinsed capers", "marinated chicken"."""
    if not clause.has("drained", "rinsed"):
        return
    for i, token in enumerate(clause.tokens[:-1]):
        if token.text not in ("drained", "rinsed"):
            continue
        mention = next((m for m in clause.mentions if i < m.i <= i + 4 and m.kind == "line"), None)
        if mention is None:
            continue
        found = state.latest((*HOT, *COLD), mention.lines)
        if found is not None:
            found.drained = True
            found.rinsed = found.rinsed or (token.text == "rinsed" and found.kind in COLD)
            found.closed = True
