"""What a volume of a food weighs: by its own household weights, by usual densities, and salt by its kind."""

from __future__ import annotations

from dataclasses import replace

from ...core.notices import Notice
from ...core.numbers import shown
from ...core.sourced import SourcedFigure
from ...core.spread import Spread, product
from ...lines.line import Measure
from ...units.kitchen_units import reach, to_millilitres
from . import household_weights, typical
from .typical import Filling
from .weighed_line import WeighedLine
from .weight import Weight, range_text

SALT = "02047"
"""The dataset's table salt, which stands for every kind: they differ in bulk, not in make."""

RECKONED = "usual density of such food"
"""How the basis of a weight ends that goes by a density of such food, not of this one."""

_SALT_MATTERS_G = 1.0
"""From this range on, in g of salt a recipe, the kind of salt is worth asking for (about 390 mg sodium)."""
_METRIC = frozenset({"millilitre", "centilitre", "decilitre"})
_TEASPOON = "teaspoon"
_CUP_ML = 236.5882365


def by_volume(measure: Measure, asked: WeighedLine) -> Weight | None:
    millilitres = to_millilitres(measure.unit or "", asked.cup)
    if millilitres is None:
        return None
    loosely = reach(measure.unit)
    size = 1.0 if loosely.is_exact else typical.size_share(asked.line.size)
    amount = product(measure.amount, loosely.scaled(size))
    if _is_salt(asked):
        return _salt(measure, amount, millilitres, asked)
    found = _cup_weight(asked, _nearest_ml(measure, millilitres))
    if found is None:
        return None
    per_ml, basis = found
    each = per_ml.spread.scaled(millilitres)
    text = f"{shown(measure.amount.likely)} × {shown(each.likely)} g per {measure.unit}, {basis}"
    return Weight(product(amount, each), text, per_ml.source)


def _nearest_ml(measure: Measure, millilitres: float) -> float:
    """The volume by which a household weight is chosen: of metric measures all, else that of the unit."""
    return millilitres * measure.amount.likely if measure.unit in _METRIC else millilitres


def _cup_weight(asked: WeighedLine, millilitres: float) -> tuple[SourcedFigure, str] | None:
    """g in one millilitre of the food, and how that is known."""
    own = household_weights.by_volume(asked.food, asked.forms, millilitres) if asked.food else None
    if own and own.fits and asked.is_cooked_food:
        return own.figure, own.basis
    if own and own.poured:
        return own.figure, own.basis
    typed = next((each for name in asked.phrases() if (each := typical.filling(name, asked.forms))), None)
    if own and (own.exact or (own.fits and not asked.forms) or (own.fits and not (typed and typed.form))):
        return _as_scooped(own.figure, typed), own.basis
    if typed:
        return _per_millilitre(typed.figure), RECKONED
    if own:
        return own.figure, own.basis
    group = typical.group_filling(asked.food.group_code) if asked.food else None
    return (_per_millilitre(group), "usual density of its food group") if group else None


def _as_scooped(own: SourcedFigure, typed: Filling | None) -> SourcedFigure:
    """A food's own weight, as wide as cups of such food are: spooned, scooped, shaken down."""
    if typed is None:
        return own
    return SourcedFigure(own.spread.reaching(_per_millilitre(typed.figure).spread), own.source)


def _per_millilitre(cup: SourcedFigure) -> SourcedFigure:
    return cup.scaled(1 / _CUP_ML)


def _is_salt(asked: WeighedLine) -> bool:
    """Whether the food is a salt by kind; foods that only hold salt are weighed as others are."""
    by_words = "salt" in asked.phrase.heads
    return (asked.food is not None and asked.food.code == SALT) or (
        by_words and (asked.food is None or not asked.food.household)
    )


def _salt(measure: Measure, amount: Spread, millilitres: float, asked: WeighedLine) -> Weight:
    kind = typical.salt(asked.phrase.words)
    teaspoons = millilitres / (to_millilitres(_TEASPOON) or 1.0)
    each = kind.teaspoon.spread.scaled(teaspoons)
    grams = product(amount, each)
    named = len(kind.words) > 1
    said = "kind as named" if named else "household weight of Salt, table; kind not named"
    basis = f"{shown(measure.amount.likely)} × {shown(each.likely)} g per {measure.unit}, {said}"
    weight = Weight(grams, basis, kind.teaspoon.source)
    if grams.high - grams.low < _SALT_MATTERS_G:
        return weight
    if named and kind.teaspoon.spread.high < 1.5 * kind.teaspoon.spread.low:
        return weight
    message = (
        f"A teaspoon of salt weighs 2.8 to 6.4 g by its kind; this line was taken as {shown(grams.likely)} g "
        f"({range_text(grams)}). Weigh the salt and give grams, or name its kind."
    )
    return replace(weight, notices=(Notice("salt-kind", "info", message),))
