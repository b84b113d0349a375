"""Safety of the steps: cures against their limits, temperatures, and brines that cannot be.

These are prompts for a person. They defer to local codes and licensed practice, and none is a clearance.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache

from ..findings import Notice
from ..salt.bath_notices import strength_notices
from ..curing.assessment import USUAL_PICK_UP, assess
from ..safety.temperatures import temperature_notices
from ..units.spread import Draws
from .bench import Bench
from .kitchen import strength_percent
from .nature import known_class
from .request import StepRequest
from .rows import NITRATE, NITRITE, SODIUM, WATER, WEIGHT
from .work import Work, works

_USUAL_CLASS = {"dry_cure": "dry_cured"}


def watch_temperature(step: StepRequest, bench: Bench) -> None:
    """Say what the temperature of a step means for the foods in it."""
    for work in works(step, bench):
        kind = known_class(work)
        if kind is not None:
            for notice in _of_temperature(step.kind, kind, step.temperature_c, step.duration_h, step.pointer):
                bench.put(notice)


@lru_cache(maxsize=1024)
def _of_temperature(
    step_kind: str, kind: str, temperature_c: float | None, duration_h: float | None, pointer: str
) -> tuple[Notice, ...]:
    notices = temperature_notices(step_kind, kind, temperature_c, duration_h)
    return tuple(notice.below(pointer) for notice in notices)


def watch_strength(step: StepRequest, bench: Bench) -> None:
    """Say where a brine holds more salt than dissolves, or is colder than it can be without ice."""
    bath = bench.kitchen.leading[step.bath or ""]
    if step.kind == "dry_cure" or step.temperature_c is None or bath[WATER, 0] <= 0 or bath[SODIUM, 0] <= 0:
        return
    for notice in strength_notices(strength_percent(bath), step.temperature_c):
        bench.put(notice.below(step.pointer))


def watch_cure(step: StepRequest, bench: Bench, goals_g: Mapping[str, Draws]) -> None:
    """Hold the nitrite of a bath against the limit, on the green weight of all the food in it."""
    bath = bench.kitchen.leading[step.bath or ""]
    nitrite_g, nitrate_g = float(bath[NITRITE, 0]) / 1000, float(bath[NITRATE, 0]) / 1000
    green_g = sum(float(bench.kitchen.leading[name][WEIGHT, 0]) for name in goals_g)
    pickle_g = float(bath[WEIGHT, 0])
    if nitrite_g + nitrate_g <= 0 or green_g <= 0 or pickle_g <= nitrite_g + nitrate_g:
        return
    gained_g = sum(float(goal[0]) for goal in goals_g.values()) - green_g
    assessment = assess(
        nitrite_g=nitrite_g,
        nitrate_g=nitrate_g,
        meat_g=green_g,
        pickle_g=pickle_g,
        product_class=step.product_class,
        scheme=step.scheme,
        usual_class=_USUAL_CLASS.get(step.kind, "immersion_cured"),
        pick_up_share=gained_g / green_g if gained_g > 0 else USUAL_PICK_UP,
        food_class=known_class(Work(step, bench, step.food[0])) or "pork",
    )
    for notice in assessment.notices:
        bench.put(notice.below(step.pointer))
