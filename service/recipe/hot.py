"""Steps with heat: pots, steam, ovens and frying. Juice runs out, water goes in, solutes pass.

What is free to move leaves with the juice and passes between food and pot as salt does; what stays in the
food keeps only what the heat leaves of it (`heat_losses`).
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache

import numpy as np

from ..foods.nutrients import INDEX, NUTRIENTS
from ..salt.diffusion import mean_reached
from ..salt.pots import (
    BOILING_C,
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
from .exchange import Gain, Piece, capacity_ratio, exchange, rows_of, solution
from .heat_losses import lose_to_heat
from .kitchen import SODIUM, WEIGHT, Amounts, Flow, ratio, water
from .measured import STATED, enter, named, settle_sodium, sodium_after, weight_ratio
from .nature import open_share, pot_kind
from .request import StepRequest

FAT_ROWS = tuple(INDEX[tag] for tag in ("FAT", "FASAT", "FAMS", "FAPU"))
KCAL_PER_G_FAT = 9.0
"""Energy that leaves with fat, by the general Atwater factor."""

FALLBACK_KIND = "vegetable"


def poach(step: StepRequest, bench: Bench) -> None:
    """Simmer or boil in a pot; without one, in the food's own juice."""
    if step.bath is None:
        heat(step, bench)
        return
    for name in step.food:
        _change_weight(step, bench, name, step.bath)
    pieces = [Piece(name, open_share(step), _partition(step, bench, name)) for name in step.food]
    gain = _gain(step, bench, pieces, step.bath)
    exchange(bench.kitchen, pieces, step.bath, tuple(free_shares()), gain, step.index)
    for name in step.food:
        lose_to_heat(step, bench, name)


def heat(step: StepRequest, bench: Bench) -> None:
    """Steam, roast, or cook without liquid: water goes into the air, and part of the juice onto the tray."""
    for name in step.food:
        _change_weight(step, bench, name, None)
        settle_sodium(step, bench, name, "left_on_tray")
        lose_to_heat(step, bench, name)


def fry(step: StepRequest, bench: Bench) -> None:
    """Fry: water goes into the air, and where a component of fat is named some of it goes into the food."""
    for name in step.food:
        raw_g = bench.kitchen.pools[name][WEIGHT].copy()
        _change_weight(step, bench, name, None)
        if step.bath is not None:
            _take_up_fat(step, bench, name, raw_g)
        settle_sodium(step, bench, name, step.bath or "left_on_tray")
        lose_to_heat(step, bench, name)


@cache
def free_shares() -> dict[str, float]:
    """By tagname, the likely share of a nutrient that is free to leave with juice and into a pot."""
    shares = {nutrient.tag: mobile_share(nutrient.tag) for nutrient in NUTRIENTS}
    return {tag: figure.spread.likely for tag, figure in shares.items() if figure is not None}


def _change_weight(step: StepRequest, bench: Bench, name: str, pot: str | None) -> None:
    """Bring a food to its cooked weight: fat and juice leave it, or water comes in from the pot."""
    cooked = cooking_yield(pot_kind(step, bench, name), step.kind, step.duration_h)
    kept = weight_ratio(step, bench, name, "yield")
    if kept is None:
        kept = bench.book.take(named(step, name, "yield"), cooked.weight, "ratio", cooked.source, step.index)
    goal_g = bench.kitchen.pools[name][WEIGHT] * kept
    if pot is not None:
        bench.kitchen.move(
            pot, name, water(np.maximum(goal_g - bench.kitchen.pools[name][WEIGHT], 0)), step.index
        )
    _lose_fat(step, bench, name, pot, cooked.fat_kept, cooked.source, goal_g)
    _lose_juice(step, bench, name, pot, goal_g)


def _lose_fat(
    step: StepRequest, bench: Bench, name: str, pot: str | None, kept: Spread, source: str, goal_g: Draws
) -> None:
    """Fat runs out, but never more than the weight that is lost."""
    if kept.low >= 1.0:
        return
    pool = bench.kitchen.pools[name]
    share = 1 - bench.book.take(
        named(step, name, "fat-kept"), kept, "fraction", source, step.index, ceiling=1.0
    )
    lost_g = np.maximum(pool[WEIGHT] - goal_g, 0.0)
    share = np.minimum(share, ratio(lost_g, pool[FAT_ROWS[0]]))
    bench.kitchen.move(name, pot or "left_on_tray", fat(pool, share), step.index)


def fat(pool: Amounts, share: Draws) -> Flow:
    """A share (0 to 1) of the fat in a place."""
    grams = pool[FAT_ROWS[0]] * share
    others = [pool[row] * share for row in FAT_ROWS[1:]]
    rows = np.array([*FAT_ROWS, INDEX["ENERC"], WEIGHT])
    return Flow(rows, np.stack((grams, *others, grams * KCAL_PER_G_FAT, grams)))


def _lose_juice(step: StepRequest, bench: Bench, name: str, pot: str | None, goal_g: Draws) -> None:
    """What is still too heavy leaves as juice into the pot, or partly as juice, partly as steam."""
    lost_g = np.maximum(bench.kitchen.pools[name][WEIGHT] - goal_g, 0.0)
    if pot is not None:
        _squeeze(bench, name, pot, lost_g, step.index)
        return
    drip = drip_share(pot_kind(step, bench, name), "steam" if step.kind in ("simmer", "boil") else step.kind)
    share = bench.book.take(
        named(step, name, "drip"), drip.spread, "fraction", drip.source, step.index, ceiling=1.0
    )
    _squeeze(bench, name, "left_on_tray", lost_g * share, step.index)
    bench.kitchen.move(name, "evaporated", water(lost_g * (1 - share)), step.index)


def _squeeze(bench: Bench, name: str, target: str, juice_g: Draws, step: int) -> None:
    """So many grams of juice, water with what is free to move in it, leave a food."""
    juice = solution(bench.kitchen.pools[name], juice_g, free_shares())
    bench.kitchen.move(name, target, juice.scaled(ratio(juice_g, juice[WEIGHT]).clip(0.0, 1.0)), step)


def _partition(step: StepRequest, bench: Bench, name: str) -> Draws:
    held = partition(pot_kind(step, bench, name) or FALLBACK_KIND)
    return bench.book.take(named(step, name, "partition"), held.spread, "ratio", held.source, step.index)


def _gain(step: StepRequest, bench: Bench, pieces: Sequence[Piece], pot: str) -> Gain:
    """Sodium by what is measured or stated, everything else that is free by how far the pot has come."""
    kitchen = bench.kitchen
    free = np.array(tuple(free_shares().values()))
    sodium_at = tuple(free_shares()).index("NA")
    in_pot = kitchen.pools[pot][rows_of(tuple(free_shares()))]
    alpha = capacity_ratio(kitchen, pieces, pot)
    reached = {piece.name: _reached(step, bench, piece.name, alpha) for piece in pieces}

    def gain(piece: Piece, full: Amounts) -> Amounts:
        pool = kitchen.pools[piece.name]
        if step.absorption_factor is not None:
            factor = enter(
                step, bench, piece.name, "absorption-factor", step.absorption_factor, "fraction", STATED
            )
            gained = in_pot * (factor / len(pieces))
        else:
            gained = full * np.multiply.outer(free, reached[piece.name])
        wanted = sodium_after(step, bench, piece.name, pool[WEIGHT])
        if wanted is not None:
            gained[sodium_at] = wanted - pool[SODIUM]
        return gained

    return gain


def _reached(step: StepRequest, bench: Bench, name: str, alpha: Draws) -> Draws:
    kind = pot_kind(step, bench, name) or FALLBACK_KIND
    hours = USUAL_H if step.duration_h is None else step.duration_h
    warmth = BOILING_C if step.temperature_c is None else step.temperature_c
    time = pot_fourier(kind, hours, step.thickness_cm, warmth)
    fourier = bench.book.take(named(step, name, "pot-time"), time.spread, "D t / l2", time.source, step.index)
    return mean_reached(fourier, alpha, pot_shape(kind))


USUAL_H = 0.5
"""Hours taken for a pot whose time is not stated."""


def _take_up_fat(step: StepRequest, bench: Bench, name: str, raw_g: Draws) -> None:
    assert step.bath is not None
    oil = bench.kitchen.pools[step.bath]
    if step.absorption_factor is not None:
        share = enter(step, bench, name, "absorption-factor", step.absorption_factor, "fraction", STATED)
    else:
        taken = fat_uptake(bench.characters[name].main)
        per_g = bench.book.take(
            named(step, name, "fat-uptake"), taken.spread, "g/g", taken.source, step.index
        )
        share = ratio(per_g * raw_g, oil[WEIGHT]).clip(0.0, 1.0)
    bench.kitchen.move_share(step.bath, name, share, step.index)
