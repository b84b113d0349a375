"""Things that lie each in its own water: "the beans in one bowl of cold water and the ribs in another", "boil
the potatoes with a teaspoon of salt and the beans with a teaspoon of salt"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from .clauses import Clause, moved
from .happenings import SOLIDS
from .listed import Index
from .mention import Mention, kinds_of
from .method_words import BOILS

_OTHER = frozenset({"another", "second"})
_SHARED = frozenset({"water", "vessel", "salt"})


def each_in_its_own(clauses: list[Clause], index: Index) -> list[Clause]:
    """The clauses, of which one that lays two things in two waters, or boils them so, is told as two."""
    if [c for c in clauses if c.act in BOILS and len(c.mentions) > 2 and "and" in c.words]:
        clauses = [part for clause in clauses for part in _in_two_pots(clause, index)]
    if not [each for each in clauses if "water" in each.speaks and not _OTHER.isdisjoint(each.words)]:
        return clauses
    return [part for clause in clauses for part in _parted(clause)]


def _parted(clause: Clause) -> list[Clause]:
    texts = [token.text for token in clause.tokens]
    at = next((i for i in range(2, len(texts)) if texts[i] in _OTHER and _is_in(texts[i - 2 : i])), 0)
    water = next((m for m in clause.mentions if m.kind == "water" and m.prep and m.i < at), None)
    if water is None:
        return [clause]
    others = [m for m in clause.mentions if m.kind == "line" and water.j <= m.i < at]
    first = tuple(m for m in clause.mentions if m.i < water.j)
    if not others or all(m.kind != "line" for m in first):
        return [clause]
    shared = (m for m in first if m.kind in _SHARED)
    second = (*(replace(m, prep="") for m in others), *shared)
    return [replace(clause, mentions=each, speaks=kinds_of(each)) for each in (first, second)]


def _is_in(before: Sequence[str]) -> bool:
    """ "In another", "in a second"."""
    return before[1] in ("in", "into") or (before[0] in ("in", "into") and before[1] == "a")


def _in_two_pots(clause: Clause, index: Index) -> list[Clause]:
    """ "Boil the potatoes with 1 tsp salt and the beans with 1 tsp salt", each with salt of its own."""
    if clause.act not in BOILS or "and" not in clause.words or clause.negated:
        return [clause]
    for at, token in enumerate(clause.tokens):
        behind = next((m for m in clause.mentions if m.i > at), None) if token.text == "and" else None
        if behind is None or behind.i > at + _ARTICLES or index.kinds(behind.lines).isdisjoint(SOLIDS):
            continue
        first = tuple(m for m in clause.mentions if m.i < at)
        second = tuple(m for m in clause.mentions if m.i > behind.i)
        foods = [m for m in first if not m.prep and not index.kinds(m.lines).isdisjoint(SOLIDS)]
        said = {token.text for token in clause.tokens[at:]}
        both = any(_salts(m, index) for m in second) or said >= {"other", "half"}
        both = both and any(_salts(m, index) for m in first)
        placed = any(m.kind in ("vessel", "water") or _salts(m, index) for m in first)
        other = placed and not _ELSEWHERE.isdisjoint(said)
        if foods and (both or other):
            return [_begun(clause, first, at), _gone_on(clause, at + 1)]
    return [clause]


_ARTICLES = 3
_ELSEWHERE = frozenset({"another", "separate"})


def _salts(mention: Mention, index: Index) -> bool:
    """Whether water or a measure of salt is told: "in salted water", "with 1 tsp salt"."""
    return mention.kind == "salt" or (bool(mention.prep) and "salt" in index.kinds(mention.lines))


def _begun(clause: Clause, mentions: tuple[Mention, ...], at: int) -> Clause:
    tokens = clause.tokens[:at]
    text = clause.text[: tokens[-1].end - tokens[0].start]
    hours = tuple(span for span in clause.hours if span.i < at)
    return replace(
        clause,
        end=tokens[-1].end,
        text=text,
        tokens=tokens,
        mentions=mentions,
        hours=hours,
        words=frozenset(token.text for token in tokens),
        aim=len(tokens),
        speaks=kinds_of(mentions),
    )


def _gone_on(clause: Clause, at: int) -> Clause:
    """What stands behind the "and", of which the first thing boils."""
    tokens = clause.tokens[at:]
    mentions = tuple(moved(m, at) for m in clause.mentions if m.i >= at)
    mentions[0].prep = ""
    hours = tuple(span._replace(i=span.i - at, j=span.j - at) for span in clause.hours if span.i >= at)
    return replace(
        clause,
        start=tokens[0].start,
        text=clause.text[tokens[0].start - clause.tokens[0].start :],
        tokens=tokens,
        mentions=mentions,
        hours=hours,
        speaks=kinds_of(mentions),
        words=frozenset(token.text for token in tokens),
        aim=len(tokens),
        opens=False,
    )
