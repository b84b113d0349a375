"""Which of the times of a clause food lies or cooks there: none of storage, by weight, or told ahead."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from .clauses import Clause
from .elided_times import WHOLE
from .hand_steps import WRINGS
from .left_to_the_cook import grams_in
from .method_words import BOILS, COOKS, Verb, phrasing, small_words
from .numbers_said import number_at
from .reading_state import COLD, HOT, ReadingState
from .times_and_sizes import Span
from .weekdays import is_evening, on_its_day

_KEEPS = ("keeps", "keep", "lasts", "last", "kept")
_STORAGE = phrasing("storage")
_BEFORE_EATING = re.compile(r"\bbefore (?:you )?(?:eat|serv|us|open|tast)", re.IGNORECASE)
_AHEAD_H = 8.0


_RATHER = ("pinch", "better", "best", "ideally", "ideal", "preferably", "magic", "even")
"""Beside two times these say that the longer is meant: "2 hours, preferably overnight"."""


_NEAR = 3
"""Paragraphs behind that of a bath in which its wait is still spoken of."""
_IF_YOU_CAN = phrasing("if_you_can")


def _waits_rather(state: ReadingState, clause: Clause) -> bool:
    """ "Leave an hour at least. Overnight is better", "in all it should have 24 hours": the longer is meant,
    though in a sentence of its own; whether it was taken."""
    bath = state.pending or (state.happened[-1] if state.happened else None)
    if bath is None or bath.kind not in COLD or bath.hours is None or bath.closed:
        return False
    if clause.act not in ("", "hold", "let"):
        return False
    whole = "enough" in clause.words or (
        clause.tokens[0].text == "in" and len(clause.tokens) > 1 and clause.tokens[1].text in WHOLE
    )
    better = whole or clause.has(*_RATHER) or _IF_YOU_CAN.search(clause.sentence) is not None
    if not better or clause.negated or clause.has("up") or clause.method - bath.clause.method > _NEAR:
        return False
    if clause.hours[0].likely > bath.hours.likely and "line" not in clause.speaks:
        bath.hours = clause.hours[0]
    return whole


_AHEAD = ("before", "beforehand", "ahead", "advance", "earlier")


def in_hours(state: ReadingState, clause: Clause) -> Clause:
    """A clause with its times as they are meant: "20 minutes a pound" by the weight of what it is about (none
    where nobody knows that); "the day before" tells when, and how long only where nothing else does."""
    if _waits_rather(state, clause):
        return replace(clause, hours=())
    if clause.opens and not clause.act and clause.tokens[0].text in _WHEN:
        _done_by_then(state, clause)
    if any(span.per_g for span in clause.hours):
        clause = replace(clause, hours=_times_by_weight(state, clause))
    rather = len(clause.hours) > 1 and clause.has(*_RATHER)
    if rather and clause.hours[-1].likely > clause.hours[0].likely:
        clause = replace(clause, hours=clause.hours[::-1])
    if clause.hours and clause.has(*_KEEPS) and _STORAGE.search(clause.text):
        return replace(clause, hours=clause.hours[:-1])  # "keeps for a month"
    ahead = clause.hours and clause.has(*_AHEAD) and not _BEFORE_EATING.search(clause.text)
    ahead = ahead and not (clause.act == "hold" and clause.has("from", "since"))  # "from the night before"
    if ahead and (clause.hours[0].likely >= _AHEAD_H or _is_told_ahead(clause)):
        state.ahead = (clause.method, clause.hours[0])
        clause = replace(clause, hours=clause.hours[1:])
    return clause


_WHEN = frozenset({"when", "once", "as"})


def _done_by_then(state: ReadingState, clause: Clause) -> None:
    """ "When the penne are done (10 minutes) drain them": so long it takes in the pot that is on."""
    foods = state.solids(clause) or (dict.fromkeys(state.last_foods, 1.0) if "it" in clause.speaks else {})
    pot = state.latest(HOT, foods) if foods else None
    if pot is not None and pot.hours is None and not (pot.closed or pot.drained):
        pot.take_time(clause)


def _is_told_ahead(clause: Clause) -> bool:
    """ "An hour before grilling, salt the steaks", "pour it over the fish 90 minutes before grilling": when,
    and by that how long."""
    leads = clause.opens and not clause.act and all(m.i > clause.hours[0].i for m in clause.mentions)
    soon = clause.hours[0].likely < 1 and _BEFORE.search(clause.text) is not None  # else it lies by that
    return leads or (clause.act in _PUTS_ON and (soon or bool(_COOKS.search(clause.text))))


_PUTS_ON = frozenset({"put", "mix", "coat", "season"})


_COOKS = re.compile(r"\bbefore (?:you )?(?:cook|roast|fry|grill|sear|bak|barbecu)(?:ing|e)?\b", re.IGNORECASE)
_BEFORE = re.compile(r"\b(?:before|beforehand|ahead)[.,;]?$", re.IGNORECASE)
_ENDS = frozenset({"drain", "rinse", "remove", "discard", "dry", "reserve"})
_BY_THEN = small_words("by_then")


def waited_before(clause: Clause) -> tuple[Clause, Clause] | None:
    """ "Drain after 20 minutes", "in the evening grill it", "on Sunday cook it" as the two things that they
    say, if they do: how long, and what; "drain the beans that have soaked overnight in cold water" as "soak"
    and "drain"."""
    if clause.opens and clause.act and is_evening(clause.tokens[clause.hours[0].i]):
        return _wait(clause, 0), replace(clause, hours=clause.hours[1:])
    dated = bool(clause.act) and on_its_day(clause.tokens, clause.hours[0].i)
    if dated or (clause.act in _AFTERWARDS and not clause.negated and _opens_after(clause)):
        wait = _wait(clause, clause.hours[0].i)
        return replace(wait, verb=_LEAVE, act="hold", base="leave"), replace(clause, hours=clause.hours[1:])
    if clause.act not in _ENDS or clause.negated or clause.base in WRINGS:
        return None
    texts = [token.text for token in clause.tokens]
    wet = "water" in clause.speaks and any(m.kind == "water" and m.prep == "in" for m in clause.mentions)
    if wet and ("after" in texts[:1] or not _LAIN.isdisjoint(texts)):
        dry = tuple(m for m in clause.mentions if m.kind != "water")
        lay = _BOIL if clause.has("boiling", "simmering") else _SOAK
        return replace(clause, verb=lay, act=lay.act, base=lay.base), replace(clause, hours=(), mentions=dry)
    if "after" not in clause.words:
        return None
    at = texts.index("after")
    behind = next((i for i in range(at + 1, len(texts)) if texts[i] not in _BY_THEN), len(texts))
    timed = behind < len(texts) and (texts[behind] in _ONE or number_at(clause.tokens, behind))
    if not timed or "for" in texts[:at]:
        return None
    return _wait(clause, behind), replace(clause, hours=clause.hours[1:])


def _opens_after(clause: Clause) -> bool:
    """ "After 24 hours stew it": so long it lay where it was put, and does not stew. But "after a night in
    cold water drain it" tells itself where it lay."""
    return (
        clause.tokens[0].text == "after"
        and not any(m.prep in ("in", "under") for m in clause.mentions if m.i < clause.aim)
        and clause.hours[0].i <= _SOON
        and clause.hours[0].likely >= _LONG_H
        and clause.hours[0].i < clause.aim
    )


_AFTERWARDS = COOKS | {"drain", "rinse", "remove"}
_SOON, _LONG_H = 3, 6.0
_LEAVE = Verb("leave", "hold", "base", False)


def _wait(clause: Clause, begin: int) -> Clause:
    """The first time of a clause, as if nothing else were said from that word on."""
    return replace(
        clause,
        verb=None,
        act="",
        base="",
        tokens=clause.tokens[begin:],
        mentions=(),
        speaks=frozenset(),
        hours=clause.hours[:1],
        aim=len(clause.tokens) - begin,
    )


_ONE = frozenset({"a", "an", "half"})
_SOAK, _BOIL = Verb("soak", "soak", "past", False), Verb("boil", "boil", "past", False)
_LAIN = frozenset({"soaked", "steeped", "stood", "lain", "sat"})


def _times_by_weight(state: ReadingState, clause: Clause) -> tuple[Span, ...]:
    in_pot = state.pot.foods if state.pot is not None and clause.act in BOILS else {}
    foods = (
        state.solids(clause, direct=True) or in_pot or state.main_foods() or dict.fromkeys(state.last_foods)
    )
    grams = grams_in(state, foods)
    spans, last = clause.hours, clause.hours[-1]
    if not last.per_g:  # "20 minutes a pound: 2 hours for this one"
        spans = tuple(span for span in spans if not span.per_g)
    known = (span.by_weight(grams) if span.per_g else span for span in spans)
    return tuple(span for span in known if span.likely > 0)


_REHEATS = phrasing("another_day")
_ANOTHER_DAY = frozenset({"keep", "store", "refrigerate", "freeze", "reheat", "save"})


def is_of_another_day(clause: Clause) -> bool:
    """ "Leftovers keep for three days", "boil some rice when you reheat it": all that is no making of it."""
    if clause.act in BOILS:
        return _REHEATS.search(clause.sentence) is not None
    return "leftovers" in clause.words and clause.base in _ANOTHER_DAY


WAITS = frozenset(
    {"hold", "brine", "marinate", "soak", "cure", "let", "put", "ferment", "other", "pickle", ""}
)
_LEAST_WAIT_H = 1.0
_APART = 1.25
"""Times of which one is so much longer than the other are two."""
_MOST_WAITS = 4


def find_waits(state: ReadingState, clauses: Sequence[Clause]) -> None:
    """Note how long the method lets things stand, in hours, each time once."""
    for clause in clauses:
        if clause.hours and clause.act in WAITS and not clause.negated:
            hours = clause.hours[0].likely
            if hours >= _LEAST_WAIT_H and hours not in state.waits and len(state.waits) < _MOST_WAITS:
                state.waits.append(hours)


def other_waits(state: ReadingState, hours: float) -> list[float]:
    """The times that the method names beside one that was read, clearly longer or shorter."""
    return sorted(h for h in state.waits if max(h, hours) > _APART * min(h, hours))
