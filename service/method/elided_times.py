"""Times of which the unit stands with the time before: "soak for two hours and boil for three"."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from itertools import pairwise

from .method_words import verbs
from .numbers_said import is_number
from .prose_tokens import Token
from .times_and_sizes import Span, range_at

MORE = frozenset({"another", "further"})
OTHERS = frozenset({"other", "second"})
"""The side that is fried after the first."""
_GIVES = frozenset({"give", "gives"})
MAY_ELIDE = MORE | OTHERS | _GIVES | {"for", "last"}
"""Words one of which stands in every sentence with such a time."""
WHOLE = frozenset({"altogether", "total", "all"})
_IN_ALL = (["in", "all"], ["in", "total"], ["all", "told"])
_TAKE_TIME = frozenset(
    {"boil", "simmer", "cook", "soak", "hold", "roast", "fry", "brine", "marinate", "cure"}
)
"""Acts that "for three" behind them times: and none of serving, for "serve for two" counts people."""
_ENDS = frozenset({".", ",", ";", ":", "!", ")", "and", "then"})
_PUTS = frozenset({"add", "put", "throw", "drop"})
_NEXT = frozenset({"in", "under", "on"})
_THERE = frozenset({"fresh", "new", "clean", "cold", "the", "other", "a"})
_SIDES = frozenset({"side", "skin", "face"})
_PARTS = frozenset({",", ";", "and"})
_A_NAME = 5
"""Words that a food is named in behind a comma, at the most."""


_SAID_BY = frozenset(
    {"packet", "package", "packaging", "box", "bag", "label", "says", "say", "want", "wants"}
)
"""With these a sentence tells of a time that it may put another in the place of."""
_ABOUT = frozenset({"it", "them", "these", "about", "only", "just"})


def _given_instead(tokens: Sequence[Token], spans: list[Span]) -> list[Span]:
    """ "The packet says 11 minutes, give them 9": the time that is given, with the unit of the one before."""
    at = next((i for i, token in enumerate(tokens) if token.text in _GIVES), 0)
    before = [span for span in spans if span.j <= at]
    if not before or _SAID_BY.isdisjoint(token.text for token in tokens[:at]):
        return spans
    k = next((k for k in range(at + 1, len(tokens)) if tokens[k].text not in _ABOUT), at)
    behind = [span for span in spans if span.i > at]
    if behind or (number := range_at(tokens, k)) is None or (unit := _unit_of(tokens, before[-1])) is None:
        return behind or spans
    low, likely, high = (unit * n for n in (number.low, number.likely, number.high))
    return [Span(low, likely, high, number.i, number.j)]


def with_elided(tokens: Sequence[Token], spans: list[Span]) -> list[Span]:
    """The times of a sentence, and those that take their unit from the one before: "for another twelve"."""
    spans = _given_instead(tokens, spans)
    found = list(spans)
    last = len(tokens) - 1
    for i in range(spans[0].j, last):
        leads = tokens[i].text in MAY_ELIDE and is_number(tokens[i + 1].text)
        other_side = tokens[min(i + 2, last)].text == "on" and _before_other_side(tokens, i)
        if not other_side and not (leads and _begins(tokens, i, found)):
            continue
        number, before = range_at(tokens, i + 1), [span for span in found if span.j <= i]
        known = number is None or any(span.i <= i + 1 < span.j for span in found)
        if number is None or known or not before:
            continue
        if not other_side and not _ends(tokens, number.j, again=tokens[i].text in MORE):
            continue
        latest = max(before, key=lambda span: span.i)
        if (unit := _unit_of(tokens, latest)) is not None:
            low, likely, high = (unit * n for n in (number.low, number.likely, number.high))
            found.append(Span(low, likely, high, number.i, number.j))
    return sorted(found, key=lambda span: span.i) if len(found) > len(spans) else spans


def _begins(tokens: Sequence[Token], i: int, before: Collection[Span]) -> bool:
    """Whether "another", or a "for" behind what is done, or the next of a list, stands at word i."""
    if tokens[i].text in MORE or (tokens[i].text == "last" and i and tokens[i - 1].text == "the"):
        return True
    if tokens[i].text != "for" or not i:
        return False
    if tokens[min(i + 2, len(tokens) - 1)].text == "more":
        return True  # "then the cabbage for 15 more"
    k = i - 1 - (tokens[i - 1].text in ("it", "them"))
    verb = verbs().get(tokens[k].text) if k >= 0 else None
    return (verb is not None and verb.act in _TAKE_TIME) or _is_next(tokens, i, before)


def _is_next(tokens: Sequence[Token], i: int, before: Collection[Span]) -> bool:
    """ "Blanch the beans for 3 minutes, the cabbage for 2": a food behind a time, with one of its own."""
    begin = next((k for k in range(i - 1, max(i - _A_NAME, 0), -1) if tokens[k].text in _PARTS), 0)
    named = [token.text for token in tokens[begin + 1 : i]]
    behind_time = begin > 0 and any(span.j == begin for span in before)
    return behind_time and bool(named) and verbs().keys().isdisjoint(named)


def _before_other_side(tokens: Sequence[Token], i: int) -> bool:
    """Whether "two on the other" stands behind word i, of "three minutes on the first side and two on the
    other"."""
    behind = [token.text for token in tokens[i + 2 : i + 5]]
    return behind[:2] == ["on", "the"] and not OTHERS.isdisjoint(behind) and is_number(tokens[i + 1].text)


def _ends(tokens: Sequence[Token], j: int, *, again: bool) -> bool:
    """Whether nothing is counted by a number that ends before word j."""
    if j >= len(tokens) or tokens[j].text in _ENDS:
        return True
    if tokens[j].text == "more" or (again and tokens[j].text in _PUTS):
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
        if behind[:2] == ["on", "the"] and not OTHERS.isdisjoint(behind) and not _SIDES.isdisjoint(between):
            return [one.with_more(other) if each is one else each for each in spans if each is not other]
    return spans


def in_all(tokens: Sequence[Token], spans: tuple[Span, ...]) -> tuple[Span, ...]:
    """ "One more minute once they float, 4 minutes in all": the whole time, and not its parts."""
    for span in spans:
        behind = [token.text for token in tokens[span.j : span.j + 2]]
        whole = behind[:1] in (["altogether"], ["total"]) or behind in _IN_ALL
        if whole and span.likely >= max(each.likely for each in spans):
            return (span,)
    return spans
