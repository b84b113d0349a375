"""Sentences of a recipe, cut where nobody could doubt it, and the commands that they begin with."""

from __future__ import annotations

import re
from typing import Any

from saltledger.method.method_words import small_words, verbs

Document = dict[str, Any]

_SHORT = small_words("short")
_CUT = re.compile(r"(?<=[.!?])(?<!\.\.) +(?=[A-Z][a-z'’]*[ ,])")
_HEAD = re.compile(r"^\s*#|:\s*$|^[^.!?]{0,45}$")
_LABEL = re.compile(r"^[A-Za-z0-9][A-Za-z0-9'’ ]{1,30}[:.] |^\W")
_MAYBE_NOUN = re.compile(
    r"salt|oil|butter|season|water|top|fat|cream|flour|brine|dress|batter|crumbs?|pickle|marinade|coat|let|roll"
    r"|cool|chill|ice|dry|layer|roast|steam|stock|cure|smoke|zest|juice|stew|braise|heat|rest|cut|mash|slice"
    r"|press|cook|time|grill"
)
_OBJECT = frozenset({"the", "it", "them", "a", "an", "your", "each", "both", "until", "well"})


def sentences_in(paragraph: str) -> list[str]:
    """The sentences of a paragraph, cut only where nobody could doubt it."""
    found: list[str] = []
    begin = 0
    for cut in _CUT.finditer(paragraph):
        before = paragraph[begin : cut.start()]
        words = re.findall(r"[\w.]+", before[:-1])
        if (words and words[-1].lower() in _SHORT) or before.count("(") > before.count(")"):
            continue
        found.append(before)
        begin = cut.end()
    return [*found, paragraph[begin:]]


def is_head(paragraph: str) -> bool:
    """Whether a paragraph may head those below it."""
    return _HEAD.search(paragraph) is not None


def has_no_parts(document: Document) -> bool:
    """Whether no paragraph heads or labels others, so that they may be cut or joined anywhere."""
    return not any(is_head(each) or _LABEL.match(each) for each in document["method"])


def command(sentence: str) -> str | None:
    """The verb that a sentence begins with and commands; None where it does not, or may not."""
    found = re.match(r"([A-Z][a-z]+) (?![,;:.!)])", sentence)
    verb = verbs().get(found[1].lower()) if found else None
    if found is None or verb is None or verb.form != "base":
        return None
    if (
        _MAYBE_NOUN.fullmatch(found[1].lower())
        and sentence[found.end() :].split(" ", maxsplit=1)[0] not in _OBJECT
    ):
        return None
    return found[1]
