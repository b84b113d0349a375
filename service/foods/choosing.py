"""Chooses a food for folded words: by an everyday name, by another row of that food, by the rows' own names.

What speaks against a choice is its shortfall: words of the line that it leaves unexplained, words of the
dataset's name that nobody asked for. A shortfall of 3 is one word that names a food.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from operator import ne

from .names import Name, NameIndex
from .qualifiers import content, qualifiers, states, wanted
from .row_index import RowIndex, best
from .spelling import Speller
from .words import Words

FOOD_WORD = 3.0
"""What a word of the line that names a food earns, and what is short where it is missing."""

HEAD_WORD = 5.0
"""The same for the line's head noun: without it nothing else can be right."""

OTHER_FOOD = 4.5
"""How short an everyday name falls that leaves a word of another food unexplained (pomegranate molasses)."""

PLAIN_WORD = 2.0
"""How short it falls by a known word that by itself is no food ("strong")."""

STRANGE_WORD = 1.5
"""How short a choice falls by a word that no food has: a make, a place, a breed."""

ROW_DOUBT = 0.8
"""What speaks against any row that is found by its words alone."""

REVERSED = 0.7
"""What speaks against a name whose words the line has in another order: milk chocolate, chocolate milk."""

SLIP = 0.5
"""What speaks against a word that had to be corrected."""

SUREST, PER_SHORTFALL, LEAST = 0.97, 0.13, 0.5
"""Confidence = SUREST - PER_SHORTFALL * shortfall; below LEAST there is no match."""

CLEAR = 0.6
"""Up to this shortfall an everyday name is taken without a look at the dataset's names."""

NEAREST = 3
_BREAKS = frozenset(("in", "with", "for", "from", "on", "without"))


@dataclass(frozen=True, slots=True)
class Choice:
    """A food's code, or None; the confidence in it, 0 to 1; other codes, nearest first; the reason."""

    code: str | None
    confidence: float
    others: tuple[str, ...]
    why: str


@dataclass(frozen=True, slots=True)
class _Candidate:
    code: str
    shortfall: float
    why: str


class Chooser:
    """Chooses among the rows of an index, helped by everyday names."""

    def __init__(self, index: RowIndex, names: NameIndex) -> None:
        self._index = index
        self._names = names
        self._speller = Speller({*index.vocabulary, *names.words, *qualifiers()})
        self._sibling = lru_cache(maxsize=4096)(self._find_sibling)

    def choose(self, asked: Words, told: Words) -> Choice:
        """The food for a line's words (asked) and for the states that its preparation tells."""
        if exact := self._exact(asked, told):
            return exact
        words = tuple(map(self._spelled, asked))
        named = content(words)
        if not named or asked[0] == "for":
            return Choice(None, 0.0, (), "the line names no food")
        slips = SLIP * sum(map(ne, asked, words))
        by_name = self._by_name(words, told)
        if by_name and by_name.shortfall <= CLEAR:
            return _chosen(by_name, slips)
        found = [by_name, *self._by_row(words, told)] if by_name else self._by_row(words, told)
        if not found:
            return Choice(None, 0.0, (), "no food has any of these words")
        first, *rest = sorted(found, key=_shortfall)
        others = dict.fromkeys(each.code for each in rest if each.code != first.code)
        return _chosen(first, slips, tuple(others))

    def _exact(self, asked: Words, told: Words) -> Choice | None:
        """The everyday name that is just what was asked, where the preparation asks for no other row."""
        name = self._names.by_words.get(asked)
        if name is None or name.code not in self._index.places or not set(wanted(told)) <= set(name.words):
            return None
        return Choice(name.code, SUREST, (), f"everyday name {' '.join(name.words)!r}")

    def _spelled(self, word: str) -> str:
        if self._knows(word):
            return word
        return self._speller.nearest(word) or word

    def _knows(self, word: str) -> bool:
        return word in self._index or word in self._names.words or word in qualifiers()

    # By an everyday name.

    def _by_name(self, words: Words, told: Words) -> _Candidate | None:
        names = self._names.inside(frozenset((*words, *told)))
        names = [
            name
            for name in names
            if not set(words).isdisjoint(name.words) and name.code in self._index.places
        ]
        if not names:
            return None
        head = head_of(words)
        weighed = [(self._unnamed(name, words, head), name) for name in names]
        short, name = min(weighed, key=lambda pair: (pair[0] - 0.5 * len(pair[1].words), pair[1].words))
        rest = states(word for word in (*words, *told) if word not in name.words)
        return self._moved(name, rest, short)

    def _unnamed(self, name: Name, words: Words, head: str) -> float:
        """How short a name falls by the naming words that it does not have."""
        short = sum(self._weight_unnamed(word, head) for word in content(words) if word not in name.words)
        return short + (0.0 if _in_order(name.words, words) else REVERSED)

    def _weight_unnamed(self, word: str, head: str) -> float:
        if word == head:
            return HEAD_WORD
        if not self._knows(word):
            return STRANGE_WORD
        return OTHER_FOOD if self._is_food(word) else PLAIN_WORD

    def _is_food(self, word: str) -> bool:
        return (word,) in self._names.by_words or word in self._index.heads

    def _moved(self, name: Name, asked: tuple[str, ...], unnamed: float) -> _Candidate:
        """The name's food, or the row of the same food that has the states asked for."""
        why = f"everyday name {' '.join(name.words)!r}"
        if not wanted(asked):
            return _Candidate(name.code, unnamed, why)
        code, short = self._sibling(name.code, asked)
        short += unnamed
        return _Candidate(
            code, short, why if code == name.code else f"{why}, in the row that is {' '.join(asked)}"
        )

    def _find_sibling(self, code: str, asked: tuple[str, ...]) -> tuple[str, float]:
        index = self._index
        place = index.places[code]
        own = index.words_of(place)
        missing = [word for word in wanted(asked) if word not in own]
        if not missing:
            return code, 0.0
        identity = content(index.naming(place))
        among = index.having((*identity, *wanted(asked)))
        weights = dict.fromkeys(content(own), 1.0) | {word: _earns(word) for word in asked}
        found = best(index.score(weights), among, 1)
        if found:
            return index.codes[found[0]], 0.2
        return code, sum(_earns(word) for word in missing)

    # By the dataset's own names.

    def _by_row(self, words: Words, told: Words) -> list[_Candidate]:
        head = head_of(words)
        weights = {word: HEAD_WORD if word == head else FOOD_WORD for word in content(words)}
        weights |= {word: _earns(word) for word in states((*words, *told))}
        strange = sum(
            STRANGE_WORD - weight
            for word, weight in weights.items()
            if not self._knows(word) and word != head
        )
        total = sum(weights.values()) + strange + ROW_DOUBT
        known = {word: weight for word, weight in weights.items() if word in self._index}
        if not known:
            return []
        scores = self._index.score(known)
        return [
            _Candidate(self._index.codes[place], total - float(scores[place]), "words of the dataset's name")
            for place in best(scores, None, NEAREST + 1)
        ]


def _in_order(name: Words, words: Words) -> bool:
    places = [words.index(word) for word in name if word in words]
    return places == sorted(places)


def head_of(words: Words) -> str:
    """The head noun: the last naming word before "in", "with" and the like."""
    end = next((at for at, word in enumerate(words) if at and word in _BREAKS), len(words))
    named = content(words[:end]) or content(words)
    return named[-1] if named else ""


def _earns(word: str) -> float:
    return qualifiers()[word].earns


def _shortfall(candidate: _Candidate) -> float:
    return candidate.shortfall


def _chosen(candidate: _Candidate, slips: float, others: tuple[str, ...] = ()) -> Choice:
    confidence = round(max(0.0, SUREST - PER_SHORTFALL * (candidate.shortfall + slips)), 2)
    if confidence < LEAST:
        return Choice(None, confidence, (candidate.code, *others)[:NEAREST], "no food is near enough")
    return Choice(candidate.code, confidence, others[:NEAREST], candidate.why)
