"""Lines of a list that hold several: a whole part of it ("Brine: 60 g salt, 1 l water"), salt and its water
("60 g salt in 1 l water"), or the salt of several things ("1 tsp salt, plus 1 tbsp for the water")."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache
from typing import NamedTuple

from ..lines import read_line
from .headings import bath_of_heading, is_heading
from .method_words import class_of, verbs
from .parts_headed import parts_headed
from .prose_tokens import words_of
from .salt_for_each import MAY_TELL, salts_for_each

_FIGURE = r"(?:[\d½¼¾⅓⅔⅛]|(?:an?|one|two|three|half|pinch|handful)\s)"
_NEAR = ".{0,40}"
_LABEL = r"[^\W\d][^\d:,;]{1,40}?"
_LABELLED = re.compile(
    rf"(?P<label>{_LABEL})\s*(?:\([^)]*\)\s*)?(?::|\s[-–—])\s*(?P<rest>{_FIGURE}.*[^,\s])$", re.IGNORECASE
)
_MAY_HOLD = re.compile(
    rf"^{_LABEL}(?:\([^)]*\)\s*)?(?::|\s[-–—]\s).*[\d½¼¾⅓⅔⅛]|\bsalt\b{_NEAR} in {_FIGURE}{_NEAR}\bwater\b"
    rf"|\bwater\b{_NEAR} (?:and|with|&|\+) {_FIGURE}{_NEAR}\bsalt\b"
    rf"|\bsalt\b{_NEAR} (?:and|with|&|\+) {_FIGURE}{_NEAR}\bwater\b|{MAY_TELL}",
    re.IGNORECASE | re.MULTILINE,
)
"""What some line of a list must look like for any of them to hold several."""
_NEXT = re.compile(
    rf"\s*(?:[,;]\s*(?:and|plus)?|\s(?:and|plus|with|&|\+|in(?=[^,;]*\bwater\b)))\s*(?={_FIGURE})"
)
_COMMA = re.compile(r"\s*[,;]\s*(?![^(]*\))")
_FOR_WHAT = re.compile(
    r"\sfor (?:the |your )?(?:[a-z]+ )?(?:brine|cure|marinade|brining|soaking|pickle)$", re.I
)
_LONGEST, _SEVERAL = 3, 2


class LinesApart(NamedTuple):
    """The lines of a list with every part in a line of its own, and of each the index of the line as sent;
    -1: a heading that such a line began with."""

    lines: tuple[str, ...]
    sources: tuple[int, ...]


@lru_cache(maxsize=64)
def lines_apart(lines: tuple[str, ...]) -> LinesApart:
    """A list's lines; one that holds a part is made that part's heading, with a line of each food below it.

    Such parts go behind the other lines, so that none of those stands below their headings.
    """
    if _MAY_HOLD.search("\n".join(lines)) is None:
        return LinesApart(lines, ())
    kept: list[tuple[str, int]] = []
    parts: list[tuple[str, int]] = []
    heads = parts_headed(lines)
    for i, text in enumerate(lines):
        label, foods = ("", []) if i in heads else _foods_of(text)
        if label and not (_is_known(label) or not any(at < i for at, head in heads.items() if head)):
            label = ""  # "Wet: …" below "Marinade:" is of the marinade
        if label:
            parts += [(f"{label}:", -1), *((food, i) for food in foods)]
        else:
            kept += [(food, i) for food in foods or [text]]
    both = kept + parts
    return LinesApart(tuple(text for text, _ in both), tuple(source for _, source in both))


def _is_known(label: str) -> bool:
    """Whether a label is the name of a part by itself: "Brine", "For the sauce"."""
    return bath_of_heading(label) is not None or is_heading(f"{label}:") is not None


def _foods_of(text: str) -> tuple[str, list[str]]:
    """The label of a line that holds a part, "" where it has none, and its foods; none of any other line."""
    if _MAY_HOLD.search(text) is None:
        return "", []
    if salts := salts_for_each(text):
        return "", salts
    found = _LABELLED.match(text)
    if found is None:
        foods = _brine_of(text)
        return "", foods
    label = found["label"].strip(" *")
    foods = list(_split(found["rest"]))
    named = all(_names_food(food) for food in foods if _is_measured(food))
    measured = sum(map(_is_measured, foods))
    bath = bath_of_heading(label) is not None
    alone = bath or (len(foods) > 1 and label.lower().startswith("for "))  # "For soaking: 2 l water" is water
    if not bath and class_of(_stems(label)) != "other" == class_of(_stems(foods[0])):
        return "", []  # "Onion - 1 large, 2 small"
    if not named or measured < (1 if alone else _SEVERAL):
        return "", []  # "Butter: 100 g, 1/2 cup", "Chicken: 2 breasts, skinned"
    return label, foods


def _brine_of(text: str) -> list[str]:
    """ "60 g salt in 1 litre water", "1 l water and 60 g salt for the brine": two lines for the same."""
    purpose = found[0] if (found := _FOR_WHAT.search(text)) else ""
    foods = list(_split(text.removesuffix(purpose)))
    kinds = [class_of(_stems(food)) for food in foods if " for " not in food]
    return [f"{food}{purpose}" for food in foods] if sorted(kinds) == ["salt", "water"] else []


def _split(text: str) -> Iterator[str]:
    """ "50 g salt, 1 onion, sliced, bay leaves": what gives an amount begins a line, as bare food does."""
    for measured in _NEXT.split(text.rstrip(". ")):
        whole = ""
        for piece in _COMMA.split(measured):
            if whole and _is_bare_food(piece):
                yield whole
                whole = piece
            else:
                whole = f"{whole}, {piece}" if whole else piece
        yield whole


def _is_bare_food(piece: str) -> bool:
    """Whether words behind a comma are another food ("pepper", "bay leaves") and not what was done to it."""
    words = piece.split()
    done = any((verb := verbs().get(word.lower())) is not None and not verb.noun for word in words)
    return 0 < len(words) <= _LONGEST and not done and class_of(_stems(piece)) != "other"


def _is_measured(food: str) -> bool:
    return re.match(_FIGURE, food, re.IGNORECASE) is not None


def _names_food(food: str) -> bool:
    line = read_line(food)
    return line.amount is not None and bool(line.food_words)


def _stems(text: str) -> tuple[str, ...]:
    return tuple([stem for word, stem in words_of(text) if word[0].isalpha()])
