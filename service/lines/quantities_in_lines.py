"""The grammar of quantities: amounts with units, packages, sums, and the same quantity said twice.

    quantity = amount [package] {size | manner} [unit] {"plus" measure | "/" measure | "(" measures ")"}

Measures say the whole again ("4 ounces (1 cup)"); packages are read by `packages`.
"""

from __future__ import annotations

from collections.abc import Sequence

from ..core.spread import Spread
from ..units.kitchen_units import dimension, to_grams
from .amounts import Cursor, is_numeric, part_of_one, read_amount, read_exactness, read_number
from .line import Measure
from .line_tokens import Token
from .packages import EACH_WORDS, FILL, read_own_unit, read_packages
from .quantity import (
    EACH,
    SIZED,
    Quantity,
    add,
    holds_for_each,
    in_units,
    read_measure,
    read_sized,
    read_unit,
    skip_sizes,
)
from .vocabulary import sizes

_IMPLIED = frozenset(
    {"pinch", "dash", "splash", "drizzle", "handful", "knob", "squeeze", "dollop", "glug", "bunch", "sprig"}
    | {"smidgen", "drop", "spoonful", "sprinkle", "thumb", "capful"}
)
"""Units that stand for one of themselves when a line begins with them ("pinch of salt")."""

_WHOLE = frozenset({"total", "altogether"})
_PLUS = frozenset({"plus", "+", "and", "&"})
_LESS = frozenset({"minus", "less"})
_AGAIN = frozenset({"/", "=", "|"})
_TO = frozenset({"to", "-", "or"})
_LEADING = frozenset({"from"})
_SAME = 1.35
"""Two figures within this ratio say one quantity twice (8 oz, 225 g); beyond it they are two."""


def read_quantity(cursor: Cursor) -> Quantity | None:
    """The quantity here, or None; the cursor stands behind it."""
    if cursor.peek().word in _LEADING and is_numeric(cursor.peek(1)):
        cursor.at += 1
    found = read_amount(cursor)
    if found is None:
        return _implied(cursor)
    quantity = Quantity(amount=found[0])
    if found[1]:
        quantity.flags.add("approximate")
    if not read_own_unit(cursor, quantity):
        read_packages(cursor, quantity)
        quantity.unit = None if holds_for_each(cursor) else read_unit(cursor)
        if quantity.unit is None:
            _other_count(cursor)
    _and_a_half(cursor, quantity)
    _further(cursor, quantity)
    if cursor.peek().word in sizes() and cursor.peek(1).word in _TO and cursor.peek(2).word in sizes():
        quantity.size = skip_sizes(cursor) or quantity.size  # "2 lb of medium to large shrimp"
    return quantity


def _and_a_half(cursor: Cursor, quantity: Quantity) -> None:
    """Adds the part of one unit that stands behind it: "a pound and a half of beef"."""
    start = cursor.at
    if quantity.unit and quantity.amount and cursor.take("and", "a"):
        part = part_of_one(cursor.peek())
        cursor.at += 1
        if part and read_unit(cursor) is None:
            more = quantity.amount
            quantity.amount = Spread(more.low + part, more.likely + part, more.high + part)
            return
    cursor.at = start


def _other_count(cursor: Cursor) -> None:
    """Steps over the second of "2 large or 3 medium carrots": the first is taken."""
    start = cursor.at
    if not (cursor.take("or") and read_amount(cursor) and skip_sizes(cursor)):
        cursor.at = start


def read_unit_alone(cursor: Cursor) -> Quantity | None:
    """The quantity of words that are a unit and nothing else: "salt (big pinch)", "soy sauce, splash"."""
    return _implied(cursor, alone=True)


def _implied(cursor: Cursor, *, alone: bool = False) -> Quantity | None:
    start = cursor.at
    share = read_exactness(cursor)
    size = skip_sizes(cursor)
    unit = read_unit(cursor)
    several = cursor.at > start and cursor.tokens[cursor.at - 1].word.endswith("s")
    flags = {"implied-amount"} | ({EACH} if cursor.take("each") else set())
    followed = cursor.take("of")
    countable = not alone and dimension(unit) in {"count", "container"}
    if (
        unit is None
        or cursor.done is not alone
        or not (unit in _IMPLIED or ((followed or (size and not several)) and countable))
    ):
        cursor.at = start
        return None
    amount = share or Spread.exact(1.0)
    return Quantity(amount=amount, unit=unit, size=size, flags=flags)


def _further(cursor: Cursor, quantity: Quantity) -> None:
    """What follows the unit: a sum, a range, the same quantity again."""
    _or_two(cursor, quantity)
    while quantity.unit and not cursor.done:
        start = cursor.at
        word = cursor.peek().word
        if word in _PLUS or word in _LESS or word in _AGAIN or word in _TO:
            cursor.at += 1
        measure = read_sized(cursor)
        if measure is None or not _join(word, measure, quantity):
            cursor.at = start
            break
    if cursor.take("each"):
        quantity.flags.add(EACH)
    cursor.take("of")


def _or_two(cursor: Cursor, quantity: Quantity) -> None:
    """Takes the range of "a stick or two of butter"."""
    start = cursor.at
    amount = quantity.amount.likely if quantity.amount and quantity.unit else 0.0
    second = read_number(cursor) if cursor.take("or") else None
    if second and amount < second.likely <= 3 * amount and (cursor.done or cursor.peek().word == "of"):
        quantity.amount = Spread(amount, (amount + second.likely) / 2, second.likely)
    else:
        cursor.at = start


def _join(word: str, measure: Measure, quantity: Quantity) -> bool:
    """Joins a further measure to the quantity by the word before it; whether that made sense."""
    if word in _LESS or word in _PLUS:
        return add(quantity, measure, -1.0 if word in _LESS else 1.0)
    share = in_units(measure.unit, quantity.unit)
    if share is None and word not in _TO and dimension(quantity.unit) == "container" and not quantity.package:
        quantity.package = measure  # "1 bottle 700 ml red wine"
        return True
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
        elif found and (word in EACH_WORDS or word in _WHOLE or word in FILL):
            each, whole = each or word in EACH_WORDS, whole or word in _WHOLE
            cursor.at += 1
        else:
            break
    if not found:
        return tokens if read_amount(cursor) is None else cursor.rest()
    _assign(found, quantity, each=each, whole=whole)
    return cursor.rest()


def _assign(found: list[Measure], quantity: Quantity, *, each: bool, whole: bool) -> None:
    """Bracketed weights are of each package, or of the whole; a length is of each piece."""
    lengths = [one for one in found if dimension(one.unit) == "length"]
    others = [one for one in found if one not in lengths]
    boxed = dimension(quantity.unit) == "container" and not whole
    if boxed and not each and quantity.amount and _is_of_all(others, quantity):
        others[0] = Measure(others[0].amount.scaled(1 / quantity.amount.likely), others[0].unit)
    of_each = each or (boxed and bool(others) and dimension(others[0].unit) in SIZED)
    if others and of_each and (quantity.package is None or _has_length(quantity)):
        quantity.package = others[0]
    else:
        quantity.measures += others
    if lengths and quantity.package is None:
        quantity.package = lengths[0]


_METRIC = frozenset({"gram", "kilogram"})
_USUAL_CAN_G = (385.0, 425.0)
"""g in the can that European shops sell most; common practice, no source."""
_OF_SEVERAL_G = 1000.0
"""g, from which on a weight in brackets is that of several packages; one so large is a caterer's. Common
practice, no source."""


def _is_of_all(others: Sequence[Measure], quantity: Quantity) -> bool:
    """Whether a metric weight behind several packages is of them all, though it does not say so: "2 cans
    (800 g)" are two of the usual size, "3 jars (1.2 kg)" no three of over a kilogram. An American "2 cans
    (28 oz)" is of each."""
    many = quantity.amount.likely if quantity.amount else 1.0
    if many <= 1 or not others or others[0].unit not in _METRIC:
        return False
    grams = others[0].amount.likely * (to_grams(others[0].unit or "") or 0.0)
    is_usual = quantity.unit == "can" and _USUAL_CAN_G[0] <= grams / many <= _USUAL_CAN_G[1]
    return grams >= _OF_SEVERAL_G or is_usual


def _has_length(quantity: Quantity) -> bool:
    return quantity.package is not None and dimension(quantity.package.unit) == "length"
