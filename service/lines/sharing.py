"""Lines that list several foods: "2 lb onions, carrots and celery", "1 tsp each cumin and dill"."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from .line_tokens import Token
from .naming import known, plain, read_name
from .vocabulary import role, without_phrases
from .wording import AND, borrowed

Tokens = Sequence[Token]

_LONGEST = 4
"""Words in the longest name that is taken for one of several foods."""


def foods_listed(segments: Sequence[Tokens]) -> tuple[str, ...]:
    """The foods that a line's segments list up to an "and", each by its words; none of any other line.

    Whether each is a food, and no part or preparation, is for the caller to find out.
    """
    if any(f" {name} " in f" {plain(tokens)} " for tokens in segments for name in role("one_food")):
        return ()
    foods = [_without_total(each) for each in _until_and(segments)]
    if len(foods) < 2 or not all(map(_may_be_food, foods)) or any(map(_prepared, foods[1:])):
        return ()
    last = foods[-1]
    whole = ([*each, *borrowed(each, last)] for each in foods[:-1])
    return tuple(_named(tokens) for tokens in (*whole, last))


def _until_and(segments: Sequence[Tokens]) -> Iterator[Tokens]:
    """What commas and "and" divide, to the food behind "and"; nothing where no "and" stands."""
    found: list[Tokens] = []
    for tokens in segments:
        at = next((at for at, token in enumerate(tokens) if token.word in AND), None)
        if at is None:
            found.append(tokens)
            continue
        found += [tokens[:at]] if at else []
        yield from (*found, _up_to_stop(tokens[at + 1 :]))
        return


def _without_total(tokens: Tokens) -> Tokens:
    """The tokens without "total of" before them."""
    return tokens[2:] if [token.word for token in tokens[:2]] == ["total", "of"] else tokens


def _up_to_stop(tokens: Tokens) -> Tokens:
    """The tokens before a word that ends a name ("for the soup")."""
    end = next((at for at, token in enumerate(tokens) if at and token.word in role("stop")), len(tokens))
    return tokens[:end]


def _may_be_food(tokens: Tokens) -> bool:
    words = {token.word for token in tokens}
    plainly = len(words) <= _LONGEST and all(token.kind == "word" for token in tokens)
    return plainly and "or" not in words and words.isdisjoint(role("stop")) and read_name(tokens).real


def _prepared(tokens: Tokens) -> bool:
    return known([token.word for token in tokens])


def _named(tokens: Tokens) -> str:
    name = read_name(tokens)
    return without_phrases(name.text)
