"""Eggs of which only the yolks or only the whites go in: the other part is left behind."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from .clauses import Clause
from .layout import Layout
from .method_words import phrasing
from .reading_state import ReadingState

LEFT = "left-behind"
_OTHER = {"yolk": "white", "white": "yolk"}
_SAID = {"yolk": re.compile(r"\byolks?\b"), "white": re.compile(r"\begg whites?\b|\bwhites\b(?! of)")}
_PARTS = frozenset({"yolk", "yolks", "white", "whites"})
_GREEN = frozenset({"leek", "leeks", "onion", "onions", "scallion", "scallions"})
"""Of these "the whites" are the lower ends."""
_A_PART = re.compile(r"\b(?:yolk|white)s?\b", re.IGNORECASE)
_EGGS = frozenset({"egg", "eggs"})
_LOOKS = frozenset({"runny", "set", "firm", "soft", "stay", "stays", "break", "burst", "cooked", "ooze"})
"""Beside "the yolk" these tell how an egg is cooked, and not what of it is used."""
_KEEPS = frozenset({"keep", "save", "freeze", "reserve", "set", "store", "refrigerate"})
_FOR_LATER = phrasing("for_another_dish")
_ONLY = phrasing("only_part_of_egg")
_PARTED = phrasing("eggs_parted")


def find_egg_parts(state: ReadingState, clauses: Sequence[Clause]) -> dict[int, str]:
    """The lines of whole eggs of which one part is eaten, each with "yolk" or "white"."""
    eggs = state.index.of_kinds("egg")
    if len(eggs) != 1 or _A_PART.search(state.lines[eggs[0]].text):
        return {}  # a list that has yolks apart means those
    speaking = [clause for clause in clauses if not _PARTS.isdisjoint(clause.words)]
    if not speaking:
        return {}
    if (only := next(filter(None, (_ONLY.search(c.text) for c in speaking)), None)) is not None:
        return {eggs[0]: (only["before"] or only["behind"]).lower()}
    used = {part for clause in speaking for part in _used(clause)}
    parted = _PARTED.search(state.lines[eggs[0]].text) or any(_PARTED.search(c.text) for c in clauses)
    whole = any(eggs[0] in state.lines_of(c) for c in clauses if _uses_whole(c))
    return {eggs[0]: used.pop()} if len(used) == 1 and (parted or not whole) else {}


def _used(clause: Clause) -> Iterator[str]:
    """What a clause does something with: not what it keeps for another day, or how eggs look."""
    if clause.negated or not clause.words.isdisjoint(_LOOKS | _GREEN) or clause.act in ("discard", "remove"):
        return
    if clause.act == "reserve" or (clause.base in _KEEPS and _FOR_LATER.search(clause.text)):
        return
    said = " ".join(token.text for token in clause.tokens[: clause.aim])
    yield from (part for part, words in _SAID.items() if words.search(said))


def _uses_whole(clause: Clause) -> bool:
    """Whether a clause that speaks of eggs speaks of whole ones."""
    if _A_PART.search(clause.text) or _EGGS.isdisjoint(clause.words):
        return False
    return clause.base not in ("crack", "break", "split") and _PARTED.search(clause.text) is None


def mean_egg_parts(state: ReadingState, layout: Layout) -> None:
    """Of eggs that are parted, what is eaten is their yolks or whites."""
    for line, part in state.egg_parts.items():
        layout.meant[line] = _named(state, line, part)


def leave_egg_parts(state: ReadingState, layout: Layout) -> None:
    """The other part of these eggs is left behind."""
    for line, part in state.egg_parts.items():
        left = layout.components.get(LEFT) or layout.new(LEFT, "Left behind")
        left.eaten = 0.0
        left.add({"line": _named(state, line, _OTHER[part])}, line)


def _named(state: ReadingState, line: int, part: str) -> str:
    amount = state.lines[line].line.amount
    if amount is None:
        return f"egg {part}s"
    count = f"{amount.low:g} to {amount.high:g}" if amount.high > amount.low else f"{amount.likely:g}"
    return f"{count} egg {part}{'s' if amount.high > 1 else ''}"
