"""What a recipe tells beside its making: other ways to do it, stories, how it keeps, and dried food where the
list has cans."""

from __future__ import annotations

import re

from .listed import Index
from .method_words import nouns, root, small_words

_STORY = re.compile(
    r"\bwhen (?:i|we) (?:was|were)\b|\bas a child\b|\bused to\b|\byears ago\b|\bin those days\b"
    r"|\b(?:i|we) first (?:ate|had|made|tried|tasted|cooked)\b"
    r"|^\W*(?:i|we)(?: have|'ve|’ve)(?: always| often| never| also)? [\w-]+ed\b"
    r"|\bwhere (?:they|people) (?!(?:stay|lie|sit|stand|rest|remain)\b)\w+",
    re.IGNORECASE,
)
_OTHERWISE = re.compile(
    r"\W*(?:for (?:a|an) (?:\w+er|more \w+|special|change|crowd|double batch)\b|for variety\b"
    r"|(?:if|when) (?:you(?:'re|’re| are)? )?(?:doubl|tripl|halv)(?:e|ing)\b"
    r"|(?:try|use|swap|replace|substitute)\b.*\b(?:instead|in place)\b)",
    re.IGNORECASE,
)
_TELLS_WHY = re.compile(
    r"\W*(?:\w+ly )?[a-z]+ing (?:the|your|it|them|a)\b[^,;]* (?:makes?|keeps|helps|gives|improves|ensures)\b",
    re.IGNORECASE,
)
""" "Brining the bird makes it juicier": what an act is good for, where it is no command."""
_BESIDE = re.compile(
    r"\b\d[\d,.]*\s*k?cal\b|\bcalories:?\s*\d|\b\d[\d,.]*\s*calories\b"
    r"|^\W*(?:first(?: of all)?,? )?(?:gather|collect|assemble|get|have|lay out|set out|line up)"
    r" (?:together )?(?:all )?(?:of )?(?:the |your )?ingredients(?: together| ready| out)*"
    r"(?: first| before you \w+)?\W*$",
    re.IGNORECASE,
)
"""What a serving holds ("420 kcal, 2 g salt"), and what is got ready before anything is done."""
_MAY = re.compile(
    r"\W*(?:if|when|you (?:can|could|may|might)|to use|try|feel free"
    r"|(?:they|it|this|these|leftovers?)(?: also)? (?:can|may|could|keeps?|freezes?|lasts?))\b",
    re.IGNORECASE,
)
_DRIED = re.compile(r"\bdried (?P<food>\w+)", re.IGNORECASE)
_ANY = frozenset({"one", "bean", "pulse"})


_SIGNS = small_words("aside_sign")


def may_tell(paragraph: str) -> bool:
    """Whether a paragraph may hold an aside, by its words alone: most do not, and are asked no more."""
    return "or a" in paragraph or not _SIGNS.isdisjoint(paragraph.lower().split())


def is_beside(label: str) -> bool:
    """Whether a label or heading stands over what is no part of the making: "Variations", "Prep time"."""
    bare = label.strip(" .*").lower()
    return bare in nouns("beside") or bare in nouns("preliminary")


def is_note(label: str) -> bool:
    return label.strip(" .*").lower() in nouns("note")


def is_aside(sentence: str, index: Index, *, noted: bool) -> bool:
    """Whether a sentence tells of another time or another way. noted: it stands in a note, where what may be
    done is not."""
    if noted and _MAY.match(sentence):
        return True
    if (
        _BESIDE.search(sentence)
        or _STORY.search(sentence)
        or _OTHERWISE.match(sentence)
        or _TELLS_WHY.match(sentence)
    ):
        return True
    found = _DRIED.search(sentence)
    return found is not None and _is_canned(root(found["food"].lower()), index)


def _is_canned(food: str, index: Index) -> bool:
    """Whether the list has a food in cans and not dried."""
    cans = [line for line in index.lines if line.is_canned and line.kind == "legume"]
    meant = food in _ANY or any(food in map(root, line.words) for line in cans)
    return bool(cans) and meant and not any("dried" in line.text.lower() for line in index.lines)
