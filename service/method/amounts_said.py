"""Amounts of salt and sauces that the method gives, where the list gives none."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from .clause_words import goal
from .clauses import Clause

if TYPE_CHECKING:
    from .reading_state import ReadingState

ONE = re.compile(r"^(?:the|a|an)\s", re.IGNORECASE)


def note_amounts(state: ReadingState, clause: Clause) -> None:
    """Amounts of salt that the method gives where the list gives none."""
    for mention in clause.mentions:
        if mention.kind != "line" or mention.amount is None or goal(clause, mention):
            continue
        said_salt = clause.tokens[mention.j - 1].stem == "salt"
        for line in state.nearest(mention, clause):
            if state.kind(line) == "salt" and not said_salt:
                continue  # "a pinch of nutmeg", of a line of salt, pepper and nutmeg
            if state.kind(line) in ("salt", "savoury") and state.lines[line].line.amount is None:
                first, last = clause.tokens[mention.amount[0]], clause.tokens[mention.amount[1] - 1]
                since = clause.tokens[0].start
                said = clause.text[first.start - since : last.end - since]
                state.amounts.setdefault(line, []).append(ONE.sub("1 ", said))
