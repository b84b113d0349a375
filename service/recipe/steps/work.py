"""One step's work on one component: its figures, entered under the step's and the component's name."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Protocol

import numpy as np

from ...core.notices import MEASURED, STATED
from ...core.spread import Draws, Spread
from ...diffusion.compartments import PLAIN
from ...foods.dataset import Food
from ...transfer.profile import FILM, Profile
from ..pool_rows import ALCOHOL, FAT, FREE, SODIUM, SOLUTES, SOLUTION, WATER, WEIGHT
from ..pools import SALT_PER_SODIUM, TRACE, Amounts, Pools, dissolved_g, share_of
from ..request import StepRequest
from ..state import CalculationState, Composition
from .history import History, is_nothing
from .paces import closed_shares
from .solution import Way

DRIEST = 0.05
"""g of water that the heat leaves to each gram of dry matter: dry food has no juice to lose."""
_HELD_WATER = 1.0
"""g of water that a gram of lean dry matter holds as food dries out, and lets go only as steam: common
practice, no source (crisp bacon, jerky)."""


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
    state: CalculationState
    name: str

    @property
    def pools(self) -> Pools:
        return self.state.pools

    @property
    def pool(self) -> Amounts:
        """What the component holds now, leading rows alone; it changes in place as things move."""
        return self.state.pools.leading[self.name]

    @property
    def dry_g(self) -> Draws:
        """g of what neither runs nor melts: the weight without water, solutes, fat and alcohol."""
        pool = self.pool
        loose_g = pool[WATER] + dissolved_g(pool[SOLUTES]) + pool[FAT] + pool[ALCOHOL]
        return np.asarray(np.maximum(pool[WEIGHT] - loose_g, 0.0))

    @property
    def composition(self) -> Composition:
        return self.state.compositions[self.name]

    @property
    def history(self) -> History:
        """What the component remembers; it changes in place."""
        return self.state.histories[self.name]

    @property
    def main(self) -> Food | None:
        return self.composition.main

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
        return self.state.log.take(
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
        self.state.note(code, "check", message, self.step.pointer)

    def to(self, target: str) -> Way:
        """The way from the component to another place."""
        return Way(self.pools, self.name, target, self.step.index)

    def give_water(self, target: str, grams: Draws) -> None:
        """Let pure water go to another place, or come from there where grams are below 0."""
        self.pools.pass_water(self.name, target, grams, self.step.index)

    def taker(self, usual: str) -> str:
        """Where what leaves the component goes: as the step states, else to the usual place."""
        return self.step.into or usual

    def profile(self) -> Profile:
        """Where the component's SOLUTES are, its cells opened by heat."""
        solutes, _ = closed_shares(1.0 - (self.step.untaken_fraction or 0.0), self.composition.pot_kind)
        return self.history.settled(
            self.history.solutes.body if self.history.solutes else PLAIN["sheet"], solutes
        )

    def settle_weight(self, rest: str, weight_g: Draws) -> None:
        """Let water go to `rest`, or come from there, until the component weighs so much."""
        before_g = np.maximum(self.pool[WEIGHT], TRACE).copy()
        self.give_water(rest, before_g - weight_g)
        after_g = np.maximum(self.pool[WEIGHT], TRACE)
        self.history.weigh_again(before_g, after_g)
        self.history.water = self.history.water + (after_g - before_g) / after_g

    def drip(self, lost_g: Draws, drip: Draws, tray: str, air: str) -> None:
        """Lose so many grams: of the water, the share `drip` runs out as juice with what is dissolved in
        it, the rest goes into the air. The juice is at every moment as strong as the food's own water, and
        none runs out of food that is nearly dry."""
        pool, dry_g = self.pool, np.maximum(self.dry_g, TRACE)
        solutes_g = dissolved_g(self.profile().open_share * pool[SOLUTES])
        wet_g = np.maximum(pool[WATER] - DRIEST * dry_g, 0.0)
        weight_g, out_g = np.maximum(pool[WEIGHT], TRACE).copy(), np.minimum(lost_g, wet_g)
        held_g = dry_g * _HELD_WATER
        free_g = np.maximum(pool[WATER], held_g)
        for _ in range(12):  # Newton's rule: water and the solutes in its juice are what is lost
            left_g, before_g = pool[WATER] - out_g, out_g
            still_g = np.maximum(left_g, held_g)
            solved_g = solutes_g * (still_g / free_g) ** drip
            slope = 1 + solved_g * drip / still_g * (left_g > held_g)
            out_g = out_g + (lost_g - solutes_g + solved_g - out_g) / slope
            out_g = np.minimum(np.maximum(out_g, 0.0), wet_g)
            if (np.abs(out_g - before_g) <= 1e-12 * weight_g).all():
                break
        still_g = np.maximum(pool[WATER] - out_g, held_g)
        juice_g = np.minimum((free_g - still_g) * drip, out_g)
        self.run_out(tray, 1 - (still_g / free_g) ** drip, juice_g)
        self.give_water(air, out_g - juice_g)
        self.history.weigh_again(weight_g, pool[WEIGHT])

    def run_out(self, target: str, share: Draws, water_g: Draws) -> None:
        """A share (0 to 1) of all that is free to leave goes to a place, and so much water."""
        profile, index = self.profile(), self.step.index
        _, closed = closed_shares(1.0 - (self.step.untaken_fraction or 0.0), self.composition.pot_kind)
        solution = np.empty((SOLUTION.stop, share.shape[0]))
        np.multiply(profile.open_share * self.pool[SOLUTES], share, out=solution[SOLUTES])
        solution[WATER] = water_g
        way = self.to(target)
        lent = way.energies()
        moved = self.pools.move_solution(self.name, target, solution, index)
        profile.let_go(share)
        body, history = profile.body, self.history

        def others() -> None:
            follower = history.others_settled(body, closed)
            flow = self.pools.amounts[self.name][FREE] * follower.open_share * share
            way.pass_companions(moved, lent, flow)
            follower.let_go(share)

        self.pools.ride_along(others)

    def shed_film(self, most_g: Draws, target: str) -> Draws:
        """Let up to so many grams of the liquid that clings and fills opened cells go to a place, before any
        other; gives how much went."""
        history, profile, pool = self.history, self.history.solutes, self.pool
        if profile is None or (is_nothing(history.film) and is_nothing(profile.opened)):
            return np.zeros_like(most_g)
        weight_g = np.maximum(pool[WEIGHT], TRACE).copy()
        own_g = np.maximum(pool[WATER] - history.water * weight_g, 0.0)
        film_g, opened_g = np.maximum(history.film, 0.0) * weight_g, profile.opened * own_g
        held = profile.shares[:, FILM] * pool[SOLUTES]
        part = share_of(most_g, film_g + opened_g + dissolved_g(held))
        solution = np.empty((SOLUTION.stop, part.shape[0]))
        np.multiply(held, part, out=solution[SOLUTES])
        solution[WATER] = (film_g + opened_g) * part
        profile.empty_film(part)
        profile.opened = share_of(opened_g * (1 - part), own_g - opened_g * part)
        way = self.to(target)
        lent = way.energies()
        moved = self.pools.move_solution(self.name, target, solution, self.step.index)
        after_g = np.maximum(pool[WEIGHT], TRACE)
        history.weigh_again(weight_g, after_g)
        history.film = history.film - film_g * part / after_g
        history.water = history.water - film_g * part / after_g
        _, closed = closed_shares(1.0 - (self.step.untaken_fraction or 0.0), self.composition.pot_kind)

        def others() -> None:
            follower = history.others_settled(profile.body, closed)
            flow = self.pools.amounts[self.name][FREE] * follower.shares[:, FILM] * part
            way.pass_companions(moved, lent, flow)
            follower.empty_film(part)

        self.pools.ride_along(others)
        return np.asarray(weight_g - pool[WEIGHT])

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

    def discarded_share(self) -> Draws | None:
        """Share (0 to 1) of the component's weight that was weighed as discarded; None where it was not."""
        if self.step.discarded_g is None:
            return None
        grams = self.know("discarded", self.step.discarded_g, "g", MEASURED)
        return share_of(grams, self.pool[WEIGHT])

    def settle_sodium(self, rest: str, weight_g: Draws | None = None) -> None:
        """Where a laboratory value is given, let sodium go to `rest`, or come back, to hold just that; in
        100 g of what it weighs then, which salt that moves adds to, or of what it is known to weigh."""
        if weight_g is None:
            weight_g = self._weight_once_settled()
        wanted = self.sodium_after(weight_g)
        if wanted is not None:
            Way(self.pools, rest, self.name, self.step.index).settle(wanted)

    def settle_measured(self, rest: str) -> None:
        """Hold the food to a laboratory value and, where its weight was told too, to what it weighs now."""
        is_told = self.step.weight_after_g is not None or self.step.yield_fraction is not None
        if self.step.sodium_after_mg_per_100g is None or not is_told:
            self.settle_sodium(rest)
            return
        weight_g = self.pool[WEIGHT].copy()
        self.settle_sodium(rest, weight_g)
        self.settle_weight(rest, weight_g)

    def _weight_once_settled(self) -> Draws:
        salt_g_per_mg = SALT_PER_SODIUM / 1000
        unsalted_g = self.pool[WEIGHT] - salt_g_per_mg * self.pool[SODIUM]
        mg_per_100g = self.step.sodium_after_mg_per_100g or 0.0
        return np.asarray(unsalted_g / max(1.0 - salt_g_per_mg * mg_per_100g / 100, TRACE))


@dataclass(frozen=True, slots=True)
class _Known:
    spread: Spread
    source: str


def works(step: StepRequest, state: CalculationState) -> list[Work]:
    """The work of a step on each component it names as food."""
    return [Work(step, state, name) for name in step.food]
