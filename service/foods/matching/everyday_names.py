"""Everyday names of foods, found inside a line's words.

They stand in seed_foods/common_names.csv; those that may mean more than one food in ambiguous_names.csv;
words that change nothing beside a certain food in food_companions.csv; words that say it is salty in
salty_words.csv.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cache

from ...core.tables import Row, load, rows
from .folding import Words, fold, fold_once
from .qualifiers import states

MARK = "~"
"""Stands before a unit, or what other lines tell: "1 cup mushrooms" are no cup mushrooms."""


@dataclass(frozen=True, slots=True)
class Name:
    """An everyday name, its words folded.

    states: those among its words and what they imply. code: the food it stands for, "" = none in the dataset.
    reason: why, where more is to be said than that it is a name. doubt: what speaks against that. others:
    codes of what else it may mean.
    """

    words: Words
    states: Words
    code: str
    reason: str = ""
    doubt: float = 0.0
    others: tuple[str, ...] = ()

    @property
    def why(self) -> str:
        return self.reason or f"everyday name {' '.join(self.words)!r}"


class NameIndex:
    """Names by their rarest word, so that those inside a line are found without a scan.

    by_words: names by their words as written. words: all their words. Of names alike the first counts.
    """

    def __init__(self, names: Iterable[Name]) -> None:
        self.by_words: dict[Words, Name] = {}
        for name in names:
            if name.words:
                self.by_words.setdefault(name.words, name)
        counts: dict[str, int] = {}
        for words in self.by_words:
            for word in words:
                counts[word] = counts.get(word, 0) + 1
        self.words = frozenset(counts)
        self._by_word: dict[str, list[Name]] = {}
        for words, name in self.by_words.items():
            rarest = min(words, key=lambda word: (counts[word], word))
            self._by_word.setdefault(rarest, []).append(name)

    def inside(self, words: frozenset[str]) -> list[Name]:
        """Names all of whose words are among `words`."""
        return [
            name
            for word in sorted(words)
            for name in self._by_word.get(word, ())
            if words.issuperset(name.words)
        ]


@cache
def everyday_names() -> NameIndex:
    """The names that come with the service."""
    ambiguous = (name for names in load("ambiguous_names", _ambiguous) for name in names)
    plain = (
        _plain(fold_once(text), row["code"])
        for row in rows("common_names")
        for text in row["names"].split("|")
    )
    return NameIndex((*ambiguous, *plain))


def _plain(words: Words, code: str) -> Name:
    return Name(words, states(words), code)


def _ambiguous(row: Row) -> list[Name]:
    marked = [(MARK + mark,) if mark else () for mark in row["when"].split("|")]
    others = tuple(row["others"].split("|")) if row["others"] else ()
    named = ((*fold(text), *mark) for text in row["names"].split("|") for mark in marked)
    return [
        Name(words, states(words), row["code"], row["why"], float(row["doubt"]), others) for words in named
    ]


@cache
def marks() -> frozenset[str]:
    """Units that tell names apart, and "counted" for what is counted without one, without `MARK`."""
    told = (mark for row in rows("ambiguous_names") for mark in row["when"].split("|"))
    return frozenset(mark for mark in told if mark)


BESIDE = "beside "
"""How the marks begin that the other lines of a recipe give."""


@cache
def _in_company() -> frozenset[Words]:
    told = (row for row in rows("ambiguous_names") if BESIDE in row["when"])
    return frozenset(fold(text) for row in told for text in row["names"].split("|"))


def depends_on_company(words: str) -> bool:
    """Whether the other lines of a recipe may tell what food the words mean."""
    return fold(words) in _in_company()


@cache
def companions() -> Mapping[str, frozenset[str]]:
    """Codes of the foods beside which a word says nothing new, by word."""
    found: dict[str, frozenset[str]] = {}
    for row in rows("food_companions"):
        for word in row["words"].split("|"):
            found[word] = found.get(word, frozenset()) | set(row["codes"].split("|"))
    return found


@cache
def salty_words() -> frozenset[str]:
    """The words that say that a food is salty."""
    return frozenset(word for row in rows("salty_words") for word in row["words"].split("|"))


@cache
def least_sodium_mg(word: str, group: str) -> float:
    """mg of sodium that 100 g of a food hold at the least of which a salty word is said.

    group: the first two figures of its food group's code, "" for none; salted fish and meat were cured.
    """
    return float(_saying(word, group)["least_sodium_mg"])


@cache
def lightly_most_mg(word: str, group: str) -> float:
    """mg of sodium in 100 g beyond which nobody says a salty word of a food with "lightly"; infinite where
    that is not known. group: as for `least_sodium_mg`."""
    return float(_saying(word, group)["lightly_most_mg"] or "inf")


def _saying(word: str, group: str) -> Row:
    saying = (row for row in rows("salty_words") if word in row["words"].split("|"))
    return next(row for row in saying if not row["groups"] or group in row["groups"].split())


@cache
def warnings_of(kind: str) -> frozenset[str]:
    """The words of a kind ("never", "changes", "alone") in seed_foods/name_warnings.csv."""
    return frozenset(
        word for row in rows("name_warnings") if row["kind"] == kind for word in row["words"].split("|")
    )
