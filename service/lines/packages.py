"""Packages and manner: what stands between a count and its unit ("2 (15 oz) cans", "1 packed cup").

    package = "(" measure ")" | "x" measure | measure

A package is what each counted thing holds.
"""

from __future__ import annotations

from functools import cache

from ..core.spread import Spread
from ..units.kitchen_units import dimension
from .amounts import SOFTENERS, Cursor, exactness, is_numeric, read_exactness
from .line import Measure
from .quantity import (
    SIZED,
    Quantity,
    holds_for_each,
    read_measure,
    read_sized,
    read_unit,
    size_starts,
    skip_sizes,
)
from .vocabulary import preparations

EACH_WORDS = frozenset({"each", "apiece", "ea", "per"})
"""Words that say a measure is of one of the things counted."""

FILL = frozenset(
    {"in", "all", "net", "weight", "wt", "or", "and", "size", "=", "/", ",", ";", "~", ":", "|"}
    | {"thick", "long", "wide", "across", "diameter"}
)
"""Words and marks between the measures of one bracket."""

_MANNER = frozenset({"cut", "degree", "aside"})
_WHOLE = frozenset({"whole", "entire", "full"})
"""Words that say nothing of the count behind them ("1 whole head of garlic"); whole cloves are a food."""


def read_own_unit(cursor: Cursor, quantity: Quantity) -> bool:
    """The amount is itself a weight, volume or length: takes its unit, and the package it may describe."""
    start = cursor.at
    hyphen = cursor.peek().text == "-"
    unit = read_unit(cursor)
    kind = dimension(unit)
    if kind not in SIZED and kind != "length":
        cursor.at = start
        return False
    described = cursor.at
    _manner(cursor, quantity)
    container = None if holds_for_each(cursor) else read_unit(cursor)
    counted = dimension(container) == "count" and (hyphen or kind == "mass")
    holds = dimension(container) == "container" or counted
    if (holds and kind in SIZED) or (kind == "length" and (hyphen or container)):
        quantity.package = Measure(quantity.amount or Spread.exact(1.0), unit)
        quantity.amount, quantity.unit = Spread.exact(1.0), container
        _split_count(quantity)
        return True
    cursor.at = described
    quantity.unit = unit
    return True


def _split_count(quantity: Quantity) -> None:
    """ "2-15 oz cans" is two cans, not a range from 2 to 15 ounces."""
    held = quantity.package
    if held and held.amount.low > 0 and held.amount.high >= 4 * held.amount.low:
        quantity.amount = Spread.exact(held.amount.low)
        quantity.package = Measure(Spread.exact(held.amount.high), held.unit)


def read_packages(cursor: Cursor, quantity: Quantity) -> None:
    """What stands between a count and its unit, in any order: a package, a size, "packed", "heaping"."""
    while True:
        start = cursor.at
        if cursor.peek().word == "x":
            cursor.at += 1
        if cursor.peek().text == "(" and is_numeric(cursor.peek(1)) and cursor.peek(2).text == ")":
            cursor.at += 3  # "two (2) cups"
        if quantity.package is None and cursor.peek().text in {"(", ","} and _bracketed_package(cursor):
            quantity.package = _last_package(cursor)
        elif quantity.package is None and cursor.peek().kind in {"number", "fraction", "word"}:
            quantity.package = read_sized(cursor)
        _manner(cursor, quantity)
        if cursor.at == start:
            return


def _bracketed_package(cursor: Cursor) -> bool:
    """Whether a bracket (or comma) here opens onto a weight, volume or length."""
    ahead = Cursor(cursor.tokens, cursor.at + 1)
    if read_sized(ahead) is None:
        return False
    return cursor.peek().text == "," or _close(ahead) or _second_figure(ahead)


def _second_figure(cursor: Cursor) -> bool:
    """ "(8 oz / 225 g)": another figure of the same package, then the bracket's end."""
    while cursor.peek().word in FILL:
        cursor.at += 1
    return read_measure(cursor) is not None and _close(cursor)


def _last_package(cursor: Cursor) -> Measure | None:
    """The package in the bracket here, the bracket stepped over."""
    opened = cursor.peek().text == "("
    cursor.at += 1
    package = read_sized(cursor)
    if opened:
        while not cursor.done and not _close(cursor):
            cursor.at += 1
    return package


def _close(cursor: Cursor) -> bool:
    while cursor.peek().word in EACH_WORDS:
        cursor.at += 1
    return cursor.take(")")


@cache
def _manner_starts() -> frozenset[str]:
    """Words that a size or a word of manner can begin with."""
    return size_starts() | SOFTENERS | _WHOLE | {*exactness(), *preparations()}


def _manner(cursor: Cursor, quantity: Quantity) -> None:
    """Sizes, and words of manner where a unit follows them ("1 packed cup", not "1 chopped onion")."""
    if cursor.peek().word not in _manner_starts():
        return
    size = skip_sizes(cursor)
    quantity.size = size or quantity.size
    _skip_whole(cursor)
    start = cursor.at
    manner: list[str] = []
    share: Spread | None = None
    while not cursor.done:
        word = cursor.peek().word
        known = preparations().get(word)
        exact = read_exactness(cursor)
        if exact:
            share = exact
        elif known and known.kind in _MANNER:
            manner.append(word)
            cursor.at += 1
        else:
            break
    ahead = Cursor(cursor.tokens, cursor.at) if cursor.at > start else None
    if ahead and (read_unit(ahead) or cursor.peek().text == "("):
        quantity.manner += [" ".join(manner)] if manner else []
        if share and quantity.amount:
            quantity.amount = quantity.amount.times(share)
    else:
        cursor.at = start


def _skip_whole(cursor: Cursor) -> None:
    """Steps over "whole" where a count of the food follows it."""
    ahead = Cursor(cursor.tokens, cursor.at + 1)
    if cursor.peek().word in _WHOLE:
        skip_sizes(ahead)
        unit = read_unit(ahead)
        if unit != "clove" and dimension(unit) in {"count", "container"}:
            cursor.at += 1
