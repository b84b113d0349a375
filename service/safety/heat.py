"""Hot enough, for long enough: meat, poultry and fish by all the steps that heat them, taken together.

A step knows the temperature of the pot or oven, not of the food inside: the notices say what to measure. One
hot step cooks what a cool one before it left raw; a short fry only browns it.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from ..core.notices import Notice, Severity, safety_notice
from ..core.numbers import shown
from .centre import WET, CentreCourse
from .dish import DishPart, Item, Treatment
from .safety_limits import ROUNDED_C, Hold, SafeTemperature, family_of, hold, limit, safe_temperature


@dataclass(frozen=True, slots=True)
class Flesh:
    """A kind of raw flesh in a part. form: whole, ground or pierced. table: of times to hold, or None."""

    family: str
    form: str
    table: str | None

    @property
    def needed(self) -> SafeTemperature:
        """What it is to reach inside; what is injected or tenderised counts as ground."""
        ground = safe_temperature(self.family, "ground") if self.form != "whole" else None
        found = ground or safe_temperature(self.family, "whole")
        assert found is not None
        return found

    @property
    def words(self) -> str:
        form = {"whole": "in whole pieces", "ground": "ground", "pierced": "injected or tenderised"}
        return f"{self.family} {form[self.form]}"


def heat_notices(part: DishPart) -> Iterator[Notice]:
    """What is to be said of the heat that a part gets; nothing where no step heats it."""
    heats = part.heats
    if not heats:
        return
    for flesh in dict.fromkeys(flesh_of(item, part) for item in part.raw_flesh):
        measured = max((each for each in heats if each.core_c is not None), key=_core_c, default=None)
        if measured is not None:
            yield from _by_core(flesh, measured, is_seared=any(_is_sear(each) for each in heats))
            continue
        yield _cook_through(flesh, heats[0])
        yield from _verdict(flesh, heats)
    if part.raw_flesh:
        yield from _warming_up(heats)


def flesh_of(item: Item, part: DishPart) -> Flesh:
    """Kind, form and table of a raw piece, by its words and by what is pumped into it."""
    family = family_of(item.food_class or "")
    is_pumped = any(each.kind == "inject" and not each.as_bath for each in part.treatments)
    if item.is_about("ground"):
        form = "ground"
    else:
        form = "pierced" if is_pumped or item.is_about("pierced") else "whole"
    return Flesh(family, form, _table(family, form, item))


def _table(family: str, form: str, item: Item) -> str | None:
    if family == "poultry":
        is_lean = item.fat_percent is not None and item.fat_percent <= limit("lean_poultry_fat")
        bird = next((bird for bird in ("turkey", "chicken") if item.is_about(bird)), None)
        return f"{bird}_lean" if bird and is_lean and form != "ground" else "poultry"
    return ("whole" if form == "whole" else "pierced") if family in {"beef", "pork"} else None


def _cook_through(flesh: Flesh, first: Treatment) -> Notice:
    ground = safe_temperature(flesh.family, "ground")
    other = f"; ground, injected or tenderised {ground.words}" if ground and flesh.form == "whole" else ""
    return _notice(
        "cook-through",
        "info",
        f"Measure inside the thickest part: {flesh.words} {flesh.needed.words}{other} "
        f"({flesh.needed.source}).",
        first,
    )


def _core_c(step: Treatment) -> float:
    return -273.15 if step.core_c is None else step.core_c


def _by_core(flesh: Flesh, step: Treatment, *, is_seared: bool) -> Iterator[Notice]:
    """What a measured core says; nothing where it is warm enough at once."""
    core_c = _core_c(step)
    if core_c >= flesh.needed.temperature_c - ROUNDED_C:
        return
    inside = replace(step, temperature_c=core_c)
    asked = _hold(flesh, inside)
    if asked is None:
        yield _too_cool(flesh, inside, is_seared=is_seared, where="Measured inside at")
        return
    yield _notice(
        "core-to-be-held",
        "check",
        f"At {shown(core_c)} °C inside, {flesh.words} is to be held there {asked.words} ({asked.source}). "
        "Make sure that it was.",
        step,
        "core_temperature_c",
    )


def _by_centre(flesh: Flesh, step: Treatment) -> Iterator[Notice]:
    """What can be worked out of the centre where the surroundings are hot enough; quiet where it may do."""
    if step.centre is None:
        return
    slow, likely, fast = _enough(flesh, step.centre)
    is_certain = step.centre.is_sized and step.kind in WET
    if slow or likely or (fast and not is_certain):
        return
    yield _notice(
        "core-not-reached",
        "stop" if is_certain and not fast else "check",
        f"By its size and time the centre comes to {step.centre.words}: not to {flesh.needed.words} "
        f"({flesh.needed.source}). Check duration_h and thickness_cm, and measure inside.",
        step,
        "duration_h",
    )


def _enough(flesh: Flesh, centre: CentreCourse) -> tuple[bool, bool, bool]:
    """Whether the heat does, at the slow, the likely and the fast end."""
    most, needed = centre.most_c, flesh.needed.temperature_c - ROUNDED_C
    at_once = (most.low >= needed, most.likely >= needed, most.high >= needed)
    if flesh.table is None:
        return at_once
    held = centre.held(flesh.table)
    by_time = (held.low >= 1, held.likely >= 1, held.high >= 1)
    slow, likely, fast = (a or b for a, b in zip(at_once, by_time, strict=True))
    return slow, likely, fast


def _verdict(flesh: Flesh, heats: Sequence[Treatment]) -> Iterator[Notice]:
    """Nothing where a step is hot enough by itself; else what the cooler ones come to."""
    hot = [each for each in heats if _is_hot(each, flesh)]
    cool = [each for each in heats if each not in hot]
    cooking = [each for each in hot if not _is_sear(each)]
    if cooking:
        yield from _by_centre(flesh, cooking[-1])
    if not cool or cooking:
        return
    longest = max(cool, key=lambda each: (_held_share(flesh, each), each.temperature_c or 0.0))
    asked = _hold(flesh, longest)
    if asked is None:
        yield _too_cool(flesh, longest, is_seared=bool(hot))
    elif longest.duration_h is None:
        yield _notice(
            "cooking-time-not-stated",
            "check",
            f"At {longest.warmth} {flesh.words} is to be held {asked.words} once the centre "
            f"is there ({asked.source}). State duration_h, and measure.",
            longest,
        )
    else:
        yield _by_time(flesh, longest, asked)


def _by_time(flesh: Flesh, step: Treatment, asked: Hold) -> Notice:
    asks = f"{flesh.words} is to be held {asked.words} once its centre is there"
    held = f"At {step.warmth} {asks}"
    if step.duration_h is not None and step.duration_h * 60 < asked.minutes:
        message = f"{held} ({asked.source}); the step is shorter."
        return _notice("cooked-too-short", "stop", message, step)
    if step.centre is not None and step.centre.is_sized:
        slow, _, fast = _enough(flesh, step.centre)
        if slow or not fast:
            so_far = f"By its size and time the centre comes to {step.centre.words}"
            verdict = "long enough, even at the slow end" if slow else "too short, even at the fast end"
            message = f"{held} ({asked.source}). {so_far}: {verdict}. Measure."
            if slow:
                return _notice("cooked-by-time", "info", message, step)
            return _notice("cooked-too-short", "stop", message, step)
    return _notice(
        "cooked-by-time",
        "check",
        f"{held} ({asked.source}). The time to warm through comes on top, which the step must have room for: "
        "measure.",
        step,
    )


def _too_cool(flesh: Flesh, step: Treatment, *, is_seared: bool, where: str = "At") -> Notice:
    if flesh.family == "fish":
        return _notice(
            "fish-undercooked",
            "check",
            f"{where} {step.warmth} fish cannot come to {flesh.needed.words}: it is served undercooked, and "
            "is to be as fresh, and frozen against parasites, as fish that is eaten raw.",
            step,
        )
    if is_seared and flesh.family == "beef" and flesh.form == "whole":
        return _notice(
            "cooked-rare",
            "check",
            f"{where} {step.warmth} the inside stays raw. Only a whole piece of beef that "
            "nothing has pierced may be served so, browned on all sides, and never to people at risk (FDA "
            "Food Code 3-401.11(C)).",
            step,
        )
    return _notice(
        "cooked-too-cool",
        "stop",
        f"{where} {step.warmth} {flesh.words} cannot come to {flesh.needed.words}, "
        "and no time makes up for it.",
        step,
    )


def _warming_up(heats: Sequence[Treatment]) -> Iterator[Notice]:
    """Poisons that bacteria leave in food that is lukewarm for long, no later heat takes away."""
    lukewarm = [each for each in heats if _is_lukewarm(each)]
    hours = sum(each.duration_h or 0.0 for each in lukewarm)
    if hours > limit("come_up"):
        yield _notice(
            "lukewarm-too-long",
            "stop",
            f"The food stands {shown(hours)} h between {shown(limit('growth_from'))} and "
            f"{shown(limit('growth_to'))} °C, where "
            f"bacteria grow; {shown(limit('come_up'))} h is the most that the guideline allows while food "
            "heats (FSIS Cooking Guideline, 2021), and heat does not take away what they leave.",
            lukewarm[-1],
        )


def _is_lukewarm(step: Treatment) -> bool:
    warmth = step.temperature_c
    return warmth is not None and limit("growth_from") < warmth < limit("growth_to") - ROUNDED_C


def _is_hot(step: Treatment, flesh: Flesh) -> bool:
    """Whether a step can bring the food to its temperature; one that states none is ordinary cooking."""
    return step.temperature_c is None or step.temperature_c >= flesh.needed.temperature_c - ROUNDED_C


def _is_sear(step: Treatment) -> bool:
    return step.kind == "fry" and step.duration_h is not None and step.duration_h <= limit("sear")


def _hold(flesh: Flesh, step: Treatment) -> Hold | None:
    if flesh.table is None or step.temperature_c is None:
        return None
    return hold(flesh.table, step.temperature_c)


def _held_share(flesh: Flesh, step: Treatment) -> float:
    """How much of the time to hold a step has: the one that comes nearest is judged. Below 0: too cool."""
    asked = _hold(flesh, step)
    if asked is None:
        return -1.0
    return (step.duration_h or 0.0) * 60 / max(asked.minutes, 1e-9)


def _notice(
    code: str, severity: Severity, message: str, step: Treatment, field: str = "temperature_c"
) -> Notice:
    return safety_notice(code, severity, message, f"{step.pointer}/{field}")
