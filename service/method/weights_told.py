"""Weights that a text tells: of water, of salt, and of salt to the litre."""

from __future__ import annotations

import re

from ..lines import read_line
from ..units.kitchen_units import to_grams, to_millilitres

_PER_LITRE = re.compile(
    r"(\d+(?:[.,]\d+)?)\s*g(?:ra?m(?:me)?s?)?\b(?: of)?(?: \w+)?(?: salt)?\s*"
    r"(?:per|/|a|an|(?:for|to) (?:each|every|a|the))\s*(?:lit(?:re|er)|l)\b",
    re.IGNORECASE,
)
_PLAIN = re.compile(r"(\d+(?:\.\d+)?)(?: to (\d+(?:\.\d+)?))? (l|ml|g) [a-z]+$")
"""Amounts as they are written here for what no line measures: "2.5 to 4 l water"."""


def grams_of(text: str) -> float | None:
    """The weight of an amount of water in words: "2 quarts of water"."""
    if (plain := _PLAIN.match(text)) is not None:
        low, high = float(plain[1]), float(plain[2] or plain[1])
        return (low + high) / 2 * (1000.0 if plain[3] == "l" else 1.0)
    line = read_line(text)
    size = to_millilitres(line.unit) or to_grams(line.unit) if line.unit else None
    return line.amount.likely * size if line.amount and size else None


def per_litre_g(text: str) -> float | None:
    """The grams of "10 g per litre"; None where a text gives salt by no measure of water."""
    found = _PER_LITRE.search(text) if "li" in text or "/" in text or " l" in text else None
    by_spoon = found is None and any(map(text.__contains__, _MEASURES))
    if by_spoon and (spoons := _PER_MEASURE.search(text)) is not None:
        return _by_the_spoon(spoons[1], spoons[2] or "1", spoons[3])
    return float(found[1].replace(",", ".")) if found else None


_MEASURES = ("litre", "liter", "quart", "gallon", "pint")
_PER_MEASURE = re.compile(
    r"((?:\d[\d./ ]*|half an? |one |a |an |two |½ ?|¼ ?)(?:\w+ )?"
    r"(?:tsps?|teaspoons?|tbsps?|tablespoons?|oz|ounces?|g|grams?)\b)(?: of)?(?: \w+){0,2}\s*"
    r"(?:per|/|(?:for|to)(?: (?:each|every|a|the))?)\s*(?:about )?"
    r"(half an? |(?:\d[\d.,/ ]*(?:(?:-|–|to) ?)?){0,2}[½¼¾]? ?)(lit(?:re|er)s?|quarts?|gallons?|pints?)\b",
    re.IGNORECASE,
)


def _by_the_spoon(salt: str, many: str, unit: str) -> float | None:
    """The grams a litre of "1 tbsp per 2 quarts", "1 tbsp for 1.5 litres"."""
    grams = salt_grams(salt)
    count = "1/2" if many.startswith(("half", "Half")) else many.strip() or "1"
    water_g = grams_of(f"{count} {unit} water")
    return round(1000 * grams / water_g, 2) if grams and water_g else None


def salt_grams(said: str) -> float | None:
    """What an amount of salt weighs, of "2 tsp", "15 g"; None where it gives none that can be weighed."""
    grams = grams_of(f"{said} salt")
    by_spoon = grams and to_millilitres(read_line(f"{said} salt").unit or "g")
    return grams * _SALT_G_ML if grams and by_spoon else grams


_SALT_G_ML = 1.2
"""Fine salt by the spoon, g a ml; common practice, no source."""
