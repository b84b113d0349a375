"""One bath without a recipe: uptake over time, centre and mean, time until ready, and the cure.

An unsalted food of the stated class goes through the cold step of a recipe (`cold`, `immersion`), so that the
figures are those that the recipe would give. Cautions are in `bath_notices`.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from ..core.assumptions import AssumptionLog
from ..core.documents import assumption_documents, figure, notice_document, range_document
from ..core.notices import STATED, Assumption, Notice
from ..core.sourced import SourcedFigure
from ..core.spread import Draws, Spread, summarise, summarise_rows
from ..curing.assessment import USUAL_PICK_UP, CureAssessment, assess
from ..diffusion.geometry import FLAT
from ..foods.hand_kept import POTASSIUM_IN_KCL
from ..render.uptake_drawing import CurvePoint, UptakeCurve
from ..transfer.bath_notices import bath_notices, centre_notices
from ..transfer.bath_requests import BathRequest
from ..transfer.food_kinds import usual_water
from ..transfer.handwork import by_hand
from .bath_course import POSITIONS, Course
from .pool_rows import CHLORIDE, NITRATE, NITRITE, POTASSIUM, ROW, SODIUM, SUGAR, WATER, WEIGHT
from .pools import SALT_PER_SODIUM, Pools, nothing
from .request import PLACES, StepRequest
from .state import CalculationState, Composition
from .steps.cold import Plan, run_off_share
from .steps.immersion import immerse, stirred
from .steps.work import Work

__all__ = ["BathRequest", "BathUptake", "CurvePoint", "bath_answer", "bath_curve", "bath_uptake"]

_CURVE_STEPS = 48
_SHORTEST_H = 0.01
_FOOD, _BATH = "food", "bath"
_OWN = f"step-0/{_FOOD}/"
"""What the recipe's names of assumptions begin with."""
_AT_REST = 60.0
"""By this Fourier number, of the slowest draw, everything is at rest."""
_SOLUTES = {
    "sodium": ("NA", 1.0),
    "potassium": ("K", 1.0),
    "chloride": ("CLD", 1.0),
    "nitrite": ("NITRI", 1.0),
    "nitrate": ("NITRA", 1.0),
    "sugar": ("SUGAR", 1000.0),
}
"""The solutes that a bath can hold: row of a pool, and mg in its unit."""
_TRACER_G = 1e-9
"""Salt that stands for a bath without any: shares of equilibrium hang on no amount."""
_TRACER_MG = 1000 * _TRACER_G


@dataclass(frozen=True, slots=True, eq=False)
class BathUptake:
    """What a bath does, in draws of shape (DRAWS + 1,); shares are 0 to 1, percents of the food as it leaves.

    absorbed: share of the bath's salt in the food at the stated time. coloured_h: None without nitrite.
    solutes: by name, share of the bath's in the food, and what it gave to 100 g of the food, in mg.
    """

    request: BathRequest
    course: Course
    absorbed: Draws
    salt_percent: Draws
    at_rest_percent: float
    ready_h: Draws
    coloured_h: Draws | None
    solutes: tuple[tuple[str, Draws, Draws], ...]
    cure: CureAssessment | None
    assumptions: tuple[Assumption, ...]
    notices: tuple[Notice, ...]

    @property
    def mean_reached(self) -> float:
        return float(self.course.mean(self.request.duration_h)[0])

    @property
    def centre_reached(self) -> float:
        return float(self.course.centre(self.request.duration_h)[0])


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
        "curve": _likely_curve(uptake),
        "profile": _profile(uptake),
        "solutes": [_solute(*each) for each in uptake.solutes],
        "nitrite": _nitrite(uptake),
        "assumptions": assumption_documents(uptake.assumptions),
        "notices": [notice_document(notice) for notice in uptake.notices],
    }


def bath_uptake(request: BathRequest) -> BathUptake:
    """Work out one bath, or one dry cure where there is no water."""
    vessel = _Vessel(request)
    course = vessel.course(SODIUM)
    ready = course.hours_until(request.ready_share)
    coloured = _coloured_h(vessel)
    cure = _cure(request, vessel.log)
    absorbed, salt_percent, weight_g = vessel.bathe()
    solutes = tuple(vessel.solutes())
    return BathUptake(
        request=request,
        course=course,
        absorbed=absorbed,
        salt_percent=salt_percent,
        at_rest_percent=100 * request.liquid.all_salt_g * float((course.most_absorbed / weight_g)[0]),
        ready_h=ready,
        coloured_h=coloured,
        solutes=solutes,
        cure=cure,
        assumptions=tuple(each._replace(id=each.id.removeprefix(_OWN)) for each in vessel.log),
        notices=tuple(_notices(request, cure, ready, coloured)),
    )


def uptake_curve(uptake: BathUptake) -> UptakeCurve:
    """The curve with what a picture of it says."""
    asked = uptake.request
    return UptakeCurve(
        food_class=asked.food.food_class,
        thickness_cm=asked.food.thickness_cm,
        in_bath=bool(asked.liquid.water_g),
        points=bath_curve(uptake),
        duration_h=asked.duration_h,
        mean=uptake.mean_reached,
        centre=uptake.centre_reached,
        ready_share=asked.ready_share,
        ready_h=float(uptake.ready_h[0]),
    )


def bath_curve(uptake: BathUptake) -> tuple[CurvePoint, ...]:
    """Uptake over time, to the stated time or a little past the likely time until ready; denser at first."""
    course, hours = uptake.course, _hours(uptake)
    means, centres = (np.array([at(hour) for hour in hours]) for at in (course.mean, course.centre))
    rows = zip(hours.tolist(), summarise_rows(means), summarise_rows(centres), strict=True)
    return tuple(CurvePoint(*row) for row in rows)


def _hours(uptake: BathUptake) -> Draws:
    last = max(uptake.request.duration_h, 1.1 * float(uptake.ready_h[0]))
    hours = last * np.linspace(0.0, 1.0, _CURVE_STEPS + 1) ** 1.5
    if 0 < uptake.request.duration_h < last:
        hours = np.sort(np.append(hours, uptake.request.duration_h))
    return hours


def _likely_curve(uptake: BathUptake) -> list[dict[str, float]]:
    hours = _hours(uptake)
    course = uptake.course.likely_at(hours)
    points = zip(hours.tolist(), course.mean(hours).tolist(), course.centre(hours).tolist(), strict=True)
    return [{"time_h": figure(hour), **_percents(mean, centre)} for hour, mean, centre in points]


class _Vessel:
    """The kitchen of one bath: a food, its liquid, and the cold step between them."""

    def __init__(self, request: BathRequest) -> None:
        self.request, food = request, request.food
        self.is_dry = request.liquid.water_g == 0
        self.log = AssumptionLog()
        composition = Composition(food_class=food.food_class)
        self.state = CalculationState(
            Pools([_FOOD, _BATH, *PLACES]), self.log, {_FOOD: composition, _BATH: Composition()}
        )
        self._fill()

    def _fill(self) -> None:
        food, liquid = self.request.food, self.request.liquid
        piece, bath = nothing(), nothing()
        piece[WATER], piece[WEIGHT] = food.weight_g * self._water_fraction(), food.weight_g
        salt_g = max(liquid.all_salt_g, _TRACER_G)
        bath[SODIUM] = 1000 * salt_g / SALT_PER_SODIUM
        bath[POTASSIUM] = 1000 * liquid.potassium_chloride_g * POTASSIUM_IN_KCL
        bath[CHLORIDE] = 1000 * (salt_g - salt_g / SALT_PER_SODIUM + liquid.potassium_chloride_g)
        bath[CHLORIDE] -= bath[POTASSIUM]
        bath[NITRITE], bath[NITRATE] = 1000 * liquid.all_nitrite_g, 1000 * liquid.all_nitrate_g
        bath[SUGAR], bath[WATER] = liquid.sugar_g, liquid.water_g
        bath[WEIGHT] = salt_g + liquid.potassium_chloride_g + liquid.sugar_g + liquid.water_g
        self.state.pools.bring(_FOOD, piece)
        self.state.pools.bring(_BATH, bath)

    def _water_fraction(self) -> Draws:
        stated = self.request.food.water_fraction
        known = usual_water(self.request.food.food_class) if stated is None else None
        found = known or SourcedFigure(Spread.exact(stated or 0.0), STATED)
        return self.log.take("water-fraction", found.spread, "g/g", found.source, ceiling=0.99)

    def plan(self, duration_h: float) -> Plan:
        request, food = self.request, self.request.food
        step = StepRequest(
            index=0,
            kind="dry_cure" if self.is_dry else "brine",
            food=(_FOOD,),
            bath=_BATH,
            duration_h=duration_h,
            temperature_c=request.temperature_c,
            thickness_cm=food.thickness_cm,
            length_cm=food.length_cm,
            width_cm=food.width_cm,
            shape=food.shape,
            food_class=food.food_class,
            untaken_fraction=food.untaken_fraction,
            open_faces=food.open_faces if food.shape in FLAT else None,
            weight_before_g=food.weight_g,
            weight_after_g=food.weight_after_g,
            pick_up_percent=request.pick_up_percent,
        )
        work = Work(step, self.state, _FOOD)
        return Plan(work, [work], run_off_share(work) if self.is_dry else None)

    def course(self, row: int) -> Course:
        hours = max(self.request.duration_h, _SHORTEST_H)
        plan = self.plan(hours)
        longer = _AT_REST / float(plan.fourier[row].min())
        system = stirred(plan.immersed(), _BATH, plan.run_off, row)
        system = replace(system, paces=system.paces * longer)
        return Course(system, plan.body.compartments, hours * longer)

    def bathe(self) -> tuple[Draws, Draws, Draws]:
        """Do the step: share of the bath's salt in the food, salt in percent of its weight, and that in g."""
        plan = self.plan(self.request.duration_h)
        bath_mg = self.state.pools.leading[_BATH][SODIUM].copy()
        self.begun = self.state.pools.amounts[_BATH].copy()
        immerse([plan.immersed()], _BATH, plan.run_off)
        plan.settle()
        sodium_mg, weight_g = (self.state.pools.leading[_FOOD][row] for row in (SODIUM, WEIGHT))
        percent = sodium_mg / 10 * SALT_PER_SODIUM / weight_g
        return sodium_mg / bath_mg, percent if self.request.liquid.all_salt_g else 0.0 * percent, weight_g

    def solutes(self) -> Iterator[tuple[str, Draws, Draws]]:
        """After the step: each solute of the bath, the share of it in the food, and mg in 100 g of that."""
        food = self.state.pools.amounts[_FOOD]
        for name, (tag, mg) in _SOLUTES.items():
            held, before = food[ROW[tag]], self.begun[ROW[tag]]
            if before[0] > _TRACER_MG:
                yield name, held / before, 100 * mg * held / food[WEIGHT]


def _solute(name: str, absorbed: Draws, mg_per_100g: Draws) -> dict[str, Any]:
    return {
        "solute": name,
        "absorption_factor": range_document(summarise(absorbed)),
        "in_food_mg_per_100g": range_document(summarise(mg_per_100g)),
    }


def _coloured_h(vessel: _Vessel) -> Draws | None:
    """Hours until the cure shows at the centre; None where there is no nitrite."""
    if vessel.request.liquid.all_nitrite_g == 0:
        return None
    shown = by_hand("colour_shows")
    share = vessel.log.take("cure-at-centre", shown.spread, "fraction", shown.source, ceiling=0.9)
    return vessel.course(NITRITE).hours_until(share)


def _cure(request: BathRequest, log: AssumptionLog) -> CureAssessment | None:
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
    shares = uptake.course.profile(uptake.request.duration_h)
    if shares is None:
        return None
    return [
        {"position": figure(position), **range_document(spread.scaled(100))}
        for position, spread in zip(POSITIONS, summarise_rows(shares), strict=True)
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
