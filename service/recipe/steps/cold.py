"""Steps in the cold: brines, marinades, desalting water and dry cures.

For each solute the figure is taken from the best there is, and the assumptions say which: a laboratory
value, a stated absorption factor, or the diffusion model, by the stated size and hours or by the usual
ones."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from ...core.checkpoint import checkpoint
from ...core.numbers import shown, whole
from ...core.spread import Draws
from ...diffusion.compartments import lag_at
from ...diffusion.geometry import FLAT
from ...transfer.brine import SATURATED_G_PER_G_WATER
from ...transfer.diffusivity import effective_diffusivity
from ...transfer.food_kinds import usual_warmth
from ...transfer.handwork import COVERS, by_hand, cure_brine
from ...transfer.profile import CLOSED, DEPTH
from ...transfer.usual import film_cm, lot_pace, opened_cm, usual_size, usual_time
from ...transfer.water_uptake import pick_up, swelling_half_h
from ..pool_rows import NITRITE, SOLUTES, WATER, WEIGHT
from ..pools import TRACE, Amounts, dissolved_g
from ..request import StepRequest
from ..safety_checks import watch_cure, watch_strength
from ..state import CalculationState
from .history import is_nothing
from .immersed import Immersed, RunOff
from .immersion import immerse
from .nature import food_class, open_share, piece_of
from .paces import DIFFUSING, closed_shares, dead_cells, other_ratios
from .resting import first_strength, rest_of
from .work import Work, works

FILM_PACE_H = 30.0
"""The film that clings is there within minutes."""
_MOST_DRAWN = 0.9
"""Share of a food's own water that salt can draw at most."""
_MOST_OPENED = 0.5
"""Share of a food that the knife can open at most: shreds hold together."""
_MEASURED_PACE = 3.0
"""How far a swelling that was weighed after the step is taken to have come, on the way there."""


def bathe(step: StepRequest, state: CalculationState) -> None:
    """Food sits in a bath, or under dry salt: solutes pass, and the food swells or shrinks.

    Where the water is changed `water_changes` times, each water has an equal part of the time, and fills the
    vessel as high as the first did once the food had swollen.
    """
    assert step.bath is not None
    pools, foods = state.pools, works(step, state)
    run_off = run_off_share(foods[0]) if step.kind == "dry_cure" else None
    plans = [Plan(work, foods, run_off) for work in foods]
    watch_strength(step, state)
    watch_cure(step, state, {plan.work.name: plan.goal_g for plan in plans})
    fresh_g = np.maximum(pools.leading[step.bath][WATER] - sum(plan.drinks_g for plan in plans), 0.0)
    for turn in range(step.water_changes + 1):
        checkpoint()
        if turn > 0:
            pools.move_share(step.bath, "poured_away", 1.0, step.index)
            pools.pour(step.bath, fresh_g)
        immerse([plan.immersed() for plan in plans], step.bath, run_off)
    for plan in plans:
        plan.settle()


class Plan:
    """What a cold step means for one of its foods: figures, entered once for all its waters."""

    def __init__(self, work: Work, foods: list[Work], run_off: RunOff | None) -> None:
        self.run_off = run_off
        self.work, self.kind = work, food_class(work)
        hours = _hours(work, self.kind)
        self.hours = hours / (work.step.water_changes + 1)
        self.body, self.thickness_cm = piece_of(work, self.kind, hours)
        self.measured = work.weight_ratio("pick-up")
        self.weight_g = np.maximum(work.pool[WEIGHT], TRACE)
        self.rest = rest_of(work, self.kind)
        self._swell(foods)
        self.fourier = self._fourier(_alpha(foods))
        self.factor = work.stated_factor()

    def _swell(self, foods: list[Work]) -> None:
        """Where the food's water goes to: the film that clings, and what is drawn in or given off."""
        work, history = self.work, self.work.history
        swollen_g = history.water * self.weight_g
        self.gain_g, green_g = gain_g, _ = self._gain_g(swollen_g)
        driest_g = -_MOST_DRAWN * np.maximum(_own_water_g([work]), 0.0) * open_share(work.step)
        ends_g = np.maximum(gain_g - self._solutes_to_come_g(foods, gain_g), driest_g)
        surface = self.body.surface_per_cm(self.thickness_cm)
        film = work.assume("film", film_cm(), "cm", shared="film") * surface
        self.film_g = np.minimum(np.maximum(ends_g, 0.0), np.minimum(film, 0.3) * green_g)
        self.opened = self._opened(surface)
        if self.run_off is not None and not is_nothing(self.opened):
            # Under salt the juice of opened cells runs out at once, a part of all that is given off.
            self.film_g, self.opened = (
                self.film_g + np.maximum(np.minimum(ends_g, 0.0), -self.opened * green_g),
                0.0,
            )
        self.drawn_g = ends_g - self.film_g
        self.drawn_pace = self._swelling_pace()
        self.drinks_g = np.maximum(ends_g - swollen_g, 0.0)

    def _opened(self, surface_per_cm: Draws) -> Draws | float:
        """Share of the food that is cells which the knife opened: whole vegetables have their skins."""
        depth = opened_cm(self.kind, name_of(self.work)) if self.body.shape in FLAT else None
        if depth is None:
            return 0.0
        opened = self.work.assume("opened", depth, "cm", shared=f"{self.kind}/opened")
        return np.minimum(opened * surface_per_cm, _MOST_OPENED)

    def _gain_g(self, swollen_g: Draws) -> tuple[Draws, Draws]:
        """Weight that the food gains by the end of time, of its green weight, and that; in g."""
        work, history = self.work, self.work.history
        green_g = np.maximum(self.weight_g * (1 - history.dissolved) - swollen_g, TRACE)
        if self.measured is not None:
            return self.weight_g * self.measured - green_g, green_g
        gained = pick_up(self.kind, first_strength(work), work.step.kind, name_of(work))
        percent = work.assume(
            "pick-up",
            gained,
            "% of raw weight",
            floor=-60.0,
            shared=f"{self.kind}/{work.step.kind}/pick-up",
        )
        done = work.composition.done_share if self.kind in ("pulse", "dough", "nut") else 0.0
        return green_g * percent / 100 * (1 - done), green_g

    def _solutes_to_come_g(self, foods: list[Work], gain_g: Draws) -> Draws:
        """g of solutes that the food will have gained since it was green once all is at rest: a part of the
        gain in weight that is not water."""
        opened, pools = open_share(self.work.step), self.work.pools.leading
        shut_g = {each.name: _shut_in_g(each) for each in foods}
        places = [self.work.step.bath or "", *shut_g]
        whole_g = np.sum([dissolved_g(pools[place][SOLUTES]) for place in places], axis=0)
        whole_g -= np.sum(list(shut_g.values()), axis=0)
        whole_g += sum(each.history.ran_off * each.pool[WEIGHT] for each in foods)
        own_g, all_g = opened * _own_water_g([self.work]), opened * _own_water_g(foods)
        water_g = _bath_before_g(foods, self.run_off) + all_g
        held_g = _fresh_solutes_g(self.work) - shut_g[self.work.name]
        # Of the weight gained, what is solute is not water that holds any. Foods beside it swell like it; the
        # water in all of them solves a square.
        solution_g, bound = np.maximum(own_g + gain_g + held_g, 0.0), self.rest.partition - 1
        together_g = solution_g * all_g / np.maximum(own_g, TRACE)
        half = (water_g + self.rest.partition * whole_g - bound * together_g) / 2
        root = np.sqrt(np.maximum(half**2 + bound * together_g * water_g, 0.0))
        inside_g = together_g * water_g / np.maximum(half + root, TRACE)
        outside = whole_g / np.maximum(water_g + bound * inside_g, TRACE)
        strength = self.rest.partition * np.minimum(outside, SATURATED_G_PER_G_WATER)
        return np.asarray(strength * solution_g / (1 + strength) - held_g)

    def _swelling_pace(self) -> Draws | float:
        if self.measured is not None:
            return _MEASURED_PACE
        usual_cm = usual_size(self.kind).thickness_cm
        slower = (self.thickness_cm / usual_cm.spread.likely) ** 2
        faster = self.work.assume("swelling-pace", by_hand("swelling_pace"), "ratio", shared="swelling-pace")
        half_h = swelling_half_h(self.kind, self.work.step.kind)
        return np.asarray(np.log(2) * self.hours / half_h * faster / slower)

    def _fourier(self, alpha: Draws) -> Amounts:
        """D t / l^2 of each row of SOLUTES."""
        lot = self.work.assume(
            "lot", lot_pace(self.work.step.kind, self.kind), "ratio", shared=f"{self.kind}/lot"
        )
        paced = (self._wetted(alpha) / self.rest.off) ** 2
        per_m2_s = self.hours * lot * 3600 / (self.thickness_cm / 200) ** 2 * paced
        salt = diffusivity(self.work, self.kind, "salt") * per_m2_s
        present = self._present()
        rows = [
            diffusivity(self.work, self.kind, name) * per_m2_s if name != "salt" and here else salt
            for name, here in zip(DIFFUSING, present, strict=True)
        ]
        return np.stack(rows)

    def _present(self) -> NDArray[np.bool_]:
        pools = self.work.pools.leading
        bath = pools[self.work.step.bath or ""]
        return np.asarray((bath[SOLUTES] + self.work.pool[SOLUTES] > 0).any(axis=1))

    def _wetted(self, alpha: Draws) -> Draws | float:
        """Share of the surface that is wet: all of it under liquid enough, or rubbed with salt."""
        if self.work.step.kind == "dry_cure" or alpha.min() >= 1.5 * COVERS:
            return 1.0
        covered = np.clip(alpha / COVERS - 0.5, 0.0, 1.0)
        wet = self.work.assume("wetted", by_hand("wetted"), "fraction", ceiling=1.0, shared="wetted")
        return np.asarray(wet + (1 - wet) * covered)

    def immersed(self) -> Immersed:
        """The piece as it goes into the next water."""
        opened = open_share(self.work.step)
        return Immersed(
            work=self.work,
            body=self.body.compartments,
            fourier=self.fourier,
            other_ratios=other_ratios(),
            closed=_closed(self.work, self.kind),
            open_share=opened,
            partition=self.rest.partition,
            film_g=self.film_g,
            film_pace=FILM_PACE_H * self.hours,
            drawn_g=self.drawn_g,
            drawn_pace=self.drawn_pace,
            opened=self.opened,
            # Dry salt draws water at its own pace, whatever has gone in; what runs off does not come back.
            gain_g=None if self.run_off is not None else self.gain_g,
            factor=self.factor,
        )

    @property
    def goal_g(self) -> Draws:
        """What the food will weigh after its first water, in g."""
        history = self.work.history
        more_g = self.gain_g - (history.water + history.dissolved) * self.weight_g
        return np.asarray(self.weight_g + more_g * -np.expm1(-np.asarray(self.drawn_pace)))

    def settle(self) -> None:
        """Hold the food to what was weighed and measured of it, and say what a cure has not come to."""
        work, bath = self.work, self.work.step.bath or ""
        weighed_g = None if self.measured is None else self.weight_g * self.measured
        work.settle_sodium(bath, weighed_g)
        if weighed_g is not None:
            work.settle_weight(bath, weighed_g)
        if work.step.kind != "soak":
            _watch_centre(work, self)


def _hours(work: Work, kind: str) -> Draws:
    step = work.step
    if step.duration_h is not None:
        return np.asarray(step.duration_h)
    work.check(
        "absorption-from-table",
        f"How much salt {work.name!r} takes or gives is a broad range from a table of usual times; state "
        "duration_h and thickness_cm, or a measured value.",
    )
    usual = usual_time(step.kind, kind)
    hours = work.assume("duration", usual, "h", shared=f"{kind}/{step.kind}/duration")
    return hours * (step.water_changes + 1)


def _alpha(foods: list[Work]) -> Draws:
    """Water of the bath over that of the foods, as they were before they took of it or gave to it."""
    return np.asarray(_bath_before_g(foods, None) / np.maximum(_own_water_g(foods), TRACE))


def _own_water_g(foods: list[Work]) -> Draws:
    """Water of the foods, without what clings to them and what they drew in, and with what they gave off."""
    own = (each.pool[WATER] - each.history.water * each.pool[WEIGHT] for each in foods)
    return np.asarray(sum(own))


def _fresh_solutes_g(work: Work) -> Draws:
    """Solutes of a food that no liquid gave."""
    return np.asarray(dissolved_g(work.pool[SOLUTES]) - work.history.dissolved * work.pool[WEIGHT])


def _closed(work: Work, kind: str) -> tuple[Amounts, Amounts]:
    """The share of each solute that takes no part in a bath; see `closed_shares`."""
    dead = dead_cells(work, kind)
    return closed_shares(open_share(work.step), work.composition.pot_kind, kind, dead=dead)


def _shut_in_g(work: Work) -> Draws:
    """Solutes of a food that take no part in a bath."""
    closed, _ = _closed(work, food_class(work))
    solutes = work.history.solutes
    if solutes is None:
        return dissolved_g(closed * work.pool[SOLUTES])
    solutes.settle(solutes.body, closed)
    return dissolved_g(solutes.shares[:, CLOSED] * work.pool[SOLUTES])


def _bath_before_g(foods: list[Work], run_off: RunOff | None) -> Draws:
    """Water of the bath, had the foods not taken of it; run_off: what became of what they gave off."""
    water_g = foods[0].pools.leading[foods[0].step.bath or ""][WATER].copy()
    for each in foods:
        gained_g = each.history.water * each.pool[WEIGHT]
        water_g += np.where(gained_g > 0, gained_g, gained_g * (1.0 if run_off is None else run_off.stays))
    return np.asarray(np.maximum(water_g, 0.0))


def run_off_share(work: Work) -> RunOff:
    """What becomes of the water that a dry cure draws: what stays around the food, and what runs off."""
    kind = food_class(work)
    brine = cure_brine(kind, name_of(work))
    stays = work.assume("cure-run-off", brine.stays, "fraction", ceiling=1.0, shared="cure-run-off")
    drips = work.assume("cure-drips", brine.drips, "fraction", ceiling=1.0, shared="cure-drips")
    return RunOff(stays, (1.0 - stays) * drips)


def _watch_centre(work: Work, plan: Plan) -> None:
    """Say where the likely cure has not come to the centre; that is about colour, never about safety."""
    profile = work.history.solutes
    bath, pool = (each[[NITRITE, WATER], 0] for each in (work.pools.leading[work.step.bath or ""], work.pool))
    if profile is None or pool[0] <= TRACE:
        return
    body, opened = profile.body, open_share(work.step)
    room_g = max(pool[1], TRACE)
    held = profile.shares[NITRITE, DEPTH:, 0] * pool[0] / body.shares / opened / room_g
    centre, at_rest = float(lag_at(body) @ held), (bath[0] + pool[0]) / (bath[1] + room_g)
    share = min(max(centre / at_rest, 0.0), 1.0)
    if share < by_hand("colour_shows").spread.likely:
        hours = float(np.ravel(plan.hours)[0])
        work.check(
            "cure-short-of-centre",
            f"After {shown(hours)} h the centre of {work.name!r} has about {whole(100 * share)} "
            "% of the cure it would come to: expect an uncured strip there. This is an estimate of colour, "
            "not of safety.",
        )


def diffusivity(work: Work, kind: str, solute: str) -> Draws:
    """In m2/s; pieces of one class share its cause, whatever their temperature."""
    stated_c = work.step.temperature_c
    warmth_c = usual_warmth(kind).spread if stated_c is None else stated_c
    figure = effective_diffusivity(kind, solute, warmth_c, _fresh_water_percent(work))
    return work.assume(f"{solute}-diffusivity", figure, "m2/s", shared=f"{kind}/{solute}/diffusivity")


def name_of(work: Work) -> str:
    """The name of a component's heaviest food, for the tables that go by words."""
    return work.main.name if work.main else ""


def _fresh_water_percent(work: Work) -> float | None:
    """Water of the heaviest food as it is listed, which no step changes."""
    return None if work.main is None else work.main.per_100g("WATER")
