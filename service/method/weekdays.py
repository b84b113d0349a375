"""Times by days of the week and parts of the day: "from Friday night to Sunday morning", "on Monday … on
Thursday", "in the morning … before supper"."""

from __future__ import annotations

from collections.abc import Sequence

from .prose_tokens import Token
from .times_and_sizes import Span

_NAMES = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
WEEKDAYS = frozenset((*_NAMES, *(f"{name}s" for name in _NAMES)))
_CLOCK = {"morning": 8.0, "noon": 12.0, "lunchtime": 13.0, "afternoon": 15.0, "evening": 19.0, "night": 21.0}
_EVENING = frozenset({"evening", "supper"})
CLOCKED = WEEKDAYS | _EVENING | {"morning"}
_NOON, _WEEK = 12.0, 168.0
_A_DAY_H = 10.0
"""From a morning to an evening, as method_times.csv has it."""
_TILL = frozenset({"to", "till", "until", "'til", "til", "through", "-", "–"})
_SETS = _TILL | {"on", "from", "since", "by", "every"}
"""Before a day, these make it the day that the method speaks of; "a Thursday bird" does not."""
_UNSURE_H = 4.0


def weekday_spans(tokens: Sequence[Token], since: list[float]) -> list[Span]:
    """The times from one day to another, in hours. since: the hour of the week that the method spoke of last,
    none or one; it is kept up to date."""
    found: list[Span] = []
    for i, token in enumerate(tokens):
        if token.text not in WEEKDAYS:
            continue
        after = tokens[i + 1].text if i + 1 < len(tokens) else ""
        at = 24.0 * _NAMES.index(token.text.removesuffix("s")) + _CLOCK.get(after, _NOON)
        before = {t.text for t in tokens[max(0, i - 2) : i]}
        told = not _TILL.isdisjoint(before)
        if not told and _is_tended(tokens, i):
            continue  # "change the water on Saturday": it lies on
        sets = i == 0 or not _SETS.isdisjoint(before)
        if since and (told or (sets and at != since[0])):
            hours = (at - since[0]) % _WEEK or _WEEK
            end = i + 1 + (after in _CLOCK)
            found.append(Span(max(hours - _UNSURE_H, 1.0), hours, hours + _UNSURE_H, i, end))
        if "a" not in before and (not since or sets):
            since[:] = [at]
    return found


_TENDS = frozenset({"change", "changing", "turn", "turning", "baste", "stir", "skim"})
_PARTS = frozenset({",", ";", ".", ":", "and", "then"})


def _is_tended(tokens: Sequence[Token], i: int) -> bool:
    """Whether what is done on the day at word i only tends what lies there: "on Saturday turn it"."""
    begin = next((k + 1 for k in range(i - 1, -1, -1) if tokens[k].text in _PARTS), 0)
    behind = i + 1
    while behind < len(tokens) and tokens[behind].text in (*_CLOCK, ","):
        behind += 1
    near = range(begin, min(len(tokens), behind + 1))
    return any(tokens[k].text in _TENDS for k in near)


_IN = frozenset({"in", "this", "before", "for", "by", "towards"})
_OPENS = 4
"""Words of a sentence among which it tells the time of the day that it is about."""
_MORNING = -1.0
"""Stands for the morning of a day that has no name."""


def dated_spans(tokens: Sequence[Token], since: list[float]) -> list[Span]:
    """The times of a sentence from day to day, and from a morning to the evening or supper at its start."""
    for i, token in enumerate(tokens[:_OPENS]):
        if token.text not in CLOCKED or _IN.isdisjoint(t.text for t in tokens[max(0, i - 2) : i]):
            continue
        if token.text == "morning":
            since[:] = [_MORNING]
        elif is_evening(token) and since == [_MORNING]:
            since.clear()
            return [Span(_A_DAY_H - _UNSURE_H / 2, _A_DAY_H, _A_DAY_H + _UNSURE_H / 2, i, i + 1)]
    return [] if since == [_MORNING] else weekday_spans(tokens, since)


def is_evening(token: Token) -> bool:
    return token.text in _EVENING


def on_its_day(tokens: Sequence[Token], i: int) -> bool:
    """Whether the weekday at word i tells when something is done: "on Sunday drain it"; not "till Sunday"."""
    before = {token.text for token in tokens[max(0, i - 2) : i]}
    return tokens[i].text in WEEKDAYS and before.isdisjoint(_TILL)
