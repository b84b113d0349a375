"""What stands before a step or a line of a list and is no part of it: numbers, bullets, boxes to tick."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import count

_STEP = r"step\s+\d{1,2}(?:\s+of\s+\d{1,2})?"
_NUMBER = re.compile(
    rf"^\s*(?:(?:{_STEP}|\d{{1,2}})\s*[.):]\s+(?=\D)|{_STEP}\s*[-–—]?\s+(?=\D)|\(\d{{1,2}}\)\s+(?=\D)"
    rf"|\d{{1,2}}\s+[-–—]\s+(?-i:(?=[A-Z]))|(?:{_STEP}|\d{{1,2}})[.):]?\s*$)",
    re.IGNORECASE,
)
""" "1. ", "2) ", "(3) ", "Step 4: ", "STEP 5 – ", "6 - "."""
_TITLE = re.compile(rf"\s*{_STEP}\s*[.:\-–—]?\s*([^\W\d_][^.!?:]{{2,60}})", re.IGNORECASE)
""" "Step 1 – The dough", alone in its line."""
_NEXT_STEP = re.compile(rf"\s*{_STEP}\b|\s*#", re.IGNORECASE)
_SIGNS = "•●○▪▫◦‣⁃∙·▢☐☑✓✔□■◻◼►▶➤※❑❒❏"
_BULLET = re.compile(
    rf"^\s*(?:(?:[{_SIGNS}]|\[[ xX✓]?\])\s*"
    r"|(?P<dash>[*–—-])(?:\s+|(?<!\*)(?=[^\W_]))(?!.*(?<!\*)(?P=dash)\s*$))+(?=\S)"
)
"""A bullet, dash or box before a line; no sign that stands at its end too, which marks a heading."""
BULLETS = frozenset(_SIGNS + "[*–—-")
"""Signs with which a line may begin that has a bullet."""
_LINE_NUMBER = re.compile(r"\s*(\d{1,2})[.)]\s+(?=\S)")
_BARE_NUMBER = re.compile(r"(\d{1,2})\s+(?=[A-Z][a-z])")
_LEAST_NUMBERED = 3
"""Lines of a list at the least whose numbers are told from amounts, as they count on."""


def without_number(part: str) -> str:
    """A paragraph without the number of its step."""
    return _NUMBER.sub("", part)


def without_bare_numbers(parts: Sequence[str]) -> Sequence[str]:
    """Paragraphs without bare numbers before them ("1 Boil …"), where these count on from 1."""
    if len(parts) <= 1 or not parts[0].startswith("1 "):
        return parts
    numbers = [None if part.startswith("#") else _BARE_NUMBER.match(part) for part in parts]
    steps = [number for number, part in zip(numbers, parts, strict=True) if not part.startswith("#")]
    if any(number is None or int(number[1]) != n for number, n in zip(steps, count(1), strict=False)):
        return parts
    return [part if m is None else part[m.end() :] for m, part in zip(numbers, parts, strict=True)]


def without_bullet(text: str) -> str:
    """A line or paragraph without the bullet before it."""
    return _BULLET.sub("", text) if text[:1] in BULLETS else text


def with_titles(parts: Sequence[str]) -> list[str]:
    """Paragraphs of which those are marked as headings that only entitle the step below: "Step 1 – Dough"."""
    found = list(parts)
    for i, part in enumerate(parts[:-1]):
        title = _TITLE.fullmatch(part) if part[:1] in "Ss" else None
        if title is not None and not _NEXT_STEP.match(parts[i + 1]):
            found[i] = f"# {title[1]}"
    return found


def without_numbers(lines: Sequence[str]) -> Sequence[str]:
    """The lines of a list without their numbers, where these count on from 1; headings have none."""
    numbers = [_LINE_NUMBER.match(line) for line in lines]
    found = [number for number in numbers if number is not None]
    if len(found) < _LEAST_NUMBERED or any(int(m[1]) != n for m, n in zip(found, count(1), strict=False)):
        return lines
    if any(m is None and re.search(r"\d", line) for m, line in zip(numbers, lines, strict=True)):
        return lines
    return [line if m is None else line[m.end() :] for m, line in zip(numbers, lines, strict=True)]


_SHOUTED = 0.7
"""Share of the lines of a list in capitals from which on these tell no heading and no name."""
_SHOUTED_WORD = re.compile(r"[^\W\d_]{2,}")


def in_small_letters(lines: tuple[str, ...]) -> tuple[str, ...]:
    """The lines of a list that is written in capitals as others are: each begins with one. Single letters
    stay as they are ("2 T"), and so does any other list."""
    if [line.isupper() for line in lines].count(True) < _SHOUTED * len(lines):
        return lines
    small = (_SHOUTED_WORD.sub(lambda word: word[0].lower(), line) for line in lines)
    return tuple([line[:1].upper() + line[1:] for line in small])
