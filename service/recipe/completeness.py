"""Whether a recipe's sodium was counted whole: which lines were not, why, and what they may hold.

A line that could carry sodium counts once it is read, mapped and weighed. Until then its prior
(`nutrition.sodium_priors`), bounded by the weight of the dish, stands in for it: it is cooked along, it
widens the range, and no claim is judged. What could matter to nobody, all told, is let be.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Sequence
from dataclasses import replace

from ..core.notices import Notice
from ..core.numbers import shown
from ..core.spread import Spread
from ..foods.matching.matcher import SURE
from ..foods.weights.weighing import ASSUMED
from ..nutrition.sodium_priors import prior_of
from .ingredients import Ingredient
from .may_hold import WORTH_COUNTING_MG, dish_of, is_salty, priors_of, sodium_of, words_of
from .outcome import ResolvedIngredient, Uncounted
from .request import RecipeRequest

_MARKED = re.compile(r"\s*#+\s*[^\s\d#]")
"""A heading by its mark; "#10 can" is none."""

WORDS = {
    "not_read": "no food could be read in it",
    "no_food": "no food of the dataset fits",
    "being_asked_for": "no food of the dataset fits, and the second source is being asked",
    "out_of_reach": "no food of the dataset fits, and the second source is out of reach",
    "doubtful_food": "which food it is, is not sure",
    "no_weight": "what it weighs is not known",
    "no_amount": "it gives no amount",
    "more_to_taste": "more than the stated amount may go in",
    "left_out": "it gives no amount and was left out as asked",
    "sodium_not_known": "the sodium of its food is not known",
    "part_not_counted": "only a part of it was counted",
    "fate_not_known": "what becomes of the liquid is not said",
    "liquid_not_used": "no step uses the liquid",
}
"""Reasons, in words that end a sentence about a line."""

BY_ASKING = {"waiting": "being_asked_for", "failed": "out_of_reach"}
"""The reason of a line that no food fits, by where asking the second source for it stands."""


def take_stock(
    request: RecipeRequest, listed: Sequence[ResolvedIngredient], beside: Collection[str] = ()
) -> tuple[ResolvedIngredient, ...]:
    """The lines, each that was not counted with its prior (`ResolvedIngredient.uncounted`).

    beside: keys of lines that are no part of the dish, a brine that is poured away.
    """
    doubted = {each.key: found for each in listed if (found := _reason(each))}
    if not doubted:
        return tuple(listed)
    dish = dish_of(request, [each for each in listed if each.key not in beside])
    priors = priors_of([each for each in listed if each.key in doubted], doubted, dish, beside)
    counts = any(each.sodium_mg for each in listed if each.key not in priors)
    worth = _worth_counting(priors, request.servings) if counts else set(priors)
    return tuple(_with(each, priors[each.key]) if each.key in worth else each for each in listed)


def _worth_counting(priors: dict[str, Uncounted], servings: float) -> set[str]:
    """The keys of all but the least, as long as the least together are insignificant."""
    spare_mg, kept = WORTH_COUNTING_MG * servings, set(priors)
    for key in sorted(priors, key=lambda each: (priors[each].sodium_mg.high, each)):
        spare_mg -= priors[key].sodium_mg.high
        if spare_mg < 0:
            break
        kept.discard(key)
    return kept


def _with(listed: ResolvedIngredient, found: Uncounted) -> ResolvedIngredient:
    """The line with its prior; where its food is known and only the amount is taken, by way of its weight."""
    if not found.in_weight:
        return replace(listed, uncounted=found)
    food = listed.ingredient.food
    grams = found.sodium_mg.scaled(100 / sodium_of(food))
    told = tuple(_retold(notice, grams) for notice in listed.ingredient.notices)
    ingredient = replace(
        listed.ingredient,
        grams=grams,
        grams_basis="no quantity in the line: what is usual for the weight of the dish",
        grams_source=found.source,
        notices=told,
    )
    return replace(listed, ingredient=ingredient, uncounted=found)


def _retold(notice: Notice, grams: Spread) -> Notice:
    """A notice of a usual amount with the weight that was taken in its place."""
    if notice.code != "default-quantity":
        return notice
    message = (
        f"The line gives no quantity; {shown(grams.likely)} g were taken ({shown(grams.low)} to "
        f"{shown(grams.high)} g), by the weight of the dish. Add an amount, or give grams."
    )
    return replace(notice, message=message)


def is_heading(listed: ResolvedIngredient) -> bool:
    """Whether a line is a heading of those below it and no food."""
    ingredient = listed.ingredient
    return "heading" in ingredient.read.flags or _MARKED.match(ingredient.line) is not None


def brings_nothing(listed: ResolvedIngredient) -> bool:
    """Whether a line is of what brings no sodium: a tool, or water that is poured away."""
    return prior_of(words_of(listed)).is_nothing


def _reason(listed: ResolvedIngredient) -> str | None:
    """Why the sodium of a line is not counted, or only by a guess; None where it is, or there is none."""
    ingredient = listed.ingredient
    if ingredient.portion is not None:
        return None
    if ingredient.eaten_fraction == 0 or is_heading(listed) or brings_nothing(listed):
        return None
    if ingredient.food is None:
        return _unmapped(ingredient)
    if ingredient.grams is None:
        return _unweighed(ingredient)
    if ingredient.food.per_100g("NA") is None:
        return "sodium_not_known"
    return "no_amount" if ingredient.grams_basis == ASSUMED else _part(listed)


def _unmapped(ingredient: Ingredient) -> str:
    if not ingredient.read.food_words:
        return "not_read"
    return BY_ASKING.get(ingredient.asking, "no_food")


def _unweighed(ingredient: Ingredient) -> str:
    if ingredient.read.amount is not None:
        return "no_weight"
    return "left_out" if ingredient.grams_basis.endswith("as asked") else "no_amount"


def _part(listed: ResolvedIngredient) -> str | None:
    """Why a line whose food and weight are known may still hold more than they do."""
    ingredient = listed.ingredient
    told = ingredient.packet is not None and "NA" in ingredient.packet.per_100g
    if ingredient.sure_of_food < SURE and not told:
        return "doubtful_food"
    if not ingredient.parts and any(is_salty(prior_of(each)) for each in ingredient.read.joined):
        return "part_not_counted"
    if "plus-more" in ingredient.read.flags and is_salty(prior_of(words_of(listed))):
        return "more_to_taste"
    return None


def counted_only(listed: Iterable[ResolvedIngredient]) -> list[ResolvedIngredient]:
    """The lines without what stands in for those that were not counted."""
    return [each if each.uncounted is None else _emptied(each, each.uncounted) for each in listed]


def _emptied(listed: ResolvedIngredient, found: Uncounted) -> ResolvedIngredient:
    grams = None if found.in_weight else listed.ingredient.grams
    return replace(listed, ingredient=replace(listed.ingredient, grams=grams), uncounted=None)


def uncounted_of(listed: Iterable[ResolvedIngredient]) -> tuple[ResolvedIngredient, ...]:
    """The lines that were not counted."""
    return tuple(each for each in listed if each.uncounted)
