"""The food that a line means: by its words and unit, by the kind in brackets, by what it leaves open."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import replace

from ...lines.line import Line
from ...lines.line_reading import read_line
from ..dataset import FoodTable
from ..food import Food
from .everyday_names import least_sodium_mg, lightly_most_mg, salty_words
from .folding import fold
from .match_scoring import NEAREST
from .matcher import Match, match, names_a_kind, says_salty

SURE_OF_CHOICE = 0.79
"""The most that is granted where a line leaves open which food it is ("salted or unsalted"), where its first
choice is not known and another is taken, or where the food is less salty than it says ("pork, brined")."""

SURE_OF_NONE = 0.5
"""The most where the only food of that name is far saltier than the line says ("lightly salted cod")."""

SURE_OF_KIND = 0.9
"""The confidence from which on a kind named in brackets names the line's food."""

_LIGHTLY = re.compile(r"(?:lightly|slightly|mildly)[ -](\w+)")
_OR = re.compile(r"\s+or\s+|(?<=[^\W\d])/(?=[^\W\d])")


def match_line(line: Line, foods: FoodTable, beside: tuple[str, ...]) -> tuple[Match, str]:
    """The food of the line's words, or of the first alternative known where they name none; its words.

    beside: what the other lines of its recipe tell (line_company.csv). The amount plays no part, but for
    whether there is one: lines that differ in it alone are matched once.
    """
    said = (line.food_words, line.preparation, line.alternatives, line.kinds, _unit_told(line), beside)
    found: tuple[Match, str] = foods.matches.find(
        said, lambda: _matched(line, foods, beside), lasts=lambda made: _lasts(made, foods)
    )
    return found


def _lasts(made: tuple[Match, str], foods: FoodTable) -> bool:
    """Whether words mean the same at any time: not while somebody is asked for what nobody knows."""
    return made[0].food is not None or foods.second.is_closed


def _matched(line: Line, foods: FoodTable, beside: tuple[str, ...]) -> tuple[Match, str]:
    found = _of_preparations(line, foods, beside)
    if found.food is not None and line.preparation and _said_saltier(line, found.food):
        found = _at_most(found, SURE_OF_CHOICE)
    if found.food is not None and line.preparation and _said_milder(line, found.food):
        found = _at_most(found, SURE_OF_NONE)
    if found.food is not None or says_salty(line.food_words) or names_a_kind(line.food_words):
        return found, line.food_words
    for words in (*line.alternatives, *_without_maker(line.food_words)):
        other = read_line(words)
        instead = match(other.food_words, (*other.preparation, *_unit_told(line)), foods)
        if instead.food is not None:
            return _at_most(instead, SURE_OF_CHOICE), other.food_words
    return found, line.food_words


def _of_preparations(line: Line, foods: FoodTable, beside: tuple[str, ...]) -> Match:
    """By the words and the preparation; where that leaves two foods open, the first, and not for sure."""
    if not any(" or " in each or "/" in each for each in line.preparation):
        return _told(line, line.preparation, foods, beside)
    parted = [_OR.split(each) for each in line.preparation]
    found = _told(line, [each[0] for each in parted], foods, beside)
    other = _told(line, [each[-1] for each in parted], foods, beside)
    if other.food == found.food:
        return found
    others = (*((other.food,) if other.food else ()), *found.alternatives)
    return replace(_at_most(found, SURE_OF_CHOICE), alternatives=others[:NEAREST])


def _said_saltier(line: Line, food: Food) -> bool:
    """Whether the line says beside the food that it is brined, cured or such, and the food is less salty."""
    told = {word for each in line.preparation if not each.startswith("for ") for word in each.split()}
    least = max((least_sodium_mg(word, food.group_code[:2]) for word in salty_words() & told), default=0.0)
    sodium = food.per_100g("NA") if least else None
    return sodium is not None and sodium < least and "salt" not in fold(food.name)


def _said_milder(line: Line, food: Food) -> bool:
    """Whether the line says that the food is lightly salted or such, and the food was salted to keep."""
    mild = (_LIGHTLY.fullmatch(each) for each in line.preparation)
    words = [found[1] for found in mild if found and found[1] in salty_words()]
    most = min((lightly_most_mg(word, food.group_code[:2]) for word in words), default=math.inf)
    return most < (food.per_100g("NA") or 0.0)


def _told(line: Line, preparation: Sequence[str], foods: FoodTable, beside: tuple[str, ...]) -> Match:
    told = (*preparation, *beside, *_unit_told(line))
    found = match(line.food_words, told, foods)
    return _named_closer(line, found, told, foods) if line.kinds else found


def _named_closer(line: Line, found: Match, told: tuple[str, ...], foods: FoodTable) -> Match:
    """The food by the kind that a bracket names ("flour (wholemeal)"), where that is known for sure."""
    for kind in line.kinds:
        closer = match(f"{kind} {line.food_words}", told, foods)
        if closer.food is not None and closer.confidence >= SURE_OF_KIND:
            of_several = found.food is None and len(line.kinds) > 1
            return _at_most(closer, SURE_OF_CHOICE if of_several else 1.0)
    return found


def _unit_told(line: Line) -> tuple[str, ...]:
    """What the unit tells of the food: what comes by the can is canned, a counted pepper is no spice."""
    if line.unit:
        return (line.unit,)
    return ("counted",) if line.amount else ()


def _without_maker(words: str) -> tuple[str, ...]:
    """Words without the name of a maker ("Hollanby's tomato ketchup"), where they hold one."""
    kept = [word for word in words.split() if not word.endswith(("'s", "’s"))]
    return (" ".join(kept),) if 0 < len(kept) < len(words.split()) else ()


def _at_most(found: Match, confidence: float) -> Match:
    return replace(found, confidence=min(found.confidence, confidence))
