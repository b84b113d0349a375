"""Eggs: raw, runny, pasteurised or cooked through. Speaks only of dishes that keep them raw or cool.

A list of ingredients without steps may be a cake: nothing is said of it unless its name is that of a dish
with raw or runny eggs.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..core.notices import Notice, safety_notice
from ..core.numbers import shown
from .dish import Dish, DishPart, Item, Treatment, is_about
from .safety_limits import ROUNDED_C, SafeTemperature, hold, safe_temperature

_TABLE = "egg"
_IN_WATER = frozenset({"boil", "simmer", "steam"})


def egg_notices(part: DishPart, dish: Dish) -> Iterator[Notice]:
    """What is to be said of the eggs in a part of a dish; nothing where they are cooked or pasteurised."""
    eggs = [item for item in part.about("raw_egg") if not item.was_cooked]
    if not eggs or part.eaten_share <= 0 or any(item.is_said_to_be("pasteurised") for item in eggs):
        return
    heats = part.heats
    if not heats:
        if _is_said_raw(part, dish, eggs):
            yield _notice(
                "raw-eggs-eaten",
                "The eggs in this dish stay raw or runny.",
                eggs[0].pointer,
            )
        return
    last = max(heats, key=_warmth)
    if last.core_c is not None:
        yield from _by_warmth(last, last.core_c, None)
    elif _is_in_shells(part, last) and last.centre is not None:
        if last.centre.held(_TABLE).likely < 1:
            message = f"By their size and time the yolks come to {last.centre.words}: they stay runny."
            yield _notice("eggs-runny", message, f"{last.pointer}/duration_h")
    elif last.temperature_c is not None and not _is_warm(last.temperature_c):
        yield from _by_warmth(last, last.temperature_c, last.duration_h)
    elif last.duration_h is None and _is_said_raw(part, dish, eggs):
        yield _notice("eggs-runny", "By the name of the dish the eggs stay runny.", eggs[0].pointer)


def _by_warmth(step: Treatment, celsius: float, hours: float | None) -> Iterator[Notice]:
    """A dish of eggs at a temperature, for so long; None: for a moment."""
    if _is_warm(celsius):
        return
    asked = hold(_TABLE, celsius)
    if asked is None:
        message = (
            f"At {shown(celsius)} °C eggs are not cooked through, and no published time makes up for it."
        )
    elif hours is not None and hours * 60 >= asked.minutes:
        return
    else:
        message = (
            f"At {shown(celsius)} °C a dish of eggs is to be held {asked.words} inside ({asked.source})."
        )
    field = "core_temperature_c" if step.core_c is not None else "temperature_c"
    yield _notice("eggs-undercooked", message, f"{step.pointer}/{field}")


def _warmth(step: Treatment) -> float:
    if step.core_c is not None:
        return step.core_c
    return 100.0 if step.temperature_c is None else step.temperature_c


def _needed() -> SafeTemperature:
    found = safe_temperature("egg", "dish")
    assert found is not None
    return found


def _is_warm(celsius: float) -> bool:
    return celsius >= _needed().temperature_c - ROUNDED_C


def _is_in_shells(part: DishPart, step: Treatment) -> bool:
    """Whether eggs alone, salt aside, stand in a pot or in steam."""
    whole = sum(item.grams for item in part.items)
    own = sum(item.grams for item in part.about("raw_egg"))
    return step.kind in _IN_WATER and own >= 0.9 * whole


def _is_said_raw(part: DishPart, dish: Dish, eggs: Sequence[Item]) -> bool:
    said = " ".join((dish.title, part.id, *(item.said for item in eggs)))
    return is_about("raw_egg_dish", "", said.replace("-", " "))


def _notice(code: str, message: str, pointer: str) -> Notice:
    needed = _needed()
    return safety_notice(
        code,
        "check",
        f"{message} Raw and runny eggs can carry Salmonella: take pasteurised eggs, or heat the dish to "
        f"{needed.words} inside ({needed.source}). Small children, the old, the pregnant and the ill are "
        "given pasteurised or cooked eggs alone (FDA Food Code 3-801.11).",
        pointer,
    )
