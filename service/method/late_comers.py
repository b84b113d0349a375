"""Food that goes into a pot after the first: for the last of its time, or as more of a stew."""

from __future__ import annotations

import re
from collections.abc import Iterable

from .clauses import Clause
from .happenings import POURED_WITHOUT_WORD, Happening
from .method_words import phrasing
from .numbers_said import is_number
from .prose_tokens import tokenize
from .reading_state import ReadingState
from .times_and_sizes import Span, durations

NAMED = 0.8
"""Below this confidence a pot's water stands in no sentence, so that nothing is added to it in passing."""


def begin_pot(state: ReadingState, pot: Happening, clause: Clause) -> None:
    """Begin a pot, if food is in it already; what its clause adds for the last of the time has a time of its
    own: "boil the potatoes until tender, adding the beans for the last 4 minutes"."""
    at = next((i for i, token in enumerate(clause.tokens) if token.text == "adding"), len(clause.tokens))
    late = {n for m in clause.mentions if m.kind == "line" and m.i > at for n in m.lines if n in pot.foods}
    behind = next((span for span in clause.hours if span.i > at), None)
    if not late or behind is None or late >= pot.foods.keys():
        pot.take_time(clause)
        if pot.foods:
            state.begin(pot)
        return
    pot.foods = {n: share for n, share in pot.foods.items() if n not in late}
    state.begin(pot, clause if clause.hours[0].i < at else None)
    added_late(state, pot, clause, late, behind)


def added_late(
    state: ReadingState, pot: Happening, clause: Clause, foods: Iterable[int], hours: Span | None = None
) -> None:
    """Food that boils in a pot for the last of its time."""
    late = Happening(
        pot.kind, clause, foods=dict.fromkeys(foods, 1.0), heated=True, same_as=pot.same_as or pot
    )
    late.hours = hours or clause.hours[0]
    state.begin(late)


_BESIDE = frozenset({"with", "to", "beside", "alongside", "into"})
_LAST = re.compile(r"\b(?:last|final|another|left|remaining|to go|(?:before|from) the end)\b", re.IGNORECASE)

_COUNTS_DOWN = phrasing("counts_down")


def counts_down(clause: Clause) -> bool:
    """ "With 4 minutes to go", "5 minutes before it is ready": what is left of a time, and not all of it."""
    return bool(clause.hours) and _COUNTS_DOWN.search(clause.text) is not None


def _time_left(clause: Clause) -> Span | None:
    """What is left of a pot's time in a clause that adds to it, or as the clause before it says."""
    if clause.hours and _LAST.search(clause.text):
        return clause.hours[0]
    said = None if clause.hours else _COUNTS_DOWN.search(clause.sentence)
    return next(iter(durations(tokenize(clause.sentence[: said.end("unit")]))), None) if said else None


_NEEDS = ("need", "needs", "want", "wants", "get", "gets")


_WHOLE = re.compile(r"\b(?P<bare>\d+ )?(?:altogether|in all|in total|all told)\b", re.IGNORECASE)


def takes_altogether(state: ReadingState, clause: Clause) -> None:
    """ "With 3 minutes to go add the peas. It needs 9 altogether": the time of what boiled first."""
    now = state.attention
    pot = now.same_as if now is not None else None
    if pot is None or pot.hours is not None or (said := _WHOLE.search(clause.text)) is None:
        return
    if clause.hours:
        pot.take_time(clause)
    elif said["bare"]:
        hours = float(said["bare"]) / _MINUTES
        pot.hours = Span(hours, hours, hours, 0, 0)


_MINUTES = 60.0


def in_turn(clause: Clause) -> bool:
    """ "Potatoes in first, 10 minutes. Shrimp last": with no verb, as if it said "put"."""
    if clause.act not in ("", "let"):
        return False
    if clause.has("in", "last", "next", "first"):
        return True
    return bool(clause.hours) and (clause.tokens[0].text == "then" or clause.has("later", "after", *_NEEDS))


def by_the_clock(state: ReadingState, clause: Clause, pot: Happening) -> bool:
    """ "Peas, 2 minutes", "8 minutes, a knife goes in", of a pot of water that was spoken of last."""
    if state.attention is not pot:
        return False
    return not clause.act or (not clause.mentions and is_number(clause.tokens[0].text))


def spoken_before(state: ReadingState, clause: Clause) -> dict[int, float]:
    """What goes into a pot by the clock where no word names it."""
    boiled = not clause.mentions and POURED_WITHOUT_WORD.issuperset(map(state.kind, state.last_foods))
    return dict.fromkeys(state.last_foods, 1.0) if boiled else {}


def adds(clause: Clause) -> bool:
    """Whether a clause puts more into what is there already."""
    return clause.act == "put" or clause.base in ("stir", "fold") or in_turn(clause)


def more_food(
    state: ReadingState, pot: Happening, clause: Clause, new: dict[int, float], *, elsewhere: bool
) -> bool:
    """Take what goes into a pot that has its food; whether it boils there for the last of the time."""
    now = state.attention = None if pot.confidence < NAMED else state.attention
    joins = any(m.prep in _BESIDE and not pot.foods.keys().isdisjoint(m.lines) for m in clause.mentions)
    near = now is not None and pot in (now, now.same_as)
    if elsewhere or not adds(clause) or not (joins or near):
        return False
    if not state.is_soup and (left := _time_left(clause)) is not None:
        added_late(state, pot, clause, new, left)
        return True
    # A pot that has its food and gets more is a soup unless it is drained.
    pot.extra |= set(state.lines_of(clause)) - set(pot.foods)
    return False


def follows_close(pot: Happening, clause: Clause) -> bool:
    """Whether a clause follows so close on a pot's own that it speaks of it."""
    return pot.clause.sentence == clause.sentence or (
        pot.clause.method == clause.method and clause.start - pot.clause.end < 60
    )


_WARMS = frozenset({"warm", "melt", "reheat", "microwave", "heat", "thaw"})


def warms_apart(clause: Clause, pot: Happening) -> bool:
    """ "Bring a pot of water to the boil. Warm the sauce": what is only warmed goes into no water."""
    named = any(m.kind == "line" and not m.prep for m in clause.mentions)
    wet = not clause.speaks.isdisjoint(("water", "vessel")) or any(m.kind == "it" for m in clause.mentions)
    return clause.base in _WARMS and not pot.foods and named and not wet
