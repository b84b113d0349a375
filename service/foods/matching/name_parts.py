"""The names of all rows, read into arrays at once: which word stands in which name, and in which part of it.

Names run "Head noun, qualifier, qualifier". Most parts stand in many names, so each is read once.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cache, lru_cache

import numpy as np
from numpy.typing import NDArray

from ...core.tables import rows
from .folding import Words, fold_once
from .qualifiers import qualifiers

Places = NDArray[np.int64]

NAMES, NEXT, LATER, GROUP = range(4)
"""Places of parts: the one that names the food, the next, later ones, a head that says only the group."""

_BREAK = ", "
_BRAND = re.compile(r"\b(?!USDA|DHA|ARA|NFS|RTF|UPC|II?I?\b)[A-Z][A-Z'’]{2,}")


@cache
def costs_of(kind: str) -> Mapping[str, float]:
    """How far the rows of a kind ("head", "codes", "brand") in name_groups.csv are put off, by value."""
    return {row["value"]: float(row["cost"]) for row in rows("name_groups") if row["kind"] == kind}


@dataclass(frozen=True, slots=True, eq=False)
class ReadNames:
    """Names as arrays.

    numbers: each word's number. row_of, word_of, place_of: for every word of every name in order the name's
    place, the word's number and its part's place. heads: words that alone name a food. put_off: for each
    name what makes it less wanted, whatever is asked for.
    """

    numbers: Mapping[str, int]
    row_of: Places
    word_of: Places
    place_of: Places
    heads: frozenset[str]
    put_off: NDArray[np.float64]


def read_names(names: Sequence[str]) -> ReadNames:
    """All words of all names."""
    counts = np.array([name.count(_BREAK) + 1 for name in names], np.int64)
    texts = _BREAK.join(names).split(_BREAK) if names else []
    known: dict[str, int] = {}
    part_of = np.array([known.setdefault(text, len(known)) for text in texts], np.int64)
    starts = np.cumsum(counts) - counts
    grouped = (counts > 1) & _group_costs(known)[0][part_of[starts]]
    place_of = np.arange(len(texts)) - np.repeat(starts + grouped, counts)
    place_of = np.where(place_of < 0, GROUP, np.minimum(place_of, LATER))
    numbers, words, lengths = _numbered(known)
    per_part = lengths[part_of]
    ends = np.cumsum(per_part)
    first_word = (np.cumsum(lengths) - lengths)[part_of]
    at = np.repeat(first_word - (ends - per_part), per_part) + np.arange(per_part.sum())
    brands = np.maximum.reduceat(_brand_costs(known)[part_of], starts) if len(names) else np.empty(0)
    return ReadNames(
        numbers=numbers,
        row_of=np.repeat(np.repeat(np.arange(len(names)), counts), per_part),
        word_of=words[at],
        place_of=np.repeat(place_of, per_part),
        heads=_lone_heads(known, part_of[place_of == NAMES]),
        put_off=brands + np.where(grouped, _group_costs(known)[1][part_of[starts]], 0.0),
    )


def _numbered(parts: Mapping[str, int]) -> tuple[Mapping[str, int], Places, Places]:
    """Words' numbers; the numbers of each part's words, one part behind the other; how many each has."""
    numbers: dict[str, int] = {}
    words: list[int] = []
    lengths: list[int] = []
    for text in parts:
        those = part_words(text)
        words += [numbers.setdefault(word, len(numbers)) for word in those]
        lengths.append(len(those))
    return numbers, np.array(words, np.int64), np.array(lengths, np.int64)


def _group_costs(parts: Mapping[str, int]) -> tuple[NDArray[np.bool_], NDArray[np.float64]]:
    """Whether each part, at the head of a name, says only the group; and what that costs."""
    known = costs_of("head")
    costs = [known.get(text.lower()) for text in parts]
    return np.array([cost is not None for cost in costs], bool), np.array([cost or 0.0 for cost in costs])


def _brand_costs(parts: Mapping[str, int]) -> NDArray[np.float64]:
    """What each part costs for naming a make, which the dataset writes in capitals."""
    cost = costs_of("brand")["capitals"]
    return np.array([cost if text != text.lower() and _BRAND.search(text) else 0.0 for text in parts])


def _lone_heads(parts: Mapping[str, int], naming: Places) -> frozenset[str]:
    texts = list(parts)
    heads = (part_words(texts[part]) for part in set(naming.tolist()))
    return frozenset(words[0] for words in heads if len(words) == 1)


@lru_cache(maxsize=8192)
def part_words(text: str) -> Words:
    """The folded words of a part of a name, and those they imply, each once."""
    known = qualifiers()
    words = dict.fromkeys(fold_once(text))
    for word in tuple(words):
        if word in known and known[word].implies:
            words[known[word].implies] = None
    return tuple(words)


def name_words(name: str) -> Words:
    """All words of a name."""
    return tuple(word for text in name.split(_BREAK) for word in part_words(text))


def naming_words(name: str) -> Words:
    """The words of that part of a name which names the food."""
    parts = name.split(_BREAK)
    return part_words(parts[1 if len(parts) > 1 and parts[0].lower() in costs_of("head") else 0])
