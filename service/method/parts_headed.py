"""Which lines of a list head its parts, marked or not, and which only name such a part again."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping, Sequence
from itertools import pairwise

from ..lines.amounts import number_words
from .headings import is_heading
from .method_words import class_of, nouns
from .prose_tokens import words_of
from .sections import (
    AMOUNT_BEHIND,
    LONGEST_HEADING,
    is_food_below,
    labels,
    loose_headings,
    makes,
    of_what_is_below,
)

_MEASURED = 0.6
"""Share of the lines of a list with an amount, from which on a short line without one may be a heading."""
_DIGIT = re.compile(r"\d")
_FIGURE = re.compile(r"[\d½¼¾⅓⅔⅛]")
_BRACKETS = re.compile(r"\s*\([^)]*\)")
_ASIDE = re.compile(r"^(?:or|and|plus|either)\b:?\s+|^\d(?:st|nd|rd|th)\s+", re.IGNORECASE)
_TOPPING = ("ting", "ning", "sing", "ling", "cing", "ping", "ding")
"""How words end that say what lines are made into ("coating"), and no food does."""
_STRANGE = frozenset({"seasoning", "mix", "blend", "powder", "extract", "topping", "sprinkle", "water"})
_SHAPED = frozenset({"cake", "fishcake", "meatball", "dumpling", "kebab", "patty", "burger"})
_NEVER_BOUGHT = frozenset({"batter", "breading", "coating", "brine", "marinade", "roux", "filling"})
_TWICE = frozenset({"other", "meat", "poultry", "fish", "seafood"})
"""Kinds of a line without an amount that stands twice because the first heads a part: not salt, nor oil."""
_CARRIES = frozenset(
    {"meat", "poultry", "fish", "seafood", "vegetable", "grain", "pasta", "potato", "legume"}
)
_BEFORE_AMOUNT = frozenset({"-", "–", "—", ":", "x"})
"""Marks before an amount that is said in words: "Star anise - one half"."""
_OPENS = '(*"“'
_FAR = 8
"""Lines below a part's name among which the food that it is named after is measured."""


def parts_headed(lines: Sequence[str]) -> dict[int, str]:
    """The indices of the lines that only head others, each with the heading that it is; "" of one that stands
    over the whole list."""
    if lines and _heads_all(lines[0]):
        return {0: "", **{i + 1: head for i, head in parts_headed(lines[1:]).items()}}
    with_amount = [_has_amount(text) for text in lines]
    bare = sum(not own and below for own, below in pairwise(with_amount))  # each may head what is below it
    measured = sum(with_amount) >= _MEASURED * (len(lines) - bare)
    heads = {
        i: head for i, text in enumerate(lines) if (head := is_heading(text) or labels(text)) is not None
    }
    for i, text in enumerate(lines):
        if i in heads or "(optional" in text.lower():
            continue  # what may be left out is a food
        if text[:1].isalpha() or text[:1] in _OPENS or _ASIDE.match(text):
            below = (
                lines[i + 1 :] if measured or with_amount[i + 1 : i + 2] == [True] or _is_made(text) else ()
            )
            if (measured and _is_bare_heading(text, below)) or (below and makes(text, below, _has_amount)):
                heads[i] = _BRACKETS.sub("", text).strip()
    if measured and (loose := loose_headings(lines, heads, _has_amount)):
        left_open = {i for i in loose if "(optional" in lines[i].lower()}
        heads |= {i: _BRACKETS.sub("", lines[i]).strip() for i in loose - left_open}
    heads |= _named_parts(lines, heads, measured=measured)
    return {
        i: head
        for i, head in heads.items()
        if not (_is_food_at_end(lines, i, heads) or _is_of_crumbs(lines, i, head))
    }


def _heads_all(text: str) -> bool:
    """ "Ingredients", "You will need (serves 4):", above the first food."""
    return _BRACKETS.sub("", text).strip(" #:*").lower() in nouns("whole_list")


_CRUMBS = frozenset({"breadcrumb", "breadcrumbs"})
_OF_CRUMBS = re.compile(r"bread|panko|crumb", re.IGNORECASE)


def _is_of_crumbs(lines: Sequence[str], index: int, head: str) -> bool:
    """Whether crumbs are a food, since none of the next lines is what they are made of."""
    return head.lower() in _CRUMBS and not any(map(_OF_CRUMBS.search, lines[index + 1 : index + 4]))


_FOODS_AT_END = frozenset({"noodle", "noodles", "vegetable", "vegetables", "veg"})


def _is_food_at_end(lines: Sequence[str], index: int, heads: Mapping[int, str]) -> bool:
    """Whether a word that may head a part ("noodles", "veg") has no line below it, so that it is the food."""
    if lines[index].strip().lower() not in _FOODS_AT_END:
        return False
    return all(i in heads and lines[i].strip().lower() in _FOODS_AT_END for i in range(index + 1, len(lines)))


def _is_made(text: str) -> bool:
    """Whether a line names what nobody buys, so that it heads a part where nothing is measured either."""
    return text.rpartition(" ")[2].strip(" :*").lower() in _NEVER_BOUGHT


def names_a_part(text: str, index: int, heads: Mapping[int, str]) -> bool:
    """Whether a line only names a part that stands above it: "Pork" of a roll, below the list of the pork."""
    return any(text.strip(" :*").lower() == head.lower() for i, head in heads.items() if i < index)


def _named_parts(lines: Sequence[str], heads: Mapping[int, str], *, measured: bool) -> dict[int, str]:
    """Names of parts that only the rest of a list tells: named again, or of a food that is measured below."""
    names = {i: text.strip(" :*") for i, text in enumerate(lines) if i not in heads}
    small = bool(heads)  # a list that has parts may name another one in small letters, right above its food
    bare = {i: name for i, name in names.items() if (small or name[:1].isupper()) and _is_name(name)}
    often = Counter(name.lower() for name in bare.values())
    found: dict[int, str] = {}
    for i, name in bare.items():
        if i + 1 == len(lines) or name.lower() in (each.lower() for each in found.values()):
            continue
        stems = tuple(stem for _, stem in words_of(name))
        again = often[name.lower()] > 1 and class_of(stems) in _TWICE
        in_parts = measured and (i == 0 or heads or found)
        far = _FAR if name[:1].isupper() else 1
        if again or (in_parts and _is_measured_below(stems, lines[i + 1 : i + 1 + far])):
            found[i] = name
    return found


def _is_name(text: str) -> bool:
    return len(text.split()) <= LONGEST_HEADING and not _has_amount(text) and text.replace(" ", "").isalpha()


def _is_measured_below(stems: tuple[str, ...], below: Sequence[str]) -> bool:
    """Whether a food of one word is given with its amount further down: "Tomato" above "800 g tomatoes"."""
    kind = class_of(stems)
    if len(stems) > 1 or kind not in _CARRIES:
        return False
    measured = (
        tuple(stem for word, stem in words_of(line) if word[0].isalpha())
        for line in below
        if _has_amount(line)
    )
    return any(stems[0] in words and class_of(words) == kind for words in measured)


def _has_amount(text: str) -> bool:
    if _FIGURE.search(text) is not None:
        return True
    words = text.lower().split()
    said = [*words[:1], *(after for before, after in pairwise(words) if before in _BEFORE_AMOUNT)]
    return len(words) > 1 and any(word in ("a", "an") or word in number_words() for word in said)


def _is_bare_heading(text: str, below: Sequence[str]) -> bool:
    """Whether a line without an amount, above one that has one, only names what those below it make: "APPLE
    SAUCE", "Fish cakes", "Dressing (makes double)"."""
    plain = _ASIDE.sub("", _BRACKETS.sub("", text).strip(' :*"“')).replace('"', "")
    if _DIGIT.search(plain):
        return False
    bare = plain.lower()
    words = bare.split()
    if (
        not words
        or len(words) > LONGEST_HEADING
        or _has_amount(bare)
        or not (below and _has_amount(below[0]))
    ):
        return False
    if bare in nouns("heading") or plain.isupper() or words[0] == "for":
        return True
    if AMOUNT_BEHIND.search(text):
        return False  # "Chicken broth (2 cups)"
    if of_what_is_below(bare, below):
        return True
    if "," in bare or not plain[:1].isupper():
        return False
    if is_food_below(words, below):
        return True
    stems = [stem for word, stem in words_of(bare) if word[0].isalpha()]
    bought = stems[-1] not in _SHAPED and not nouns("bought").keys().isdisjoint(stems[:-1])
    if bought or "optional" in text.lower() or not {"for", "to"}.isdisjoint(stems[1:]):
        return False  # "Oil for frying"
    if stems[-1] in nouns("dish") or (len(stems) == 1 and stems[0].endswith(_TOPPING)):
        return True
    return len(stems) > 1 and class_of(tuple(stems)) == "other" and not _STRANGE.intersection(stems)
