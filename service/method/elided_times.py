"""Times of which the unit stands with the time before: "soak for two hours and boil for three"."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from .method_words import verbs
from .numbers_said import is_number
from .prose_tokens import Token
from .times_and_sizes import Span, range_at

MORE = frozenset({"another", "further"})
MAY_ELIDE = MORE | {"for", "other"}
"""Words one of which stands in every sentence with such a time."""
_TAKE_TIME = frozenset(
    {"boil", "simmer", "cook", "soak", "hold", "roast", "fry", "brine", "marinate", "cure"}
)
"""Acts that "for three" behind them times: and none of serving, for "serve for two" counts people."""
_ENDS = frozenset({".", ",", ";", ":", "!", ")", "and", "then"})
_NEXT = frozenset({"in", "under", "on"})
_THERE = frozenset({"fresh", "new", "clean", "cold", "the", "other", "a"})
_SIDES = frozenset({"side", "skin", "face"})


def with_elided(tokens: Sequence[Token], spans: list[Span]) -> list[Span]:
    """The times of a sentence, and those that take their unit from the one before: "for another twelve"."""
    found = list(spans)
    for i in range(spans[0].j, len(tokens) - 1):
        leads = tokens[i].text in MAY_ELIDE and is_number(tokens[i + 1].text)
        if not (leads and _begins(tokens, i)):
            continue
        number, before = range_at(tokens, i + 1), [span for span in found if span.j <= i]
        known = number is None or any(span.i <= i + 1 < span.j for span in found)
        if number is None or known or not before or not _ends(tokens, number.j, again=tokens[i].text in MORE):
            continue
        last = max(before, key=lambda span: span.i)
        if (unit := _unit_of(tokens, last)) is not None:
            low, likely, high = (unit * n for n in (number.low, number.likely, number.high))
            found.append(Span(low, likely, high, number.i, number.j))
    return sorted(found, key=lambda span: span.i) if len(found) > len(spans) else spans


def _begins(tokens: Sequence[Token], i: int) -> bool:
    """Whether "another", or a "for" behind what is done, stands at word i."""
    if tokens[i].text in MORE:
        return True
    if tokens[i].text != "for" or not i:
        return False
    k = i - 1 - (tokens[i - 1].text in ("it", "them"))
    verb = verbs().get(tokens[k].text) if k >= 0 else None
    return verb is not None and verb.act in _TAKE_TIME


def _ends(tokens: Sequence[Token], j: int, *, again: bool) -> bool:
    """Whether nothing is counted by a number that ends before word j."""
    if j >= len(tokens) or tokens[j].text in _ENDS:
        return True
    place = j + 1 < len(tokens) and tokens[j].text in _NEXT and tokens[j + 1].text in _THERE
    return again and place


def _unit_of(tokens: Sequence[Token], span: Span) -> float | None:
    """The hours of the unit that a time was told in: 24 of "two days"; None of "overnight"."""
    number = range_at(tokens, span.i)
    if number is None or number.likely <= 0 or span.per_g or number.j >= span.j:
        return None
    return span.likely / number.likely


def on_both_sides(tokens: Sequence[Token], spans: list[Span]) -> list[Span]:
    """ "One day on one side, one day on the other": one time of both."""
    for one, other in pairwise(spans):
        between = {token.text for token in tokens[one.j : other.i]}
        behind = [token.text for token in tokens[other.j : other.j + 3]]
        if behind[:2] == ["on", "the"] and "other" in behind and not _SIDES.isdisjoint(between):
            return [one.with_more(other) if each is one else each for each in spans if each is not other]
    return spans
