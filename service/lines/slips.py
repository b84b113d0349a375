"""Slips in lines: what a scanner misread, and units that are run together with the word behind them."""

from __future__ import annotations

import re
from collections.abc import Iterator

from ..units.kitchen_units import dimension, find
from .quantity import SIZED

SHORTEST_REST = 3
"""Letters in the shortest word that is taken to be run together with the unit before it."""

_POUND = re.compile(r"(?<=\d)(\s?)[1Il]b(?=s?\b)")
_ONE = re.compile(r"^\s*[Il|]\s+(?=([^\W\d_]+))")
_GLUED = re.compile(r"(?<=[\d¼½¾⅓⅔])([^\W\d_]{4,})")


def as_printed(text: str) -> str:
    """The line with what scanners misread set right: "2 Ibs" is 2 lbs, "I cup" is 1 cup."""
    found = _ONE.match(text)
    if found and find(found[1]):
        text = f"1 {text[found.end() :]}"
    return _POUND.sub(r"\1lb", text) if "b" in text else text


def parted(text: str) -> Iterator[str]:
    """The line with a unit parted from the word run together with it ("200gplain flour"), longest unit first.

    What is parted may be a word that only begins like a unit ("5ginger"): take it where the line names no
    food as it stands, and does so parted.
    """
    for glued in _GLUED.finditer(text):
        word = glued[1]
        for end in range(len(word) - SHORTEST_REST, 0, -1):
            if dimension(find(word[:end])) in SIZED:
                at = glued.start() + end
                yield f"{text[:at]} {text[at:]}"
