"""Words that look like verbs and only say what a food of a list is like: "yeast, sugar and warm water"."""

from __future__ import annotations

from collections.abc import Sequence, Set

from .method_words import Verb
from .prose_tokens import Token

SAYS_HOW = frozenset({"warm", "cool", "dry", "thin", "clean", "brown"})


def describes(tokens: Sequence[Token], i: int, named: Set[int], verb: Verb) -> bool:
    """Whether the verb at word i stands before a food of a list, another food of which stands before it."""
    if verb.base not in SAYS_HOW or i + 1 not in named:
        return False
    k = i - 1
    while k > 0 and tokens[k].text in ("and", ",", "or"):
        k -= 1
    return k in named and k < i - 1
