"""What lines whose sodium was not counted may hold of it, by what they name and the dish they go into."""

from __future__ import annotations

import math
from collections import Counter
from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace

from ..core.spread import Spread, product
from ..foods.food import Food
from ..foods.hand_kept import SODIUM_IN_NACL
from ..foods.weights.edible_portion import is_drained
from ..foods.weights.weighing import ASSUMED
from ..nutrition.sodium_priors import Prior, prior_of, short_of, sweetness
from ..nutrition.usual_amounts import usual
from ..transfer.food_kinds import kind_of
from ..transfer.handling_figures import drain_and_rinse
from ..transfer.pots import cooking_yield
from ..units.kitchen_units import to_millilitres
from .ingredients import Ingredient
from .outcome import ResolvedIngredient, Uncounted
from .request import RecipeRequest, eaten_share

WORTH_COUNTING_MG = 5.0
"""Sodium per serving from which on it is not "insignificant": 21 CFR 101.9(c)(4), 101.61(b)(1) [verified]."""

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

_WITHOUT_AMOUNT = frozenset({"no_amount", "no_weight", "left_out"})
"""Reasons why only the weight of the dish tells how much of a thing goes in."""

_PULSES = "dried_beans"
"""Their kind in a pot (food_kinds.csv)."""

_SALTIER_THAN_DISHES_MG = 393.0
"""mg of sodium in 100 g, from which on a thing is saltier than what it goes into: that of 1 % salt, which is
"moderately to very salty" (head of sodium_priors.csv)."""

MORE = 0.5
"""Of an amount "to taste", the most that a stated amount and "plus more" may add; our own judgement."""


def priors_of(
    lines: Sequence[ResolvedIngredient], reasons: dict[str, str], dish: Dish, beside: Collection[str]
) -> dict[str, Uncounted]:
    """What each line may hold, by its key. Salt "to taste" goes in last, beside what the others are likely to
    bring; several lines of a kind share what a dish takes of it."""
    priors = {each.key: prior_of(words_of(each), dish.sweet) for each in lines}
    sharing = {each.key for each in lines if _is_shared(each, reasons[each.key], priors[each.key], dish)}
    of_kind = Counter(priors[key].kind for key in sharing)

    def held(each: ResolvedIngredient, dish: Dish) -> Uncounted:
        among = of_kind[priors[each.key].kind] if each.key in sharing else 1
        return _uncounted(each, reasons[each.key], priors[each.key], dish, among)

    salts = {each.key for each in lines if _tops_up(each, priors[each.key], dish)}
    found = {each.key: held(each, dish) for each in lines if each.key not in salts}
    others_mg = sum(
        found[each.key].sodium_mg.likely * each.eaten_share
        for each in lines
        if each.key in found and each.key not in beside and _is_in_dish(each, dish)
    )
    salted = replace(dish, sodium_mg=dish.sodium_mg + others_mg)
    return found | {each.key: held(each, salted) for each in lines if each.key in salts}


def _is_in_dish(listed: ResolvedIngredient, dish: Dish) -> bool:
    """Whether a line is cooked in the dish: in no bath, and not only handed round with it."""
    return listed.component not in dish.baths and _AT_TABLE.isdisjoint(listed.ingredient.read.flags)


def _is_shared(listed: ResolvedIngredient, reason: str, prior: Prior, dish: Dish) -> bool:
    """Whether a line without an amount is of what goes in for its salt, of which a dish takes so much whether
    it is named once or twice: two cheeses, three sauces, salt for the meat and salt for the gravy."""
    by_dish = reason in _WITHOUT_AMOUNT and _is_in_dish(listed, dish)
    return by_dish and prior.is_named and prior.per_100g.likely >= _SALTIER_THAN_DISHES_MG


def is_salty(prior: Prior) -> bool:
    return prior.in_dish.likely >= WORTH_COUNTING_MG


def words_of(listed: ResolvedIngredient) -> str:
    """What the line says of this food: all of it, where it names no other, but for the salt or soda that it
    lay in ("2 cups beans, soaked with a tbsp of salt")."""
    ingredient = listed.ingredient
    food, said = ingredient.read.food_words, ingredient.line or listed.name
    if ingredient.parts:
        return " ".join((food, *ingredient.preparation))
    if food and ingredient.preparation and prior_of(said).kind in _SOLUBLE:
        return said if prior_of(food).kind in _SOLUBLE else food
    return said


def _uncounted(listed: ResolvedIngredient, reason: str, prior: Prior, dish: Dish, among: int) -> Uncounted:
    """What a line may hold, one among so many that share what a dish takes of their kind."""
    if _tops_up(listed, prior, dish):
        prior = _to_top_up(prior, dish)
    prior = replace(prior, in_dish=prior.in_dish.scaled(1 / among))
    in_weight = (
        reason == "no_amount"
        and listed.ingredient.grams is not None
        and sodium_of(listed.ingredient.food) > 0
    )
    sodium = _held_mg(listed, reason, prior, dish)
    return Uncounted(
        reason, prior.kind, sodium, prior.source, in_weight, _rests_on(listed, reason, prior, dish)
    )


def _tops_up(listed: ResolvedIngredient, prior: Prior, dish: Dish) -> bool:
    """Whether a line is salt that goes into the dish, beside what its other lines bring."""
    return prior.kind in SALTS and listed.component not in dish.baths


def _to_top_up(prior: Prior, dish: Dish) -> Prior:
    """Salt "to taste", in a dish that is salty by the rest of its lines: as much as it is short of, and a
    little where it is short of nothing. Other things go in for more than their salt."""
    if not dish.grams:
        return prior
    share = short_of(prior.in_dish, dish.sodium_mg / dish.grams * 100)
    return replace(prior, in_dish=prior.in_dish.scaled(share))


def _rests_on(listed: ResolvedIngredient, reason: str, prior: Prior, dish: Dish) -> tuple[str, ...]:
    """The usual amounts by which it was reckoned what a line may hold."""
    if reason == "doubtful_food":
        return ()
    ingredient = listed.ingredient
    by_share = reason in _WITHOUT_AMOUNT and ingredient.food is not None
    by_volume = ingredient.grams is None and _most_that_fits(ingredient) < math.inf
    return (
        *(("share_of_dish",) if by_share else ()),
        *(("salt_density",) if by_volume else ()),
        *(("serving_g",) if dish.by_serving else ()),
        *(("sweet_dish",) if dish.sweet > 0 else ()),
        *(("unsalted_food",) if _tops_up(listed, prior, dish) else ()),
    )


def _held_mg(listed: ResolvedIngredient, reason: str, prior: Prior, dish: Dish) -> Spread:
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
    if is_salty(prior) and prior.is_named:
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
    taken = sodium_of(ingredient.food)
    others = [sodium_of(food) for food in ingredient.alternatives]
    in_doubt = prior.is_named and prior_of(ingredient.food.name).kind != prior.kind
    kind = prior.per_100g.high if in_doubt or not others else 0.0
    return max(0.0, max([kind, *others]) - taken) * ingredient.grams.high / 100


def sodium_of(food: Food | None) -> float:
    """mg in 100 g, 0 where it is not known."""
    return (food.per_100g("NA") if food else None) or 0.0


@dataclass(frozen=True, slots=True)
class Dish:
    """What a dish weighs, g, as far as its lines tell, with the little that is usual of parsley or oil
    without an amount; what the weighed ones hold of sodium, mg; how sweet it is (`sweetness`); by_serving:
    whether its weight is that of usual servings, since its lines tell less and one has no weight at all;
    baths: components that other food lies in."""

    grams: float
    sodium_mg: float
    sweet: float
    by_serving: bool
    baths: Collection[str]


def dish_of(request: RecipeRequest, listed: Sequence[ResolvedIngredient]) -> Dish:
    """The dish that the lines make."""
    eaten = {each.id for each in request.components if eaten_share(each, request) > 0} - request.baths
    kept = [each for each in listed if each.component in eaten]
    weighed = [each for each in kept if _is_weighed(each.ingredient)]
    others = [each for each in kept if not _is_weighed(each.ingredient) and _is_in_pot(each)]
    drains = {name: step.rinsed for step in request.steps if step.kind == "drain" for name in step.food}
    in_water = {name for step in request.steps if step.bath for name in step.food}
    salted = _salted_by_baths(request, listed)
    stays = [_what_stays(each, drains, in_water, salted) for each in weighed]
    grams = sum(weight_g for weight_g, _ in stays) + sum(each.grams * each.eaten_share for each in others)
    sugars = sum(each.grams * each.eaten_share * _sugar(each.ingredient.food) / 100 for each in weighed)
    sweet = sweetness(sugars / grams) if grams > 0 else 0.0
    least = usual("serving_g").spread.likely * request.servings
    held_mg = sum(sodium_mg for _, sodium_mg in stays)
    by_serving = grams < least and not all(each.grams for each in others)
    return Dish(least if by_serving else grams, held_mg, sweet, by_serving, request.baths)


_DRY = frozenset({"dredge", "fry"})
"""Kinds of steps whose bath only clings to the food."""


def _salted_by_baths(request: RecipeRequest, listed: Sequence[ResolvedIngredient]) -> dict[str, float]:
    """The components that lie in a salted bath, and how much sodium 100 g of them hold by that, mg: as much
    as 100 g of the bath, and at the most what salt "to taste" brings, so that they take little of it."""
    held: dict[str, float] = {}
    for step in request.steps:
        within = [each for each in listed if each.component == step.bath and step.kind not in _DRY]
        grams = sum(each.grams for each in within)
        if grams > 0:
            sodium_mg = sum(each.grams * sodium_of(each.ingredient.food) for each in within) / grams
            taken = min(sodium_mg, prior_of("salt").in_dish.likely)
            held |= {name: max(taken, held.get(name, 0.0)) for name in step.food}
    return held


def _what_stays(
    listed: ResolvedIngredient,
    drains: Mapping[str, bool],
    in_water: Collection[str],
    salted: Mapping[str, float],
) -> tuple[float, float]:
    """g of a line that go into the dish, and mg of sodium in them. drains: components whose liquid is poured
    off, and whether they are rinsed then; in_water: those that lie in a bath; salted: those that it salts.
    Pulses are salted as they are eaten, swollen; pasta and rice have a pot of their own, and the dish beside
    them is what is salted."""
    food, grams = listed.ingredient.food, listed.grams * listed.eaten_share
    held_mg = grams * max(sodium_of(food), salted.get(listed.component, 0.0)) / 100
    if listed.component in in_water and (kind := kind_of("pot", food)) == _PULSES:
        grams *= cooking_yield(kind, "pot").weight.likely
    if listed.component not in drains:
        return grams, held_mg
    was_drained = is_drained(listed.ingredient.grams_basis)
    kept = drain_and_rinse(food, rinsed=drains[listed.component], weighed_drained=was_drained)
    return (grams, held_mg) if kept is None else (grams * kept.weight.likely, held_mg * kept.sodium.likely)


def _is_weighed(ingredient: Ingredient) -> bool:
    """Whether a line of a known food tells its weight."""
    return bool(ingredient.food and ingredient.grams) and ingredient.grams_basis != ASSUMED


def _is_in_pot(listed: ResolvedIngredient) -> bool:
    """Whether a line makes what is salted heavier: it is not handed round with it, nor a seasoning."""
    food = listed.ingredient.food
    seasons = food is not None and (food.group_code == SPICES or prior_of(words_of(listed)).kind in SALTS)
    return not seasons and _AT_TABLE.isdisjoint(listed.ingredient.read.flags)


def _sugar(food: Food | None) -> float:
    return (food.per_100g("SUGAR") if food else None) or 0.0
