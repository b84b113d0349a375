"""Meat that a method calls by its animal, beside stock, fat or sauce that has the animal's name as well."""

from __future__ import annotations

from .listed import Index
from .method_words import nouns


def flesh_named(text: str, lines: tuple[int, ...], index: Index) -> tuple[int, ...]:
    """The lines that "the beef" means where these have the word: no broth, where there is meat, too; and
    where only broth has it, the one cut of meat, which its line calls sirloin."""
    flesh = index.of_kinds(*_KINDS)
    if own := tuple(n for n in lines if n in flesh):
        return own
    called = index.of_kinds(FLESH[text])
    return called if len(called) == 1 else lines


FLESH = {**nouns("animal"), "fish": "fish", "seafood": "seafood"}
"""By the words that call it, the class of lines that they call."""
_KINDS = tuple(sorted(set(FLESH.values())))
