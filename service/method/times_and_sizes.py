"""How long things take in prose, and ranges of numbers."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from functools import cache
from typing import NamedTuple

from ..units.kitchen_units import find, to_grams
from .method_words import small_words
from .numbers_said import is_number, number_at, number_words
from .phrases_in_words import phrases_of
from .prose_tokens import Token

_HOURS = {
    "second": 1 / 3600, "sec": 1 / 3600, "s": 1 / 3600,
    "minute": 1 / 60, "min": 1 / 60, "mins": 1 / 60, "m": 1 / 60, "mn": 1 / 60, "minuter": 1 / 60,
    "hour": 1.0, "hr": 1.0, "hrs": 1.0, "h": 1.0,
    "day": 24.0, "night": 12.0, "week": 168.0, "month": 730.0,
    "'": 1 / 60, "’": 1 / 60, "′": 1 / 60, "minuto": 1 / 60, "minuti": 1 / 60, "minuten": 1 / 60,
    "heure": 1.0, "ora": 1.0, "ore": 1.0, "hora": 1.0, "stunde": 1.0, "stunden": 1.0,
    "jour": 24.0, "dia": 24.0, "giorno": 24.0, "giorni": 24.0, "tag": 24.0, "tage": 24.0,
}  # fmt: skip
_DASHES = frozenset({"-", "–", "—", "to", "or", "~"})
_VAGUE = {"another": 1.0, "a": 1.0, "an": 1.0, "couple": 2.0, "few": 3.0, "several": 4.0}


class Span(NamedTuple):
    """A figure of words i to j (not counting j). per_g: grams of food that a time is for ("20 minutes a
    pound"), 0 where it is for all of it; plus: hours that come on top."""

    low: float
    likely: float
    high: float
    i: int
    j: int
    per_g: float = 0.0
    plus: float = 0.0

    def by_weight(self, grams: float) -> Span:
        """The time for this much food."""
        times = grams / self.per_g
        low, likely, high = (hours * times + self.plus for hours in (self.low, self.likely, self.high))
        return self._replace(low=low, likely=likely, high=high, per_g=0.0, plus=0.0)

    def with_more(self, more: Span) -> Span:
        """This and another time, one after the other."""
        low, likely, high = self.low + more.low, self.likely + more.likely, self.high + more.high
        return self._replace(low=low, likely=likely, high=high)


def spans_within(spans: Sequence[Span], begin: int, end: int) -> tuple[Span, ...]:
    """The figures of a sentence that stand in its words begin to end, in places of that part."""
    return tuple(
        [
            span._replace(i=span.i - begin, j=span.j - begin) if begin else span
            for span in spans
            if begin <= span.i < end
        ]
    )


def range_at(tokens: Sequence[Token], i: int) -> Span | None:
    """A number or a range of two at word i."""
    found = number_at(tokens, i)
    if found is None:
        word = tokens[i].text
        if word in _VAGUE and i + 1 < len(tokens):
            j = i + 1
            if word in ("a", "an") and tokens[j].text in ("couple", "few", "good", "further", "full"):
                word, j = (tokens[j].text if tokens[j].text in _VAGUE else word), j + 1
            j += j < len(tokens) and tokens[j].text == "of"
            j += j < len(tokens) and tokens[j].text == "more"
            value = _VAGUE[word]
            return Span(value, value, value * (1.5 if value > 1 else 1), i, j)
        return None
    low, j = found
    between = i > 0 and tokens[i - 1].text == "between"
    if (
        j < len(tokens)
        and tokens[j].text == "and"
        and [t.text for t in tokens[j + 1 : j + 3]] == ["up", "to"]
    ):
        j += 2  # "at least 12 and up to 24 hours"
    joins = j + 1 < len(tokens) and (tokens[j].text in _DASHES or (between and tokens[j].text == "and"))
    if joins and (second := number_at(tokens, j + 1)):
        high = second[0]
        if high >= low:
            return Span(low, (low + high) / 2, high, i, second[1])
    return Span(low, low, low, i, j)


_BEFORE_UNIT = small_words("before_unit")
_FAR, _NEAR = 9, 5  # words from a number, or from "a few", to its unit of time, at the most


def durations(tokens: Sequence[Token]) -> list[Span]:
    """Every time in a sentence, in hours; "1 hour 30 minutes" is one, "2 to 3 hours" has its middle."""
    found: list[Span] = []
    worded, starts = phrases_of("method_times"), _time_starts()
    units = [k for k, token in enumerate(tokens) if token.stem in _HOURS or token.text in _HOURS]
    if not units and worded.keys().isdisjoint([token.text for token in tokens]):
        return []
    done = 0
    for i, token in enumerate(tokens):
        text = token.text
        if (text not in starts and not text[0].isdecimal()) or i < done:
            continue
        each = _worded(tokens, i) if text in worded else None
        far = _NEAR if text in _VAGUE else _FAR
        if each is None and (k := bisect_right(units, i)) < len(units) and units[k] <= i + far:
            each = _measured(tokens, i)
        if each is None:
            continue
        if (rate := _by_weight(tokens, each)) is not None:
            found.append(rate)
            done = rate.j
            continue
        if each.j < len(tokens) and tokens[each.j].text in _LEADS_TO:
            each = _up_to(tokens, each)
        elif text == "overnight":
            each = _a_night_of(tokens, each)
        done = each.j
        if _is_none_of_it(tokens, each):
            continue
        if _per_side(tokens, each.j):
            each = each._replace(low=2 * each.low, likely=2 * each.likely, high=2 * each.high)
        last = found[-1] if found else None
        if last and each.i - last.j <= 1 and each.likely < last.likely and _adds(tokens, last, each):
            both = Span(last.low + each.low, last.likely + each.likely, last.high + each.high, last.i, each.j)
            found[-1] = both
        else:
            found.append(each)
    return found


_LEADS_TO = frozenset({"or", "and", "up"})


def _up_to(tokens: Sequence[Token], span: Span) -> Span:
    """ "An hour or up to a day": the middle of the two."""
    to = _past(tokens, span.j)
    if to == span.j or to + 1 >= len(tokens):
        return span
    more = _worded(tokens, to + 1) or _measured(tokens, to + 1)
    if more is None or more.likely <= span.likely:
        return span
    return Span(span.likely, (span.likely + more.likely) / 2, more.likely, span.i, more.j)


def _a_night_of(tokens: Sequence[Token], night: Span) -> Span:
    """ "Overnight (8 to 12 hours)", "overnight, about 10 hours": so long a night."""
    if night.j >= len(tokens) or tokens[night.j].text not in ("(", ","):
        return night
    i = night.j + 1
    while i < len(tokens) and tokens[i].text in _ABOUT:
        i += 1
    told = _measured(tokens, i) if i < len(tokens) else None
    said = told is not None and night.low / 1.4 <= told.likely <= 2 * night.high
    return told._replace(i=night.i) if said and told else night


_ABOUT = frozenset({"about", "around", "roughly", "so", "say", "for", "ca", "approximately"})
_USES = small_words("time_before")
_COVERS = frozenset({"a", "an", "foil", "film", "cover", "weights", "pressure"})
_YOUR = frozenset({"the", "your"})
_NOT_TIMES = frozenset({"less", "short", "shorter", "fewer", "early", "earlier", "old", "shy", "under"})
"""Behind a time, these say that it is none of the step: "a minute less than the packet says"."""


def _is_none_of_it(tokens: Sequence[Token], span: Span) -> bool:
    after = tokens[span.j].text if span.j < len(tokens) else ""
    before = tokens[span.i - 1].text if span.i else ""
    if before in _OFTEN:
        return True  # "three times a day", "every 12 hours"
    behind = span.j + 1 + (span.j + 2 < len(tokens) and tokens[span.j + 1].text in _YOUR)
    used = {token.stem for token in tokens[behind : behind + 1]} & _USES
    if after == "before" and (used or span.likely >= _A_NIGHT_H):
        return False  # "keep 2 weeks before opening", "two days before", "an hour before grilling"
    if after == "before" and {t.text for t in tokens[span.j + 1 : span.j + 2]} <= _STOPS:
        return all(token.text != "salt" for token in tokens)  # "salt the steaks 40 minutes before"
    if after in ("longer", "more") and [t.text for t in tokens[span.j + 1 : span.j + 2]] == ["than"]:
        return True  # "a minute longer than it says on the box"
    if after == "under" and {t.text for t in tokens[span.j + 1 : span.j + 2]} & _COVERS:
        return False  # "10 hours under a weight"
    return after in _NOT_TIMES or (after == "before" and before not in _LEAST)


_STOPS = frozenset({".", ",", ";"})
_LEAST = frozenset({"for", "least", "about", "another", "rest", "stand", "sit", "wait", "drain"})
_OFTEN = frozenset({"times", "twice", "once", "thrice", "every"})
_A_NIGHT_H = 8.0
_SHORT_H = 1.0
_FOR_EACH = frozenset({"per", "each", "every", "a", "an", "/", "to"})


def _by_weight(tokens: Sequence[Token], span: Span) -> Span | None:
    """ "20 minutes a pound plus 20 minutes", "15 minutes for each 500 g": by the weight of the food."""
    j = span.j
    while j < len(tokens) and j - span.j < 3 and tokens[j].text in (*_FOR_EACH, "for", "the"):
        j += 1
    if j == span.j or j >= len(tokens) or _FOR_EACH.isdisjoint(t.text for t in tokens[span.j : j]):
        return None
    number = number_at(tokens, j)
    count, at = number if number else (1.0, j)
    size = _grams(tokens[at].text) or _grams(tokens[at].stem) if at < len(tokens) else 0.0
    if not size or count <= 0:
        return None
    end, plus = _more_time(tokens, at + 1)
    return span._replace(j=end, per_g=count * size, plus=plus)


def _grams(word: str) -> float:
    unit = find(word)
    return (to_grams(unit) or 0.0) if unit else 0.0


def _more_time(tokens: Sequence[Token], i: int) -> tuple[int, float]:
    """ "… plus 20 minutes", "and 15 minutes over": where it ends, and its hours."""
    if i < len(tokens) and tokens[i].text == ",":
        i += 1
    if i + 1 >= len(tokens) or tokens[i].text not in ("plus", "and", "+", "with"):
        return i, 0.0
    at = i + 1
    while at + 1 < len(tokens) and tokens[at].text in ("an", "another", "a", "extra", "further", "about"):
        at += 1
    more = _worded(tokens, at) or _measured(tokens, at)
    return (more.j, more.likely) if more else (i, 0.0)


def _per_side(tokens: Sequence[Token], j: int) -> bool:
    """ "3 minutes a side", "5 minutes on each side": both sides take twice that."""
    words = [token.text for token in tokens[j : j + 3]]
    if words[:1] == ["each"] and words[1:2] in ([], ["."], [";"]):
        return "sides" in [token.text for token in tokens[max(0, j - _SIDES_NEAR) : j]]
    return ("side" in words or "sides" in words) and bool({"per", "each", "a", "/"} & set(words))


_SIDES_NEAR = 6
"""Words before a time in which its sides are named: "until brown on both sides, about 3 minutes each"."""


def _adds(tokens: Sequence[Token], last: Span, each: Span) -> bool:
    return each.i == last.j or tokens[last.j].text == "and"


def _worded(tokens: Sequence[Token], i: int) -> Span | None:
    after = tokens[i + 1].text if i + 1 < len(tokens) else ""
    for words, hours in _worded_times().get((tokens[i].text, after), ()):
        if [token.text for token in tokens[i : i + len(words)]] == words:
            return Span(*hours, i, i + len(words))
    for words, hours in _worded_times().get((tokens[i].text, ""), ()):
        return Span(*hours, i, i + len(words))
    return None


@cache
def _worded_times() -> dict[tuple[str, str], list[tuple[list[str], tuple[float, float, float]]]]:
    """The phrases of method_times.csv by their first two words ("" for none), with their hours."""
    found: dict[tuple[str, str], list[tuple[list[str], tuple[float, float, float]]]] = {}
    for each in phrases_of("method_times").values():
        for words, row in each:
            hours = float(row["low"]), float(row["likely"]), float(row["high"])
            found.setdefault((words[0], words[1] if len(words) > 1 else ""), []).append((list(words), hours))
    return found


@cache
def _time_starts() -> frozenset[str]:
    """Words that a time may begin with, but for figures."""
    return frozenset({*phrases_of("method_times"), *number_words(), *_VAGUE})


def _measured(tokens: Sequence[Token], i: int) -> Span | None:
    span = range_at(tokens, i)
    if span is None or span.j >= len(tokens):
        return None
    if tokens[span.j].text == ":" and (clock := _clock(tokens, i)) is not None:
        return clock
    j = span.j
    if span.likely < 1.0 and [token.text for token in tokens[j : j + 2]] in _OF_ONE:
        j += 2
    while j < len(tokens) and tokens[j].text in _BEFORE_UNIT:
        j += 1
    if j >= len(tokens):
        return None
    hours = _HOURS.get(tokens[j].stem) or _HOURS.get(tokens[j].text)
    second = None
    to = _past(tokens, j + 1)
    if hours is not None and to + 1 < len(tokens) and tokens[to].text in ("to", "-", "–", "or"):
        if is_number(tokens[to + 1].text):
            second = range_at(tokens, to + 1)
        if (worded := _worded(tokens, to + 1)) and worded.likely > span.likely * hours:
            low = span.likely * hours  # "6 hours to overnight"
            either = tokens[to].text == "or" and low < _SHORT_H  # "30 minutes or overnight"
            likely = low if either else (low + worded.likely) / 2
            return Span(low, likely, worded.likely, i, worded.j)
    other = tokens[j].text == "second" and tokens[i].text == "a"  # "in a second pan"
    if other or hours is None or (tokens[j].text in _CLOSE and tokens[j - 1].end != tokens[j].start):
        return None
    if second:
        unit = _HOURS.get(tokens[second.j].stem) if second.j < len(tokens) else None
        bare = tokens[to].text == "or" and tokens[to + 1].text in ("two", "three")  # "a further hour or two"
        low, high = span.likely * hours, second.likely * (unit or (hours if bare else 0.0))
        if high > low:
            return Span(low, (low + high) / 2, high, i, second.j + (unit is not None))
    more, end = _minutes_bare(tokens, j + 1) if hours == 1.0 else (0.0, j + 1)
    if end == j + 1 and end + 1 < len(tokens) and tokens[end].text == "and":
        more, end = _parts_behind(tokens, end + 1, hours)
    return Span(span.low * hours + more, span.likely * hours + more, span.high * hours + more, i, end)


_CLOCKED = frozenset({"hour", "hours", "hr", "hrs", "h"})


def _clock(tokens: Sequence[Token], i: int) -> Span | None:
    """ "1:30 hours": one hour and 30 minutes."""
    hours, _, minutes, unit = [token.text for token in tokens[i : i + 4]] if len(tokens) > i + 3 else [""] * 4
    if not (hours.isdecimal() and minutes.isdecimal() and len(minutes) == 2 and unit in _CLOCKED):
        return None
    told = float(hours) + int(minutes) / 60
    return Span(told, told, told, i, i + 4) if tokens[i].end == tokens[i + 1].start else None


def _past(tokens: Sequence[Token], i: int) -> int:
    """Where the "to" of "up to", "or up to" or "and up to" stands; i where there is none of these."""
    after = [token.text for token in tokens[i : i + 3]]
    lead = after[:1] in (["or"], ["and"])
    if after[1:] == ["as", "long"]:
        return i + 3  # "2 hours and as long as 24"
    return i + lead + 1 if after[lead : lead + 2] == ["up", "to"] else i


_OF_ONE = (["of", "an"], ["of", "a"])
"""Between a fraction and its unit: "3/4 of an hour"."""
_AFTER_MINUTES = small_words("after_minutes")
_CLOSE = frozenset({"m", "'", "’", "′"})
"""Units that stand close to their number alone."""
_PART_OF_UNIT = {"half": 0.5, "quarter": 0.25, "quarters": 0.75}


def _parts_behind(tokens: Sequence[Token], i: int, unit: float) -> tuple[float, int]:
    """The hours of "and a half" in "three hours and a half", and where they end."""
    j = i + (tokens[i].text in ("a", "one", "three"))
    part = _PART_OF_UNIT.get(tokens[j].text) if j < len(tokens) else None
    after = tokens[j + 1].text if j + 1 < len(tokens) else "."
    return (part * unit, j + 1) if part and after not in ("an", "of", "the", "hour") else (0.0, i - 1)


def _minutes_bare(tokens: Sequence[Token], i: int) -> tuple[float, int]:
    """The hours of the minutes in "2 hours 10", and where they end; 0 where there are none."""
    if i >= len(tokens) or not tokens[i].text.isdecimal() or not 5 <= int(tokens[i].text) < 60:
        return 0.0, i
    after = tokens[i + 1].text if i + 1 < len(tokens) else "."
    close = tokens[i - 1].end == tokens[i].start  # "1h30"
    return (int(tokens[i].text) / 60, i + 1) if close or after in _AFTER_MINUTES else (0.0, i)
