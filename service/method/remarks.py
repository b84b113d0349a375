"""Lines of a list that are sentences about the others, and no food."""

from __future__ import annotations

import re

from .method_words import small_words

_BRACKETS = re.compile(r"\s*\([^)]*\)")
_WORD = re.compile(r"[a-zà-ÿ'’]+")
_OTHER_WAY = re.compile(r"\W*or\b(?=.*[\d½¼¾⅓⅔⅛])(?!.*:)", re.IGNORECASE)
_SHORTEST = 7
_SAYS_BEFORE = 6
"""Words of a line among which the verb of a sentence stands, if it is one."""

_ALWAYS = frozenset({"if", "feel", "note", "please", "remember", "don't"})
"""Words that begin a remark even where it gives an amount: "if you have none use 2 tea bags instead"."""


def is_remark(text: str, *, has_amount: bool) -> bool:
    """Whether a line only tells of the others: "Feel free to vary these", "Others have thin skins", or gives
    another way to do the one above it: "or 2 tsp coarse salt"."""
    if _OTHER_WAY.match(text):
        return True
    bare = _BRACKETS.sub("", text).lower()
    words = _WORD.findall(bare)
    if len(words) < _SHORTEST or ":" in bare:
        return False
    if words[0] in ("serves", "makes", "yields"):
        return True
    if has_amount:
        return words[0] in _ALWAYS and bare.lstrip()[:1].isalpha()
    before = _WORD.findall(bare.partition(",")[0])
    return words[0] in small_words("remark") or not small_words("says").isdisjoint(before[:_SAYS_BEFORE])
