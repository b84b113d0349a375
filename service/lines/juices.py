"""Lines that take a part of a food: "juice of 1 lemon", "1 lemon, zested", "whites of 3 eggs"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from ..units.kitchen_units import dimension
from .amounts import Cursor, is_numeric, read_number
from .line_tokens import Token
from .quantity import Quantity
from .wording import Wording

_PARTS = {
    "juice": "juice", "juices": "juice", "juiced": "juice",
    "zest": "zest", "zested": "zest", "rind": "zest", "peel": "zest",
    "white": "white", "whites": "white", "yolk": "yolk", "yolks": "yolk",
}  # fmt: skip
_OF_FRUIT = frozenset({"juice", "zest"})
_THE_FOOD_ITSELF = frozenset({"leaves", "kernels", "flesh", "meat", "pulp", "seeds", "florets"})
"""Parts that a food is counted by all the same ("leaves of 1 bunch mint")."""
_BEFORE = frozenset({"fresh", "freshly", "squeezed", "grated", "finely", "the", "strained", "minced", "some"})
_FIRST = _BEFORE | _THE_FOOD_ITSELF | frozenset(_PARTS)
_BESIDE = _BEFORE | {"and", "&", "only", "of"}
_OF = frozenset({"of", "from"})
_SPOONED = frozenset({"mass", "volume"})


@dataclass(frozen=True, slots=True)
class Taken:
    """What a line takes of a food. tokens: the line without the words that say so."""

    parts: tuple[str, ...]
    tokens: Sequence[Token]


def taken_of(tokens: Sequence[Token]) -> Taken | None:
    """What a line that begins with "juice of" takes; None for any other line."""
    at = 0
    if not tokens or tokens[0].word not in _FIRST:
        return None
    if len(tokens) > 2 and tokens[0].word in _THE_FOOD_ITSELF:
        whole = tokens[1].word in _OF and is_numeric(tokens[2])
        return Taken((), tokens[2:]) if whole else None
    while at < len(tokens) and tokens[at].word in _BEFORE:
        at += 1
    parts: list[str] = []
    while at < len(tokens) and (tokens[at].word in _PARTS or tokens[at].word in {"and", "&", "grated"}):
        if tokens[at].word in _PARTS:
            parts.append(_PARTS[tokens[at].word])
        at += 1
    if not parts or at >= len(tokens):
        return None
    if tokens[at].word in _OF:
        return Taken(tuple(parts), _one_whole(tokens[at + 1 :]))
    return Taken(tuple(parts), tokens[at:]) if is_numeric(tokens[at]) else None  # "juice ½ lemon"


def _one_whole(tokens: Sequence[Token]) -> Sequence[Token]:
    """ "whole lemon" is one of them, as "a whole lemon" is; "whole lemons" may be any number."""
    if len(tokens) > 1 and tokens[0].word == "whole" and not tokens[1].word.endswith("s"):
        return (tokens[0]._replace(text="a", word="a"), *tokens[1:])
    return tokens


def spooned_of(cursor: Cursor) -> Taken | None:
    """ "2 tablespoons juice from 1 lemon": what is taken, the cursor standing behind the quantity."""
    taken = taken_of(cursor.rest())
    if taken is None:
        return None
    inner = Cursor(taken.tokens)
    read_number(inner)
    return Taken(taken.parts, inner.rest())


def taken_after(
    segments: list[Sequence[Token]], brackets: list[Sequence[Token]], quantity: Quantity
) -> tuple[str, ...]:
    """What is taken of a counted fruit by what stands behind it: "1 lemon, juiced", "1 lemon (juice only)".

    Such segments and brackets are taken out of their lists.
    """
    if quantity.amount is None or dimension(quantity.unit) in _SPOONED:
        return ()
    egg = any(token.word in {"egg", "eggs"} for token in segments[0]) if segments else False
    parts: dict[str, None] = {}
    for behind, several in ((segments[1:], segments), (tuple(brackets), brackets)):
        for tokens in behind:
            words = [token.word for token in tokens]
            named = [_PARTS[word] for word in words if word in _PARTS]
            fitting = [part for part in named if egg or part in _OF_FRUIT]
            if fitting and all(word in _PARTS or word in _BESIDE for word in words):
                parts |= dict.fromkeys(fitting)
                several.remove(tokens)
    return tuple(parts)


def apply(parts: Sequence[str], wording: Wording, quantity: Quantity) -> None:
    """Names the juice or zest as the food; a fruit of which both are taken counts as its juice."""
    if not parts or not wording.food:
        return
    fruit = wording.food.removesuffix("s")
    chosen = "juice" if "juice" in parts else parts[0]
    wording.food = f"{fruit} {chosen}"
    wording.joined += [f"{fruit} {part}" for part in dict.fromkeys(parts) if part != chosen]
    if quantity.unit is None and chosen in _OF_FRUIT:
        quantity.unit = "fruit"
