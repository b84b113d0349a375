"""Steps in the cold: brines, marinades, desalting water and dry cures.

For each solute the figure is taken from the best there is, and the book says which: a laboratory value, a
stated absorption factor, the diffusion model (time and thickness known), or the table (a broad range).
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from ..salt.absorption import table_reached
from ..salt.diffusion import mean_reached
from ..salt.diffusivity import effective_diffusivity
from ..salt.water_uptake import pick_up
from ..units.spread import Draws, Spread
from .bench import Bench
from .exchange import COLD_SOLUTES, Gain, Piece, capacity_ratio, exchange, rows_of
from .kitchen import SALT_PER_SODIUM, SODIUM, WATER, WEIGHT, Amounts, ratio, water
from .measured import MEASURED, STATED, enter, named, sodium_after, weight_ratio
from .nature import food_class, open_share
from .request import StepRequest
from .safety import watch_cure

DIFFUSING = {"NA": "salt", "NITRI": "nitrite", "NITRA": "nitrate", "SUGAR": "sugar"}
"""The name by which the table of diffusivities knows each solute."""

SODIUM_AT = COLD_SOLUTES.index("NA")

COLD_C = 4.0
"""Temperature in °C taken for a cold step that states none."""

THICKNESS_SHARE = 0.1
"""A stated thickness is held to within this share: pieces taper, and a rule is held by hand."""


def bathe(step: StepRequest, bench: Bench) -> None:
    """Food sits in a bath, or under dry salt: solutes pass, and the food swells or shrinks.

    Where the water is changed `water_changes` times, each water has an equal part of the time.
    """
    assert step.bath is not None
    fresh_g = bench.kitchen.pools[step.bath][WATER].copy()
    pieces = [Piece(name, open_share(step)) for name in step.food]
    goals = {name: _weight_goal(step, bench, name) for name in step.food}
    watch_cure(step, bench, goals)
    for turn in range(step.water_changes + 1):
        if turn > 0:
            bench.kitchen.move_share(step.bath, "poured_away", 1.0, step.index)
            bench.kitchen.bring(step.bath, water(fresh_g))
        exchange(
            bench.kitchen, pieces, step.bath, COLD_SOLUTES, _gain(step, bench, pieces, goals), step.index
        )
    for name, goal in goals.items():
        _settle_weight(step, bench, name, goal)


def _weight_goal(step: StepRequest, bench: Bench, name: str) -> Draws:
    """What a piece weighs when it leaves the bath, in g."""
    before = bench.kitchen.pools[name][WEIGHT]
    measured = weight_ratio(step, bench, name, "pick-up")
    if measured is not None:
        return before * measured
    gained = pick_up(food_class(step, bench, name), bath_percent(bench, step.bath), step.kind)
    percent = bench.book.take(
        named(step, name, "pick-up"),
        gained.spread,
        "% of raw weight",
        gained.source,
        step.index,
        floor=-60.0,
    )
    return before * (1 + percent / 100)


def bath_percent(bench: Bench, bath: str | None) -> float:
    """Likely strength of a bath: salt in percent of its salt and water (100 for dry salt)."""
    pool = bench.kitchen.pools[bath or ""]
    salt_g = float(pool[SODIUM, 0]) * SALT_PER_SODIUM / 1000
    whole_g = salt_g + float(pool[WATER, 0])
    return 100 * salt_g / whole_g if whole_g > 0 else 0.0


def _settle_weight(step: StepRequest, bench: Bench, name: str, goal_g: Draws) -> None:
    """Let water pass until the piece weighs what it should."""
    assert step.bath is not None
    missing = goal_g - bench.kitchen.pools[name][WEIGHT]
    bench.kitchen.move(step.bath, name, water(np.maximum(missing, 0.0)), step.index)
    bench.kitchen.move(name, step.bath, water(np.maximum(-missing, 0.0)), step.index)


def _gain(step: StepRequest, bench: Bench, pieces: Sequence[Piece], goals: dict[str, Draws]) -> Gain:
    assert step.bath is not None
    kitchen = bench.kitchen
    in_bath = kitchen.pools[step.bath][rows_of(COLD_SOLUTES)]
    waters = {piece.name: piece.capacity_g(kitchen) for piece in pieces}
    all_water = sum(waters.values(), np.zeros_like(in_bath[0]))
    alpha = capacity_ratio(kitchen, pieces, step.bath)

    def gain(piece: Piece, full: Amounts) -> Amounts:
        if step.absorption_factor is not None:
            factor = enter(
                step, bench, piece.name, "absorption-factor", step.absorption_factor, "fraction", STATED
            )
            gained = in_bath * (factor * ratio(waters[piece.name], all_water))
        else:
            gained = full * _reached(step, bench, piece.name, alpha, full)
        wanted = sodium_after(step, bench, piece.name, goals[piece.name])
        if wanted is not None:
            gained[SODIUM_AT] = wanted - kitchen.pools[piece.name][SODIUM]
        return gained

    return gain


def _reached(step: StepRequest, bench: Bench, name: str, alpha: Draws, full: Amounts) -> Amounts:
    """How much of the way to equilibrium each solute goes (0 to 1); 0 where there is none of it."""
    present = full.any(axis=1)
    ways = [
        reached(step, bench, name, DIFFUSING[tag], alpha) if here else np.zeros_like(alpha)
        for tag, here in zip(COLD_SOLUTES, present, strict=True)
    ]
    return np.stack(ways)


def reached(step: StepRequest, bench: Bench, name: str, solute: str, alpha: Draws) -> Draws:
    """How much of the way to equilibrium a solute goes (0 to 1): by diffusion, or by the table."""
    kind = food_class(step, bench, name)
    if step.duration_h is None or step.thickness_cm is None:
        return _reached_by_table(step, bench, name, kind)
    diffusivity = effective_diffusivity(
        kind, solute, COLD_C if step.temperature_c is None else step.temperature_c
    )
    metres2_per_s = bench.book.take(
        named(step, name, f"{solute}-diffusivity"),
        diffusivity.spread_m2_s,
        "m2/s",
        diffusivity.source,
        step.index,
        shared=f"{kind}/{solute}/diffusivity",
    )
    thickness = Spread.within(step.thickness_cm, THICKNESS_SHARE)
    half_m = bench.book.take(named(step, name, "thickness"), thickness, "cm", STATED, step.index) / 200
    seconds = step.duration_h * 3600 / (step.water_changes + 1)
    fourier = metres2_per_s * seconds / half_m**2
    return mean_reached(fourier, alpha, step.shape)


def _reached_by_table(step: StepRequest, bench: Bench, name: str, kind: str) -> Draws:
    row = table_reached(kind, step.kind)
    bench.note(
        "absorption-from-table",
        "check",
        f"How much salt {name!r} takes or gives is a broad range from a table; state duration_h and thickness_cm, "
        "or a measured value.",
        step.pointer,
    )
    return bench.book.take(
        named(step, name, "reached"),
        row.spread,
        "fraction of equilibrium",
        row.source,
        step.index,
        ceiling=1.0,
    )
