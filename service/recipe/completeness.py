"""Whether a recipe's sodium was counted whole: which lines were not, why, and what they may hold.

A line that could carry sodium counts once it is read, mapped and weighed. Until then its prior
(`nutrition.sodium_priors`), bounded by the weight of the dish, stands in for it: it is cooked along, it
widens the range, and no claim is judged. What could matter to nobody, all told, is let be.
"""

from __future__ import annotations

import math
import re
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass, replace

from ..core.notices import Notice
from ..core.numbers import shown
from ..core.spread import Spread, product
from ..foods.food import Food
from ..foods.hand_kept import SODIUM_IN_NACL
from ..foods.matching.matcher import SURE
from ..foods.weights.weighing import ASSUMED
from ..nutrition.sodium_priors import Prior, prior_of, sweetness
from ..nutrition.usual_amounts import usual
from ..units.kitchen_units import to_millilitres
from .ingredients import Ingredient
from .outcome import ResolvedIngredient, Uncounted
from .request import RecipeRequest, eaten_share

WORTH_COUNTING_MG = 5.0
"""Sodium per serving from which on it is not "insignificant": 21 CFR 101.9(c)(4), 101.61(b)(1) [verified]."""

_MARKED = re.compile(r"\s*#+\s*[^\s\d#]")
"""A heading by its mark; "#10 can" is none."""

SALTS = frozenset({"salt", "salt in something sweet"})
"""The rows of sodium_priors.csv for salt itself."""

_SOLUBLE = SALTS | {"leavening"}
"""What food is soaked or boiled with, so that it is no word for the food itself."""

_AT_TABLE = frozenset({"for-serving", "for-dusting"})
"""Flags of what is only strewn on or handed round: its own default, which is for a dish of a family."""
_FAMILY_DISH_G = 1500.0
"""g of a dish for four or so; what is strewn on a larger one grows with it. Common practice, no source."""

SPICES = "0200"
"""The food group of spices and herbs."""

MORE = 0.5
"""Of an amount "to taste", the most that a stated amount and "plus more" may add; our own judgement."""

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
    dish = _dish(request, [each for each in listed if each.key not in beside])
    priors = {each.key: _uncounted(each, doubted[each.key], dish) for each in listed if each.key in doubted}
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
    grams = found.sodium_mg.scaled(100 / _sodium(food))
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
    return prior_of(_words(listed)).is_nothing


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
    if not ingredient.parts and any(_is_salty(prior_of(each)) for each in ingredient.read.joined):
        return "part_not_counted"
    if "plus-more" in ingredient.read.flags and _is_salty(prior_of(_words(listed))):
        return "more_to_taste"
    return None


def _is_salty(prior: Prior) -> bool:
    return prior.in_dish.likely >= WORTH_COUNTING_MG


def _words(listed: ResolvedIngredient) -> str:
    """What the line says of this food: all of it, where it names no other, but for the salt or soda that it
    lay in ("2 cups beans, soaked with a tbsp of salt")."""
    ingredient = listed.ingredient
    food, said = ingredient.read.food_words, ingredient.line or listed.name
    if ingredient.parts:
        return " ".join((food, *ingredient.preparation))
    if food and ingredient.preparation and prior_of(said).kind in _SOLUBLE:
        return said if prior_of(food).kind in _SOLUBLE else food
    return said


def _uncounted(listed: ResolvedIngredient, reason: str, dish: _Dish) -> Uncounted:
    prior = prior_of(_words(listed), dish.sweet)
    if _tops_up(listed, prior, dish):
        prior = _to_top_up(prior, dish)
    in_weight = (
        reason == "no_amount" and listed.ingredient.grams is not None and _sodium(listed.ingredient.food) > 0
    )
    sodium = _held_mg(listed, reason, prior, dish)
    return Uncounted(
        reason, prior.kind, sodium, prior.source, in_weight, _rests_on(listed, reason, prior, dish)
    )


def _tops_up(listed: ResolvedIngredient, prior: Prior, dish: _Dish) -> bool:
    """Whether a line is salt that goes into the dish, beside what its other lines bring."""
    return prior.kind in SALTS and listed.component not in dish.baths


def _to_top_up(prior: Prior, dish: _Dish) -> Prior:
    """Salt "to taste", in a dish that is salty by the rest of its lines: as much as it is short of, and a
    little where it is short of nothing. Other things go in for more than their salt."""
    if not dish.grams:
        return prior
    spare = max(dish.sodium_mg / dish.grams * 100 - usual("unsalted_food").spread.likely, 0.0)
    usually = prior.in_dish
    short_of = max(usually.likely - spare, usually.low) / usually.likely
    return replace(prior, in_dish=usually.scaled(short_of))


def _rests_on(listed: ResolvedIngredient, reason: str, prior: Prior, dish: _Dish) -> tuple[str, ...]:
    """The usual amounts by which it was reckoned what a line may hold."""
    if reason == "doubtful_food":
        return ()
    ingredient = listed.ingredient
    by_share = reason in {"no_amount", "no_weight", "left_out"} and ingredient.food is not None
    by_volume = ingredient.grams is None and _most_that_fits(ingredient) < math.inf
    return (
        *(("share_of_dish",) if by_share else ()),
        *(("salt_density",) if by_volume else ()),
        *(("serving_g",) if dish.by_serving else ()),
        *(("sweet_dish",) if dish.sweet > 0 else ()),
        *(("unsalted_food",) if _tops_up(listed, prior, dish) else ()),
    )


def _held_mg(listed: ResolvedIngredient, reason: str, prior: Prior, dish: _Dish) -> Spread:
    """mg of sodium that are not counted in a line, in the whole recipe."""
    ingredient, dish_g = listed.ingredient, dish.grams
    match reason:
        case "doubtful_food":
            return Spread(0.0, 0.0, _more_than_taken(ingredient, prior))
        case "part_not_counted":
            parts = [prior_of(each, dish.sweet) for each in ingredient.read.joined]
            return max((each.in_dish for each in parts), key=lambda s: s.high).scaled(dish_g / 100)
        case "more_to_taste":
            return Spread(0.0, 0.0, MORE * prior.in_dish.high * dish_g / 100)
        case "left_out":
            return Spread(0.0, 0.0, _of_no_amount(ingredient, prior, dish_g).high)
        case "no_food" | "being_asked_for" | "out_of_reach" | "not_read" | "sodium_not_known" if (
            ingredient.grams
        ):
            return product(ingredient.grams, prior.per_100g.scaled(0.01))
    return _of_no_amount(ingredient, prior, dish_g)


def _of_no_amount(ingredient: Ingredient, prior: Prior, dish_g: float) -> Spread:
    """mg of sodium in what has no weight: by its kind; of a food that is known, by its sodium as well."""
    by_kind = prior.in_dish.scaled(dish_g / 100).capped(_most_that_fits(ingredient))
    known = ingredient.food.per_100g("NA") if ingredient.food else None
    if known is None:
        return by_kind
    by_food = usual("share_of_dish").spread.scaled(known / 100 * dish_g)
    served = not ingredient.read.flags.isdisjoint(_AT_TABLE)
    if ingredient.grams is not None and served and prior.kind not in SALTS:
        return ingredient.grams.scaled(known / 100 * max(dish_g / _FAMILY_DISH_G, 1.0))
    if _is_salty(prior) and prior.is_named:
        return by_kind.capped(by_food.high)
    if ingredient.grams is not None:
        return ingredient.grams.scaled(known / 100)
    return by_food.capped(by_kind.high) if prior.is_named else by_food


def _most_that_fits(ingredient: Ingredient) -> float:
    """mg of sodium in the stated volume, were it all salt: a pinch holds no more than a pinch of salt."""
    line = ingredient.read
    millilitres = to_millilitres(line.unit) if line.unit and line.amount else None
    if millilitres is None or line.amount is None:
        return math.inf
    return line.amount.high * millilitres * usual("salt_density").spread.high * 1000 * SODIUM_IN_NACL


def _more_than_taken(ingredient: Ingredient, prior: Prior) -> float:
    """mg that a line may hold beyond those of the food it was mapped to, which is not sure."""
    assert ingredient.food is not None
    assert ingredient.grams is not None
    taken = _sodium(ingredient.food)
    others = [_sodium(food) for food in ingredient.alternatives]
    in_doubt = prior.is_named and prior_of(ingredient.food.name).kind != prior.kind
    kind = prior.per_100g.high if in_doubt or not others else 0.0
    return max(0.0, max([kind, *others]) - taken) * ingredient.grams.high / 100


def _sodium(food: Food | None) -> float:
    """mg in 100 g, 0 where it is not known."""
    return (food.per_100g("NA") if food else None) or 0.0


@dataclass(frozen=True, slots=True)
class _Dish:
    """What a dish weighs, g, as far as its lines tell; what these hold of sodium, mg; how sweet it is
    (`sweetness`); by_serving: whether its weight is that of usual servings, since its lines tell less; baths:
    components that other food lies in."""

    grams: float
    sodium_mg: float
    sweet: float
    by_serving: bool
    baths: Collection[str]


def _dish(request: RecipeRequest, listed: Sequence[ResolvedIngredient]) -> _Dish:
    """The dish that the lines make."""
    eaten = {each.id for each in request.components if eaten_share(each, request) > 0} - request.baths
    kept = [each for each in listed if each.component in eaten]
    weighed = [each for each in kept if each.ingredient.food and _is_weighed(each.ingredient)]
    grams = sum(each.grams * each.eaten_share for each in weighed)
    sugars = sum(each.grams * each.eaten_share * _sugar(each.ingredient.food) / 100 for each in weighed)
    sweet = sweetness(sugars / grams) if grams > 0 else 0.0
    least = usual("serving_g").spread.likely * request.servings
    held_mg = sum(each.grams * each.eaten_share * _sodium(each.ingredient.food) / 100 for each in weighed)
    others = {each.key for each in kept} - {each.key for each in weighed}
    by_serving = grams < least and any(each.key in others and not _is_seasoning(each) for each in kept)
    return _Dish(least if by_serving else grams, held_mg, sweet, by_serving, request.baths)


def _is_weighed(ingredient: Ingredient) -> bool:
    return bool(ingredient.grams) and ingredient.grams_basis != ASSUMED


def _is_seasoning(listed: ResolvedIngredient) -> bool:
    """Whether a line is of salt or a spice, which make no dish heavier to speak of."""
    food = listed.ingredient.food
    return food is not None and (food.group_code == SPICES or prior_of(_words(listed)).kind in SALTS)


def _sugar(food: Food | None) -> float:
    return (food.per_100g("SUGAR") if food else None) or 0.0


def counted_only(listed: Iterable[ResolvedIngredient]) -> list[ResolvedIngredient]:
    """The lines without what stands in for those that were not counted."""
    return [each if each.uncounted is None else _emptied(each, each.uncounted) for each in listed]


def _emptied(listed: ResolvedIngredient, found: Uncounted) -> ResolvedIngredient:
    grams = None if found.in_weight else listed.ingredient.grams
    return replace(listed, ingredient=replace(listed.ingredient, grams=grams), uncounted=None)


def uncounted_of(listed: Iterable[ResolvedIngredient]) -> tuple[ResolvedIngredient, ...]:
    """The lines that were not counted."""
    return tuple(each for each in listed if each.uncounted)
