"""One bath without a recipe: uptake over time, centre and mean, time until ready, and the cure.

The food is taken as unsalted and the bath as stirred. Every figure with a range is drawn (see
`core.spread`); the answer gives the 5th and 95th percentiles. Cautions are in `bath_notices`.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from ..core.documents import assumption_document, figure, notice_document, range_document
from ..core.notices import STATED, Assumption, Notice
from ..core.spread import Draws, Spread, draw, summarise, summarise_rows
from ..curing.assessment import USUAL_PICK_UP, CureAssessment, assess
from ..diffusion.geometry import THICKNESS_REACH, Body
from .bath_notices import bath_notices, centre_notices
from .bath_requests import BathFood, BathRequest
from .courses import BARELY_WET, Course, DryCourse
from .diffusivity import effective_diffusivity
from .food_classes import usual_water
from .handwork import cure_run_off
from .water_uptake import pick_up

__all__ = ["BathRequest", "BathUptake", "CurvePoint", "bath_answer", "bath_curve", "bath_uptake"]

COLOURED_SHARE = Spread(0.13, 0.27, 0.45)
"""Share of equilibrium at which a cure shows at the centre.

Nitrite reacts as it goes, so published diffusivities of free nitrite in pork are a hundred times below
salt's (see solutes.csv) and would never give the trade's six days. Here it travels nearly as salt does, and
a share of it must have come: more than colour itself needs, since the meat on the way uses nitrite up.
"""

_COLOURED_SOURCE = (
    "fitted to common practice, no source: six days colour a cold flat cut of 4 to 5.5 cm to its centre, "
    "three leave it grey; colour itself needs some 2 to 14 ppm (from memory)"
)
_CURVE_STEPS = 48
_POSITIONS = np.linspace(0.0, 1.0, 11)
"""Where the profile is given: 0 the centre, 1 the surface."""


@dataclass(frozen=True, slots=True, eq=False)
class BathUptake:
    """What a bath does, in draws of shape (DRAWS + 1,); shares are 0 to 1, percents of the food as it leaves.

    absorbed: share of the bath's salt in the food at the stated time. coloured_h: None without nitrite.
    """

    request: BathRequest
    course: Course
    absorbed: Draws
    salt_percent: Draws
    at_rest_percent: float
    ready_h: Draws
    coloured_h: Draws | None
    cure: CureAssessment | None
    assumptions: tuple[Assumption, ...]
    notices: tuple[Notice, ...]

    @property
    def mean_reached(self) -> float:
        return float(self.course.mean(self.request.duration_h)[0])

    @property
    def centre_reached(self) -> float:
        return float(self.course.centre(self.request.duration_h)[0])


@dataclass(frozen=True, slots=True)
class CurvePoint:
    """Shares of equilibrium (0 to 1) on average and at the centre after `time_h`."""

    time_h: float
    mean: Spread
    centre: Spread


def bath_answer(request: BathRequest) -> dict[str, Any]:
    """The contract's answer to `POST /v1/baths`."""
    uptake = bath_uptake(request)
    return {
        "absorption_factor": range_document(summarise(uptake.absorbed)),
        "salt_percent_in_food": range_document(summarise(uptake.salt_percent)),
        "equilibrium": {
            "absorption_factor": figure(float(uptake.course.most_absorbed[0])),
            "salt_percent_in_food": figure(uptake.at_rest_percent),
        },
        "reached": _percents(uptake.mean_reached, uptake.centre_reached),
        "ready_h": range_document(summarise(uptake.ready_h)),
        "ready_share": figure(request.ready_share),
        "curve": [
            {"time_h": figure(point.time_h), **_percents(point.mean.likely, point.centre.likely)}
            for point in bath_curve(uptake)
        ],
        "profile": _profile(uptake),
        "nitrite": _nitrite(uptake),
        "assumptions": [assumption_document(assumption) for assumption in uptake.assumptions],
        "notices": [notice_document(notice) for notice in uptake.notices],
    }


def bath_uptake(request: BathRequest) -> BathUptake:
    """Work out one bath, or one dry cure where there is no water."""
    log = _AssumptionLog()
    course = _course(request, log)
    ready = course.centre_fourier(request.ready_share) / course.pace_per_h
    coloured = _coloured_h(request, log, course)
    cure = _cure(request, log)
    absorbed = course.mean(request.duration_h) * course.most_absorbed
    percent_per_share = _salt_percent_per_share(request, log)
    return BathUptake(
        request=request,
        course=course,
        absorbed=absorbed,
        salt_percent=percent_per_share * absorbed,
        at_rest_percent=float(percent_per_share[0] * course.most_absorbed[0]),
        ready_h=ready,
        coloured_h=coloured,
        cure=cure,
        assumptions=tuple(log.assumptions),
        notices=tuple(_notices(request, cure, ready, coloured)),
    )


def bath_curve(uptake: BathUptake) -> tuple[CurvePoint, ...]:
    """Uptake over time, to the stated time or a little past the likely time until ready; denser at first."""
    last = max(uptake.request.duration_h, 1.1 * float(uptake.ready_h[0]))
    hours = last * np.linspace(0.0, 1.0, _CURVE_STEPS + 1) ** 1.5
    if 0 < uptake.request.duration_h < last:
        hours = np.sort(np.append(hours, uptake.request.duration_h))
    means, centres = uptake.course.mean(hours[:, None]), uptake.course.centre(hours[:, None])
    return tuple(
        CurvePoint(float(hour), summarise(mean), summarise(centre))
        for hour, mean, centre in zip(hours, means, centres, strict=True)
    )


class _AssumptionLog:
    """The assumptions of one bath in the order they were made; each is drawn once."""

    def __init__(self) -> None:
        self.assumptions: list[Assumption] = []

    def take(
        self, id: str, value: Spread, unit: str, source: str, *, floor: float = 0.0, ceiling: float = math.inf
    ) -> Draws:
        entered = Assumption(id, value, unit, source)
        if entered not in self.assumptions:
            self.assumptions.append(entered)
        return draw(value, id, floor=floor, ceiling=ceiling)


def _course(request: BathRequest, log: _AssumptionLog) -> Course:
    food, liquid = request.food, request.liquid
    food_water_g = food.weight_g * _water_fraction(food, log) * (1 - food.untaken_fraction)
    thickness = Spread.within(food.thickness_cm, THICKNESS_REACH)
    thickness_cm = log.take("thickness", thickness, "cm", f"{STATED}, within a tenth")
    diffusivity = _diffusivity_m2_s(request, log, "salt")
    pace = diffusivity * 3600 / (thickness_cm / 200) ** 2
    body = Body(food.shape, food.thickness_cm, food.length_cm, food.width_cm)
    if liquid.water_g == 0 and liquid.all_salt_g > 0:
        course = DryCourse.of(liquid.all_salt_g, food_water_g, body, diffusivity, pace)
        kept = _kept_from_run_off(request, log, food_water_g, course.most_absorbed * liquid.all_salt_g)
        return replace(course, most_absorbed=course.most_absorbed * kept)
    alpha = np.maximum(liquid.water_g / food_water_g, BARELY_WET)
    return Course(body, alpha, diffusivity, pace, 1 / (1 + alpha))


def _kept_from_run_off(
    request: BathRequest, log: _AssumptionLog, food_water_g: Draws, salt_g: Draws
) -> Draws:
    """Share of the salt that stays in a food whose drawn water lies around it, as strong as its own."""
    drawn_g = np.clip(request.food.weight_g - _weight_after_g(request, log) + salt_g, 0.0, 0.9 * food_water_g)
    left = cure_run_off()
    around_g = drawn_g * log.take("cure-run-off", left.spread, "fraction", left.source, ceiling=1.0)
    inside_g = food_water_g - drawn_g
    return np.asarray(inside_g / (inside_g + around_g))


def _water_fraction(food: BathFood, log: _AssumptionLog) -> Draws:
    if food.water_fraction is not None:
        stated = Spread.exact(food.water_fraction)
        return log.take("water-fraction", stated, "g/g", STATED)
    usual = usual_water(food.food_class)
    return log.take("water-fraction", usual.spread, "g/g", usual.source, ceiling=0.99)


def _diffusivity_m2_s(request: BathRequest, log: _AssumptionLog, solute: str) -> Draws:
    found = effective_diffusivity(request.food.food_class, solute, request.temperature_c)
    return log.take(f"diffusivity-{solute}", found.spread_m2_s, "m2/s", found.source)


def _salt_percent_per_share(request: BathRequest, log: _AssumptionLog) -> Draws:
    """Percent salt in the food, with all that it took up, for the whole of the bath's salt."""
    return 100 * request.liquid.all_salt_g / _weight_after_g(request, log)


def _weight_after_g(request: BathRequest, log: _AssumptionLog) -> Draws:
    food, liquid = request.food, request.liquid
    if food.weight_after_g is not None:
        return log.take("weight-after", Spread.exact(food.weight_after_g), "g", "measured")
    if request.pick_up_percent is not None:
        stated = Spread.exact(request.pick_up_percent)
        return food.weight_g * (1 + log.take("pick-up", stated, "%", STATED) / 100)
    bath = "brine" if liquid.water_g else "dry_cure"
    gained = pick_up(food.food_class, liquid.salt_percent, bath)
    return food.weight_g * (1 + log.take("pick-up", gained.spread, "%", gained.source, floor=-60.0) / 100)


def _coloured_h(request: BathRequest, log: _AssumptionLog, course: Course) -> Draws | None:
    """Hours until the cure shows at the centre; None where there is no nitrite."""
    if request.liquid.all_nitrite_g == 0:
        return None
    pace_per_h = course.pace_per_h / course.diffusivity_m2_s * _diffusivity_m2_s(request, log, "nitrite")
    share = log.take("cure-at-centre", COLOURED_SHARE, "fraction", _COLOURED_SOURCE, ceiling=0.9)
    return course.centre_fourier(share) / pace_per_h


def _cure(request: BathRequest, log: _AssumptionLog) -> CureAssessment | None:
    liquid = request.liquid
    if liquid.all_nitrite_g == 0 and liquid.all_nitrate_g == 0:
        return None
    pick_up_share, source = _pick_up_share(request)
    if liquid.water_g:
        log.take("pickle-taken-up", Spread.exact(pick_up_share), "fraction", source)
    return assess(
        nitrite_g=liquid.all_nitrite_g,
        nitrate_g=liquid.all_nitrate_g,
        meat_g=request.food.weight_g,
        pickle_g=liquid.pickle_g,
        product_class=request.product_class,
        usual_class="immersion_cured" if liquid.water_g else "dry_cured",
        scheme=request.scheme,
        pick_up_share=pick_up_share,
        food_class=request.food.food_class,
    )


def _pick_up_share(request: BathRequest) -> tuple[float, str]:
    """Pickle taken up, of green weight, and who says so: weighed, else stated, else the usual tenth."""
    food = request.food
    if food.weight_after_g is not None:
        return max(food.weight_after_g - food.weight_g, 0.0) / food.weight_g, "measured"
    if request.pick_up_percent is not None:
        return max(request.pick_up_percent, 0.0) / 100, STATED
    return USUAL_PICK_UP, "common practice, no source"


def _notices(
    request: BathRequest, cure: CureAssessment | None, ready_h: Draws, coloured_h: Draws | None
) -> Iterator[Notice]:
    yield from cure.notices if cure else ()
    yield from bath_notices(request)
    coloured = None if coloured_h is None else summarise(coloured_h)
    yield from centre_notices(request, summarise(ready_h), coloured)


def _profile(uptake: BathUptake) -> list[dict[str, float]] | None:
    """From the centre to the surface at the stated time; None for a body with edges, which has no one way."""
    shares = uptake.course.profile(uptake.request.duration_h, _POSITIONS)
    if shares is None:
        return None
    return [
        {"position": figure(position), **range_document(spread.scaled(100))}
        for position, spread in zip(_POSITIONS.tolist(), summarise_rows(shares), strict=True)
    ]


def _nitrite(uptake: BathUptake) -> dict[str, Any] | None:
    cure = uptake.cure
    if cure is None:
        return None
    return {
        "pick_up_ppm": figure(cure.pick_up_ppm),
        "equilibrium_ppm": figure(cure.equilibrium_ppm),
        "judged_ppm": figure(cure.judged_ppm),
        "limit_ppm": figure(cure.limit_ppm),
        "method": cure.method,
        "scheme": cure.scheme,
        "product_class": cure.product_class,
        "coloured_h": None if uptake.coloured_h is None else range_document(summarise(uptake.coloured_h)),
    }


def _percents(mean: float, centre: float) -> dict[str, float]:
    return {"mean_percent": figure(100 * mean), "centre_percent": figure(100 * centre)}
