"""How deep fat lies, as a line or a clause tells it: a bath to fry in, a film, or the grease of much food."""

from __future__ import annotations

import re
from collections.abc import Iterable

from ..units.kitchen_units import dimension, to_grams, to_millilitres
from .clauses import Clause
from .left_to_the_cook import grams_in
from .listed import ListedLine
from .method_words import phrasing
from .reading_state import ReadingState

_SPREADS = frozenset({"butter", "margarine", "shortening", "suet"})
_DEEP_ML = 200.0
_DEEP_SHARE = 0.15
"""Fat, ml, by a gram of food, below which food cannot lie in it, though a canteen's list has litres of it."""
DEEP_C = 150.0
"""Fat that is as hot as a recipe says, °C, is as deep as a thermometer needs."""
_SHALLOW_ML = 60.0
"""Fat, ml, from which on a line "for frying" is a bath where the method speaks of its depth."""
_DEPTHS = (
    *("half", "full", "plenty", "lots", "abundant", "enough", "good", "generous", "liberal", "cm", "mm"),
    *("centim", "inch", "finger", "depth", "deep", "way", "come", "reach", "panful", "potful", "shallow"),
    *("hot", "frying", "excess", "extra", "surplus"),
)
"""One of these stands wherever fat is told by its depth, or "1 in": looked for first, as they are cheap."""
_INCHES = re.compile(r"\d\s?in\b", re.IGNORECASE)
FATS = r"\b(?:oil|fat|lard|ghee|dripping|shortening)\b"
_IN_DEPTH = re.compile(
    r"(?:\b|(?<=\d))(?:half a (?:pan|pot|wok)|panful|potful|plenty|lots|abundant|enough|half[- ]full"
    r"|third[- ]full"
    r"|(?:good|generous|liberal) (?:amount|quantity|layer)"
    r"|(?:cm|mm|centimet(?:re|er)s?|inch(?:es)?|fingers?|\d\s?in)(?: of| deep)?)\b[^.;]{0,30}"
    + FATS
    + "|"
    # "oil to a depth of 3 cm", "oil half way up"
    + FATS
    + r"[^.;]{0,40}\b(?:to a depth|deep|half ?way|half[- ]full|third[- ]full|to (?:come|reach)"
    r"|(?:\d ?)?(?:cm|mm|inch(?:es)?)(?: deep| up)?)\b"
    r"|\bdeep[- ]?(?:fat )?fr(?:y|ied|ying|yer)\b|\bshallow[- ]?fr(?:y|ied|ying)\b"
    r"|\b(?:hot|frying|deep) (?:oil|fat)\b"
    r"|\b(?:pour|tip|drain)(?:ed|ing)? (?:out|off|away) (?:the )?(?:excess|extra|surplus) (?:oil|fat)",
    re.IGNORECASE,
)
THINLY = phrasing("thinly")
_IS_TESTED = phrasing("hot_enough_to_fry")
THIN_LAYER = phrasing("thin_layer")


def is_in_depth(text: str) -> bool:
    said = text.lower()
    if not (any(map(said.__contains__, _DEPTHS)) or _INCHES.search(said)):
        return False
    return _IN_DEPTH.search(text) is not None


def is_told_deep(clause: Clause) -> bool:
    """ "Heat 5 cm of oil", "heat the oil to 180 °C"."""
    hot = clause.celsius is not None and clause.celsius >= DEEP_C and not clause.has("oven", "tin", "tray")
    if "until" in clause.words and _IS_TESTED.search(clause.text):
        return True
    return (hot or is_in_depth(clause.text)) and not THINLY.search(clause.text)


def is_spread(listed: ListedLine) -> bool:
    """Whether a fat is for spreading and short frying: butter that is not clarified."""
    return bool(_SPREADS & set(listed.words)) and "clarified" not in listed.words


def may_be_much(listed: ListedLine) -> bool:
    """Whether a line may be a bath of fat, for all that it says."""
    if is_spread(listed) and listed.purpose != "fryer":
        return False
    amount = listed.line.amount
    return amount is None or _millilitres(listed) >= _SHALLOW_ML


def is_much(listed: ListedLine) -> bool:
    """Whether a line is a bath of fat: a stated fifth of a litre or more, or for deep or shallow frying."""
    line = listed.line
    if line.unit is not None and dimension(line.unit) == "length" and is_in_depth(listed.text):
        return True  # "peanut oil, 3 inches deep"
    if listed.purpose == "fryer" and line.amount is None:
        return bool({"deep", "shallow"} & set(listed.text.lower().replace("-", " ").split()))
    if line.amount is None or line.unit is None or is_spread(listed):
        return False
    return _millilitres(listed) >= _DEEP_ML


def is_soaked_up(state: ReadingState, fat: ListedLine, foods: Iterable[int]) -> bool:
    """Whether there is so much food that a stated fat, however much it is, only greases it."""
    if fat.index in state.fats_thin:
        return True
    if fat.purpose == "fryer" or fat.index in state.fats_in_depth or fat.line.amount is None:
        return False
    grams = grams_in(state, foods)
    return _millilitres(fat) < _DEEP_SHARE * grams


def _millilitres(listed: ListedLine) -> float:
    line = listed.line
    if line.amount is None or line.unit is None:
        return 0.0
    if line.unit in _BOTTLES:
        held = line.package
        size = held.amount.likely * _size_ml(held.unit) if held is not None and held.unit else 0.0
        return line.amount.likely * (size or _BOTTLE_ML)
    return line.amount.likely * _size_ml(line.unit)


_BOTTLES = frozenset({"bottle", "jug", "carton", "package", "block", "tub"})
_BOTTLE_ML = 500.0
"""What a bottle of oil or a block of lard holds that does not say so; common practice, no source."""


def _size_ml(unit: str) -> float:
    return to_millilitres(unit) or to_grams(unit) or 0.0
