"""Lines and paragraphs that only head what stands below them, by how they are written."""

from __future__ import annotations

import re

from .method_words import class_of, nouns, phrasing
from .prose_tokens import tokenize
from .sections import PART_BEGINS, PART_ENDS, is_named_part

_HEADING = re.compile(r"^\s*#+\s*(.*)$")
_SECTION = phrasing("section")
_ORNAMENTS = "-=~*_[•–—"
_ORNAMENTED = re.compile(r"^(?:[-=~*_•–—]{2,}|\[)\s*([^\d\]*]{2,40}?)\s*:?\s*(?:[-=~*_•–—]{2,}:?|\]:?)\s*$")
"""A heading between signs: "-- slaw --", "[For the sauce]", "== Filling =="."""
_SEASONS = frozenset({"salt", "spice", "herb", "oil", "sweet", "water"})
_LONGEST_SECTION = 60
_SECTION_BEGINS = frozenset(
    {"fo", "to", "da", "pa", "st", "ph", "co", "pr", "ma", "br", "cu", "as", "fr", "ba", "ro", "sm", "in"}
)  # "For the …", "To serve", "Day 2"


def is_heading(text: str) -> str | None:
    """The heading that a line or paragraph is, None where it is none."""
    if "#" in text and (found := _HEADING.match(text)):
        return found[1].strip().strip(":")
    if text[:1] in _ORNAMENTS and (found := _ORNAMENTED.match(text)):
        part = found[1].strip(" :")
        own = class_of(tuple(token.stem for token in tokenize(part)))
        return None if own in _SEASONS else part  # "**salt**"
    bare = text.strip()
    may_be_part = bare[:1] in PART_BEGINS or bare.endswith(PART_ENDS)
    if bare.lower() in nouns("heading") or (may_be_part and is_named_part(bare.lower())):
        return bare.strip("*: ")
    if len(bare) >= _LONGEST_SECTION or not (bare.endswith(":") or bare[:2].lower() in _SECTION_BEGINS):
        return None
    return bare.strip(":") if _SECTION.match(bare) else None


_BATH_HEADINGS = (
    ("brine", re.compile(r"\bbrin(?:e|ing)\b|\bpickl", re.IGNORECASE)),
    ("marinade", re.compile(r"\bmarina[dt]|\b(?:soak|bath)\b", re.IGNORECASE)),
    ("injection", re.compile(r"\binject", re.IGNORECASE)),
    ("cure", re.compile(r"\bcure\b|\bcuring\b|\brub\b|\bdry brine\b", re.IGNORECASE)),
)


def bath_of_heading(heading: str) -> str | None:
    """The bath that the lines under a heading make; None where it names none."""
    if not heading:
        return None
    return next((name for name, rule in _BATH_HEADINGS if rule.search(heading)), None)
