"""The phrases of a table of times or temperatures in words, with the other ways in which they are said."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

from ..core.tables import rows


@cache
def phrases_of(table: str) -> dict[str, tuple[tuple[tuple[str, ...], dict[str, str]], ...]]:
    found: dict[str, list[tuple[tuple[str, ...], dict[str, str]]]] = {}
    for row in rows(table):
        for words in _ways_to_say(row["phrase"]):
            found.setdefault(words[0], []).append((words, row))
    return {first: tuple(sorted(each, key=lambda pair: -len(pair[0]))) for first, each in found.items()}


_TILL = ("until", "till", "to")


def _ways_to_say(phrase: str) -> Iterator[tuple[str, ...]]:
    """A phrase as the table has it, and others for it: "until the morning", "till morning"; "from morning
    until night", "from morning to night"."""
    texts = {phrase, phrase.replace("until the ", "until ").replace("from the ", "from ")}
    for text in sorted(texts, reverse=True):
        for till in _TILL if text.startswith("from") else _TILL[:2]:
            yield tuple(text.replace("until", till).split())
            if "until" not in text:
                break
