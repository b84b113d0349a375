"""Text as a CMS holds it (HTML, Markdown, entities) made plain; plain text stays as it is."""

from __future__ import annotations

import html
import re
from itertools import pairwise

_BREAKS = re.compile(r"<\s*(?:br|/p|/li|/div|/h\d|li|p)\b[^<>]{0,200}>", re.IGNORECASE)
_TAGS = re.compile(r"<[/!?a-zA-Z][^<>]{0,500}>")
_IMAGES = re.compile(r"!\[[^\[\]]{0,200}\]\([^()\s]{0,500}\)")
_LINKS = re.compile(r"\[([^\[\]]{1,200})\]\([^()\s]{0,500}\)")
_MARKS = re.compile(r"\*\*|__")
_STRESSED = re.compile(r"(?<![\w*])\*(?=[^\W_])([^*\n]{1,200}?)(?<=[\w:.!)])\*(?!\w)")
_BOLD_LINE = re.compile(r"\s*(?:\*\*|__)([^*_\d\n]{2,60}?):?(?:\*\*|__)\s*:?\s*")
_PICTURES = re.compile(
    r"\s?[\[(]\s*(?:see )?(?:the )?(?:photos?|pictures?|pics?|images?|videos?|fig(?:ure|\.)?)\b"
    r"[^\[\]()]{0,30}[\])]",
    re.IGNORECASE,
)
""" "(see photo)", "[image 3]": where a picture stood or is to be found."""
_UNSEEN = dict.fromkeys(map(ord, "\u00ad\u200b\u200c\u200d\u2060\ufeff"))
"""Characters that nobody sees, between or within words."""
_ADJECTIVE = re.compile(
    r"\b(the|your|with|and) \((drained|rinsed|drained and rinsed)\)(?= \w)", re.IGNORECASE
)
""" "The (drained) tuna": what a pair of brackets does not part from its food."""
_DASHES = dict.fromkeys(map(ord, "\u2010\u2011\u2012\u2212"), "-")
"""Hyphens that do not break, and the sign for minus: all stand for a dash."""


def plain(text: str) -> str:
    """Text without tags, entities and marks of emphasis; control characters are blanks."""
    if "&" in text:
        text = html.unescape(html.unescape(text))
    if "<" in text:
        text = _TAGS.sub("", _BREAKS.sub("\n", text))
    if "](" in text:
        text = _LINKS.sub(r"\1", _IMAGES.sub("", text))
    if "*" in text or "__" in text:
        text = _STRESSED.sub(r"\1", _MARKS.sub("", text))
    if "(d" in text or "(r" in text:
        text = _ADJECTIVE.sub(r"\1 \2", text)
    if not text.isascii():
        text = text.translate(_DASHES).translate(_UNSEEN)
    if ("(" in text or "[" in text) and _PICTURES.search(text):
        text = _PICTURES.sub("", text)
    return text if text.isprintable() else re.sub(r"[^\S\n]|[\x00-\x09\x0b-\x1f\x7f]", " ", text)


def headed(text: str) -> str:
    """A line that is bold from end to end and gives no amount, marked as the heading that it is."""
    found = _BOLD_LINE.fullmatch(text) if "*" in text or "_" in text else None
    return f"# {found[1]}" if found else text


_OPEN_END = re.compile(
    r"(?:[,&]|\b(?:a|an|and|as|at|by|each|for|from|in|into|its|large|least|of|on|or|over|small|the|their"
    r"|then|to|until|with|your))$",
    re.IGNORECASE,
)
_ENDS = (".", "!", "?", ":", ";")


def unwrapped(parts: list[str]) -> list[str]:
    """Paragraphs of which the lines were broken at a margin, whole again: a line that ends in no full stop
    goes on where the next begins with a small letter, in a text whose sentences begin with capitals."""
    capitals = sum(part[:1].isupper() + len(_NEXT_CAPITAL.findall(part)) for part in parts)
    if not capitals or capitals * _LINES_OF_ONE < len(parts):
        return parts
    found: list[str] = []
    margin = _MARGIN if _has_margin(parts) else _NEVER
    for part in parts:
        if found and _goes_on(found[-1], part, margin):
            found[-1] = f"{found[-1]} {part}"
        else:
            found.append(part)
    return found


def _has_margin(parts: list[str]) -> bool:
    """Whether lines may be broken at a margin: none is wider, and not most of them end without a full stop
    before one that begins with a capital, as steps do that are jotted down."""
    if max(map(len, parts)) > _WIDEST:
        return False
    stops = sum(part.endswith(_ENDS) for part in parts)
    pairs = pairwise(part for part in parts if not part.startswith("#"))
    jotted = sum(not a.endswith(_ENDS) and not _OPEN_END.search(a) and b[:1].isupper() for a, b in pairs)
    return jotted < _JOTTED or jotted < stops


def _goes_on(before: str, part: str, margin: int) -> bool:
    if before.endswith(_ENDS) or before.startswith("#"):
        return False
    if _OPEN_END.search(before):
        return not part[:1].isupper() and part[:1] not in ("#", "-", "*", "•")
    return part[:1].islower() and len(before) >= margin


_NEXT_CAPITAL = re.compile(r"[.!?] [A-Z]")
_LINES_OF_ONE = 4
"""Lines over which one sentence may run, at the most, in a text whose sentences begin with capitals."""
_MARGIN, _NEVER, _WIDEST = 40, 1_000_000, 110
"""Characters of a line from which on it may have been broken at a margin, and those that no margin leaves."""
_JOTTED = 2
"""Steps without a full stop from which on a text is taken to be jotted down."""


def paragraphs_of(text: str) -> list[str]:
    """The paragraphs of a text, plain, each with its number or bullet; empty ones left out."""
    text = "\n".join(map(headed, text.split("\n"))) if "*" in text or "_" in text else text
    return [part for each in plain(text).split("\n") if (part := each.strip())]
