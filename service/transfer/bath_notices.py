"""What is said about a bath besides its figures: cold, strength of the brine, size of the piece, time.

Words only. A time is never given as a guarantee of safety.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from ..core.notices import Notice
from ..core.numbers import percent, shown, whole
from ..core.spread import Spread
from ..safety.cold_steps import cold_notices
from .bath_requests import BathFood, BathRequest
from .brine import freezing_point_c, saturation_percent
from .food_kinds import usual_water
from .handwork import COVERS

_MEAT_G_CM3 = 1.06


def bath_notices(request: BathRequest) -> Iterator[Notice]:
    """Cold holding, the strength of the brine, and whether the piece can have its size."""
    yield from cold_notices("brine", request.food.food_class, request.temperature_c, request.duration_h)
    yield from _strength(request)
    yield from _size(request.food)


def centre_notices(request: BathRequest, ready_h: Spread, coloured_h: Spread | None) -> Iterator[Notice]:
    """Whether the stated time brings salt, and a cure's colour, to the centre."""
    if request.duration_h < ready_h.low:
        yield Notice(
            "centre-not-ready",
            "check",
            f"After {shown(request.duration_h)} h the centre is short of {percent(request.ready_share)} of "
            f"equilibrium, which takes about {_hours(ready_h)}.",
            "/duration_h",
        )
    if coloured_h is None:
        return
    if request.duration_h < coloured_h.likely:
        yield Notice(
            "cure-short-of-centre",
            "check",
            f"After {shown(request.duration_h)} h the cure has probably not come to the centre, which takes "
            f"about {_hours(coloured_h)}: expect an uncured strip there.",
            "/duration_h",
        )
    yield Notice(
        "cure-centre-estimate",
        "info",
        f"The colour of the cure comes to the centre after about {_hours(coloured_h)}. That is an estimate "
        "of colour, not of safety: nitrite reacts as it goes, and no time shows that meat is safe. ",
        "/duration_h",
    )


def _hours(time_h: Spread) -> str:
    return f"{whole(time_h.likely)} h ({whole(time_h.low)} to {whole(time_h.high)} h)"


def _strength(request: BathRequest) -> Iterator[Notice]:
    liquid = request.liquid
    if liquid.all_salt_g == 0:
        yield Notice(
            "bath-without-salt",
            "info",
            "The bath holds no salt; the shares of equilibrium are those that salt would have.",
            "/bath/salt_g",
        )
    elif liquid.water_g > 0:
        yield from strength_notices(liquid.salt_percent, request.temperature_c)
        yield from _cover(request)
    else:
        yield Notice(
            "dry-cure-run-off",
            "info",
            "The dry cure is taken to stay on the food until it is in, and part of the brine that it draws "
            "to stay around it. Brine that is poured off, or salt that is brushed or rinsed off, takes its "
            "part along.",
            "/bath",
        )


def _cover(request: BathRequest) -> Iterator[Notice]:
    food = request.food
    fraction = food.water_fraction or usual_water(food.food_class).spread.likely
    if request.liquid.water_g < COVERS * food.weight_g * fraction:
        yield Notice(
            "bath-does-not-cover",
            "check",
            "So little liquid does not cover the food: only part of it is wet at a time, which the figures "
            "count in. Uptake is slower, and uneven unless the food is turned.",
            "/bath/water_g",
        )


def strength_notices(salt_percent: float, temperature_c: float) -> Iterator[Notice]:
    """Whether so strong a brine can be at its temperature. salt_percent: of salt and water."""
    if salt_percent > (most := float(saturation_percent(temperature_c))):
        yield Notice(
            "brine-saturated",
            "check",
            f"The bath is {shown(salt_percent, decimals=1)} % salt, but water holds "
            f"{shown(most, decimals=1)} % at most; the rest lies undissolved and follows as the food takes "
            "salt up, if the bath is stirred.",
            "/bath",
        )
    if temperature_c < (freezes_c := float(freezing_point_c(salt_percent))):
        yield Notice(
            "brine-freezes",
            "check",
            f"A brine of {shown(salt_percent, decimals=1)} % begins to freeze at "
            f"{shown(freezes_c, decimals=1)} °C; at {shown(temperature_c)} °C part of it is ice and next to "
            "nothing moves.",
            "/temperature_c",
        )


def _size(food: BathFood) -> Iterator[Notice]:
    volume_cm3 = food.weight_g / _MEAT_G_CM3
    across = _extent_cm(food, volume_cm3)
    if across is None or food.thickness_cm <= across * 1.05:
        return
    yield Notice(
        "thickness-beyond-weight",
        "check",
        f"A {food.shape.replace('_', ' ')} {shown(food.thickness_cm)} cm thick weighs more than "
        f"{shown(food.weight_g)} g; check thickness_cm and weight_g (of several pieces give the weight of "
        "all and the thickness of one).",
        "/food/thickness_cm",
    )


def _extent_cm(food: BathFood, volume_cm3: float) -> float | None:
    """The largest thickness that this weight leaves room for, by shape; None where nothing can be said."""
    match food.shape:
        case "sphere":
            return float((6 * volume_cm3 / math.pi) ** (1 / 3))
        case "sheet":
            return float(volume_cm3 ** (1 / 3)) * 1.25
        case "short_cylinder" if food.length_cm:
            return math.sqrt(4 * volume_cm3 / math.pi / food.length_cm)
        case "brick" if food.length_cm and food.width_cm:
            return volume_cm3 / food.length_cm / food.width_cm
        case _:
            return None
