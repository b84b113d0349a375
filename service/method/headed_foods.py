"""Food that stands alone above what is done with it: "Potatoes:", "THE AUBERGINES", "For the beans"."""

from __future__ import annotations

from collections.abc import Sequence

from .listed import Index
from .mention import Mention
from .method_words import small_words
from .prose_tokens import Token, tokenize

_WORKED_ON = frozenset(
    {"meat", "poultry", "fish", "seafood", "vegetable", "potato", "legume", "grain", "pasta", "egg", "tofu"}
)
_LONGEST = 6
_AROUND = small_words("around_headed_food")


def heads_work_on(paragraph: str, index: Index) -> bool:
    """Whether a heading names nothing but food of the list, which what stands below it works on: "To make the
    aubergines:"; not "For the tomato sauce"."""
    kinds = set()
    for token in tokenize(paragraph):
        if token.text in _AROUND or not token.text[0].isalpha():
            continue
        lines = index.by_word.get(token.stem)
        if not lines:
            return False
        kinds |= {line.kind for line in lines}
    return bool(kinds) and kinds <= _WORKED_ON


def stands_alone(tokens: Sequence[Token], mentions: Sequence[Mention]) -> bool:
    """Whether words name food and tell nothing of it: "the aubergines", "for the potatoes"."""
    if len(tokens) > _LONGEST:
        return False
    named = {i for m in mentions if m.kind == "line" for i in range(m.i, m.j)}
    return all(i in named or t.text in _AROUND or not t.text[0].isalnum() for i, t in enumerate(tokens))
