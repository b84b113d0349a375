"""What the rules of safety look at: the parts of a dish, what they are made of and what is done to them.

Plain values without figures of the calculation; `hazard_foods.csv` says which foods a hazard is about.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache, cached_property, lru_cache

from ..core.name_rules import NameRules
from ..core.numbers import shown
from ..core.step_kinds import kinds_that
from .centre import CentreCourse
from .safety_limits import limit, limit_c


@dataclass(frozen=True)
class Item:
    """One ingredient. words: its food's name and its line. said: the line, or the name where there is none.

    food_class: of meat, poultry or fish, None of others. was_cooked: before the recipe.

    fat_percent, nitrite_mg, nitrate_mg: as NaNO2 and NaNO3, in the whole of it; fat None where not known.
    """

    words: str
    said: str
    group_code: str
    grams: float
    pointer: str
    food_class: str | None = None
    was_cooked: bool = False
    fat_percent: float | None = None
    nitrite_mg: float = 0.0
    nitrate_mg: float = 0.0

    def is_about(self, hazard: str) -> bool:
        """Whether the food is one of those that a hazard is about."""
        return hazard in self._hazards

    def is_said_to_be(self, state: str) -> bool:
        """The same by what the recipe says of it alone."""
        return is_about(state, self.group_code, self.said)

    @cached_property
    def _hazards(self) -> frozenset[str]:
        return hazards_of(self.group_code, self.words)

    @property
    def is_raw_flesh(self) -> bool:
        return self.food_class is not None and not self.was_cooked


@dataclass(frozen=True, slots=True)
class Treatment:
    """One step as a part of the dish goes through it. as_bath: as its liquid, or its dry cure or coating.

    core_c: measured inside at the end. centre: as worked out from size, time and temperature, all heat before
    it counted; None where it cannot be.
    """

    index: int
    kind: str
    pointer: str
    as_bath: bool = False
    temperature_c: float | None = None
    duration_h: float | None = None
    product_class: str | None = None
    scheme: str = "us"
    others: tuple[str, ...] = ()
    core_c: float | None = None
    centre: CentreCourse | None = None

    @property
    def warmth(self) -> str:
        """The stated temperature as people read it, "62.8 °C"; "" where there is none."""
        return "" if self.temperature_c is None else f"{shown(self.temperature_c, 4)} °C"

    @property
    def is_heat(self) -> bool:
        warmth = self.temperature_c
        return self.kind in kinds_that("heat") or (
            self.kind in kinds_that("air") and warmth is not None and warmth >= limit("growth_to")
        )

    @property
    def is_warm_air(self) -> bool:
        """Whether food hangs in the range where bacteria grow: in a cold smoke, or to dry."""
        warmth = self.temperature_c
        is_cool = warmth is not None and warmth <= limit_c("cold")
        return self.kind in kinds_that("air") and not self.is_heat and not is_cool


@dataclass(frozen=True, slots=True)
class DishPart:
    """A component: its ingredients and, in order, what is done to it. eaten_share: 0 to 1, at the end."""

    id: str
    pointer: str
    items: tuple[Item, ...]
    treatments: tuple[Treatment, ...]
    eaten_share: float

    @property
    def heats(self) -> tuple[Treatment, ...]:
        return tuple(each for each in self.treatments if each.is_heat)

    @property
    def raw_flesh(self) -> tuple[Item, ...]:
        return tuple(item for item in self.items if item.is_raw_flesh)

    def about(self, hazard: str) -> Iterator[Item]:
        return (item for item in self.items if item.is_about(hazard))


@dataclass(frozen=True, slots=True)
class Dish:
    """A recipe as the rules of safety see it."""

    title: str
    parts: Sequence[DishPart]

    def part(self, id: str) -> DishPart:
        return next(part for part in self.parts if part.id == id)


def is_about(hazard: str, group_code: str, words: str) -> bool:
    """Whether a food of a group (four figures) and with such words is one that a hazard is about."""
    return hazard in hazards_of(group_code, words)


@lru_cache(maxsize=4096)
def hazards_of(group_code: str, words: str) -> frozenset[str]:
    """The hazards that such a food is one of."""
    return frozenset(_rules().all(words, group_code))


@cache
def _rules() -> NameRules[str]:
    return NameRules.of("hazard_foods", lambda row: row["hazard"])
