"""Long words that are known but for a letter within them: "refridgerator"."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from .method_words import small_words, verbs

_LONG = 9
"""Letters from which on a word is told by all but one of them."""
_FIRST, _LAST = 3, 2
"""Letters at either end that must be right: "preserving" is not "reserving", nor "immersion" "immersing"."""


def respelt(word: str) -> str:
    """The long word of methods that this one is but for one letter; itself where it is none, or known."""
    if len(word) < _LONG:
        return word
    like = _by_ends().get((word[:_FIRST], word[-_LAST:]), ())
    return word if word in like else next((known for known in like if _is_near(word, known)), word)


@cache
def _by_ends() -> Mapping[tuple[str, str], tuple[str, ...]]:
    found: dict[tuple[str, str], tuple[str, ...]] = {}
    for word in sorted({*verbs(), *small_words("wait")}):
        if len(word) >= _LONG:
            ends = word[:_FIRST], word[-_LAST:]
            found[ends] = (*found.get(ends, ()), word)
    return found


def _is_near(word: str, other: str) -> bool:
    """Whether two words differ by one letter that is another, too many or missing."""
    short, long = sorted((word, other), key=len)
    if len(long) - len(short) > 1:
        return False
    same = next((i for i, (a, b) in enumerate(zip(short, long, strict=False)) if a != b), len(short))
    return short[same + (len(short) == len(long)) :] == long[same + 1 :]
