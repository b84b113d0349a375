"""Parts of a list that are called by a letter: "(A) 1 tbsp soy sauce", "mix the beef with (A)"."""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence

from .prose_tokens import Token

_LETTERED = re.compile(r"[\[(]?([A-E])(?:[\])]|:|\s*$)")
_MAY_BEGIN = frozenset("([ABCDE")
_OPENS, _CLOSES = frozenset("(["), frozenset(")]")


def letter_of(text: str) -> str:
    """The word by which a method speaks of a line or heading that begins with a letter; "" of others."""
    if text[:1] not in _MAY_BEGIN or (found := _LETTERED.match(text)) is None:
        return ""
    return f"part-{found[1].lower()}"


def with_letters(tokens: Sequence[Token], paragraph: str, letters: Collection[str]) -> list[Token]:
    """The words of a sentence in which "(A)", or a capital that does not open it, is one of these parts."""
    found: list[Token] = []
    skips = False
    for i, token in enumerate(tokens):
        if skips:
            skips = False
            continue
        word = f"part-{token.text}"
        capital = len(token.text) == 1 and word in letters and paragraph[token.start].isupper()
        begun = bool(found) and found[-1].text in _OPENS
        skips = capital and begun and i + 1 < len(tokens) and tokens[i + 1].text in _CLOSES
        if skips:
            opened = found.pop()
            found.append(Token(word, word, opened.start, tokens[i + 1].end))
        else:
            found.append(Token(word, word, token.start, token.end) if capital and i else token)
    return found
