"""Lines of a list that are no food: headings of those below them, and sentences that tell of others."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Sequence

from .method_words import class_of, nouns, small_words
from .prose_tokens import tokenize

_BRACKETS = re.compile(r"\s*\([^)]*\)")
_LONGEST = 4
"""Words of such a heading, at the most."""
_ENOUGH = 2
"""Such lines from which on a list has parts, though it begins with none and marks none."""
_NAMED = frozenset(
    {"meat", "poultry", "fish", "seafood", "egg", "grain", "pasta", "potato", "vegetable", "legume"}
)
"""Kinds of food after which the part of a list is called that holds them."""
_TWO, _MIXED = 2, frozenset({"mix", "mixture", "blend"})
_STRANGE = frozenset({"seasoning", "mix", "blend", "powder", "extract", "sprinkle", "optional", "garnish"})
_SALTY = frozenset({"soy", "fish", "oyster", "worcestershire", "hoisin", "chilli", "hot"})


def loose_headings(
    lines: Sequence[str], known: Collection[int], has_amount: Callable[[str], bool]
) -> set[int]:
    """The indices of lines that head a part ("Panada", "Soy bath", "Eggs"): they begin with a capital and
    give no amount, those below do, and the list has a heading elsewhere or begins with such a line."""
    capital = (i for i, text in enumerate(lines) if i not in known and text[:1].isupper())
    found = {i for i in capital if _may_head(lines[i], lines[i + 1 :], has_amount)}
    mixed = any(tokenize(lines[i])[-1].stem in _MIXED for i in found)
    return found if known or mixed or 0 in found or len(found) >= _ENOUGH else set()


def _may_head(text: str, below: Sequence[str], has_amount: Callable[[str], bool]) -> bool:
    bare = _BRACKETS.sub("", text).strip(" :*")
    if not bare[:1].isupper() or "," in bare or has_amount(bare) or len(bare.split()) > _LONGEST:
        return False
    if not below or not has_amount(below[0]):
        return False
    stems = tuple(t.stem for t in tokenize(bare))
    own = [tuple(t.stem for t in tokenize(line) if t.text[0].isalpha()) for line in below[:6]]
    if len(stems) == _TWO and stems[1] in _MIXED and any(stems[0] in words for words in own):
        return True  # "Flour mix", above "2 cups all-purpose flour"
    if not stems or not _STRANGE.isdisjoint(stems):
        return False
    kind, head = class_of(stems), class_of(stems[-1:])
    if kind == "other" or (len(stems) > 1 and head == "other"):
        return True
    if stems[-1] in nouns("dish") and _SALTY.isdisjoint(stems):
        return any(stem in words for words in own for stem in stems[:-1])
    if len(stems) == 1 and own and stems[0] in own[0] and kind != "salt":
        return True
    return len(stems) == 1 and kind in _NAMED and any(class_of(words) == kind for words in own[:2] if words)


_WORD = re.compile(r"[a-zà-ÿ'’]+")
_SHORTEST_REMARK = 7
_SAYS_BEFORE = 6
"""Words of a line among which the verb of a sentence stands, if it is one."""


def is_remark(text: str, has_amount: bool) -> bool:
    """Whether a line only tells of the others: "Feel free to vary these", "Others have thin skins"."""
    bare = _BRACKETS.sub("", text).lower()
    words, before = (_WORD.findall(said) for said in (bare, bare.partition(",")[0]))
    if len(words) < _SHORTEST_REMARK or ":" in bare:
        return False
    if words[0] in ("serves", "makes", "yields"):
        return True
    if has_amount:
        return False
    return words[0] in small_words("remark") or not small_words("says").isdisjoint(before[:_SAYS_BEFORE])
