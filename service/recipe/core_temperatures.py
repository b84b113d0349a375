"""How warm a component gets at its centre, step by step: for the rules of safety, and for nothing else."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from ..core.spread import Spread
from ..core.step_kinds import kinds_that
from ..diffusion.geometry import THICKNESS_REACH, Body
from ..foods.food import Food
from ..safety.centre import CentreCourse
from ..transfer.core_heat import Heating, centre_course, is_known
from ..transfer.usual import usual_size
from .request import StepRequest


def centre_courses(
    steps: Sequence[StepRequest], food_class: str, food: Food | None
) -> dict[int, CentreCourse]:
    """By index, the centre of a piece up to the end of each step that heats it; of those alone of which it
    can be worked out. steps: those that the piece goes through as food, in order. Steps of heat one after
    another count together; whatever stands between them lets the piece cool."""
    found: dict[int, CentreCourse] = {}
    so_far: tuple[Heating, ...] = ()
    for step in steps:
        if step.kind not in kinds_that("heat") | kinds_that("air"):
            so_far = ()
            continue
        if step.duration_h is None or not is_known(step.kind, step.temperature_c):
            so_far = ()
            continue
        so_far = _with(so_far, Heating(step.kind, step.temperature_c, step.duration_h))
        found[step.index] = _course(so_far, step, food_class, food)
    return found


def _with(so_far: tuple[Heating, ...], more: Heating) -> tuple[Heating, ...]:
    """One more; two of a kind in a row are one that is longer."""
    if so_far and (so_far[-1].kind, so_far[-1].surroundings_c) == (more.kind, more.surroundings_c):
        return (*so_far[:-1], replace(more, hours=so_far[-1].hours + more.hours))
    return (*so_far, more)


def _course(
    heatings: tuple[Heating, ...], step: StepRequest, food_class: str, food: Food | None
) -> CentreCourse:
    usual = usual_size(food_class, food.name if food else "")
    stated = step.thickness_cm
    thickness = Spread.within(stated, THICKNESS_REACH) if stated else usual.thickness_cm.spread
    shape = step.shape or ("sheet" if stated else usual.shape)
    body = Body(shape, thickness.likely, step.length_cm, step.width_cm)
    return centre_course(heatings, food_class, body, thickness, is_sized=stated is not None)
