"""Chooses a food for folded words: by an everyday name, by another row of that food, by the rows' own names.

What speaks against a choice is its penalty: words of the line that it leaves unexplained, words of the
dataset's name that nobody asked for. A penalty of 3 is one word that names a food.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

import numpy as np

from .everyday_names import MARK, Name, NameIndex, companions, least_sodium_mg, salty_words, warnings_of
from .folding import Words, fold
from .qualifiers import IDLE, boost, content, qualifiers, spoken_against, states, wanted
from .row_index import RowIndex, Siblings, best
from .spelling import Speller

FOOD_WORD = 3.0
"""What a word of the line that names a food gains a row, and the penalty where it is missing."""

HEAD_WORD = 5.0
"""The same for the line's head noun: without it nothing else can be right."""

OTHER_FOOD = 4.5
"""Penalty of an everyday name that leaves a word of another food unexplained (pomegranate molasses)."""

PLAIN_WORD = 3.2
"""Its penalty for a known word that by itself is no food ("strong")."""

STRANGE_WORD = 2.0
"""Penalty of a choice for a word that no food has: a make, a place, a breed."""

FURTHER = 0.4
"""What each further such word weighs, as a share of the one before: a make has two words, or three."""

ROW_DOUBT = 0.8
"""What speaks against any row that is found by its words alone."""

REVERSED = 1.7
"""What speaks against a name whose words the line has in another order: milk chocolate, chocolate milk."""

ORIGIN = 0.7
"""The same for the country or the place that a food comes from, where no name has it."""

FRESH = f"{MARK}fresh"
"""What "chopped" and the like tell of a herb or a root, among the words that preparation and unit tell."""

COMPANION = 0.2
"""The same for a word that beside this food says nothing new (food_companions.csv)."""

AGAINST = 2.0
"""What speaks against a row that is what the line says it is not."""

SLIP = 0.6
"""What speaks against a word that had to be corrected."""

SUREST, PER_PENALTY, LEAST = 0.97, 0.13, 0.5
"""Confidence = SUREST - PER_PENALTY * penalty; below LEAST there is no match."""

CLEAR = 0.6
"""Up to this penalty an everyday name is taken without a look at the dataset's names."""

SALT = "salt"
"""How a word begins that says that its food is salted."""

BY_ROW = "words of the dataset's name"
NEAREST = 3
_SHORTEST_PART = 3
"""Letters in the shorter of two words that are taken to be run together."""
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
    penalty: float
    why: str
    others: tuple[str, ...] = ()
    named: Words = ()
    doubt: float = 0.0


class MatchScorer:
    """Chooses among the rows of `index`, helped by everyday names."""

    def __init__(
        self,
        index: RowIndex,
        names: NameIndex,
        sodium_mg: Callable[[str], float | None] | None = None,
        group: Callable[[str], str] | None = None,
    ) -> None:
        """sodium_mg: what 100 g of the food of a code hold, None where it is not known. group: the code of
        its food group, "" where it has none."""
        self.index = index
        self._sodium_mg = sodium_mg or (lambda _: None)
        self._group = group or (lambda _: "")
        self._names = names
        # No slip makes a state: a rice cooker is not cooked rice.
        unsaid = {word for word, qualifier in qualifiers().items() if qualifier.line != IDLE}
        self._speller = Speller((names.words | qualifiers().keys()) - unsaid, set(index.vocabulary) - unsaid)
        self._siblings = Siblings(index)

    def choose(self, asked: Words, told: Words) -> Choice:
        """The food for a line's words (asked) and for what its preparation and its unit tell."""
        if exact := self._exact(asked, told):
            return self._chosen(exact, 0.0, told)
        words, slips = self._corrected(asked)
        named = content(words)
        if not named or words[0] == "for" or not warnings_of("never").isdisjoint(words):
            return Choice(None, 0.0, (), "the line names no food")
        by_name = self._by_name(words, told)
        if by_name and by_name.penalty - by_name.doubt <= CLEAR:
            return self._chosen(by_name, slips, (*words, *told))
        found = [by_name, *self._by_row(words, told)] if by_name else self._by_row(words, told)
        if not found:
            return Choice(None, 0.0, (), "no food is named by any of these words")
        first, *rest = sorted(found, key=lambda candidate: candidate.penalty)
        if len(named) == 1 and named[0] in warnings_of("alone"):
            nearest = tuple(each.code for each in found if each.code)[:NEAREST]
            return Choice(None, 0.0, nearest, "it says only a kind of food")
        others = (*first.others, *(each.code for each in rest))
        return self._chosen(replace(first, others=others), slips, (*words, *told))

    def _exact(self, asked: Words, told: Words) -> _Candidate | None:
        """The everyday name that is just what was asked, where nothing told asks for another row."""
        known = (self._names.by_words.get(way) for way in _ways(asked, told))
        name = self._marked(asked, told) or next((name for name in known if name), None)
        if name is None or not self._has(name.code) or not set(wanted(told)) <= set(name.states):
            return None
        return _Candidate(name.code, name.doubt, name.why, name.others, name.words)

    def _marked(self, asked: Words, told: Words) -> Name | None:
        """The name that is for a unit, or for what other lines tell; the surest of several."""
        marked = ((*asked, word) for word in told if word.startswith(MARK))
        names = [
            name
            for way in marked
            if (name := self._names.by_words.get(way)) and self._may_be_fresh(name, told)
        ]
        return min(names, key=lambda name: name.doubt, default=None)

    def _may_be_fresh(self, name: Name, told: Words) -> bool:
        """Whether a name that is for a unit may be meant: chopped basil by the spoon is no dried basil."""
        marked = FRESH in told and name.words[-1].startswith(MARK)
        return not (marked and self._speaks_against(name.code, ("fresh",)))

    def _has(self, code: str) -> bool:
        return not code or code in self.index.places

    def _corrected(self, asked: Words) -> tuple[Words, float]:
        """The words, what is misspelt or run together set right, and what speaks against that."""
        corrected: list[str] = []
        slips = 0.0
        for word in asked:
            meant = (word,) if self._knows(word) else self._parted(word) or (self.spelled(word),)
            slips += 0.0 if meant == (word,) else SLIP * (len(meant) == 1)
            corrected += meant
        return tuple(corrected), slips

    def _parted(self, word: str) -> Words:
        """The two words of an everyday name that are written as one ("porkchop"); none of any other word."""
        ends = range(_SHORTEST_PART, len(word) - _SHORTEST_PART + 1)
        halves = ((word[:at], word[at:]) for at in ends)
        return next((pair for pair in halves if pair in self._names.by_words), ())

    def spelled(self, word: str) -> str:
        """The word, or the known one that it misspells."""
        if self._knows(word):
            return word
        meant = self._speller.nearest(word) or word
        # No slip takes the salt out of a word: saltfish is not sablefish.
        return word if word.startswith(SALT) and not meant.startswith(SALT) else meant

    def _knows(self, word: str) -> bool:
        return word in self.index or word in self._names.words or word in qualifiers()

    def _chosen(self, candidate: _Candidate, slips: float, words: Words) -> Choice:
        short = candidate.penalty + slips + (AGAINST if self._speaks_against(candidate.code, words) else 0.0)
        confidence = round(max(0.0, SUREST - PER_PENALTY * short), 2)
        others = tuple(dict.fromkeys(code for code in candidate.others if code and code != candidate.code))
        if not candidate.code:
            return Choice(None, 0.0, others[:NEAREST], candidate.why)
        if confidence < LEAST:
            return Choice(None, confidence, (candidate.code, *others)[:NEAREST], "no food is near enough")
        if not self._as_salty(candidate, words):
            why = "the line says that it is salty, which the nearest food is not"
            return Choice(None, 0.0, (candidate.code, *others)[:NEAREST], why)
        return Choice(candidate.code, confidence, others[:NEAREST], candidate.why)

    def _as_salty(self, candidate: _Candidate, words: Words) -> bool:
        """Whether the food is as salty as the words say: what is salted never becomes unsalted."""
        unsaid = salty_words() & set(words) - set(candidate.named)
        if not unsaid or not unsaid.isdisjoint(self.index.words_of(self.index.places[candidate.code])):
            return True
        return all(self._is_salty(candidate.code, word) is not False for word in unsaid)

    def _is_salty(self, code: str, word: str) -> bool | None:
        """Whether a food holds the sodium that a word such as "cured" tells of; None = not known."""
        sodium_mg = self._sodium_mg(code)
        return None if sodium_mg is None else sodium_mg >= least_sodium_mg(word, self._group(code)[:2])

    def _speaks_against(self, code: str, words: Words) -> bool:
        """Whether the row is what the words say it is not: "fresh", and the row is dried."""
        against = spoken_against(words)
        return bool(against and code) and not against.isdisjoint(self.index.words_of(self.index.places[code]))

    # By an everyday name.

    def _by_name(self, words: Words, told: Words) -> _Candidate | None:
        own, head = set(words), head_of(words)
        names = [
            (self._unnamed(name, words, head), name)
            for name in self._names.inside(frozenset((*words, *told)))
            if not own.isdisjoint(name.words) and self._has(name.code) and self._may_be_fresh(name, told)
        ]
        if not names:
            return None
        short, name = min(
            names, key=lambda pair: (pair[0] + pair[1].doubt - 0.5 * len(pair[1].words), pair[1].words)
        )
        rest = tuple(word for word in states((*words, *told)) if word not in name.states)
        return replace(self._moved(name, rest, short + name.doubt), doubt=name.doubt)

    def _unnamed(self, name: Name, words: Words, head: str) -> float:
        """The penalty of a name for the naming words that it does not have."""
        missing = [word for word in content(words) if word not in name.words]
        of_row = self.index.words_of(self.index.places[name.code]) if missing and name.code else ()
        short = 0.0
        strange = STRANGE_WORD
        for word in missing:
            same = word in of_row or self._names_same(word, name.code)
            weight = COMPANION if same else self._weight_unnamed(word, word == head, name.code)
            if weight == STRANGE_WORD:
                weight, strange = strange, strange * FURTHER
            short += weight
        return short + (0.0 if _in_order(name.words, words) else REVERSED)

    def _names_same(self, word: str, code: str) -> bool:
        """Whether a word alone is another name of the food."""
        known = self._names.by_words.get((word,))
        return known is not None and known.code == code

    def _weight_unnamed(self, word: str, is_head: bool, code: str) -> float:
        if code in companions().get(word, ()):
            return COMPANION
        if is_head:
            return HEAD_WORD
        if word in warnings_of("origin"):
            return ORIGIN
        if word in warnings_of("milled") and code and self._group(code)[:2] not in warnings_of("flesh"):
            return COMPANION
        if self._makes_another(word):
            return OTHER_FOOD
        return PLAIN_WORD if self._knows(word) else STRANGE_WORD

    def _makes_another(self, word: str) -> bool:
        known = (word,) in self._names.by_words or word in self.index.heads
        return known or word in warnings_of("changes")

    def _moved(self, name: Name, asked: Words, short: float) -> _Candidate:
        """The name's food, or the row of the same food that has the states asked for."""
        if not name.code or not wanted(asked):
            return _Candidate(name.code, short, name.why, name.others, name.words)
        salty = salty_words() & set(asked)
        asked = tuple(word for word in asked if word not in salty or not self._is_salty(name.code, word))
        code, more = self._siblings.find(name.code, asked)
        why = name.why if code == name.code else f"{name.why}, in the row that is {' '.join(asked)}"
        return _Candidate(code, short + more, why, name.others, name.words)

    # By the dataset's own names.

    def _by_row(self, words: Words, told: Words) -> list[_Candidate]:
        head = head_of(words)
        weights = {word: HEAD_WORD if word == head else FOOD_WORD for word in content(words)}
        weights |= {word: boost(word) for word in states((*words, *told))}
        known = {word: weight for word, weight in weights.items() if word in self.index}
        total = sum(self._weight_unmet(word, weight, word == head) for word, weight in weights.items())
        scores = self.index.score(known)
        named = set(content(known))
        return [
            _Candidate(self.index.codes[place], ROW_DOUBT + total - float(scores[place]), BY_ROW)
            for place in best(scores, None, 2 * NEAREST)
            if not named.isdisjoint(self.index.naming(place))
        ]

    def _weight_unmet(self, word: str, weight: float, is_head: bool) -> float:
        return weight if is_head or self._knows(word) else STRANGE_WORD


def _ways(asked: Words, told: Words) -> Iterator[Words]:
    """The ways in which a name may hold what was asked and told, the fullest first."""
    if told:
        said = tuple(word for word in told if not word.startswith(MARK))
        yield (*said, *asked)
        yield (*asked, *said)
    yield asked


def _in_order(name: Words, words: Words) -> bool:
    places = [words.index(word) for word in name if word in words]
    return places == sorted(places)


def head_of(words: Words) -> str:
    """The head noun: the last naming word before "in", "with" and the like."""
    end = next((at for at, word in enumerate(words) if at and word in _BREAKS), len(words))
    named = content(words[:end]) or content(words)
    return named[-1] if named else ""


SHORTEST_PREFIX = 2
"""Letters from which on the last word may be the beginning of one."""


def search(query: str, limit: int, scorer: MatchScorer) -> tuple[str, ...]:
    """Codes of the foods that fit best, best first, at most `limit`; none where nothing fits.

    First what the words mean in a kitchen, then rows that have all of the words, generic ones first, then
    what else is near.
    """
    asked = fold(query)
    found = dict.fromkeys(code for code in _found(asked, limit, scorer) if code)
    return tuple(found)[:limit]


def _found(asked: Words, limit: int, scorer: MatchScorer) -> Iterator[str | None]:
    meant = scorer.choose(asked, ())
    yield meant.code
    yield from _having_all(asked, limit, scorer)
    yield from meant.others


def _having_all(asked: Words, limit: int, scorer: MatchScorer) -> Iterator[str]:
    """Rows that have all of the words, or words that begin with the last; misspelt words are corrected."""
    if not asked:
        return
    index = scorer.index
    *whole, last = dict.fromkeys((*map(scorer.spelled, asked[:-1]), asked[-1]))
    begun = index.beginning(last) if len(last) >= SHORTEST_PREFIX else [last]
    begun = begun or [scorer.spelled(last)]
    places = np.unique(np.concatenate([index.having((word,)) for word in begun]))
    if whole:
        places = np.intersect1d(places, index.having(whole))
    weights = dict.fromkeys((*whole, *begun), FOOD_WORD) | {last: HEAD_WORD}
    yield from (index.codes[place] for place in best(index.score(weights), places.tolist(), limit))
