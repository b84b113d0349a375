"""The part of a list that a heading of the method speaks of: "Gravy", of lines "For the mushroom gravy"."""

from __future__ import annotations

import re
from collections.abc import Collection, Sequence
from functools import lru_cache
from itertools import pairwise

from .headings import bath_of_heading, is_heading
from .method_words import nouns, root

_NO_HEADING = frozenset({"the", "for", "to", "of", "and", "a", "all", "make", "prepare", "ingredients"})
_LONGEST = 50


def heading_of_paragraph(paragraph: str, parts: Collection[str]) -> tuple[str, bool] | None:
    """The heading that a paragraph is, as the list has it where it does; None where it is none.

    With it, whether its words may tell what is worked on, too: "Pork chops", of a part of that name.
    """
    head = is_heading(paragraph)
    if head is not None:
        return part_meant(head, parts), False
    if len(paragraph) > _LONGEST:
        return None
    bare = paragraph.strip(_ORNAMENTS)
    if (low := bare.lower()) in nouns("making"):
        return "", False
    if low in nouns("beside") or low in nouns("note"):
        return bare, False  # "Notes", below the last step
    said = heading_words(bare) if parts else frozenset()
    same = next((part for part in parts if said and heading_words(part) == said), None)
    return (same, not bath_of_heading(same)) if same is not None else None


def parts_of_both(lines: Sequence[str], paragraphs: Sequence[str]) -> frozenset[str]:
    """The lines without an amount that stand as a paragraph, too: "Noodles", above eggs and flour."""
    short = {paragraph.strip(_ORNAMENTS).lower() for paragraph in paragraphs if len(paragraph) <= _LONGEST}
    heads = (line for line, below in pairwise(lines) if not _FIGURE.search(line) and _FIGURE.search(below))
    return frozenset(line for line in heads if line.strip(_ORNAMENTS).lower() in short)


_FIGURE = re.compile(r"[\d½¼¾⅓⅔⅛]")
_ORNAMENTS = " .:-–—*"


def part_meant(head: str, parts: Collection[str]) -> str:
    """The part of a list that a heading names in all or some of its words; else the heading itself."""
    if not parts or head in parts:
        return head
    said, bath = heading_words(head), bath_of_heading(head)
    meant = [
        part
        for part in parts
        if (own := heading_words(part)) and (own <= said or said <= own) and bath_of_heading(part) == bath
    ]
    return meant[0] if said and len(meant) == 1 else head


@lru_cache(maxsize=1024)
def heading_words(heading: str) -> frozenset[str]:
    """The words of a heading, each by its singular or as the verb that it is a form of."""
    words = set(heading.lower().replace(",", " ").split()) - _NO_HEADING
    return frozenset(map(root, words))
