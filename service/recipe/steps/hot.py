"""Steps with heat: pots, steam, ovens and frying. Juice runs out, water goes in, solutes pass.

Every food goes towards the end point of its kind and way of cooking, half of what is left in each of its half
times, from wherever earlier steps left it (`History.weight_kept`); so a sear and a braise lose water and fat
once. What is free to move leaves with the juice and passes between food and pot as salt does; what stays in
the food keeps only what the heat leaves of it (`heat_losses`).
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from ...core.sourced import SourcedFigure
from ...core.spread import Draws
from ...diffusion.geometry import Body
from ...transfer.handwork import by_hand, pot_time
from ...transfer.pots import (
    BOILING_C,
    CookingCourse,
    cooking_course,
    drip_share,
    partition,
    pot_fourier,
    pot_kinds,
)
from ...transfer.warming import is_flesh
from ..pool_rows import ALCOHOL, FAT, FATTY_ACIDS, WEIGHT
from ..pools import TRACE, share_of
from ..request import StepRequest
from ..state import CalculationState
from .courses import Course, fat_end, usual_course
from .frying_fat import take_fat
from .gelatine_out import give_gelatine
from .heat_losses import lose_to_heat
from .history import is_nothing
from .immersed import Immersed
from .immersion import immerse
from .nature import known_class, open_faces, open_share, pot_kind, yield_kind
from .paces import closed_shares, in_pot, other_ratios
from .work import DRIEST, Work, works

FALLBACK_KIND = "vegetable"
"""Kind whose figures stand in for an unknown food in a pot."""

_MEASURED_PACE = 3.0
"""How far a change that was weighed after the step is taken to have come, on the way there."""


def poach(step: StepRequest, state: CalculationState) -> None:
    """Simmer or boil in a pot; without one, in the food's own juice."""
    if step.bath is None:
        stew(step, state)
        return
    foods = works(step, state)
    plans = [_Cooked(work) for work in foods]
    for plan in plans:
        plan.lose_fat(step.bath)
    goals_g, raw_g = [plan.goal_g for plan in plans], [plan.raw_g for plan in plans]
    immerse([_in_pot(plan) for plan in plans], step.bath)
    for plan, goal_g, fresh_g in zip(plans, goals_g, raw_g, strict=True):
        give_gelatine(plan.work, fresh_g)
        plan.work.settle_sodium(step.bath, goal_g)
        plan.settle(goal_g, step.bath)
    lose_to_heat(foods, Work(step, state, step.bath))


def salt_crust(step: StepRequest, state: CalculationState) -> None:
    """Food bakes under salt (bath): its juice goes into the crust, and where that is wet salt goes in."""
    assert step.bath is not None
    foods = works(replace(step, kind="roast"), state)
    plans = [_Cooked(work) for work in foods]
    for plan in plans:
        plan.lose_fat(step.bath)
    goals_g = [plan.goal_g for plan in plans]
    immerse([_in_crust(plan, step) for plan in plans], step.bath)
    for plan, goal_g in zip(plans, goals_g, strict=True):
        plan.work.settle_sodium(step.bath, goal_g)
        plan.settle(goal_g, step.bath)
    lose_to_heat(foods)


def _in_crust(plan: _Cooked, step: StepRequest) -> Immersed:
    """Under the crust the surface is no hotter than a pot, and wet in part."""
    work = replace(plan.work, step=replace(step, kind="simmer", temperature_c=None))
    wet = work.assume("crust-wet", by_hand("crust_wet"), "fraction", ceiling=1.0, shared="crust-wet")
    if step.sodium_after_mg_per_100g is None and step.absorption_factor is None:
        work.check(
            "crust-salt-assumed",
            f"How much salt {work.name!r} takes from its crust is a broad guess: skin and dry salt hold it "
            "back. Have it measured (sodium_after_mg_per_100g).",
        )
    piece = _in_pot(plan, work)
    return replace(piece, fourier=piece.fourier * wet**2)


def stew(step: StepRequest, state: CalculationState) -> None:
    """A dish simmers in its own juice: all of it stays in the dish but the water that boils off."""
    for work in works(step, state):
        plan = _Cooked(work, kind=None)
        work.give_water("evaporated", np.maximum(plan.lost_g, 0.0))
        plan.remember()
        lose_to_heat([work])


def heat(step: StepRequest, state: CalculationState) -> None:
    """Steam or roast: water goes into the air, part of the juice onto the tray or where the step says."""
    for work in works(step, state):
        tray = work.taker("left_on_tray")
        _dry_heat(_Cooked(work), tray)
        work.settle_measured(tray)
        lose_to_heat([work])


def sous_vide(step: StepRequest, state: CalculationState) -> None:
    """In a bag nothing goes into the air: the juice is poured away, or kept where the step says."""
    for work in works(replace(step, kind="steam"), state):
        bag = work.taker("poured_away")
        _dry_heat(_Cooked(work, bag_c=step.temperature_c), bag, in_bag=True)
        work.settle_measured(bag)
        lose_to_heat([work])


def fry(step: StepRequest, state: CalculationState) -> None:
    """Fry: water goes into the air, and where a component of fat is named some of it goes into the food."""
    for work in works(step, state):
        plan = _Cooked(work)
        own_g = work.pool[WEIGHT] * (1 - work.history.fat_taken)
        raw_g = own_g / np.maximum(work.history.weight_kept, 0.02)
        _dry_heat(plan, work.taker("left_on_tray"))
        if step.bath is not None:
            take_fat(work, plan.kind, raw_g, plan.course, plan.goes.fat_pace)
        work.settle_measured(step.bath or work.taker("left_on_tray"))
    lose_to_heat(works(step, state), Work(step, state, step.bath) if step.bath else None)


class _Cooked:
    """What the heat of a step does to the weight of a component. Grams are those of its present weight."""

    def __init__(self, work: Work, kind: str | None = "as it is", *, bag_c: float | None = None) -> None:
        """bag_c: what the bag it lies in takes it to at the core, where no other temperature is stated."""
        self.work = work
        self.kind = yield_kind(work) if kind == "as it is" else kind
        history = work.history
        pool, fat = work.pool, work.pool[FAT]
        self.weight_g = np.maximum(pool[WEIGHT], TRACE)
        self.base_g = self.weight_g * (1 - history.boiled_in - history.fat_taken) - pool[ALCOHOL]
        self.kept, self.fat_kept = np.asarray(history.weight_kept), np.asarray(history.fat_kept)
        self.course = cooking_course(self.kind, work.step.kind)
        self.measured = work.weight_ratio("yield")
        self.goes = self._weighed() if self.measured is not None else self._usual(bag_c)
        done = -np.expm1(-self.goes.pace)
        self.to_lose = np.maximum(1 - self.goes.weight_end / self.kept, 0.0)
        """Share of the base that is lost by the end of time."""
        # Frying fat that it took up stays; its own is lost.
        taken = history.fat_taken
        own = 1.0 if is_nothing(taken) else 1 - share_of(taken * self.weight_g, fat)
        fat_to_lose = np.minimum(np.maximum(1 - self.goes.fat_end / self.fat_kept, 0.0), 1.0)
        fat_to_lose = fat_to_lose * own * (fat > TRACE)
        fat_g, self.own_fat = fat * fat_to_lose, own
        stays_g = (1 + DRIEST) * work.dry_g + fat * own - fat_g
        whole_g = np.minimum(self.base_g * self.to_lose, np.maximum(self.base_g - stays_g, 0.0))
        self.weight_end = self.kept * (1 - whole_g / np.maximum(self.base_g, TRACE))
        self.known_g = self.weight_g
        self.fat_to_lose = fat_to_lose * share_of(whole_g, fat_g)
        self.juice_g = np.maximum(whole_g - fat * self.fat_to_lose, 0.0)
        self.fat_share = self.fat_to_lose * done
        # Dry heat goes on as it began, until nothing more can leave.
        driest_g = stays_g + fat_g - work.pool[FAT] * self.fat_share
        self.lost_g = np.minimum(self.base_g * self.to_lose * done, np.maximum(self.base_g - driest_g, 0.0))

    def _weighed(self) -> Course:
        assert self.measured is not None
        far = -np.expm1(-_MEASURED_PACE)
        end = self.kept * np.where(self.measured < 1, 1 - (1 - self.measured) / far, self.measured)
        usual = fat_end(self.work, self.kind, self.course)
        fat = np.where(self.measured < 1, usual, 1.0)
        return Course(np.maximum(end, 0.0), fat, _MEASURED_PACE, _MEASURED_PACE)

    def _usual(self, bag_c: float | None) -> Course:
        core_c = self.work.step.core_temperature_c
        return usual_course(self.work, self.kind, self.course, core_c=bag_c if core_c is None else core_c)

    def lose_fat(self, target: str) -> None:
        """Fat runs out, but never more than the weight that is lost."""
        if self.fat_share.max() > 0:
            work = self.work
            work.pools.move_fat(work.name, target, self.fat_share, work.step.index, self._acids_lost)
            self._weigh()

    def _acids_lost(self) -> Draws:
        """What share of each fatty acid goes with the fat: it is the food's own, without frying fat."""
        history = self.work.history
        lost = np.minimum(self.fat_share / np.maximum(self.own_fat, TRACE), 1.0) * (1 - history.acids_taken)
        history.acids_taken = history.acids_taken / np.maximum(1 - lost, TRACE)
        return np.asarray(np.broadcast_to(lost, (FATTY_ACIDS.stop - FATTY_ACIDS.start, lost.shape[-1])))

    def _weigh(self) -> None:
        """Let what the component remembers be of its weight now."""
        now_g = self.work.pool[WEIGHT].copy()
        self.work.history.weigh_again(self.known_g, now_g)
        self.known_g = now_g

    @property
    def raw_g(self) -> Draws:
        """What it weighed before any heat and without what it drank, in g; to be asked before the step."""
        drunk_g = np.maximum(self.work.history.water, 0.0) * self.weight_g
        return np.asarray(np.maximum(self.base_g - drunk_g, 0.0) / np.maximum(self.kept, 0.02))

    @property
    def drinks_g(self) -> Draws:
        """What a food drinks by the end of time, from green, in g."""
        history = self.work.history
        swollen = history.water
        green_g = np.maximum(self.weight_g * (1 - history.dissolved - swollen), TRACE)
        if self.measured is not None:
            more_g = np.maximum(self.weight_g * (self.measured - 1), 0.0)
            return np.asarray(more_g + swollen * self.weight_g)
        return np.asarray(green_g * np.maximum(self.goes.weight_end - 1, 0.0))

    @property
    def goal_g(self) -> Draws | None:
        """What it was weighed at afterwards; None where it was not."""
        return None if self.measured is None else self.weight_g * self.measured

    def settle(self, goal_g: Draws | None, liquid: str) -> None:
        """Hold it to its weighing, and remember how far it has come."""
        if goal_g is not None:
            self.work.settle_weight(liquid, goal_g)
        self.remember(weigh=False)

    def remember(self, weigh: bool = True, gone_g: Draws | None = None) -> None:
        """Keep how far the food has come; gone_g: what it did lose, where that is known."""
        history = self.work.history
        still = np.exp(-self.goes.pace)
        lower = np.minimum(self.weight_end, self.kept)
        fat_lower = np.minimum(self.goes.fat_end, self.fat_kept)
        history.weight_kept = (
            lower + (self.kept - lower) * still
            if gone_g is None
            else np.maximum(self.kept * (1 - gone_g / np.maximum(self.base_g, TRACE)), 1e-6)
        )
        history.fat_kept = fat_lower + (self.fat_kept - fat_lower) * still
        if weigh:
            self._weigh()


def _in_pot(plan: _Cooked, at: Work | None = None) -> Immersed:
    """at: the work under another step, where the liquid is not as warm as that one says."""
    work, history, pace = at or plan.work, plan.work.history, plan.goes.pace
    kind, opened = pot_kind(work) or FALLBACK_KIND, open_share(work.step)
    weight_g = work.pool[WEIGHT]
    return Immersed(
        work=work,
        body=_body(work, kind).compartments,
        fourier=in_pot(work, _pot_time(work, kind, plan.course)),
        other_ratios=other_ratios(hot=True),
        closed=closed_shares(opened, kind, kind, hot=True),
        open_share=opened,
        partition=_partition(work, kind),
        film_g=history.film * weight_g,
        film_pace=pace,
        drawn_g=np.maximum(plan.drinks_g - history.film * weight_g, history.drawn * weight_g),
        drawn_pace=pace,
        juice_g=plan.juice_g,
        juice_pace=pace,
        factor=work.stated_factor(),
    )


def _body(work: Work, kind: str) -> Body:
    step, usual = work.step, pot_kinds()[kind]
    thickness = step.thickness_cm or usual.thickness_cm.likely
    shape = step.shape or ("sheet" if step.open_faces else usual.shape)
    faces = open_faces(work, known_class(work) or kind, shape)
    return Body(shape, thickness, step.length_cm, step.width_cm, faces)


def _pot_time(work: Work, kind: str, course: CookingCourse) -> Draws:
    """D t / l^2 of salt."""
    step = work.step
    warmth_c = BOILING_C if step.temperature_c is None else step.temperature_c
    figure = pot_fourier(kind, step.duration_h or 1.0, step.thickness_cm, warmth_c)
    cause = f"{kind}/pot-time"
    if step.duration_h is not None:
        none = 0.0 if step.duration_h == 0 else 1.0
        return none * work.assume("pot-time", figure, "D t / l2", shared=cause)
    times = pot_time(flesh=is_flesh(kind))
    usual = SourcedFigure(times.spread.scaled(course.usual_h), times.source)
    hours = work.assume("duration", usual, "h", shared=f"{kind}/pot-hours")
    return np.asarray(work.assume("pot-time", figure, "D t / l2, each hour", shared=cause) * hours)


def _partition(work: Work, kind: str) -> Draws:
    return work.assume("partition", partition(kind), "ratio", shared=f"{kind}/partition")


def _dry_heat(plan: _Cooked, tray: str, *, in_bag: bool = False) -> None:
    """Fat runs out, then juice with what is dissolved in it, and the rest of the water goes as steam; in a
    bag all of it is juice."""
    work, air = plan.work, tray if in_bag else "evaporated"
    plan.lose_fat(tray)
    if np.any(plan.lost_g > 0):
        lost_g = np.maximum(plan.lost_g - (plan.weight_g - np.maximum(work.pool[WEIGHT], TRACE)), 0.0)
        work.drip(lost_g, np.ones_like(lost_g) if in_bag else _drip(work), tray, air)
        plan.known_g = work.pool[WEIGHT].copy()
    elif plan.measured is not None:
        work.give_water(air, plan.weight_g * (1 - plan.measured))
    if plan.goal_g is not None:
        work.give_water(air, work.pool[WEIGHT] - plan.goal_g)
    plan.remember(gone_g=plan.weight_g - work.pool[WEIGHT])


def _drip(work: Work) -> Draws:
    """Of the water that is lost, the share that runs out as juice."""
    kind = pot_kind(work)
    usual = drip_share(kind, work.step.kind)
    return work.assume("drip", usual, "fraction", ceiling=1.0, shared=f"{kind}/drip")
