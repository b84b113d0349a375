"""Lines that are flour to a recipe since its food is turned in them: oatmeal, polenta, ground nuts."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from .happenings import PROTEINS
from .listed import ListedLine

_COATS = {
    "grain": frozenset({"semolina", "oatmeal", "oat", "oats", "polenta", "cereal", "quinoa"}),
    "nut": frozenset(
        {"almond", "hazelnut", "walnut", "pecan", "pistachio", "peanut", "cashew", "nut", "sesame"}
    ),
    "spice": frozenset({"sesame"}),
    "fruit": frozenset({"coconut"}),
    "potato": frozenset({"chip", "crisp"}),
    "salty": frozenset({"pretzel", "crisp"}),
}
"""Words of lines, by their kind, in which food may be turned."""
_COATED = PROTEINS | {"cheese", "vegetable", "tofu"}
_TURNS = re.compile(
    r"\b(?:roll|dip|press|coat|dredg|turn|bread|pat|shak|dust|toss|dunk|dab)(?:s|ed|e|ing)?\b", re.I
)
_TOSS = re.compile(r"toss", re.IGNORECASE)
_INTO = re.compile(r"\b(?:in|into|through|onto)\b|\bwith\b", re.IGNORECASE)
_THAT = re.compile(
    r" (?:it|this|them|that|the (?:\w+ )?(?:mix|mixture|coating|bag|plate|bowl))\b", re.IGNORECASE
)
_SENTENCE = re.compile(r"(?<=[.;!])\s+")


def coats_of(lines: Sequence[ListedLine], paragraphs: Sequence[str]) -> Sequence[ListedLine]:
    """The lines, oatmeal, ground nuts and their like taken for flour where the method turns food in them."""
    may = [line for line in lines if line.kind in _COATS and not _COATS[line.kind].isdisjoint(line.words)]
    if not may or _COATED.isdisjoint([line.kind for line in lines]):
        return lines
    said = [sentence for text in paragraphs for sentence in _SENTENCE.split(text)]
    coats = {
        line for line in may if _is_turned_in(line.words[-1] if line.kind != "spice" else "sesame", said)
    }
    return tuple(replace(line, kind="flour") if line in coats else line for line in lines) if coats else lines


def _is_turned_in(word: str, said: Sequence[str]) -> bool:
    """ "Roll the herrings in the oatmeal"; "mix the oatmeal and salt. Press the herrings into it"; "mix it
    with flour, toss the herrings"."""
    named = False
    for sentence in said:
        behind = _behind_turning(sentence)
        if behind and (word in behind.lower() or (named and _THAT.match(behind))):
            return True
        named = word in sentence.lower()
        if named and (mixed := _WITH_FLOUR.search(sentence)) and word in mixed[0].lower():
            return True
    return False


_WITH_FLOUR = re.compile(
    r"\b(?:mix|combine|stir|whisk|sift)\b[^.;]*\bflour\b"
    r"[^.;]*\b(?:toss|coat|dredge|roll|dust)\b (?:the|them|each)\b",
    re.IGNORECASE,
)
""" "Mix the flour and the semolina on a tray, toss the rings": what is stirred dry with flour, and at once
turned in."""


def _behind_turning(sentence: str) -> str:
    """What stands behind "in" or "into" where a sentence turns something in it; "" for none. "Toss with" is
    done with a salad, too."""
    turns = _TURNS.search(sentence)
    places = _INTO.finditer(sentence, turns.end()) if turns else ()
    tossed = turns is not None and _TOSS.match(turns.group())
    into = next((at for at in places if not (tossed and at.group().lower() == "with")), None)
    return sentence[into.end() :] if into else ""
