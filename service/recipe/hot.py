"""Steps with heat: pots, steam, ovens and frying. Juice runs out, water goes in, solutes pass.

What is free to move leaves with the juice and passes between food and pot as salt does; what stays in the
food keeps only what the heat leaves of it (`heat_losses`).
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache

import numpy as np

from ..diffusion.curves import mean_reached
from ..salt.figures import Figure
from ..salt.pots import (
    BOILING_C,
    CookingYield,
    cooking_yield,
    drip_share,
    fat_uptake,
    mobile_share,
    partition,
    pot_fourier,
    pot_shape,
)
from ..units.spread import Draws, Spread
from .bench import Bench
from .exchange import Exchange, Piece, Uptake
from .heat_losses import lose_alcohol, lose_to_heat
from .kitchen import Amounts, share_of
from .nature import open_share, pot_kind, yield_kind
from .request import StepRequest
from .rows import FAT, FREE, ROW, SOLUTES, WEIGHT
from .solution import Solutes
from .work import Work, works

FALLBACK_KIND = "vegetable"
"""Kind whose figures stand in for an unknown food in a pot."""

USUAL_H = 0.5
"""Hours taken for a pot whose time is not stated."""


def poach(step: StepRequest, bench: Bench) -> None:
    """Simmer or boil in a pot; without one, in the food's own juice."""
    if step.bath is None:
        stew(step, bench)
        return
    foods = works(step, bench)
    for work in foods:
        _change_weight(work, step.bath)
    pieces = [Piece(work.name, open_share(step), _partition(work)) for work in foods]
    exchange = Exchange.of(bench.kitchen, pieces, step.bath, step.index)
    exchange.happen(free_solutes(), _uptake(step, bench, exchange))
    for work in foods:
        lose_to_heat(work)
    lose_alcohol(Work(step, bench, step.bath))


def stew(step: StepRequest, bench: Bench) -> None:
    """A dish simmers in its own juice: all of it stays in the dish but the water that boils off."""
    for work in works(step, bench):
        kept = work.weight_ratio("yield")
        if kept is None:
            usual = cooking_yield(None, step.kind, step.duration_h)
            kept = work.assume("yield", Figure(usual.weight, usual.source), "ratio")
        work.give_water("evaporated", work.pool[WEIGHT] * np.maximum(1 - kept, 0.0))
        lose_to_heat(work)


def heat(step: StepRequest, bench: Bench) -> None:
    """Steam or roast: water goes into the air, and part of the juice onto the tray."""
    for work in works(step, bench):
        _change_weight(work, None)
        work.settle_sodium("left_on_tray")
        lose_to_heat(work)


def fry(step: StepRequest, bench: Bench) -> None:
    """Fry: water goes into the air, and where a component of fat is named some of it goes into the food."""
    for work in works(step, bench):
        raw_g = work.pool[WEIGHT].copy()
        _change_weight(work, None)
        if step.bath is not None:
            share = _fat_share(work, bench.kitchen.leading[step.bath][WEIGHT], raw_g)
            bench.kitchen.move_share(step.bath, work.name, share, step.index)
        work.settle_sodium(step.bath or "left_on_tray")
        lose_to_heat(work)


@cache
def free_solutes() -> Solutes:
    """What is free to leave with juice and into a pot."""
    solutes, others = ([_free_share(tag) for tag in tuple(ROW)[rows]] for rows in (SOLUTES, FREE))
    return Solutes(np.array([[*solutes, 1.0]]).T, np.array([others]).T)


def _free_share(tag: str) -> float:
    """The likely share of a nutrient that is free."""
    figure = mobile_share(tag)
    return figure.spread.likely if figure else 0.0


def _change_weight(work: Work, pot: str | None) -> None:
    """Bring a food to its cooked weight: fat and juice leave it, or water comes in from the pot."""
    cooked = _yield_left(work)
    kept = work.weight_ratio("yield")
    if kept is None:
        kept = work.assume("yield", Figure(cooked.weight, cooked.source), "ratio")
    goal_g = work.pool[WEIGHT] * kept
    if pot is not None and kept.max() > 1:
        work.give_water(pot, np.minimum(work.pool[WEIGHT] - goal_g, 0.0))
    if kept[0] >= 1 and kept.min() >= 1:
        return
    _lose_fat(work, pot or "left_on_tray", cooked, goal_g)
    lost_g = np.maximum(work.pool[WEIGHT] - goal_g, 0.0)
    if pot is not None:
        work.to(pot).squeeze(lost_g, free_solutes())
    else:
        _drip_and_steam(work, lost_g)


def _yield_left(work: Work) -> CookingYield:
    """The usual yield of a food, without that of what was cooked before: the dataset's row has had its own.

    Kinds that are of cooked food in the tables have figures for it.
    """
    kind, done = yield_kind(work), work.character.done_share
    usual = cooking_yield(kind, work.step.kind, work.step.duration_h)
    if not done or (kind or "").startswith("cooked_"):
        return usual
    source = f"{usual.source}; {round(100 * done)} % of it was cooked before, and is taken to change no more"
    return CookingYield(_towards_1(usual.weight, done), _towards_1(usual.fat_kept, done), source)


def _towards_1(spread: Spread, share: float) -> Spread:
    return Spread(*(value + (1 - value) * share for value in (spread.low, spread.likely, spread.high)))


def _lose_fat(work: Work, target: str, cooked: CookingYield, goal_g: Draws) -> None:
    """Fat runs out, but never more than the weight that is lost."""
    if cooked.fat_kept.low >= 1.0:
        return
    kept = work.assume("fat-kept", Figure(cooked.fat_kept, cooked.source), "fraction", ceiling=1.0)
    lost_g = np.maximum(work.pool[WEIGHT] - goal_g, 0.0)
    share = np.minimum(1 - kept, share_of(lost_g, work.pool[FAT]))
    work.kitchen.move_fat(work.name, target, share, work.step.index)


def _drip_and_steam(work: Work, lost_g: Draws) -> None:
    """What is still too heavy leaves partly as juice, partly as steam."""
    share = work.assume("drip", drip_share(pot_kind(work), work.step.kind), "fraction", ceiling=1.0)
    work.to("left_on_tray").squeeze(lost_g * share, free_solutes())
    work.give_water("evaporated", lost_g * (1 - share))


def _partition(work: Work) -> Draws:
    return work.assume("partition", partition(pot_kind(work) or FALLBACK_KIND), "ratio")


def _uptake(step: StepRequest, bench: Bench, exchange: Exchange) -> Callable[[Piece, Amounts], Uptake]:
    """Sodium by what is measured or stated, everything else that is free by how far the pot has come."""
    alpha = exchange.alpha
    free = free_solutes().solution[SOLUTES]

    def uptake(piece: Piece, _: Amounts) -> Uptake:
        work = Work(step, bench, piece.name)
        factor = work.stated_factor()
        gain = work.sodium_gain(work.pool[WEIGHT])
        if factor is not None:
            share = factor / len(exchange.pieces)
            return Uptake(share, share, of_bath=True, sodium_mg=gain)
        reached = _reached(work, alpha)
        return Uptake(free * reached, reached, sodium_mg=gain)

    return uptake


def _reached(work: Work, alpha: Draws) -> Draws:
    """How far a piece has come towards its pot, 0 to 1."""
    step, kind = work.step, pot_kind(work) or FALLBACK_KIND
    hours = USUAL_H if step.duration_h is None else step.duration_h
    warmth_c = BOILING_C if step.temperature_c is None else step.temperature_c
    fourier = work.assume("pot-time", pot_fourier(kind, hours, step.thickness_cm, warmth_c), "D t / l2")
    return mean_reached(fourier, alpha, pot_shape(kind))


def _fat_share(work: Work, oil_g: Draws, raw_g: Draws) -> Draws:
    """Share (0 to 1) of the frying fat that a food takes up."""
    stated = work.stated_factor()
    if stated is not None:
        return stated
    taken = work.assume("fat-uptake", fat_uptake(work.main), "g/g")
    return share_of(taken * raw_g, oil_g)
