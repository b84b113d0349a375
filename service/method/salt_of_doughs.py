"""Salt that the list gives for a dough, told from that which the method puts elsewhere and no line lists."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from .clauses import Clause
from .listed import Index
from .mention import Mention

_SALT = re.compile(r"\bsalt\b", re.IGNORECASE)
_SEASONS = frozenset({"salt", "spice"})


def tell_salts_apart(clauses: Sequence[Clause], index: Index) -> list[Clause]:
    """Clauses in which "salt" of no amount is none of the list's, where all that the list has is of a dough
    and the paragraph speaks of the other parts alone: "season the chicken with salt", beside dumplings."""
    salts = index.of_kinds("salt")
    sections = {line.heading for line in index.lines if line.kind == "salt" or _SALT.search(line.text)}
    doughs = {line.heading for line in index.lines if line.kind == "flour" and line.heading}
    if not salts or not sections <= doughs:
        return list(clauses)
    told = {clause.method: clause.heading for clause in clauses}
    near: dict[int, set[str]] = {method: {heading} - {""} for method, heading in told.items()}
    headings = {line.index: line.heading for line in index.lines if line.kind not in _SEASONS}
    for clause in clauses:
        for mention in clause.mentions:
            if len(mention.lines) == 1:  # "flour", of two parts, says nothing
                near[clause.method] |= {headings[n] for n in mention.lines if n in headings}
    apart = {method for method, said in near.items() if said and said.isdisjoint(sections)}
    return [_unlisted(clause, frozenset(salts)) if clause.method in apart else clause for clause in clauses]


def _unlisted(clause: Clause, salts: frozenset[int]) -> Clause:
    """The clause with its salt as one that no line names."""
    told = tuple(_told(mention, salts) for mention in clause.mentions)
    if told == clause.mentions:
        return clause
    return replace(clause, mentions=told, speaks=frozenset([mention.kind for mention in told]))


def _told(mention: Mention, salts: frozenset[int]) -> Mention:
    own = frozenset(mention.lines) & salts
    if not own or mention.amount is not None or mention.portion is not None:
        return mention
    others = tuple(n for n in mention.lines if n not in salts)
    return mention._replace(lines=others) if others else mention._replace(kind="salt", lines=())
