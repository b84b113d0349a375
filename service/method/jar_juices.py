"""The juice of a jar in which other food lies: "marinate the chicken in the pickle juice"."""

from __future__ import annotations

import re
from dataclasses import replace

from .clauses import Clause
from .listed import Index
from .mention import Mention, kinds_of

_SAID = frozenset({"juice", "brine", "liquid"})
_PICKLES = r"(?P<{}>pickles?|gherkins?|cornichons?|olives?|capers?|pepperoncini|sauerkraut)"
_OF_JAR = re.compile(
    rf"\b{_PICKLES.format('before')} (?:juice|brine|liquid)\b"
    rf"|\b(?:juice|brine|liquid) (?:from|of) (?:the |a |jar |of )*{_PICKLES.format('behind')}\b",
    re.IGNORECASE,
)
_IN = frozenset({"in", "into"})
_LIES = frozenset({"marinate", "soak", "brine", "put", "hold"})
_SHARE = 0.4
"""Of what a jar holds, that is its liquid; common practice, no source."""


def juices_of_jars(clauses: list[Clause], index: Index) -> list[Clause]:
    """The clauses, in which the juice of pickles is a part of their line, where other food lies in it."""
    if "salty" not in index.by_kind:
        return clauses
    return [each if _SAID.isdisjoint(each.words) else _told_by_line(each, index) for each in clauses]


def _told_by_line(clause: Clause, index: Index) -> Clause:
    found = _OF_JAR.search(clause.text) if clause.act in _LIES else None
    if found is None:
        return clause
    word = (found["before"] or found["behind"]).lower()
    named = [line for stem in {word, word.removesuffix("s")} for line in index.by_word.get(stem, ())]
    if not all(_SAID.isdisjoint(line.text.lower().split()) for line in named):
        return clause  # "500 ml pickle juice" is a line of its own
    jars = [line.index for line in named if line.kind == "salty"]
    since = clause.tokens[0].start
    inside = [
        m for m in clause.mentions if _lies_within(clause, m, found.start() + since, found.end() + since)
    ]
    if len(set(jars)) != 1 or not inside or inside[0].prep not in _IN:
        return clause
    juice = replace(inside[0], kind="line", lines=(jars[0],), name="", portion=_SHARE, amount=None)
    mentions = tuple(juice if m is inside[0] else m for m in clause.mentions if m not in inside[1:])
    return replace(clause, mentions=mentions, speaks=kinds_of(mentions))


def _lies_within(clause: Clause, mention: Mention, start: int, end: int) -> bool:
    return start <= clause.tokens[mention.i].start < end
