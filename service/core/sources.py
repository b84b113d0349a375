"""A source in words that knows the row of a table it stands in, wherever the words go."""

from __future__ import annotations

from typing import Self


class Source(str):
    """Where a figure comes from, in words. row: the row's name ("drip:meat/roast"), "" where it is of none.

    A string like any other: compared, printed and kept as its words.
    """

    __slots__ = ("row",)
    row: str

    def __new__(cls, words: str, row: str = "") -> Self:
        made = super().__new__(cls, words)
        made.row = row
        return made


def row_of(source: str) -> str:
    """The row that words stand in; "" where they are anybody's."""
    return source.row if isinstance(source, Source) else ""


def with_words(source: str, words: str) -> Source:
    """Other words for the same row: what the source says, and more."""
    return Source(words, row_of(source))
