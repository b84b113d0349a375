"""Cures in a whole dish: mixed in, too much or by mistake; the wrong type; and a pickle that is eaten."""

from __future__ import annotations

from collections.abc import Iterator

from ..core.notices import Notice, safety_notice
from ..core.numbers import shown
from ..core.step_kinds import kinds_that
from ..safety.dish import Dish, DishPart, Treatment
from ..safety.safety_limits import family_of, limit
from .assessment import assess

_CURED_FAMILIES = ("beef", "pork", "poultry")

_LEAST_MEAT_G = 1e-6
"""Less is no meat: nothing can be counted on it."""


def cure_notices(dish: Dish) -> Iterator[Notice]:
    """What is to be said of the curing agents in a dish, beyond what each curing step says of its own."""
    for part in dish.parts:
        yield from _not_counted(part)
        if _holds_cure(part):
            used = [each for each in part.treatments if each.as_bath and each.kind in kinds_that("cures")]
            yield from _pickle(part, used[-1]) if used else _mixed_in(part)
        yield from _air_without_cure(part, dish)
    yield from _wrong_type(dish)


def _not_counted(part: DishPart) -> Iterator[Notice]:
    """A line that names a curing agent, or its type, and was taken to be something else."""
    for item in part.items:
        is_other = not item.nitrite_mg and not item.nitrate_mg and item.is_about("curing")
        if is_other or (item.nitrite_mg and not item.nitrate_mg and item.is_about("type_2")):
            yield safety_notice(
                "cure-not-counted",
                "check",
                f"{item.words.strip()!r} seems to hold nitrite or nitrate that is not counted as the line "
                "says. Give food: the code of the curing salt, from GET /v1/foods?query=curing salt.",
                item.pointer,
            )


def _pickle(part: DishPart, last: Treatment) -> Iterator[Notice]:
    """Boiling a pickle does not take its nitrite away."""
    if part.eaten_share > 0:
        yield safety_notice(
            "cure-pickle-eaten",
            "stop",
            f"{part.id!r} holds curing salt and is eaten. A pickle holds far more nitrite than food may, and "
            "boiling it does not help: pour it away (eaten_fraction 0).",
            last.pointer,
        )


def _mixed_in(part: DishPart) -> Iterator[Notice]:
    """A cure listed with what is eaten: right in a sausage, within its limit; a mistake without meat."""
    meat_g = sum(item.grams for item in part.raw_flesh if family_of(item.food_class or "") in _CURED_FAMILIES)
    if meat_g > _LEAST_MEAT_G:
        yield from _comminuted(part, meat_g)
    elif part.eaten_share > 0 or part.heats:
        (pointer, *_) = [item.pointer for item in part.items if item.nitrite_mg or item.nitrate_mg]
        yield safety_notice(
            "cure-without-meat",
            "stop",
            f"{part.id!r} holds curing salt, goes into what is eaten and has no raw meat in it to cure. "
            "Curing salt is poisonous in place of table salt, and pink curing salt is not pink mineral salt: "
            "take plain salt.",
            pointer,
        )


def _comminuted(part: DishPart, meat_g: float) -> Iterator[Notice]:
    """Mixed into meat: all of it counted on the green weight, by the class of the part's steps if any."""
    nitrite_g, nitrate_g = _agents_g(part)
    found = assess(
        nitrite_g=nitrite_g,
        nitrate_g=nitrate_g,
        meat_g=meat_g,
        pickle_g=meat_g,
        usual_class="comminuted",
        scheme=next((each.scheme for each in part.treatments), "us"),
    )
    # Their places are those of a curing step, which there is none of here.
    yield from (Notice(each.code, each.severity, each.message, part.pointer) for each in found.notices)


def _agents_g(part: DishPart) -> tuple[float, float]:
    nitrite_mg = sum(item.nitrite_mg for item in part.items)
    nitrate_mg = sum(item.nitrate_mg for item in part.items)
    return nitrite_mg / 1000, nitrate_mg / 1000


def _air_without_cure(part: DishPart, dish: Dish) -> Iterator[Notice]:
    """Flesh that hangs in a cold smoke, or to dry, for hours, and holds neither nitrite nor nitrate."""
    hung = [each for each in part.treatments if each.is_warm_air]
    hours = sum(each.duration_h or 0.0 for each in hung)
    sources = [part, *_cures(part, dish)]
    if not part.raw_flesh or hours <= limit("short") or any(map(_holds_cure, sources)):
        return
    yield safety_notice(
        "hung-without-cure",
        "check",
        f"{part.id!r} hangs {shown(hours)} h warmer than a refrigerator and holds neither nitrite nor "
        "nitrate. Cold smoke and slow drying leave time for botulism and other bacteria to grow: a cure, "
        "salt enough and a tested process come first.",
        hung[-1].pointer,
    )


def _holds_cure(part: DishPart) -> bool:
    return any(item.nitrite_mg or item.nitrate_mg for item in part.items)


def _cures(part: DishPart, dish: Dish) -> list[DishPart]:
    """The pickles and dry cures that a part lay in."""
    return [
        dish.part(id)
        for each in part.treatments
        if each.kind in kinds_that("cures") and not each.as_bath
        for id in each.others
    ]


def _wrong_type(dish: Dish) -> Iterator[Notice]:
    """Nitrate is for what cures and dries for weeks: not for food cooked within days, for bacon never."""
    for part in dish.parts:
        sources = [part, *_cures(part, dish)]
        nitrate = any(item.nitrate_mg for source in sources for item in source.items)
        hours = sum(each.duration_h or 0.0 for each in part.treatments if each.kind in kinds_that("ages"))
        if nitrate and part.heats and part.raw_flesh and hours < limit("nitrate_cure"):
            yield _type_notice(part, part.heats[-1])


def _type_notice(part: DishPart, cooked: Treatment) -> Notice:
    is_bacon = any("bacon" in (each.product_class or "") for each in part.treatments) or any(
        "bacon" in item.words.lower() or "belly" in item.words.lower() for item in part.items
    )
    is_fried = is_bacon and cooked.kind in {"fry", "roast"}
    return safety_notice(
        "cure-type-wrong",
        "stop" if is_fried else "check",
        f"The cure of {part.id!r} holds nitrate (type 2, or saltpetre) and the food is cooked within days. "
        "Nitrate is for products that cure and dry for a month or longer"
        + (
            "; in bacon none is allowed, since frying turns what is left into nitrosamines"
            if is_bacon
            else ""
        )
        + ". Take curing salt of type 1.",
        cooked.pointer,
    )
