"""The grammar of quantities: amounts with units, packages, sums, and the same quantity said twice.

    quantity = amount [package] {size | manner} [unit] {"plus" measure | "/" measure | "(" measures ")"}
    package  = "(" measure ")" | "x" measure | measure

A package is what each counted thing holds ("2 (15 oz) cans"); measures say the whole again
("4 ounces (1 cup)").
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cache

from ..units.kitchen import LONGEST_SPELLING, dimension, find, spellings, to_grams, to_millilitres
from ..units.spread import Spread
from .amounts import Cursor, is_numeric, read_amount, read_exactness, times
from .line import Measure
from .tokens import Token
from .vocabulary import preparations, role, sizes

EACH = "each"
"""Flag of a quantity that holds for each of several foods ("1 tsp each salt and pepper")."""

_IMPLIED = frozenset(
    {"pinch", "dash", "splash", "drizzle", "handful", "knob", "squeeze", "dollop", "glug", "bunch", "sprig"}
    | {"smidgen", "drop", "spoonful"}
)
"""Units that stand for one of themselves when a line begins with them ("pinch of salt")."""

_SIZED = frozenset({"mass", "volume"})
_EACH = frozenset({"each", "apiece", "ea", "per"})
_WHOLE = frozenset({"total", "altogether"})
_FILL = frozenset(
    {"in", "all", "net", "weight", "wt", "or", "and", "size", "=", "/", ",", ";", "~", ":", "|"}
    | {"thick", "long", "wide", "across", "diameter"}
)
_PLUS = frozenset({"plus", "+", "and", "&"})
_LESS = frozenset({"minus", "less"})
_AGAIN = frozenset({"/", "=", "|"})
_TO = frozenset({"to", "-", "or"})
_MANNER = frozenset({"cut", "degree", "aside"})
_SAME = 1.35
"""Two figures within this ratio say one quantity twice (8 oz, 225 g); beyond it they are two."""


@dataclass(slots=True)
class Quantity:
    """What is read of a quantity so far; see `lines.line.Line` for the fields."""

    amount: Spread | None = None
    unit: str | None = None
    package: Measure | None = None
    measures: list[Measure] = field(default_factory=list)
    size: str = ""
    manner: list[str] = field(default_factory=list)
    flags: set[str] = field(default_factory=set)


def read_quantity(cursor: Cursor) -> Quantity | None:
    """The quantity here, or None; the cursor stands behind it."""
    found = read_amount(cursor)
    if found is None:
        return _implied(cursor)
    quantity = Quantity(amount=found[0])
    if found[1]:
        quantity.flags.add("approximate")
    if not _measure_itself(cursor, quantity):
        _packages_and_manner(cursor, quantity)
        quantity.unit = read_unit(cursor)
        if quantity.unit is None:
            _other_count(cursor)
    _further(cursor, quantity)
    return quantity


def _other_count(cursor: Cursor) -> None:
    """Steps over the second of "2 large or 3 medium carrots": the first is taken."""
    start = cursor.at
    if not (cursor.take("or") and read_amount(cursor) and _skip_sizes(cursor)):
        cursor.at = start


def read_unit(cursor: Cursor) -> str | None:
    """The unit spelled here, its points stepped over, or None."""
    start = cursor.at
    if cursor.peek().text == "-" and cursor.peek().glued:
        cursor.at += 1
    words, ends = _words_here(cursor)
    for count in range(len(words), 0, -1):
        unit = find(" ".join(words[:count]))
        if unit and not _names_food(unit, ends[count - 1], cursor):
            cursor.at = ends[count - 1]
            return unit
    cursor.at = start
    return None


def _names_food(unit: str, ends: int, cursor: Cursor) -> bool:
    """ "1 rib roast", "2 cups cake flour": the count is part of the food's name."""
    following = cursor.tokens[ends].word if ends < len(cursor.tokens) else ""
    return following in role("not_after_unit") and dimension(unit) == "count"


def read_measure(cursor: Cursor) -> Measure | None:
    """An amount with a unit here, or None."""
    start = cursor.at
    amount = read_amount(cursor)
    if amount is not None:
        _skip_sizes(cursor)
        unit = read_unit(cursor)
        if unit:
            return Measure(amount[0], unit)
    cursor.at = start
    return None


def read_bracket(tokens: Sequence[Token], quantity: Quantity) -> Sequence[Token]:
    """Takes the measures from the tokens of a bracket into `quantity`; what is left of the tokens."""
    cursor = Cursor(tokens)
    found: list[Measure] = []
    each = False
    whole = False
    while not cursor.done:
        word = cursor.peek().word
        measure = read_measure(cursor)
        if measure:
            found.append(measure)
        elif found and (word in _EACH or word in _WHOLE or word in _FILL):
            each, whole = each or word in _EACH, whole or word in _WHOLE
            cursor.at += 1
        else:
            break
    if not found:
        return tokens if read_amount(cursor) is None else cursor.rest()
    _assign(found, quantity, each=each, whole=whole)
    return cursor.rest()


def add(quantity: Quantity, measure: Measure, sign: float = 1.0) -> bool:
    """Adds `measure` to the quantity where both are of one kind; whether it could be done."""
    share = _in_units(measure.unit, quantity.unit)
    if share is None or quantity.amount is None or quantity.package is not None:
        return False
    was, more = quantity.amount, measure.amount.scaled(share)
    if sign < 0:
        if more.likely > was.likely:
            return False
        more = Spread(-more.likely, -more.likely, -more.likely)
    low = max(0.0, was.low + more.low)
    quantity.amount = Spread(low, was.likely + more.likely, was.high + more.high)
    return True


def _implied(cursor: Cursor) -> Quantity | None:
    start = cursor.at
    share = read_exactness(cursor)
    size = _skip_sizes(cursor)
    unit = read_unit(cursor)
    flags = {"implied-amount"} | ({EACH} if cursor.take("each") else set())
    followed = cursor.take("of")
    countable = dimension(unit) in {"count", "container"}
    if unit is None or cursor.done or not (unit in _IMPLIED or (followed and countable)):
        cursor.at = start
        return None
    amount = share or Spread.exact(1.0)
    return Quantity(amount=amount, unit=unit, size=size, flags=flags)


def _measure_itself(cursor: Cursor, quantity: Quantity) -> bool:
    """The amount is itself a weight, volume or length: takes its unit, and the package it may describe."""
    start = cursor.at
    hyphen = cursor.peek().text == "-"
    unit = read_unit(cursor)
    kind = dimension(unit)
    if kind not in _SIZED and kind != "length":
        cursor.at = start
        return False
    described = cursor.at
    _manner(cursor, quantity)
    container = read_unit(cursor)
    counted = dimension(container) == "count" and (hyphen or kind == "mass")
    holds = dimension(container) == "container" or counted
    if (holds and kind in _SIZED) or (kind == "length" and (hyphen or container)):
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


def _packages_and_manner(cursor: Cursor, quantity: Quantity) -> None:
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
            quantity.package = _sized_measure(cursor)
        _manner(cursor, quantity)
        if cursor.at == start:
            return


def _bracketed_package(cursor: Cursor) -> bool:
    """Whether a bracket (or comma) here opens onto a weight, volume or length."""
    ahead = Cursor(cursor.tokens, cursor.at + 1)
    if _sized_measure(ahead) is None:
        return False
    return cursor.peek().text == "," or _close(ahead) or _second_figure(ahead)


def _second_figure(cursor: Cursor) -> bool:
    """ "(8 oz / 225 g)": another figure of the same package, then the bracket's end."""
    while cursor.peek().word in _FILL:
        cursor.at += 1
    return read_measure(cursor) is not None and _close(cursor)


def _last_package(cursor: Cursor) -> Measure | None:
    """The package in the bracket here, the bracket stepped over."""
    opened = cursor.peek().text == "("
    cursor.at += 1
    package = _sized_measure(cursor)
    if opened:
        while not cursor.done and not _close(cursor):
            cursor.at += 1
    return package


def _close(cursor: Cursor) -> bool:
    while cursor.peek().word in _EACH:
        cursor.at += 1
    return cursor.take(")")


def _sized_measure(cursor: Cursor) -> Measure | None:
    start = cursor.at
    measure = read_measure(cursor)
    if measure and (dimension(measure.unit) in _SIZED or dimension(measure.unit) == "length"):
        return measure
    cursor.at = start
    return None


def _manner(cursor: Cursor, quantity: Quantity) -> None:
    """Sizes, and words of manner where a unit follows them ("1 packed cup", not "1 chopped onion")."""
    size = _skip_sizes(cursor)
    quantity.size = size or quantity.size
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
            quantity.amount = times(quantity.amount, share)
    else:
        cursor.at = start


def _skip_sizes(cursor: Cursor) -> str:
    """Steps over size words; the last of them."""
    size = ""
    while True:
        two = f"{cursor.peek().word}-{cursor.peek(1).word}"
        if two in sizes():
            size, ahead = sizes()[two], 2
        elif cursor.peek().word in sizes():
            size, ahead = sizes()[cursor.peek().word], 1
        else:
            return size
        cursor.at += ahead
        cursor.take(".")
        if cursor.peek().word in {"to", "or", "-"} and cursor.peek(1).word in sizes():
            cursor.at += 1


def _further(cursor: Cursor, quantity: Quantity) -> None:
    """What follows the unit: a sum, a range, the same quantity again."""
    while quantity.unit and not cursor.done:
        start = cursor.at
        word = cursor.peek().word
        if word in _PLUS or word in _LESS or word in _AGAIN or word in _TO:
            cursor.at += 1
        measure = _sized_measure(cursor)
        if measure is None or not _join(word, measure, quantity):
            cursor.at = start
            break
    if cursor.take("each"):
        quantity.flags.add(EACH)
    cursor.take("of")


def _join(word: str, measure: Measure, quantity: Quantity) -> bool:
    """Joins a further measure to the quantity by the word before it; whether that made sense."""
    if word in _LESS or word in _PLUS:
        return add(quantity, measure, -1.0 if word in _LESS else 1.0)
    share = _in_units(measure.unit, quantity.unit)
    if word in _AGAIN or (word == "or" and share is None):
        quantity.measures.append(measure)
        return True
    if share is None or quantity.amount is None:
        return False
    second = measure.amount.likely * share
    if word in _TO:
        low, high = sorted((quantity.amount.likely, second))
        quantity.amount = Spread(low, (low + high) / 2, high)
        return True
    return _behind(measure, second, share, quantity)


def _behind(measure: Measure, second: float, share: float, quantity: Quantity) -> bool:
    """A measure right behind another: the same ("2 tbsp 30 ml") or its odd part ("1 pound 4 ounces")."""
    likely = quantity.amount.likely if quantity.amount else 0.0
    if quantity.measures or likely / _SAME < second < likely * _SAME:
        quantity.measures.append(measure)
        return True
    return share < 1 and add(quantity, measure)


def _assign(found: list[Measure], quantity: Quantity, *, each: bool, whole: bool) -> None:
    """Bracketed weights are of each package, or of the whole; a length is of each piece."""
    lengths = [one for one in found if dimension(one.unit) == "length"]
    others = [one for one in found if one not in lengths]
    boxed = dimension(quantity.unit) == "container" and not whole
    of_each = each or (boxed and bool(others) and dimension(others[0].unit) in _SIZED)
    if others and of_each and (quantity.package is None or _has_length(quantity)):
        quantity.package = others[0]
    else:
        quantity.measures += others
    if lengths and quantity.package is None:
        quantity.package = lengths[0]


def _has_length(quantity: Quantity) -> bool:
    return quantity.package is not None and dimension(quantity.package.unit) == "length"


def _in_units(unit: str | None, base: str | None) -> float | None:
    """How many `base` make one `unit`; None where they are not of one kind."""
    if unit is None or base is None:
        return None
    if unit == base:
        return 1.0
    for size in (to_grams, to_millilitres):
        over, under = size(unit), size(base)
        if over and under:
            return over / under
    return None


def _words_here(cursor: Cursor) -> tuple[list[str], list[int]]:
    """Up to LONGEST_SPELLING words here and where each ends, points stepped over."""
    words: list[str] = []
    ends: list[int] = []
    at = cursor.at
    tokens = cursor.tokens
    while at < len(tokens) and len(words) < LONGEST_SPELLING:
        word = tokens[at].text
        if not (tokens[at].kind == "word" or word in {"#", '"'}):
            break
        words.append(word)
        at += 1
        if at < len(tokens) and tokens[at].text == ".":
            at += 1
        ends.append(at)
        if len(words) == 1 and word.lower() not in _first_words():
            break
    return words, ends


@cache
def _first_words() -> frozenset[str]:
    """Words that begin a spelling of several words."""
    return frozenset(spelled.split()[0] for spelled in spellings() if " " in spelled)
