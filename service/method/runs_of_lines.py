"""Lines that a method names by their place in the list: "the first 8 ingredients", "flour through salt"."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import pairwise

from .listed import Index
from .mention import Mention
from .numbers_said import number_at
from .prose_tokens import Token

THROUGH = frozenset({"through", "thru"})
_COATS = frozenset({"flour", "egg", "milk"})


def of_rank(tokens: Sequence[Token], i: int, index: Index) -> tuple[int, ...] | None:
    """The lines of "the first 8 ingredients", "the last three ingredients"; None of other words."""
    rank = tokens[i - 2].text if i > 1 else ""
    if rank not in ("first", "last") or (number := number_at(tokens, i - 1)) is None:
        return None
    lines, many = tuple(line.index for line in index.lines), int(number[0])
    return lines[:many] if rank == "first" else lines[-many:]


def with_those_between(tokens: Sequence[Token], found: Sequence[Mention], index: Index) -> Iterator[Mention]:
    """ "Mix the flour through the salt": those and all lines between them in the list; but "pass the liver
    through the flour" names none between."""
    order = [line.index for line in index.lines]
    yield from found[:1]
    for last, mention in pairwise(found):
        between = [token.text for token in tokens[last.j : mention.i] if token.text != "the"]
        if last.lines and mention.lines and len(between) == 1 and between[0] in THROUGH:
            at, end = order.index(last.lines[0]), order.index(mention.lines[-1])
            coats = index.lines[end].kind in _COATS and index.lines[at].kind not in _COATS
            if at < end and not coats:
                yield replace(mention, lines=tuple(order[at + 1 : end + 1]), prep=last.prep)
                continue
        yield mention
