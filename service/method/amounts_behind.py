"""Amounts that stand behind what they are of: "salt, 1/2 tsp each", "water (about 4 quarts)"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..units.kitchen_units import find, to_millilitres
from .mention import Mention
from .method_words import small_words
from .numbers_said import number_at
from .prose_tokens import Token

_FAR = 6
"""Words between water and its amount, at the most."""
_LEAST_ML = 200.0
"""The least measure that water behind its name is told in, ml: spoons are of the salt in it."""


def with_amount_behind(tokens: Sequence[Token], mention: Mention) -> Mention:
    """ "Salt, 1/2 tsp each", "salt and pepper (1 tsp each)": an amount that stands behind its food."""
    j = mention.j
    if mention.kind not in {"line", "salt", "water"} or j >= len(tokens):
        return mention
    if mention.kind == "water":
        return _with_litres_behind(tokens, mention)
    if tokens[j].text[0].isdecimal() and j + 1 < len(tokens):
        of_another = [token.text for token in tokens[j + 2 : j + 3]] == ["of"]  # "salt 3 litres of water"
        if find(tokens[j + 1].text) and not of_another:
            return replace(mention, amount=(j, j + 2))  # "salt 1 spoon"
    j += 2 if tokens[j].text in ("and", "&") else 0  # "and pepper"
    at = j + (j < len(tokens) and tokens[j].text in _JOINTS)
    about = at < len(tokens) and tokens[at].text in _ABOUT
    at += about
    if at == j or at + 1 >= len(tokens):
        return mention
    number = number_at(tokens, at)
    if number is None or number[1] >= len(tokens) or not find(tokens[number[1]].text):
        return mention
    end = number[1] + 1
    after = tokens[end].text if end < len(tokens) else "."
    each = after in ("each", "apiece")
    if not each and not (about and j == mention.j) and (after not in _ENDS or j > mention.j):
        return mention
    return replace(mention, amount=(at, end))


_JOINTS = frozenset({",", "(", ":", "-", "–", "—"})
_ENDS = frozenset({")", ".", ";", ",", "or"})
_ABOUT = small_words("about")


def _with_litres_behind(tokens: Sequence[Token], mention: Mention) -> Mention:
    """ "Cover with water by an inch (about 4 quarts)", "in water to cover, about a litre, and the salt"."""
    near = range(mention.j, min(mention.j + _FAR, len(tokens) - 2))
    i = next((k for k in near if tokens[k].text == "("), None)
    if i is None:
        i = next((k for k in near if tokens[k].text not in _TO_COVER), None)
        if i is None or tokens[i].text not in _APART:
            return mention
    i += 1
    i += tokens[i].text in _ABOUT
    number = number_at(tokens, i)
    size = to_millilitres(find(tokens[number[1]].text) or "") if number and number[1] < len(tokens) else None
    if number is None or size is None or size < _LEAST_ML:
        return mention
    j = number[1] + 1
    is_all = tokens[i - 1].text == "(" or j >= len(tokens) or tokens[j].text in _BEHIND_LITRES
    return replace(mention, amount=(i, j)) if is_all else mention


_TO_COVER = frozenset({"just", "enough", "to", "cover", "them", "it", "by", "over", "generously", "well"})
_APART = frozenset({",", "-", "–", "—", ":"})
_BEHIND_LITRES = _ENDS | _APART | {"and", "to", "with", "in", "for", "should", "will", "is"}
"""What stands behind litres that are of the water before them, and not "water, 1 litre milk"."""
