"""What heat destroys in a food: the part that neither juice nor pot carried off.

Retention is held per ingredient and heat treatment, then applied to the component by each ingredient's
share of each nutrient as listed. Sodium, water and all elements are never destroyed.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache

import numpy as np

from ...core.assumptions import AssumptionLog
from ...core.notices import STATED, Assumption
from ...core.sourced import SourcedFigure
from ...core.spread import NINETY_FIVE, Draws, Spread, draw, stacked, standard_normal
from ...core.step_kinds import step_kinds
from ...core.tables import with_words
from ...foods.dataset import Food
from ...foods.nutrients import INDEX
from ...nutrition.retention import NO_HEAT, SOURCE, alcohol_kept, heat_retention, is_done
from ...transfer.food_kinds import kind_of
from ...transfer.handwork import by_hand
from ...transfer.pots import BOILING_C, cooking_course
from ..contents import per_g
from ..pool_rows import ALCOHOL, LABILE, ROW
from ..pools import TRACE
from .nature import yield_kind
from .work import Work

LABILE_TAGS = tuple(ROW)[LABILE]
LABILE_NUTRIENTS = np.array([INDEX[tag] for tag in LABILE_TAGS])
"""Places, in an array of NUTRIENTS, of what heat can destroy: in the order of the rows."""

_TENTH_C = 30.0
"""Degrees that slow the destruction of vitamins to a tenth (z of thiamin 25 to 31 C: Bender 1978, from
memory)."""

_ALCOHOL = "alcohol-kept"
_LEAST_KEPT = 1e-9


def lose_to_heat(works: Sequence[Work], pot: Work | None = None) -> None:
    """Destroy what the heat of a step destroys in its components, and alike in the pot they share: what has
    leached out is in the same heat."""
    if any(work.composition.foods for work in works):
        loss = _Loss(works, pot)
        works[0].pools.ride_along(loss.happen)
        works[0].state.log.add(loss.entries)
    for work in (*works, *((pot,) if pot else ())):
        lose_alcohol(work)


class _Loss:
    """What heat destroys in components; worked out when what rides along is asked for.

    It keeps none of the works: their state has the log, which keeps this.
    """

    def __init__(self, works: Sequence[Work], pot: Work | None) -> None:
        self._pools, self._step = works[0].pools, works[0].step
        self._works, self._places = (
            [each.name for each in among] for among in (works, (*works, *((pot,) if pot else ())))
        )
        self._foods = [
            (food, grams, often)
            for work, often in zip(works, map(_heat_on, works), strict=True)
            for food, grams in work.composition.foods
        ]
        self._present = np.zeros(len(LABILE_NUTRIENTS), dtype=bool)
        log = works[0].state.log
        if log.has_stated:  # what nothing stands on is told when the steps are done
            self._factors = self._with_stated(log)

    @cached_property
    def _factors(self) -> _Factors:
        return _mixed(self._foods, self._treatment)

    @cached_property
    def _lost(self) -> Draws:
        """The share (0 to 1) of each labile nutrient that the heat destroys."""
        return np.asarray(1.0 - self._factors.draws)

    @property
    def _treatment(self) -> str:
        return step_kinds()[self._step.kind].treatment

    def _with_stated(self, log: AssumptionLog) -> _Factors:
        """The factors with the caller's own figures in place of those rows."""
        factors = _mixed(self._foods, self._treatment)
        spreads, draws, sources = factors.spreads.copy(), factors.draws.copy(), list(factors.sources)
        for at, source in enumerate(factors.sources):
            found = log.stated_for(f"heat-kept/{LABILE_TAGS[at]}", source)
            if found is not None:
                own = found.value
                spreads[:, at] = own.low, own.likely, own.high
                draws[at] = draw(own, f"heat/{self._treatment}", floor=0.0, ceiling=1.0)
                sources[at] = with_words(source, f"{STATED}, beside: {source}")
        return _Factors(spreads, draws, tuple(sources))

    def happen(self) -> None:
        pools, step = self._pools, self._step.index
        for name in self._places:
            held = pools.amounts[name][LABILE]
            self._present |= held[:, 0] > 0
            pools.pass_others(name, "lost_to_heat", LABILE, held * self._lost, step)

    def entries(self) -> Iterator[Assumption]:
        """The factors of what the components held and heat destroys, as the book lists them."""
        self._pools.catch_up()
        low, likely, high = self._factors.spreads
        sources, step = self._factors.sources, self._step.index
        heeded = np.flatnonzero(self._present & (low < 0.9995))
        ends = np.stack((np.minimum(low, likely), likely, np.maximum(high, likely)), axis=1)[heeded].tolist()
        begin = [f"step-{step}/{name}/heat-kept/" for name in self._works]
        for at, end in zip(heeded.tolist(), ends, strict=True):
            kept, source = Spread(*end), sources[at]
            for each in begin:
                yield Assumption(each + LABILE_TAGS[at], kept, "fraction", source, step)


def _heat_on(work: Work) -> float:
    """How often this heat goes over a food's usual time, in what it destroys; the component remembers it.

    In its usual time air and the food's own enzymes take their part; after it goes on by the clock, as the
    table has it for all foods alike, so that leaves, which are usually done in three minutes, do not lose in
    an hour what they would in twenty pots.
    """
    usual_h = cooking_course(yield_kind(work), work.step.kind).usual_h
    slow = min(usual_h / by_hand("heat_goes_on").spread.likely, 1.0)
    history = work.history
    before, after = history.heated, history.heated + times_usual(work)
    history.heated = after
    return (min(after, 1.0) - min(before, 1.0)) + slow * (max(after, 1.0) - max(before, 1.0))


def times_usual(work: Work) -> float:
    """How often the heat goes over a food's usual time: each time destroys the same share of what is left.

    In a pot that is not boiling more slowly, a tenth of the pace for every 30 degrees.
    """
    step, usual_h = work.step, cooking_course(yield_kind(work), work.step.kind).usual_h
    hours = usual_h if step.duration_h is None else step.duration_h
    if step.temperature_c is None or step.temperature_c >= BOILING_C:
        return hours / usual_h
    return float(hours / usual_h * 10 ** ((step.temperature_c - BOILING_C) / _TENTH_C))


def _mixed(foods: Sequence[tuple[Food, float, float]], treatment: str) -> _Factors:
    """The factors of a mixture: of each nutrient, each food's by its share of it, in the logarithm, each as
    often over as its time is; so that two times after one another are the whole."""
    factors = [_factors(retention_kind(food), _left_to_do(food, treatment)) for food, _, _ in foods]
    shares = _shares([(food, grams) for food, grams, _ in foods])
    times = shares * np.array([each for *_, each in foods])[:, np.newaxis]
    spreads, draws = np.zeros_like(factors[0].log_spreads), np.zeros_like(factors[0].log_draws)
    for kind in dict.fromkeys(factors):  # most foods of a component are of one
        often = times[[each is kind for each in factors]].sum(axis=0)
        spreads += often * kind.log_spreads
        draws += often[:, np.newaxis] * kind.log_draws
    # The row that is named is that of the food which may lose most, never of one that heat does nothing to.
    lost = shares * -stacked([f.log_spreads[0] for f in factors])
    weightiest = lost.argmax(axis=0).tolist()
    named = tuple(factors[food].sources[at] for at, food in enumerate(weightiest))
    return _Factors(np.exp(spreads, out=spreads), np.exp(draws, out=draws), named)


def _left_to_do(food: Food, treatment: str) -> str:
    """The treatment, or none where the row of the dataset holds what heat left already."""
    return NO_HEAT if is_done(food.name, food.group_code) else treatment


def lose_alcohol(work: Work) -> None:
    """Part of the alcohol of a component goes into the air, and its energy with it."""
    if not work.pool[ALCOHOL].any():
        return
    step, history = work.step, work.history
    usual_h = (
        cooking_course(yield_kind(work), step.kind).usual_h if step_kinds()[step.kind].treatment else 0.0
    )
    before = history.alcohol_min
    history.alcohol_min = after = before + 60 * (usual_h if step.duration_h is None else step.duration_h)
    spread = alcohol_kept(after)
    work.assume("alcohol-kept", SourcedFigure(spread, SOURCE), "fraction", ceiling=1.0, shared=_ALCOHOL)
    id = f"step-{step.index}/{work.name}/alcohol-kept"
    lost = 1 - np.minimum(_alcohol_left(work, id, after) / _alcohol_left(work, id, before), 1.0)
    work.pools.move_alcohol(work.name, "lost_to_heat", lost, step.index)


def _alcohol_left(work: Work, id: str, minutes: float) -> Draws:
    """What is left after so many minutes of heat; the table's first loss takes its first minute."""
    left = work.state.log.drawn_as(id, alcohol_kept(minutes), floor=TRACE, ceiling=1.0)
    return np.asarray(1 - (1 - left) * min(minutes, 1.0))


@dataclass(frozen=True, eq=False)
class _Factors:
    """What heat leaves of the labile nutrients of a kind: (low, likely, high) by nutrient, its draws, and
    the sources; of a mixture, those of the food that brings most of each."""

    spreads: Draws
    draws: Draws
    sources: tuple[str, ...]

    @cached_property
    def log_spreads(self) -> Draws:
        return np.asarray(np.log(np.maximum(self.spreads, _LEAST_KEPT)))

    @cached_property
    def log_draws(self) -> Draws:
        return np.asarray(np.log(np.maximum(self.draws, _LEAST_KEPT)))


@lru_cache(maxsize=256)
def _factors(kind: str | None, treatment: str) -> _Factors:
    """All nutrients share one draw: what one pot does to thiamin it does to folate."""
    held = heat_retention(kind, treatment)
    low, likely, high = (part[LABILE_NUTRIENTS] for part in (held.low, held.likely, held.high))
    z = standard_normal(f"heat/{treatment}")
    reach = np.where(z < 0, np.multiply.outer(likely - low, z), np.multiply.outer(high - likely, z))
    draws = np.clip(likely[:, np.newaxis] + reach / NINETY_FIVE, 0.0, 1.0)
    sources = tuple(held.factors[at].source for at in LABILE_NUTRIENTS.tolist())
    return _Factors(np.stack((low, likely, high)), draws, sources)


def _shares(foods: Sequence[tuple[Food, float]]) -> Draws:
    """Each food's share (0 to 1) of the listed amount of each labile nutrient, shape (foods, nutrients)."""
    amounts = stacked([per_g(food)[LABILE] * grams for food, grams in foods])
    total = amounts.sum(axis=0)
    even = np.full_like(amounts, 1 / len(foods))
    return np.asarray(np.divide(amounts, total, out=even, where=total > 0))


def retention_kind(food: Food) -> str | None:
    """The kind of a food as retention factors know it; None for any."""
    if food.group_code.startswith("01"):
        return "egg" if food.name.startswith("Egg") else "dairy"
    return kind_of("pot", food)
