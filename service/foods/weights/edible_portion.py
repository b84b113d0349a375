"""What of a weight as bought is eaten: shells, bones and peels off, where the line gives it so."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass

from ...core.numbers import percent, shown, whole
from ...core.spread import Spread, product
from ...lines.line import Line, Measure
from ...units.kitchen_units import to_grams
from ..food import Food
from ..matching.headwords import Phrase
from . import typical
from .weighed_line import WeighedLine
from .weight import Weight, said

STATED_IN_LINE = "stated in the line"
"""The source of a weight that the line itself gives."""

_CANS = frozenset({"can", "jar"})
_DRAINED = frozenset({"drained", "rinsed"})
_UNDRAINED = frozenset({"undrained", "liquid", "juice", "juices", "brine"})
_DRAINED_ROW = "drained solids"
"""How the dataset names rows whose values are those of a can without its liquid."""
_AS_DRAINED = ", drained: "
"""In the basis of a weight: it is that of a can without its liquid."""

_BARE = (
    "shelled", "shucked", "meat", "cooked", "canned", "frozen", "peeled", "smoked", "fillet", "flesh",
    "boneless", "boned", "ground",
)  # fmt: skip
_READY = (
    "peeled",
    "chopped",
    "sliced",
    "diced",
    "cubed",
    "shredded",
    "grated",
    "trimmed",
    "prepared",
    "shelled",
)
_PACKED = frozenset({"can", "jar", "bottle", "carton", "tube", "box"})
_ANIMALS = frozenset(
    {"chicken", "turkey", "duck", "goose", "hen", "capon", "fryer", "broiler", "pheasant", "rabbit"}
)
_CUT_UP = ("ground", "diced", "cubed", "sliced", "strips", "minced", "shredded", "cooked", "boneless")
_PART = re.compile(r"(\d+(?:\.\d+)?)\s*%")
_PRODUCE = frozenset({"0900", "1100"})
_SLACK_LOW, _SLACK_HIGH = 1.25, 0.5
"""The refuse of one purchase against the dataset's mean: a quarter more, or half."""


@dataclass(frozen=True, slots=True)
class Share:
    """The edible share of a weight, 0 to 1 (as `grams` of one g), how it is said, and its source."""

    grams: Spread
    basis: str
    source: str


def edible_share(line: Line, food: Food | None, phrase: Phrase) -> Share | None:
    """The edible share of the line's weight; None where all of it is eaten or nothing is known."""
    if line.unit in _PACKED:
        return None
    text = f"{line.unit or ''} {line.food_words} {' '.join(line.preparation)}"
    listed = typical.edible(phrase)
    if listed and _has(text, listed.stated_by, default=not _has(text, _BARE)):
        return Share(listed.share.spread, _said(listed.share.spread), listed.share.source)
    if (listed and not listed.stated_by) or food is None or not food.refuse_percent:
        return None
    return _refused(line, food, phrase, text)


def _refused(line: Line, food: Food, phrase: Phrase, text: str) -> Share | None:
    """By the dataset's refuse, part for part."""
    before = " ".join(each for each in line.preparation if each not in line.stated_after)
    produce = food.group_code in _PRODUCE
    if _has(before, _READY) if produce else _has(text, _CUT_UP):
        return None
    # "2 lb carrots, trimmed" were weighed before; a boneless roast is so wherever the line says it.
    weighed = f"{before} {line.food_words}" if produce else text
    likely = lowest = 0.0
    for part, description in refuse_parts(food):
        rule = typical.refuse_part(description)
        if rule.rule == "never" or _has(weighed, rule.denied_by):
            continue
        stated = _has(text, rule.stated_by) or (rule.rule == "open" and _is_whole(phrase))
        if rule.rule == "taken" or stated:
            likely += part / 100
        elif rule.rule == "open":
            lowest += part / 100
    if likely + lowest == 0:
        return None
    least = max(0.05, 1 - lowest - likely * _SLACK_LOW)
    share = Spread(min(least, 1 - likely), 1 - likely, 1 - likely * _SLACK_HIGH)
    return Share(
        share,
        _said(share),
        f"{food.source}: refuse {shown(food.refuse_percent or 0.0)} % ({food.refuse_description})",
    )


def refuse_parts(food: Food) -> list[tuple[float, str]]:
    """The parts of a food's refuse: percent of the weight as bought, and what it is, in lower case."""
    described = food.refuse_description.lower()
    pieces = [piece for piece in described.split(",") if piece.strip()]
    if food.refuse_percent is None:
        return []
    if not all(_PART.search(piece) for piece in pieces) or not pieces:
        return [(food.refuse_percent, described)]
    return [(float(_PART.search(piece).group(1)), _PART.sub("", piece).strip()) for piece in pieces]  # type: ignore[union-attr]


def _is_whole(phrase: Phrase) -> bool:
    """Whether the line names a whole animal."""
    return not _ANIMALS.isdisjoint(phrase.heads)


def _has(text: str, words: Iterable[str], *, default: bool = False) -> bool:
    """Whether any of `words` is in `text`; `default` where there are no words to look for."""
    found = default
    text = text.replace("-", " ")
    for word in words:
        if word in text:
            return True
        found = False
    return found


def _said(share: Spread) -> str:
    if share.likely == 1:
        return f"bone or trimmings of up to {whole((1 - share.low) * 100)} % not taken off"
    return f"{whole(share.likely * 100)} % of it eaten"


def by_mass(measure: Measure, asked: WeighedLine, *, packed: bool = False) -> Weight:
    unit_g = to_grams(measure.unit or "") or 0.0
    grams = measure.amount.scaled(unit_g)
    basis = f"weight in the line, {said(measure)}"
    if packed and asked.line.unit in _CANS:
        return drained(Weight(grams, basis, STATED_IN_LINE), asked)
    share = edible_share(asked.line, asked.food, asked.phrase)
    if share is None:
        return Weight(grams, basis, STATED_IN_LINE)
    return Weight(product(grams, share.grams), f"{basis}, {share.basis}", share.source)


def is_drained(basis: str) -> bool:
    """Whether a weight so found is that of a can without its liquid."""
    return _AS_DRAINED in basis


def drained(weight: Weight, asked: WeighedLine) -> Weight:
    """A can's weight without its liquid, where the line or the food's row says that it is drained."""
    words = " ".join(asked.line.preparation).replace(",", " ").split()
    if asked.line.unit not in _CANS or weight.grams is None:
        return weight
    figure = typical.drained_share(asked.phrase)
    share = figure.spread
    if _DRAINED.isdisjoint(words):
        if asked.food is None or _DRAINED_ROW not in asked.food.name or not _UNDRAINED.isdisjoint(words):
            return weight
        # Nothing is said of the liquid. The row's values are of what is drained, and most is; not always.
        share = Spread(share.low, share.likely, 1.0)
    basis = f"{weight.basis}{_AS_DRAINED}{percent(share.likely)} of it"
    return Weight(product(weight.grams, share), basis, figure.source, weight.notices)
