"""What was done before: what lines say so of (rinsed, drained, soaked, boiled with salt), and words beside a
food in a sentence ("the sliced cucumbers")."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from .bought_salty import holds_its_salt, is_cured, lies_in_brine, must_be_canned
from .clause_words import changes_of
from .clauses import Clause
from .happenings import PROTEINS, Happening, Water
from .listed import ListedLine
from .prose_tokens import tokenize
from .reading_state import HOT, ReadingState
from .sizes_and_heat import cut_cm, cut_words
from .times_and_sizes import Span, durations

_SOAKED = frozenset({"legume", "fish", "meat", "poultry", "salty", "cheese"})
"""Foods that are soaked for their salt's sake, or whose soaking water takes salt along."""
_SOAKED_LONG = frozenset({"grain", "vegetable", "nut"})
_BEFOREHAND = frozenset({"soaked", "rinsed", "drained", "drain", "rinse", "washed"})
_DONE = {"drain": "drained", "rinse": "rinsed", "washed": "rinsed"}
"""What a line bids ("1 tin of peas (drain first)"), as what is done."""
_NOT_DONE = frozenset({"not", "don't", "don’t", "dont", "without"})
_WORD = re.compile(r"[a-z][a-z'’]*")
_LONG_H = 4.0


def lines_beforehand(state: ReadingState, first: Clause | None) -> None:
    """Begin what the lines' own words say was done to them; first: any clause, for its place."""
    if first is None:
        return
    for line in state.index.lines:
        text = line.text.lower()
        if (cooked := _cooked_in(line, text)) is not None:
            _boiled(state, line, replace(first, start=0, end=0, text=line.text, sentence=line.text), cooked)
        if "salted" in text or "squeezed" in text:
            clause = replace(first, start=0, end=0, text=line.text, sentence=line.text)
            if _salted(state, line, clause):
                continue
            if "squeezed" in text and "rinsed" in text and holds_its_salt(state, line.index):
                _squeezed(state, line, clause)
        if not any(map(text.__contains__, _BEFOREHAND)):
            continue
        words = _WORD.findall(text)
        if _BEFOREHAND.isdisjoint(words) or not _NOT_DONE.isdisjoint(words):
            continue
        said = {_DONE.get(word, word) for word in words}
        clause = replace(first, start=0, end=0, text=line.text, sentence=line.text)
        if "soaked" in said and _soaked(state, line, clause):
            continue
        _of_a_can(state, line, clause, said)


_COOKED = re.compile(
    r"\b(?:boiled|cooked|simmered|blanched|parboiled)\b[^,;()]{0,30}?"
    r"\b(?:in|with) (?P<what>[^,;()]*?\bsalt(?:ed|y)?)\b"
)
_IN_PLAIN = re.compile(r"\b(?:blanched|boiled)\b", re.IGNORECASE)
_AMOUNT = re.compile(r"(?:\d|\b(?:a|an|one|two|some)\b).*\bsalt$", re.IGNORECASE)
BOILED_FOODS = frozenset({"pasta", "potato", "vegetable", "grain", "legume"})
_BLANCHED = BOILED_FOODS | {"salty"}


def _cooked_in(line: ListedLine, text: str) -> re.Match[str] | None:
    """Where a line tells of the pot that its food was in: one of salted water, of salty food one of any."""
    if "salt" in text and (cooked := _COOKED.search(line.text)) is not None:
        return cooked
    return _IN_PLAIN.search(line.text) if line.kind == "salty" else None


def _boiled(state: ReadingState, line: ListedLine, clause: Clause, cooked: re.Match[str]) -> None:
    """ "450 g macaroni, cooked with 1 tbsp salt": a pot of salted water, that the method has no more to do
    with; of "200 g olives, blanched twice" plain water."""
    if line.kind not in _BLANCHED or line.is_canned or state.latest(HOT, (line.index,)):
        return
    salted = cooked.re is _COOKED
    said = _AMOUNT.search(cooked["what"]) if salted else None
    water = Water("salted", said[0] if said else "") if salted else Water()
    pot = Happening("boil", clause, foods={line.index: 1.0}, water=water, drained=True, closed=True)
    pot.heated, pot.hours = True, _hours(line.text, cooked[0])
    state.happened.insert(0, pot)


_SALTED = re.compile(r",?\s*(?:and\s+)?(?:lightly |well )?\bsalted\b.*", re.IGNORECASE)
_DRAWN = re.compile(r"\bsalted\b.*\b(?:rinsed|squeezed|drained|wrung)\b", re.IGNORECASE)


def _salted(state: ReadingState, line: ListedLine, clause: Clause) -> bool:
    """ "2 aubergines, salted and rinsed": the only salt of the list, which the method has nothing to do with,
    was strewn on them and went with their juice."""
    if line.kind != "vegetable" or line.is_canned or not _DRAWN.search(line.text):
        return False
    salts = state.index.of_kinds("salt")
    used = any(n in each.liquid or line.index in each.foods for each in state.happened for n in salts)
    if len(salts) != 1 or used or state.spoken.get(salts[0]):
        return False
    cure = Happening("dry_cure", clause, foods={line.index: 1.0}, liquid={salts[0]: 1.0}, eaten=0.0)
    cure.drained = cure.closed = True
    text = line.text.lower()
    cure.rinsing = clause if "rinsed" in text else None
    if "squeezed" in text or "wrung" in text:
        _squeezed(state, line, clause)
    state.happened.insert(0, cure)
    state.lines[line.index] = replace(line, text=_SALTED.sub("", line.text))  # it was bought fresh
    return True


def _squeezed(state: ReadingState, line: ListedLine, clause: Clause) -> None:
    """ "500 g sauerkraut, rinsed and squeezed": juice that runs off, with its salt."""
    if state.latest(("squeeze",), (line.index,)) is None:
        pressed = Happening("squeeze", clause, foods={line.index: 1.0}, drained=True, closed=True)
        state.happened.insert(0, pressed)


def _of_a_can(state: ReadingState, line: ListedLine, clause: Clause, said: set[str]) -> None:
    """ "1 can of beans, drained", "200 g feta, rinsed": what goes with the liquid that it lay in."""
    rinsed = "rinsed" in said
    canned = line.is_canned or ("drained" in said and must_be_canned(state, line))
    cured = rinsed and not canned and is_cured(state, line.index)
    if cured and state.latest(("rinse", "soak"), (line.index,)) is None:
        rinse = Happening("rinse", clause, foods={line.index: 1.0}, drained=True, closed=True)
        state.happened.insert(0, rinse)  # "10 anchovy fillets, rinsed"
    if not said & {"rinsed", "drained"} or (line.kind in PROTEINS and not canned):
        return
    salty = rinsed and (holds_its_salt(state, line.index) or lies_in_brine(state, line.index))
    if not (canned or salty) or state.latest(("drain",), (line.index,)):
        return  # "2 tbsp drained capers" are weighed so
    for other in state.happened:
        if other.kind == "drain" and other.named and other.rinsed == rinsed and not other.clause.end:
            other.foods[line.index] = 1.0  # several cans over one sieve
            return
    can = Happening("drain", clause, foods={line.index: 1.0}, rinsed=rinsed, confidence=0.95)
    can.drained = can.closed = can.named = True
    state.begin(can)


def _soaked(state: ReadingState, line: ListedLine, clause: Clause) -> bool:
    """ "Salt cod, soaked overnight": a soaking in fresh water, ahead of all that the method does."""
    hours = _hours(line.text, "soaked")
    long = hours is not None and hours.likely >= _LONG_H
    if line.is_canned or not (line.kind in _SOAKED or (long and line.kind in _SOAKED_LONG)):
        return False
    if state.latest(("soak", "brine"), (line.index,)) or _other_liquid(line.text):
        return False
    foods = {line.index: 1.0}
    soak = Happening("soak", clause, foods=foods, water=Water(), hours=hours, drained=True, closed=True)
    soak.water_changes = changes_of(clause, hours.likely if hours else None)
    state.happened.insert(0, soak)
    state.thickness.pop(line.index, None)  # it is cut afterwards
    return True


def _hours(text: str, since: str) -> Span | None:
    return next(iter(durations(tokenize(text[text.lower().find(since.lower()) :]))), None)


def _other_liquid(text: str) -> bool:
    """Whether a line names a liquid other than water or milk that the food was soaked in."""
    behind = text.lower().partition("soaked")[2]
    return (" in " in behind and "water" not in behind and "milk" not in behind) or "unsoaked" in text.lower()


_AHEAD, _BEHIND = 2, 1
"""Words before and behind a food among which its cut is said."""


def cut_beforehand(state: ReadingState, clauses: Sequence[Clause]) -> None:
    """ "Salt the thinly sliced cucumbers", "the cucumber slices": so thick they are from there on, where no
    clause before that cuts them."""
    for clause in clauses:
        if clause.act == "cut" or cut_words().isdisjoint(clause.words):
            continue
        for mention in clause.mentions:
            beside = clause.tokens[max(mention.i - _AHEAD, 0) : mention.j + _BEHIND]
            if mention.kind != "line" or (cm := cut_cm(beside)) is None:
                continue
            for line in mention.lines:
                known = state.thickness.get(line)
                if known is None or clause.place < known.place:
                    state.thickness[line] = replace(clause, thickness=cm)
