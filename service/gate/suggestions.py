"""What to write instead: for a field in another unit, and for a step by another word. Used where a request is
refused, so nothing here need be quick."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache
from typing import Any

from ..core.numbers import shown
from ..core.tables import rows

_UNITS = {
    "h": "hour", "hr": "hour", "hrs": "hour", "hours": "hour", "min": "minute", "mins": "minute",
    "minutes": "minute", "s": "second", "sec": "second", "seconds": "second", "d": "day", "days": "day",
    "c": "degC", "f": "degF", "k": "kelvin", "celsius": "degC", "fahrenheit": "degF",
    "cm": "centimeter", "mm": "millimeter", "m": "meter", "in": "inch", "inch": "inch", "inches": "inch",
    "g": "gram", "kg": "kilogram", "mg": "milligram", "oz": "ounce", "lb": "pound", "lbs": "pound",
}  # fmt: skip
"""What may stand behind the last underscore of a field's name, and the unit that it means."""

_WORDS = {
    "hour": "hours",
    "minute": "min",
    "degC": "°C",
    "degF": "°F",
    "centimeter": "cm",
    "gram": "g",
    "milligram": "mg",
}


def in_another_unit(name: str, known: Iterable[str], value: Any) -> str | None:
    """A hint for a field that is known in another unit ("duration_min"), its value turned into ours.

    None where the name is no such field.
    """
    stem, _, unit = name.lower().rpartition("_")
    if unit not in _UNITS:
        return None
    for field in known:
        own_stem, _, own = field.rpartition("_")
        if own_stem == stem and own in _UNITS and own != unit:
            return _converted(field, unit, own, value)
    return None


def _converted(field: str, unit: str, own: str, value: Any) -> str | None:
    # pint is loaded here alone: a service that refuses nothing never needs it.
    import pint  # noqa: PLC0415

    registry = _registry()
    number = value if isinstance(value, int | float) and not isinstance(value, bool) else None
    try:
        ours = registry.Quantity(float(number or 0), _UNITS[unit]).to(_UNITS[own]).magnitude
    except pint.DimensionalityError:
        return None
    if number is None:
        return f"; write {field}, in {_WORDS[_UNITS[own]]}"
    said = _WORDS.get(_UNITS[unit], unit)
    return f"; write {field}, in {_WORDS[_UNITS[own]]}: {shown(number, 6)} {said} is {shown(ours, 4)}"


@cache
def _registry() -> Any:
    import pint  # noqa: PLC0415

    return pint.UnitRegistry(autoconvert_offset_to_baseunit=True)


def by_another_name(name: str, known: Iterable[str]) -> str | None:
    """A hint for a field by another name ("serving_size"), None where it is none that stands there."""
    meant = {row["word"]: row["field"] for row in rows("field_words")}.get(name.lower())
    if meant is None or meant not in known:
        return None
    unit = _UNITS.get(meant.rpartition("_")[2])
    return f"; write {meant}{f', in {_WORDS[unit]}' if unit else ''}."


def by_another_word(word: str, choices: Iterable[str]) -> str | None:
    """The choice that another word, form or spelling means ("Bake", "brining"); None where none does."""
    stems = {_stem(choice): choice for choice in choices}
    others = {_stem(row["word"]): row["kind"] for row in rows("step_words")}
    found = stems.get(_stem(word)) or others.get(_stem(word))
    return found if found in stems.values() else None


def _stem(word: str) -> str:
    """A word without its capitals, its blanks and hyphens, and its -ing, -ed, -s or last -e."""
    plain = re.sub(r"[\s_-]+", "", word.casefold())
    for ending in ("ing", "ed", "es", "s", "e"):
        if plain.endswith(ending) and len(plain) - len(ending) >= 3:
            plain = plain.removesuffix(ending)
            break
    return re.sub(r"(.)\1$", r"\1", plain)
