"""What is only done with the other food of a line: "if using fresh cod, salt it", of "salt cod or fresh"."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache

from .clauses import Clause
from .happenings import SOLIDS
from .listed import Index
from .method_words import root
from .prose_tokens import tokenize

_IF_USING = re.compile(
    r"\b(?:if|when) (?:(?:you(?:'re|’re| are)? |it is |it's )?(?:using|use|have|chose|chosen|bought)"
    r"|(?:you )?(?:make|making|cook|cooking) (?:it |this )?with) "
    r"(?P<what>[^,.;:()]{3,60}?)(?=[,.;:()]|\bthen\b|$)",
    re.IGNORECASE,
)
_OR = re.compile(r"\bor\b", re.IGNORECASE)


def without_other_choices(clauses: Sequence[Clause], index: Index) -> list[Clause]:
    """The clauses without those of a sentence that begins with another choice than the first of its line."""
    lines = tuple(line.text for line in index.lines if line.kind in SOLIDS and _OR.search(line.text))
    if not lines:
        return list(clauses)
    return [clause for clause in clauses if not _is_of_other(clause.sentence, lines)]


@lru_cache(maxsize=1024)
def _is_of_other(sentence: str, lines: tuple[str, ...]) -> bool:
    condition = _IF_USING.match(sentence.lstrip("( "))
    return condition is not None and any(_names_other(condition["what"], line) for line in lines)


def _names_other(said: str, line: str) -> bool:
    """Whether words name what a line allows instead, and nothing of what it lists first."""
    first, _, instead = (_OR.sub("|", line, count=1)).partition("|")
    words, own, other = _roots(said), _roots(first), _roots(instead)
    return bool(words & (other - own)) and not words & (own - other)


def _roots(text: str) -> frozenset[str]:
    words = (root(token.text) for token in tokenize(text) if token.text[0].isalpha())
    return frozenset("can" if word in _CANNED else word for word in words)


_CANNED = frozenset({"canned", "tinned", "tin", "jarred", "jar"})
