"""What a calculation ends with, before it is put into words: what was asked, read, and is where."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache, cached_property

import numpy as np
from numpy.typing import NDArray

from ..core.notices import Assumption, Notice
from ..core.spread import Draws, Spread, stacked, standard_normal, summarise_rows
from ..foods.nutrients import NUTRIENTS
from .batch_variation import Line, batch_assumptions, sodium_widening, widening
from .ingredients import Ingredient
from .pool_rows import SODIUM, WEIGHT
from .pools import TRACE, Amounts, ratio
from .read_from_prose import READING, reading_assumption
from .request import PLACES, RecipeRequest
from .state import CalculationState


@dataclass(frozen=True, slots=True)
class Uncounted:
    """Sodium of a line that was not counted.

    reason: a key of completeness.WORDS. kind: the row of sodium_priors.csv. sodium_mg: what it may hold, in
    the whole recipe. in_weight: whether it is in the line's food and assumed weight already. rests_on: the
    usual amounts (usual_amounts.csv) that it was worked out by.
    """

    reason: str
    kind: str
    sodium_mg: Spread
    source: str
    in_weight: bool = False
    rests_on: tuple[str, ...] = ()


FROM_DAY_TO_DAY = 0.04
"""Standard deviation, relative, of one dish of one kitchen from one day to the next: our own judgement. Where
a kitchen has measured, it is what its range cannot fall below: after three measurements a fourth, which a
laboratory tells to a twentieth, lies inside nine times in ten where days differ by 3 %."""


@cache
def _day() -> Draws:
    return np.asarray(np.exp(FROM_DAY_TO_DAY * standard_normal("from day to day")))


@dataclass(frozen=True, slots=True, eq=False)
class ResolvedIngredient:
    """One food of the request, and where it stands.

    part: 0 for the first food of a line, from 1 on for the further ones of a line that names several.
    uncounted: why its sodium is not counted, if it is not.
    """

    component: str
    pointer: str
    ingredient: Ingredient
    part: int = 0
    uncounted: Uncounted | None = None

    @property
    def key(self) -> str:
        """What tells it from every other food of the recipe."""
        return f"{self.pointer}/parts/{self.part - 1}" if self.part else self.pointer

    @property
    def assumed_mg(self) -> Spread | None:
        """mg of sodium that go in for it beside its food, by a prior; None where nothing does."""
        found = self.uncounted
        return None if found is None or found.in_weight else found.sodium_mg

    @property
    def grams(self) -> float:
        """Likely weight in g, 0 where none is known."""
        return self.ingredient.grams.likely if self.ingredient.grams else 0.0

    @property
    def eaten_share(self) -> float:
        """The share (0 to 1) of the line that the caller says is eaten; all of it where nothing is said."""
        share = self.ingredient.eaten_fraction
        return 1.0 if share is None else share

    @property
    def name(self) -> str:
        """The line, or the food's name where the caller gave a food alone."""
        food = self.ingredient.food
        return self.ingredient.line or (food.name if food else "")

    @property
    def sodium_mg(self) -> float | None:
        """Sodium that the line lists, in mg; None where food, weight or the food's value is not known."""
        food, grams = self.ingredient.food, self.ingredient.grams
        known = food.per_100g("NA") if food and grams else None
        return None if known is None else self.grams * known / 100


@dataclass(frozen=True, slots=True)
class Liquid:
    """A liquid that no step uses. keys: of its lines; kind: of the step it is for, None where the words
    tell none.

    sodium_mg: what it lists in the whole recipe. eaten: the share (0 to 1) that is taken to be eaten.
    with_mg, without_mg: sodium a serving with the proposed step, and with all of it eaten, each None where
    there is no proposal.
    """

    pointer: str
    name: str
    component: str
    keys: frozenset[str]
    kind: str | None
    sodium_mg: float = 0.0
    eaten: float = 0.0
    with_mg: float | None = None
    without_mg: float = 0.0


@dataclass(frozen=True, eq=False)
class Outcome:
    """A recipe cooked. sources: what its foods rest on, the bundled dataset first (`FoodTable.sources`)."""

    request: RecipeRequest
    sources: Sequence[Mapping[str, str]]
    listed: tuple[ResolvedIngredient, ...]
    state: CalculationState
    notices: tuple[Notice, ...]
    without_assumed: Callable[[], Outcome]
    """The same recipe from its counted lines alone."""
    liquids: tuple[Liquid, ...] = ()

    @property
    def eaten(self) -> Amounts:
        """All that is eaten, by the rows of a pool."""
        return self.state.pools.amounts["eaten"]

    @cached_property
    def spread_eaten(self) -> Amounts:
        """All that is eaten, its range as wide as batches of its foods differ."""
        spread: Amounts = self.eaten * widening(self.lines, self.eaten[:, 0], self._sodium_widening)
        return spread

    @cached_property
    def lines(self) -> list[Line]:
        """The foods that are eaten, as `batches` asks for them."""
        measured = {
            name
            for step in self.request.steps
            if step.sodium_after_mg_per_100g is not None
            for name in step.food
        }
        return [
            line
            for each in self.listed
            if each.ingredient.food and each.grams and each.component in self.state.served
            for line in _lines_of(each, measured=each.component in measured)
        ]

    def batch_assumptions(self) -> list[tuple[Assumption, str]]:
        """How far batches of the foods that carry sodium may lie from the dataset, and the reading of prose
        from the recipe as it is cooked, each with its cause."""
        batches = list(batch_assumptions(self.lines, self._eaten_mg))
        read = reading_assumption(self.request.document)
        return batches if read is None else [*batches, (read, READING)]

    @property
    def _eaten_mg(self) -> float:
        return float(self.state.pools.leading["eaten"][SODIUM, 0])

    @cached_property
    def servings(self) -> Draws | float:
        """How many servings the dish makes: as stated; in portions by weight, as many as each draw weighs."""
        if self.request.portion_g is None:
            return self.request.servings
        weight = self.state.pools.leading["eaten"][WEIGHT]
        portions: Draws = self.request.servings * np.maximum(weight, TRACE) / max(float(weight[0]), TRACE)
        return portions

    @property
    def serving_weight_g(self) -> float:
        """Likely weight of a serving in g."""
        return float(self.state.pools.leading["eaten"][WEIGHT, 0]) / self.request.servings

    @cached_property
    def sodium_per_100g_mg(self) -> Draws:
        """Sodium in 100 g of the dish as eaten; none where nothing is eaten."""
        servings_g = self.state.pools.leading["eaten"][WEIGHT] / self.servings
        return ratio(self.spread_sodium_per_serving_mg * 100, servings_g)

    @cached_property
    def per_100g(self) -> Amounts:
        """Amounts in 100 g of the dish as eaten; nothing where nothing is eaten."""
        hundred_g: Amounts = self.spread_eaten * self.hundredths
        return hundred_g

    @cached_property
    def hundredths(self) -> Draws:
        """How many times 100 g of the dish go into what is eaten, turned round; 0 where nothing is eaten."""
        weight = self.spread_eaten[WEIGHT]
        return ratio(np.full_like(weight, 100.0), weight)

    @cached_property
    def sodium_per_serving_mg(self) -> Draws:
        """As the steps make it of what the dataset says."""
        per_serving: Draws = self.state.pools.leading["eaten"][SODIUM] / self.servings
        return per_serving

    @cached_property
    def spread_sodium_per_serving_mg(self) -> Draws:
        """The same, its range as wide as batches of the foods differ."""
        return self.sodium_per_serving_mg * self._sodium_widening

    @cached_property
    def sodium_spreads(self) -> tuple[Spread, Spread]:
        """Sodium of a serving, and of 100 g, in mg."""
        draws = stacked((self.spread_sodium_per_serving_mg, self.sodium_per_100g_mg))
        per_serving, per_100g = summarise_rows(draws)
        return per_serving, per_100g

    @cached_property
    def _sodium_widening(self) -> Draws:
        batches = sodium_widening(self.lines, self._eaten_mg, self.state.log.draws_of)
        read = self.state.log.draws_of(READING)
        batches = batches if read is None else batches * read
        return batches * _day() if self.state.log.has_own else batches

    @cached_property
    def shares_of_range(self) -> list[tuple[Assumption, float]]:
        """How much of the range of sodium each assumption carries, largest first."""
        return self.state.log.shares_of_range(self.spread_sodium_per_serving_mg)

    @property
    def sodium_as_listed_mg(self) -> float:
        """The plain sum over the ingredient list, for the whole recipe."""
        return sum(each.sodium_mg or 0.0 for each in self.listed)

    def sodium_discarded_mg(self) -> Draws:
        """All that was not eaten, wherever it ended."""
        held = self.state.pools.leading
        discarded: Draws = np.sum([held[place][SODIUM] for place in PLACES if place != "eaten"], axis=0)
        return discarded

    def coverage(self) -> NDArray[np.float64]:
        """For each nutrient the share (0 to 1) of the listed weight whose value is known."""
        known = np.zeros(len(NUTRIENTS))
        whole = sum(each.grams for each in self.listed)
        for each in self.listed:
            if each.ingredient.portion is not None:
                known += each.grams * each.ingredient.portion.outcome.coverage()
            elif each.ingredient.food is not None:
                known += each.grams * ~np.isnan(each.ingredient.food.values)
        return known / whole if whole > 0 else known


def _lines_of(listed: ResolvedIngredient, *, measured: bool) -> Iterator[Line]:
    """A listed food as `batch_variation` asks for it; of a portion of a recipe, the foods of that recipe."""
    ingredient = listed.ingredient
    if ingredient.portion is None or ingredient.grams is None:
        assert ingredient.food is not None
        yield ingredient.food, listed.grams * listed.eaten_share, listed.key, measured
        return
    share = ingredient.portion.likely_share(ingredient.grams) * listed.eaten_share
    for food, grams, key, was_measured in ingredient.portion.outcome.lines:
        below = f"{listed.key}/{ingredient.portion.of.key}{key}"
        yield food, grams * share, below, measured or was_measured
