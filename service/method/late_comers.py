"""Food that goes into a pot after the first: for a part of its time, or as more of a stew."""

from __future__ import annotations

import re
from collections.abc import Iterable

from .clauses import Clause
from .elided_times import WHOLE
from .happenings import POURED_WITHOUT_WORD, PROTEINS, SOLIDS, Happening
from .method_words import phrasing
from .numbers_said import is_number
from .prose_tokens import tokenize
from .reading_state import ReadingState
from .times_and_sizes import Span, durations

NAMED = 0.8
"""Below this confidence a pot's water stands in no sentence, so that nothing is added to it in passing."""


ADDING = frozenset({"adding", "throwing", "dropping", "popping", "chucking", "tipping"})


def begin_pot(state: ReadingState, pot: Happening, clause: Clause) -> None:
    """Begin a pot, if food is in it already; what its clause adds for the last of the time has a time of its
    own: "boil the potatoes until tender, adding the beans for the last 4 minutes"."""
    at = next((i for i, token in enumerate(clause.tokens) if token.text in ADDING), len(clause.tokens))
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
    if clause.hours and (_is_the_last(clause) or _for_its_time(clause)):
        return clause.hours[0]
    said = None if clause.hours else _COUNTS_DOWN.search(clause.sentence)
    return next(iter(durations(tokenize(clause.sentence[: said.end("unit")]))), None) if said else None


def _is_the_last(clause: Clause) -> bool:
    """Whether a clause tells the time that is left: "for the last 4 minutes", but not "after another 4"."""
    return "after" not in clause.words and _LAST.search(clause.text) is not None


def comes_late(clause: Clause) -> bool:
    """Whether a clause tells when it puts its food into a pot that boils: "after 10 minutes", "at half
    time", "for the last 5 minutes"."""
    timed = bool(clause.hours) and (
        _hours_before(clause) is not None or _LAST.search(clause.text) is not None
    )
    return timed or ("half" in clause.sentence.lower() and _HALF.search(clause.sentence) is not None)


_HALF = re.compile(r"\b(?:half[ -]?time|half[ -]?way)\b", re.IGNORECASE)
_WHEN = frozenset({"after", "at"})
_WHEN_BEHIND = frozenset({"in", "into", "later", "on"})
_SKIPPED = frozenset({"the", "about", "around", "roughly", "first", "another", "some"})


def _hours_before(clause: Clause) -> float | None:
    """The hours that a pot boils before more goes in: "after 10 minutes add", "5 minutes later"."""
    told = clause.hours[0]
    at = told.i - 1
    while at > 0 and clause.tokens[at].text in _SKIPPED:
        at -= 1
    behind = clause.tokens[told.j].text if told.j < len(clause.tokens) else ""
    if (at >= 0 and clause.tokens[at].text in _WHEN) or (behind in _WHEN_BEHIND and told.j < clause.aim):
        return told.likely
    return None


def joined_part_way(state: ReadingState, pot: Happening, clause: Clause, foods: Iterable[int]) -> None:
    """Food that goes into a pot part of the way: it boils for the rest of the time that is told."""
    first = pot.same_as or pot
    late = Happening(pot.kind, clause, foods=dict.fromkeys(foods, 1.0), heated=True, same_as=first)
    if clause.hours:
        late.since = _hours_before(clause)
        before = next((each.since for each in reversed(state.happened) if each.same_as is first), None)
        if late.since is not None and "another" in clause.words:
            late.since += before or 0.0
    elif pot.hours is not None:
        late.since = pot.hours.likely / 2
    if pot.hours is not None and late.since is not None:
        rest = pot.hours.likely - late.since
        late.hours = pot.hours._replace(low=rest, likely=rest, high=rest) if rest > 0 else None
    state.begin(late)
    for own in clause.hours[1:2]:  # "after another 2 minutes the pasta, 10 minutes"
        if [each.text for each in clause.tokens[own.j : own.j + 1]] != ["later"]:
            _boils_on(state, late, own)


def goes_on_late(state: ReadingState, clause: Clause, late: Happening) -> None:
    """ "After 10 minutes add the beans and boil for 5 more": the time of what came last, and of all of it."""
    if not WHOLE.isdisjoint(clause.words):
        takes_altogether(state, clause)
    elif late.hours is None and clause.hours and (clause.act in _BOILS_ON or not clause.act):
        _boils_on(state, late, clause.hours[0])


def _boils_on(state: ReadingState, late: Happening, told: Span) -> None:
    """The time of what came last into a pot, and with it that of all which came before."""
    late.hours, pot, end = told, late.same_as, told.likely + (late.since or 0.0)
    if pot is None or late.since is None:
        return
    for each in state.happened:
        if each.hours is None and (each is pot or (each.same_as is pot and each.since is not None)):
            rest = end - (each.since or 0.0)
            each.hours = told._replace(low=rest, likely=rest, high=rest)


_BOILS_ON = frozenset({"boil", "simmer", "cook", "let", "hold"})


def boils_on_with_more(state: ReadingState, pot: Happening, clause: Clause) -> bool:
    """ "Boil the potatoes for 12 minutes. Add the peas and cook for another 3": the time of what was added is
    on top of the first's; whether it was so."""
    late, told = {n for n in pot.late if state.kind(n) in SOLIDS}, clause.hours[0]
    if not late or pot.hours is None or state.is_soup:
        return False
    pot.later = [(before, span.with_more(told), since) for before, span, since in pot.later]
    pot.later.append((frozenset(late), told, clause))
    pot.hours, pot.late = pot.hours.with_more(told), set()
    return True


def part_late(state: ReadingState) -> None:
    """Give what came later into a pot that is drained a time of its own."""
    for pot in [each for each in state.happened if each.later and each.drained]:
        for lines, hours, clause in pot.later:
            pot.extra -= lines
            pot.foods = {n: s for n, s in pot.foods.items() if n not in lines}
            added_late(state, pot, clause, sorted(lines), hours)


def _for_its_time(clause: Clause) -> bool:
    """ "Throw in the peas for 3 minutes"."""
    at = clause.hours[0].i - 1
    said = clause.act == "put" and clause.tokens[0].text != "then"
    return said and at > 0 and clause.tokens[at].text == "for"


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
    unnamed = not clause.mentions or (clause.base == "go" and clause.speaks <= {"it"})  # "in they go"
    boiled = unnamed and POURED_WITHOUT_WORD.issuperset(map(state.kind, state.last_foods))
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
    elsewhere = elsewhere and not ("same" in clause.words and "vessel" in clause.speaks)
    if elsewhere or not adds(clause) or not (joins or near):
        return False
    if not (state.is_soup or _is_the_last(clause)) and comes_late(clause):
        joined_part_way(state, pot, clause, new)
        return True
    if not state.is_soup and (left := _time_left(clause)) is not None:
        added_late(state, pot, clause, new, left)
        return True
    # A pot that has its food and gets more is a soup unless it is drained.
    more = set(state.lines_of(clause)) - set(pot.foods)
    pot.extra |= more
    if pot.hours is not None and not _is_for(state, pot, more):
        pot.late |= more
        state.attention = pot
    return False


def _is_for(state: ReadingState, pot: Happening, more: Iterable[int]) -> bool:
    """Whether meat or fish goes into a pot of vegetables: their time is that of its liquor."""
    meats = PROTEINS.intersection(map(state.kind, more))
    return bool(meats) and PROTEINS.isdisjoint(map(state.kind, pot.foods))


def follows_close(state: ReadingState, pot: Happening, clause: Clause) -> bool:
    """Whether a clause follows so close on a pot's own that it speaks of it: not "boil a pot of water. Season
    the beef with half the salt, add the rest"."""
    between = {n for n, turn in state.last_spoken.items() if turn >= state.turn - 1}
    between -= {n for clause in (pot.clause, clause) for m in clause.mentions for n in m.lines}
    if any(state.kind(n) in SOLIDS for n in between):
        return False
    return pot.clause.sentence == clause.sentence or (
        pot.clause.method == clause.method and clause.start - pot.clause.end < 60
    )


_WARMS = frozenset({"warm", "melt", "reheat", "microwave", "heat", "thaw"})


def warms_apart(clause: Clause, pot: Happening) -> bool:
    """ "Bring a pot of water to the boil. Warm the sauce": what is only warmed goes into no water."""
    named = any(m.kind == "line" and not m.prep for m in clause.mentions)
    wet = not clause.speaks.isdisjoint(("water", "vessel")) or any(m.kind == "it" for m in clause.mentions)
    return clause.base in _WARMS and not pot.foods and named and not wet
