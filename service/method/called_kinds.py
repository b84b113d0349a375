"""Food of a list that nobody knows, by what the method calls it: "the fish", of a line of flathead tails."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from .happenings import PROTEINS
from .left_to_the_cook import grams_roughly
from .listed import ListedLine

_CALLED = re.compile(
    r"\b(?:the|your|each|every) (?:whole )?(?:(?P<fish>fish|fillets?)|(?P<meat>meat|joint))\b", re.IGNORECASE
)
_LEAST_G = 150.0
"""What a line weighs at the least that may be a dish's meat or fish, g; one that is counted may be, too."""


def called_so(lines: Sequence[ListedLine], paragraphs: Sequence[str]) -> Sequence[ListedLine]:
    """The lines, the first of unknown food taken for the meat or fish that the method speaks of and no line
    names."""
    if not PROTEINS.isdisjoint([line.kind for line in lines]):
        return lines
    unknown = next((line for line in lines if line.kind == "other" and _may_be_flesh(line)), None)
    called = next(filter(None, map(_CALLED.search, paragraphs)), None) if unknown is not None else None
    if called is None:
        return lines
    kind = "fish" if called["fish"] else "meat"
    return tuple(replace(line, kind=kind) if line is unknown else line for line in lines)


def _may_be_flesh(line: ListedLine) -> bool:
    grams = grams_roughly(line)
    counted = line.line.amount is not None and line.line.unit is None
    return bool(line.words) and (counted if grams is None else grams >= _LEAST_G)
