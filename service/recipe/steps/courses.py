"""Where a food goes in the heat of a step, and how fast: by its kind, its core, its size or its usual time.

A course has one end and one pace, neither of which the step changes, so that two halves of a step are the
whole. Flesh whose core temperature is stated, or that lies in a bag, ends where that temperature takes it;
all else at the end of its kind and way of cooking. What nobody sized is taken to be cooked through: a
cook's short time tells that the pieces are small; the less so the more heat of another kind is to follow.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ...core.sourced import SourcedFigure
from ...core.spread import Draws, Spread
from ...core.step_kinds import kinds_that
from ...core.tables import with_words
from ...diffusion.geometry import Body
from ...transfer.core_heat import Heating
from ...transfer.pots import CookingCourse, pot_kinds, shrinkage
from ...transfer.warming import AT_CORE_HALF_H, cooked_through, core_weight, is_flesh, warming_half_h
from ..request import StepRequest
from .nature import pot_kind
from .work import Work

OVEN_C = 180.0
_PAN_C, _STILL_C = 170.0, 40.0
"""The heat of oven and pan that the table's times are of, and one in which nothing happens: pace goes by
what is between."""
_DRIED, _FRESH = 15.0, 50.0
"""Per cent of water in dried flesh, which has no more to lose, and in fresh or cured, which loses in full."""
_DRYING = ("sausage",)
"""Kinds beside flesh that lose no more once they are dried."""
_POT = ("simmer", "boil")


@dataclass(frozen=True, slots=True, eq=False)
class Course:
    """Where a food goes in the heat, and how far: shares of what it was raw. pace: rate times time; fat_pace:
    that of frying fat, which goes in by the table's time."""

    weight_end: Draws
    fat_end: Draws
    pace: Draws | float
    fat_pace: float


def usual_course(work: Work, kind: str | None, table: CookingCourse, *, core_c: float | None) -> Course:
    """By the tables, as far as time and temperature go; what was cooked before has had its own.

    kind: as yields know it. core_c: what the core comes to, where that is known: stated, or a bag's.
    """
    step = work.step
    done = 0.0 if (kind or "").startswith("cooked_") else work.composition.done_share
    raw = (1 - done) * _moist(work, kind)
    hours = table.usual_h if step.duration_h is None else step.duration_h
    (half_h, far_usual), haste = _half_time(work, kind, table, raw), _haste(step)
    pace = np.log(2) * hours * haste / half_h
    fat_pace = float(np.log(2) * hours * haste / table.half_h)
    if core_c is not None and is_flesh(kind):
        weight, gone = core_weight(kind or "", core_c), raw
        share = (1 - weight.spread.likely) / max(1 - table.usual.weight.likely, 1e-6)
        end = 1 - (1 - _entered(work, kind, weight, -np.expm1(-pace), raw)) * gone
        fats = fat_end(work, kind, table, 1.0, min(share, 1.0) * raw)
    else:
        reach = shrinkage(step.temperature_c) * raw
        usual = _entered(
            work,
            kind,
            SourcedFigure(table.usual.weight, table.usual.source),
            -np.expm1(-pace) / far_usual,
            reach,
        )
        end = 1 - (1 - usual) / far_usual * reach
        fats = fat_end(work, kind, table, far_usual, reach)
    return Course(np.asarray(np.maximum(end, 0.02)), fats, pace, fat_pace)


def _half_time(
    work: Work, kind: str | None, table: CookingCourse, raw: float
) -> tuple[Draws | float, Draws | float]:
    """Hours to half of the loss, and how far to its end a food is at the usual time, where the table's shares
    stand.

    At once where the core was measured, by the size where it is stated, soon where neither is, and by the
    table as far as heat of another kind is to come. A stated size may be faster than the usual one, of which
    the table's shares are; what is only browned is slower.
    """
    step, far = work.step, table.far(table.usual_h)
    if not is_flesh(kind) or raw <= 0:
        return table.half_h, far
    if step.core_temperature_c is not None:
        return AT_CORE_HALF_H, far
    if step.thickness_cm is not None and step.duration_h is not None:
        heating = Heating(step.kind, OVEN_C if _is_oven(step) else step.temperature_c, 0.0)
        warms_h = warming_half_h(_stated_body(work, step.thickness_cm), heating)
        return min(warms_h, table.half_h), far  # the table's is of joints, which are cooked until done
    through = cooked_through(_way(step))
    soon = work.assume("cooked-through", through, "h", shared=f"{kind}/cooked-through")
    soon = np.minimum(soon, table.half_h)
    part = _part_of_heat_to_come(work, table)
    return soon ** (1 - part) * table.half_h**part, -np.expm1(-np.log(2) * table.usual_h / soon)


def _is_oven(step: StepRequest) -> bool:
    return step.kind == "roast" and step.temperature_c is None


def _stated_body(work: Work, thickness_cm: float) -> Body:
    step, usual = work.step, pot_kinds().get(pot_kind(work) or "")
    shape = step.shape or (usual.shape if usual else "sheet")
    return Body(shape, thickness_cm, step.length_cm, step.width_cm)


def _part_of_heat_to_come(work: Work, table: CookingCourse) -> float:
    """Of the hours of heat in this step's way and of later heat in other ways, the share (0 to 1) that is
    still to come: what is only browned, or scalded, is not cooked through by that."""
    steps = work.state.steps
    now = next((_way(step) for step in steps if step.index == work.step.index), "")
    names, this_h, later_h = {work.name}, 0.0, 0.0
    for step in steps:
        if not names.intersection(step.food):
            continue
        if step.kind in kinds_that("joins") and step.into is not None:
            names.add(step.into)
        elif step.kind in kinds_that("heat"):
            hours = table.usual_h if step.duration_h is None else step.duration_h
            if _way(step) == now:
                this_h += hours
            elif step.index > work.step.index:
                later_h += hours
    return later_h / (this_h + later_h) if later_h > 0 else 0.0


def _way(step: StepRequest) -> str:
    return "pot" if step.kind in _POT else step.kind


def fat_end(
    work: Work, kind: str | None, table: CookingCourse, far: Draws | float | None = None, reach: float = 1.0
) -> Draws:
    """What is left of the fat by the end of time. far: of the way there at the usual time, None: by the
    table; reach: as far as the heat lets it, 0 to 1."""
    if table.usual.fat_kept.low >= 1.0:
        return np.asarray(1.0)
    figure = SourcedFigure(table.usual.fat_kept, table.usual.source)
    kept = work.assume("fat-kept", figure, "fraction", ceiling=1.0, shared=f"{kind}/fat-kept")
    far = table.far(table.usual_h) if far is None else far
    return np.asarray(np.maximum(1 - (1 - kept) / far * reach, 0.0))


def _entered(work: Work, kind: str | None, weight: SourcedFigure, far: Draws | float, reach: float) -> Draws:
    """Draws of the weight that is left by the table; the assumption says what it is after so many hours at
    this heat."""
    so_far = float(np.ravel(far)[0]) * reach
    ends = (weight.spread.low, weight.spread.likely, weight.spread.high)
    spread = Spread(*(max(1 - (1 - each) * so_far, 0.0) for each in ends))
    source = weight.source
    if done := round(100 * work.composition.done_share):
        words = f"{source}; {done} % of it was cooked before, and is taken to change no more"
        source = with_words(source, words)
    told = work.assume("yield", SourcedFigure(spread, source), "ratio", shared=f"{kind}/yield")
    id, log = f"step-{work.step.index}/{work.name}/yield", work.state.log
    if log.is_stated(id):
        return np.asarray(1 - (1 - told) / max(so_far, 1e-12))
    return log.drawn_as(id, weight.spread, floor=0.02)


def _moist(work: Work, kind: str | None) -> float:
    """Of its kind's loss what a food has to lose: little where it was dried before, as stockfish."""
    water = work.main.per_100g("WATER") if work.main else None
    if water is None or not (is_flesh(kind) or (kind or "").partition("/")[0] in _DRYING):
        return 1.0
    return min(max((water - _DRIED) / (_FRESH - _DRIED), 0.0), 1.0)


def _haste(step: StepRequest) -> float:
    """Pace of an oven or a pan over that of the table."""
    usual_c = {"roast": OVEN_C, "fry": _PAN_C}.get(step.kind)
    if usual_c is None or step.temperature_c is None:
        return 1.0
    return min(max((step.temperature_c - _STILL_C) / (usual_c - _STILL_C), 0.0), 2.0)
