"""Steps in the cold: brines, marinades, desalting water and dry cures.

For each solute the figure is taken from the best there is, and the book says which: a laboratory value, a
stated absorption factor, the diffusion model (time and thickness known), or the table (a broad range).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import lru_cache
from itertools import repeat

import numpy as np

from ..checkpoint import checkpoint
from ..diffusion.eigenmodes import SHAPES, Shape
from ..diffusion.geometry import THICKNESS_REACH, Body
from ..findings import STATED
from ..salt.absorption import dry_salt_reached, table_reached
from ..salt.baths import COLOURED_SHARE
from ..salt.courses import BARELY_WET
from ..salt.diffusivity import effective_diffusivity
from ..salt.figures import Figure
from ..salt.water_uptake import pick_up
from ..units.spread import DRAWS, Draws, Spread
from .bench import Bench
from .exchange import Exchange, Piece, Uptake, summed
from .kitchen import Amounts, ratio, salt_g, share_of, strength_percent
from .nature import food_class, open_share
from .request import StepRequest
from .rows import ROW, SODIUM, SOLUTES, WATER, WEIGHT
from .safety import watch_cure, watch_strength
from .solution import DISSOLVED
from .work import Work, works

_NAMES = {"NA": "salt", "NITRI": "nitrite", "NITRA": "nitrate", "SUGAR": "sugar"}
DIFFUSING = tuple(_NAMES[tag] for tag in tuple(ROW)[SOLUTES])
"""The name by which the table of diffusivities knows each row of SOLUTES."""

ENDLESS = np.full(DRAWS + 1, np.inf)
"""Fourier numbers of a piece that stood until nothing moved any more."""

COLD_C = 4.0
"""Temperature in °C taken for a cold step that states none."""

COVERS = 0.5
"""Less liquid than this, its water over the food's, does not cover a food: part of it is wet at a time."""

_WETTED = Figure(
    Spread(0.4, 0.7, 1.0),
    "common practice, no source: too little liquid to cover the food, turned now and then",
)
"""Share of the surface that such a liquid wets. Uptake goes by surface, and by the root of time."""

_RUNS_OFF = Figure(
    Spread(0.1, 0.5, 1.0),
    "common practice, no source: on a rack the drawn water dries or goes in again, a tub collects it",
)
"""Of the water that a dry cure draws, the share that is poured off or rinsed off as brine."""


def bathe(step: StepRequest, bench: Bench) -> None:
    """Food sits in a bath, or under dry salt: solutes pass, and the food swells or shrinks.

    Where the water is changed `water_changes` times, each water has an equal part of the time, and fills the
    vessel as high as the first did once the food had swollen.
    """
    assert step.bath is not None
    kitchen, pieces = bench.kitchen, [Piece(name, open_share(step)) for name in step.food]
    goals_g = {work.name: _weight_goal_g(work) for work in works(step, bench)}
    watch_strength(step, bench)
    watch_cure(step, bench, goals_g)
    if step.kind == "soak":
        # Dried food swells before its salt is out, and gives it to the water of the swollen piece.
        for work in works(step, bench):
            work.give_water(step.bath, np.minimum(work.pool[WEIGHT] - goals_g[work.name], 0.0))
    fresh_g = kitchen.leading[step.bath][WATER].copy()
    courses: dict[str, _Course] = {}
    for turn in range(step.water_changes + 1):
        checkpoint()
        if turn > 0:
            kitchen.move_share(step.bath, "poured_away", 1.0, step.index)
            kitchen.pour(step.bath, fresh_g)
        exchange = Exchange.of(kitchen, pieces, step.bath, step.index)
        exchange.happen(DISSOLVED, _uptake(step, bench, exchange, goals_g, courses))
    for work in works(step, bench):
        _settle_weight(work, step.bath, goals_g[work.name])


def _weight_goal_g(work: Work) -> Draws:
    """What a piece weighs when it leaves the bath, in g."""
    measured = work.weight_ratio("pick-up")
    if measured is not None:
        return np.asarray(work.pool[WEIGHT] * measured)
    bath = work.kitchen.leading[work.step.bath or ""]
    gained = pick_up(food_class(work), strength_percent(bath), work.step.kind)
    percent = work.assume("pick-up", gained, "% of raw weight", floor=-60.0)
    return np.asarray(work.pool[WEIGHT] * (1 + percent / 100))


def _settle_weight(work: Work, bath: str, goal_g: Draws) -> None:
    """Let water pass until the piece weighs what it should."""
    work.give_water(bath, work.pool[WEIGHT] - goal_g)


def _uptake(
    step: StepRequest,
    bench: Bench,
    exchange: Exchange,
    goals_g: Mapping[str, Draws],
    courses: dict[str, _Course],
) -> Callable[[Piece, Amounts], Uptake]:
    """What pieces take in a bath; courses: theirs through the baths of this step, begun in the first."""
    alpha, waters_g = exchange.alpha, exchange.capacities_g

    def uptake(piece: Piece, full: Amounts) -> Uptake:
        work = Work(step, bench, piece.name)
        gain = work.sodium_gain(goals_g[piece.name])
        factor = work.stated_factor()
        if factor is not None:
            share = factor * share_of(waters_g[piece.name], summed(list(waters_g.values())))
            return Uptake(share, share, of_bath=True, sodium_mg=gain)
        if piece.name not in courses:
            courses[piece.name] = _course(work, alpha, full)
        reached = next(courses[piece.name])
        return Uptake(reached, reached[SODIUM], sodium_mg=gain)

    return uptake


_Course = Iterator[Amounts]
"""By bath, how much of the way to equilibrium each row of SOLUTES goes (0 to 1); 0 where there is none."""


def _course(work: Work, alpha: Draws, full: Amounts) -> _Course:
    """Through like baths; full: what would pass in the first."""
    present = np.flatnonzero(full.any(axis=1))
    if not present.size:
        yield from repeat(np.zeros_like(full))
    for shares in reached(work, [DIFFUSING[at] for at in present], alpha):
        every = np.zeros_like(full)
        every[present] = shares
        yield every


def reached(work: Work, solutes: Sequence[str], alpha: Draws) -> Iterator[Amounts]:
    """By bath, how much of the way to equilibrium each solute goes (0 to 1): by diffusion, or by the table.

    One row a solute, all in one go: the curve costs by the call more than by the number.
    """
    step = work.step
    if step.duration_h is None or step.thickness_cm is None:
        return (np.stack([_reached_by_table(work)] * len(solutes)) for _ in repeat(None))
    seconds = step.duration_h * 3600 / (step.water_changes + 1)
    per_m2_s = seconds / _half_thickness_m(work, step.thickness_cm) ** 2
    fourier = np.stack([_diffusivity(work, solute) * per_m2_s for solute in solutes])
    body = Body(step.shape, step.thickness_cm, step.length_cm, step.width_cm)
    if step.kind == "dry_cure":
        _watch_centre(work, body, _nitrite_in(solutes, fourier), np.full_like(alpha, BARELY_WET))
        return (np.stack([_reached_from_dry_salt(work, row) for row in fourier]) for _ in repeat(None))
    if float(alpha[0]) < COVERS:
        fourier = fourier * work.assume("wetted", _WETTED, "fraction", ceiling=1.0) ** 2
    if step.kind != "soak":
        _watch_centre(work, body, _nitrite_in(solutes, fourier), alpha)
    return body.mean_reached_in_turns(fourier, alpha)


def _nitrite_in(solutes: Sequence[str], fourier: Amounts) -> Draws | None:
    return fourier[solutes.index("nitrite")] if "nitrite" in solutes else None


def _watch_centre(work: Work, body: Body, fourier: Draws | None, alpha: Draws) -> None:
    """Say where the likely cure has not come to the centre; that is about colour, never about safety."""
    if fourier is None:
        return
    centre = float(body.centre_reached(fourier[0], alpha[0]))
    if centre < COLOURED_SHARE.likely:
        work.check(
            "cure-short-of-centre",
            f"After {work.step.duration_h:g} h the centre of {work.name!r} has about {100 * centre:.0f} % of "
            "the cure it would come to: expect an uncured strip there. This is an estimate of colour, not of "
            "safety.",
        )


def _diffusivity(work: Work, solute: str) -> Draws:
    """In m2/s; pieces of one class share its cause, whatever their temperature."""
    kind = food_class(work)
    warmth_c = COLD_C if work.step.temperature_c is None else work.step.temperature_c
    figure = _diffusivity_figure(kind, solute, warmth_c)
    return work.assume(f"{solute}-diffusivity", figure, "m2/s", shared=f"{kind}/{solute}/diffusivity")


@lru_cache(maxsize=1024)
def _diffusivity_figure(kind: str, solute: str, warmth_c: float) -> Figure:
    found = effective_diffusivity(kind, solute, warmth_c)
    return Figure(found.spread_m2_s, found.source)


def _half_thickness_m(work: Work, thickness_cm: float) -> Draws:
    return work.assume("thickness", _thickness(thickness_cm), "cm") / 200


@lru_cache(maxsize=1024)
def _thickness(thickness_cm: float) -> Figure:
    return Figure(Spread.within(thickness_cm, THICKNESS_REACH), STATED)


def _reached_from_dry_salt(work: Work, fourier: Draws) -> Draws:
    """Share of the dry salt that goes in; pieces share it by weight, so each answers for its own part."""
    pools, step = work.kitchen.leading, work.step
    whole_g = sum((pools[name][WEIGHT] for name in step.food), np.zeros_like(fourier))
    part = ratio(work.pool[WEIGHT], whole_g)
    lying_g, held_g = (salt_g(amounts) for amounts in (pools[step.bath or ""], work.pool))
    shape: Shape = next((shape for shape in SHAPES if shape == step.shape), "sheet")
    own_g = lying_g * part
    goes_in = dry_salt_reached(fourier, own_g, held_g, work.pool[WATER], shape)
    return np.minimum(goes_in, _kept_from_drip(work, goes_in * own_g))


def _kept_from_drip(work: Work, salt_in_g: Draws) -> Draws:
    """The most of a dry cure that can be in a food: what it draws out and runs off holds salt too, as strong
    as the food's own water. How much is drawn, the food's weight and the salt in it tell."""
    drawn_g = np.clip(work.pool[WEIGHT] - _weight_goal_g(work) + salt_in_g, 0.0, work.pool[WATER])
    runs_off = work.assume("cure-run-off", _RUNS_OFF, "fraction", ceiling=1.0)
    return 1 - runs_off * ratio(drawn_g, work.pool[WATER])


def _reached_by_table(work: Work) -> Draws:
    work.check(
        "absorption-from-table",
        f"How much salt {work.name!r} takes or gives is a broad range from a table; state duration_h and "
        "thickness_cm, or a measured value.",
    )
    usual = table_reached(food_class(work), work.step.kind)
    share = work.assume("reached", usual, "fraction of equilibrium", ceiling=1.0)
    # A thick bed of salt cannot go in whole: what the food's water can hold is the end of it.
    return np.minimum(share, _reached_from_dry_salt(work, ENDLESS)) if work.step.kind == "dry_cure" else share
