"""One step's work on one component: its figures, entered under the step's and the component's name."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Protocol

from ..findings import MEASURED, STATED
from ..foods.dataset import Food
from ..units.spread import Draws, Spread
from .bench import Bench, Character
from .kitchen import Amounts, Kitchen, share_of
from .request import StepRequest
from .rows import SODIUM, WEIGHT
from .solution import Way


class Figured(Protocol):
    """A figure of the tables: its spread and its source."""

    @property
    def spread(self) -> Spread: ...
    @property
    def source(self) -> str: ...


@dataclass(frozen=True, slots=True, eq=False)
class Work:
    """What a step does to the component `name`."""

    step: StepRequest
    bench: Bench
    name: str

    @property
    def kitchen(self) -> Kitchen:
        return self.bench.kitchen

    @property
    def pool(self) -> Amounts:
        """What the component holds now, leading rows alone; it changes in place as things move."""
        return self.bench.kitchen.leading[self.name]

    @property
    def character(self) -> Character:
        return self.bench.characters[self.name]

    @property
    def main(self) -> Food | None:
        return self.character.main

    def assume(
        self,
        what: str,
        figure: Figured,
        unit: str,
        *,
        shared: str | None = None,
        floor: float = 0.0,
        ceiling: float = math.inf,
    ) -> Draws:
        """Enter a figure of the tables, and give its draws."""
        return self.bench.book.take(
            f"step-{self.step.index}/{self.name}/{what}",
            figure.spread,
            unit,
            figure.source,
            self.step.index,
            shared=shared,
            floor=floor,
            ceiling=ceiling,
        )

    def know(self, what: str, value: float, unit: str, source: str) -> Draws:
        """Enter a figure taken as known, and give its draws."""
        return self.assume(what, _Known(Spread.exact(value), source), unit, floor=-math.inf)

    def check(self, code: str, message: str) -> None:
        """Ask a person to look."""
        self.bench.note(code, "check", message, self.step.pointer)

    def to(self, target: str) -> Way:
        """The way from the component to another place."""
        return Way(self.kitchen, self.name, target, self.step.index)

    def give_water(self, target: str, grams: Draws) -> None:
        """Let pure water go to another place, or come from there where grams are below 0."""
        self.kitchen.pass_water(self.name, target, grams, self.step.index)

    def weight_ratio(self, what: str) -> Draws | None:
        """Weight after over weight before, from weighings or a stated yield; None where neither is given."""
        step = self.step
        if step.weight_after_g is not None:
            before = step.weight_before_g or float(self.pool[WEIGHT, 0])
            return self.know(what, step.weight_after_g / before if before else 1.0, "ratio", MEASURED)
        if step.yield_fraction is not None:
            return self.know(what, step.yield_fraction, "ratio", STATED)
        if step.pick_up_percent is not None:
            return self.know(what, 1 + step.pick_up_percent / 100, "ratio", STATED)
        return None

    def stated_factor(self) -> Draws | None:
        """The absorption factor that the caller states."""
        factor = self.step.absorption_factor
        return None if factor is None else self.know("absorption-factor", factor, "fraction", STATED)

    def sodium_after(self, weight_after_g: Draws) -> Draws | None:
        """Sodium in mg that a laboratory value puts into the component; None where there is none."""
        value = self.step.sodium_after_mg_per_100g
        if value is None:
            return None
        return self.know("sodium", value, "mg/100 g", MEASURED) * weight_after_g / 100

    def sodium_gain(self, weight_after_g: Draws) -> Draws | None:
        """Sodium in mg that it must gain to come to a laboratory value; None where there is none."""
        wanted = self.sodium_after(weight_after_g)
        return None if wanted is None else wanted - self.pool[SODIUM]

    def discarded_share(self) -> Draws | None:
        """Share (0 to 1) of the component's weight that was weighed as discarded; None where it was not."""
        if self.step.discarded_g is None:
            return None
        grams = self.know("discarded", self.step.discarded_g, "g", MEASURED)
        return share_of(grams, self.pool[WEIGHT])

    def settle_sodium(self, rest: str) -> None:
        """Where a laboratory value is given, let sodium go to `rest`, or come back, to hold just that."""
        wanted = self.sodium_after(self.pool[WEIGHT])
        if wanted is not None:
            Way(self.kitchen, rest, self.name, self.step.index).settle(wanted)


@dataclass(frozen=True, slots=True)
class _Known:
    spread: Spread
    source: str


def works(step: StepRequest, bench: Bench) -> list[Work]:
    """The work of a step on each component it names as food."""
    return [Work(step, bench, name) for name in step.food]
