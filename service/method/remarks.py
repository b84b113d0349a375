"""Lines of a list that are sentences about the others, and no food."""

from __future__ import annotations

import re
from collections.abc import Sequence

from .method_words import small_words, verbs
from .prose_tokens import stems_of, words_of

_BRACKETS = re.compile(r"\s*\([^)]*\)")
_WORD = re.compile(r"[a-zà-ÿ'’]+")
_OTHER_WAY = re.compile(r"\W*or\b(?=.*[\d½¼¾⅓⅔⅛])(?!.*:)", re.IGNORECASE)
_SHORTEST = 7
_SAYS_BEFORE = 6
"""Words of a line among which the verb of a sentence stands, if it is one."""

_NONE = frozenset({"no", "not", "never", "only", "skip", "omit"})
"""Words that begin a remark with an "if": "no salt if the broth is salted"."""
_ALWAYS = frozenset({"if", "feel", "note", "please", "remember", "don't"})
"""Words that begin a remark even where it gives an amount: "if you have none use 2 tea bags instead"."""
_REMARKS, _SAYS = small_words("remark"), small_words("says")
_OF_ALL = frozenset({"serves", "makes", "yields"})
_WITH_AMOUNT = _ALWAYS | _OF_ALL


def is_remark(text: str, *, has_amount: bool) -> bool:
    """Whether a line only tells of the others: "Feel free to vary these", "Others have thin skins", or gives
    another way to do the one above it: "or 2 tsp coarse salt"."""
    if _OTHER_WAY.match(text):
        return True
    bare = _BRACKETS.sub("", text).lower() if "(" in text else text.lower()
    first = _WORD.search(bare)
    if has_amount and (first is None or first[0] not in _WITH_AMOUNT):
        return False
    words = _WORD.findall(bare)
    if words and words[0] in _NONE and "if" in words:
        return True
    if len(words) < _SHORTEST or ":" in bare:
        return False
    if words[0] in _OF_ALL:
        return True
    if has_amount:
        return bare.lstrip()[:1].isalpha()
    before = _WORD.findall(bare.partition(",")[0])
    return words[0] in _REMARKS or not _SAYS.isdisjoint(before[:_SAYS_BEFORE])


_OF_HANDS = frozenset({"cut", "rinse"})
_SHORTEST_NAME = 3


def tells_of_another(text: str, index: int, lines: Sequence[str]) -> bool:
    """Whether a line of a list bids to do something with the food of another one: "Slice the leeks" beside
    "2 leeks"."""
    first = text.partition(" ")[0].lower()
    verb = verbs().get(first)
    if verb is None or verb.form != "base" or not (verb.act in _OF_HANDS or first == "prepare"):
        return False
    if first == "cut":
        return False  # "cut green beans" are so sold
    words = words_of(text)[1:]
    if not words or words[0][0] in ("of", ",", "-"):
        return False  # "zest of a lemon"
    said = {stem for _, stem in words if len(stem) > _SHORTEST_NAME}
    others = (line for i, line in enumerate(lines) if i != index and not line.lower().startswith(first))
    return any(not said.isdisjoint(stems_of(line)) for line in others)
