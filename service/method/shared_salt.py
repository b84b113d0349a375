"""Salt that a method parts between a food and its coat: "half on the fish, the rest in the batter"."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from .clauses import Clause
from .happenings import Happening
from .numbers_said import number_at
from .reading_state import ReadingState

_LEFT_WORDS = frozenset({"rest", "remainder", "remaining", "other", "second"})
_ALONE = frozenset({"rest", "remainder"})
_SPOONS = {"teaspoon": 1.0, "teaspoons": 1.0, "tsp": 1.0, "tablespoon": 3.0, "tablespoons": 3.0, "tbsp": 3.0}
_FRACTIONS = {"half": 0.5, "third": 1 / 3, "thirds": 1 / 3, "quarter": 0.25, "quarters": 0.25}
_PLACES = frozenset({"in", "into", "to", "on", "onto", "over", "for", "with"})
_JOINTS = frozenset({"of", "the", "it", "this", "that"})
_ENDS = _PLACES | {",", ".", ";", "and", ")", "goes", "is"}
_SMALL = 0.03
_LEFT = -1.0


class _Part(NamedTuple):
    """Words i to j tell a share of the salt; _LEFT: all that is left of it."""

    i: int
    j: int
    share: float


def share_salt(state: ReadingState, clauses: Sequence[Clause], coating: Happening) -> None:
    """Let a coating hold the parts of the salt that clauses stir into its flour, egg or crumbs; what they
    strew on its food stays there."""
    salts = [n for n in state.index.of_kinds("salt") if state.lines[n].line.amount is not None]
    coats = coating.liquid.keys() - set(salts)
    for salt in salts:
        stirred, strewn, told = 0.0, 0.0, 0
        for clause in (each for each in clauses if _may_part(each, salt)):
            for share, lines in _parts(state, clause, salt):
                part = max(1.0 - stirred - strewn, 0.0) if share == _LEFT else share
                told += 1
                if lines & coating.foods.keys():
                    strewn += part
                elif lines & coats:
                    stirred += part
        if stirred and told > 1 and stirred + strewn < 1.0 + _SMALL:
            coating.liquid[salt] = 1.0 if stirred > 1.0 - _SMALL else round(stirred, 4)


def _may_part(clause: Clause, salt: int) -> bool:
    if not (_LEFT_WORDS.isdisjoint(clause.words) and _FRACTIONS.keys().isdisjoint(clause.words)):
        return True
    return any(salt in m.lines and (m.amount or m.portion is not None) for m in clause.mentions)


def _parts(state: ReadingState, clause: Clause, salt: int) -> Iterator[tuple[float, set[int]]]:
    """The parts of the salt that a clause tells, and the lines that each goes to: what stands before it, or
    behind it with a preposition ("half the salt to the flour")."""
    told = _told(state, clause, salt)
    others = [m for m in clause.mentions if salt not in m.lines and (m.lines or m.name == "other")]
    before = 0
    for k, part in enumerate(told):
        until = told[k + 1].i if k + 1 < len(told) else len(clause.tokens)
        at = part.j + (clause.tokens[part.j].text in ("goes", "is") if part.j < until else 0)
        behind = at < until and clause.tokens[at].text in _PLACES
        near = [m for m in others if (at < m.i < until if behind else before <= m.i < part.i)]
        yield part.share, {n for m in near for n in (m.lines or state.index.of_kinds("flour"))}
        before = part.j


def _told(state: ReadingState, clause: Clause, salt: int) -> list[_Part]:
    found: list[_Part] = []
    said = {m.i: m for m in clause.mentions if m.lines}
    words = [token.text for token in clause.tokens]
    for i in range(len(words)):
        if (found and i < found[-1].j) or (part := _part(state, clause, words, i, salt)) is None:
            continue
        end = part.j
        while end < len(words) and words[end] in _JOINTS:
            end += 1
        named = said.get(end) or (said.get(i) if said.get(i) and salt in said[i].lines else None)
        if named is not None and salt in named.lines:
            found.append(part._replace(j=max(named.j, part.j)))
        elif named is None and (end == len(words) or words[end] in _ENDS):
            found.append(part._replace(j=end))
    return found


def _part(state: ReadingState, clause: Clause, words: Sequence[str], i: int, salt: int) -> _Part | None:
    """The share that words from i on tell of something: "half", "the other teaspoon", "two thirds"."""
    behind = words[i + 1] if i + 1 < len(words) else ""
    if words[i] in _LEFT_WORDS:
        measured = behind in _SPOONS or behind in _FRACTIONS
        return _Part(i, i + 1 + measured, _LEFT) if measured or words[i] in _ALONE | {"remaining"} else None
    if words[i] == "half" and behind not in ("a", *_SPOONS):
        return _Part(i, i + 1, _FRACTIONS["half"])
    number = (1.0, i + 1) if words[i] in ("a", "one") else number_at(clause.tokens, i)
    if number is None or number[1] >= len(words) or words[i - 1] == "in":
        return None  # "the breadcrumbs in a third", of bowls
    value, j = number
    if words[j] in _FRACTIONS:
        return _Part(i, j + 1, value * _FRACTIONS[words[j]])
    whole, unit = state.lines[salt].line.amount, state.lines[salt].line.unit
    if words[j] not in _SPOONS or unit not in _SPOONS or whole is None:
        return None
    return _Part(i, j + 1, value * _SPOONS[words[j]] / (whole.likely * _SPOONS[unit]))
