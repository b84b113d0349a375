"""What "salt" and "salted" say in a sentence: of water, of a food of the list, of a pot to come."""

from __future__ import annotations

from collections.abc import Sequence

from .listed import Index
from .mention import Mention
from .prose_tokens import Token

WATERS = frozenset({"water", "saltwater", "waters"})
NEVER_SALT = ("meat", "fish", "seafood", "poultry", "salty")
"""What "salt" alone never means, though a line says "salt pork"."""
HOW_SALTED = frozenset({"salted", "unsalted", "lightly", "well", "generously"})
_BEFORE_WATER = HOW_SALTED | {"boiling", "simmering", "bubbling", "hot", "cold", "warm", "iced", "fresh"}


def names_salt_food(mentions: Sequence[Mention], index: Index) -> bool:
    """ "Salt cod: 12 hours in cold water", of a line "salt cod": a food's name, and no salting of cod."""
    first = mentions[0] if mentions else None
    if first is None or first.kind != "line" or first.i or first.j < _TWO_WORDS:
        return False
    return all("salt" in line.text.lower().split() for line in index.lines if line.index in first.lines)


_TWO_WORDS = 2


def is_of_water(tokens: Sequence[Token], i: int) -> bool:
    """ "Salted boiling water", "lightly salted water": of no line "salted butter"."""
    if "the" in [token.text for token in tokens[max(0, i - 2) : i]]:
        return False  # "in the salted water", which was made before
    after = (token.text for token in tokens[i + 1 : i + 5])
    return next((text for text in after if text not in _BEFORE_WATER), "") in WATERS


def is_plenty(tokens: Sequence[Token], i: int) -> bool:
    """ "Lots of cold water", "a pot of fresh water": more than a list that counts half a litre out."""
    before = [token.text for token in tokens[max(0, i - 4) : i]]
    if not _PLENTY.isdisjoint(before):
        return True
    while before and before[-1] in _BEFORE_WATER:
        before.pop()
    return before[-1:] == ["of"] and not _HOLDS_MUCH.isdisjoint(before[-2:-1])


_PLENTY = frozenset({"lots", "plenty", "abundant"})
_HOLDS_MUCH = frozenset({"pot", "pan", "saucepan", "stockpot", "bowl", "basin", "sink", "bucket"})


def is_of_salted(tokens: Sequence[Token], i: int, index: Index) -> bool:
    """ "Boil the salt cod", of a line "salted cod"."""
    lines = index.by_word.get(tokens[i + 1].stem, ()) if i + 1 < len(tokens) else ()
    return any(line.kind in NEVER_SALT and "salted" in line.words for line in lines)


_SALTED_NOW = frozenset({"salt", "season", "bring", "boil", "heat"})


def is_to_be_salted(tokens: Sequence[Token], i: int) -> bool:
    """ "Add the salt to the pasta water", "salt the pasta water": of a pot that is to come."""
    before = [token.text for token in tokens[max(0, i - _FAR_BEFORE) : i - 1]]
    if before[-1:] and before[-1] in ("to", "into", "in"):
        return "salt" in before and "reserved" not in before
    return bool(before[-1:]) and before[-1] in _SALTED_NOW


_FAR_BEFORE = 6
