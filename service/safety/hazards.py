"""Hazards besides cooking temperatures: raw fish, used marinades, garlic under oil, lye, kidney beans.

Each rule looks at one part of a dish and says nothing where nothing is wrong.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from ..core.notices import Notice, Severity, safety_notice
from ..core.numbers import shown, whole
from ..core.step_kinds import kinds_that
from .dish import Dish, DishPart, Treatment
from .eggs import egg_notices
from .heat import heat_notices
from .safety_limits import family_of, limit, limit_c

_UNDER_OIL = re.compile(
    r"\b(?:(?:garlic|herb|chill?i|basil|infused|flavou?red) oil|confit|(?:in|under) oil)\b"
)


def dish_notices(dish: Dish) -> Iterator[Notice]:
    """All that is to be said of a dish's safety, part by part."""
    for part in dish.parts:
        yield from heat_notices(part)
        yield from _eaten_raw(part)
        yield from _raw_marinade(part, dish)
        yield from _under_oil(part, dish.title)
        yield from _lye(part)
        yield from _lectin(part)
        yield from egg_notices(part, dish)


def _eaten_raw(part: DishPart) -> Iterator[Notice]:
    """Meat, poultry and fish that something is done to, but that nothing cooks."""
    own = [
        each
        for each in part.treatments
        if not each.as_bath and (each.is_heat or each.kind in kinds_that("keeps"))
    ]
    if not own or part.eaten_share <= 0 or any(_cooks(each) for each in part.treatments):
        return
    for family in dict.fromkeys(family_of(item.food_class or "") for item in part.raw_flesh):
        if family != "fish" and not part.heats:
            yield safety_notice(
                "eaten-raw",
                "check",
                f"No step cooks the {family} in {part.id!r}. If it is cooked later, add the step; if it is "
                "eaten so, curing or acid alone does not make it safe.",
                own[-1].pointer,
            )
    yield from _parasites(part, own[-1])


def _parasites(part: DishPart, last: Treatment) -> Iterator[Notice]:
    fish = [item for item in part.about("parasites") if item.is_raw_flesh]
    if not fish:
        return
    is_cared_for = all(item.is_said_to_be("frozen") or item.is_said_to_be("farmed") for item in fish)
    yield safety_notice(
        "parasites-in-raw-fish",
        "info" if is_cared_for else "check",
        "Fish that is eaten raw, cured, marinated or cold-smoked is first frozen against parasites: "
        f"{shown(limit('parasites_frozen') / 24)} days at {shown(limit('parasites_frozen_c'))} °C or below, "
        f"or {shown(limit('parasites_deep'))} h at {shown(limit('parasites_deep_c'))} °C once solid (FDA "
        "Food Code 3-402.11, which leaves out some tuna and fish farmed on pellets). Neither salt nor acid "
        "kills them.",
        last.pointer,
    )


def _raw_marinade(part: DishPart, dish: Dish) -> Iterator[Notice]:
    """A liquid in which raw flesh lay, and which is eaten without being heated."""
    used = [each for each in part.treatments if each.as_bath and each.kind in {"brine", "marinate", "soak"}]
    if not used or part.eaten_share <= 0:
        return
    last = used[-1]
    raw = [item for id in last.others for item in dish.part(id).raw_flesh]
    if not raw or any(_cooks(each) and each.index > last.index for each in part.treatments):
        return
    is_fish = all(family_of(item.food_class or "") == "fish" for item in raw)
    # Where nothing cooks the food either, steps are more likely left out than the marinade is eaten raw.
    is_open = not any(_cooks(each) for id in last.others for each in dish.part(id).treatments)
    yield safety_notice(
        "raw-marinade-eaten",
        "check" if is_fish or is_open else "stop",
        f"{part.id!r} held raw food and is eaten, and no step boils it. Throw it away, boil it before it is "
        "served, or keep some apart before the raw food goes in (USDA FSIS).",
        last.pointer,
    )


def _under_oil(part: DishPart, title: str) -> Iterator[Notice]:
    """Garlic, herbs and vegetables under oil, where botulism grows without air, acid or cold."""
    low_acid, grams = list(part.about("low_acid")), sum(item.grams for item in part.items)
    oil_g = sum(item.grams for item in part.about("oil"))
    if not low_acid or oil_g < limit("oil_share") * grams or oil_g <= 0 or any(part.about("acid")):
        return
    kept = [each for each in part.treatments if each.kind in kinds_that("waits")]
    severity = max((_kept_severity(each) for each in kept), default=0)
    says_so = _UNDER_OIL.search(" ".join([title, part.id, *(item.words for item in low_acid)]).lower())
    if severity or says_so:
        yield safety_notice(
            "low-acid-under-oil",
            ("check", "check", "stop")[severity],
            "Garlic, fresh herbs and vegetables under oil can grow botulism, which neither shows nor smells, "
            "and which heating the oil does not prevent. Make it fresh, keep it below "
            f"{shown(limit_c('cure'), decimals=1)} °C and use it within {shown(limit('oil_days'))} days, or "
            "freeze it.",
            kept[-1].pointer if kept else low_acid[0].pointer,
        )


def _kept_severity(step: Treatment) -> int:
    """0 where food may stand so, 1 where a person should look, 2 where it may not."""
    hours, warmth = step.duration_h or 0.0, step.temperature_c
    if hours <= limit("short"):
        return 0
    if warmth is None:
        return int(hours > 24)
    if limit_c("cold") < warmth < limit_c("hot"):
        return 2
    return int(hours > limit("oil_days") * 24 and warmth < limit_c("hot"))


def _lye(part: DishPart) -> Iterator[Notice]:
    for item in part.about("lye"):
        if part.eaten_share > 0:
            yield safety_notice(
                "lye-eaten",
                "stop",
                "Lye burns mouth and throat: it is a bath that food is dipped in and rinsed or baked after, "
                "never part of what is eaten. State eaten_fraction 0, or take another food.",
                item.pointer,
            )
        yield safety_notice(
            "lye-handling",
            "check",
            "Lye burns skin and eyes and eats aluminium. Food grade only, weighed; gloves and goggles; lye "
            "into cold water, never water onto lye; labelled, and out of the reach of children.",
            item.pointer,
        )


def _lectin(part: DishPart) -> Iterator[Notice]:
    """Kidney beans that nothing boils: their lectin makes ill from a few beans, and more so half warm."""
    beans = [item for item in part.about("lectin") if not item.was_cooked]
    if not beans or not part.treatments or part.eaten_share <= 0 or any(map(_boils, part.treatments)):
        return
    warm = [each for each in part.heats if each.temperature_c is not None or each.kind == "boil"]
    is_open = len(warm) < len(part.heats)
    yield _beans_notice("check" if is_open else "stop", (part.heats or part.treatments)[-1])


def _beans_notice(severity: Severity, step: Treatment) -> Notice:
    return safety_notice(
        "kidney-beans-not-boiled",
        severity,
        f"No step boils the kidney beans for {shown(limit('lectin_boil'))} min. Raw or half warm, as in a "
        "slow cooker, their lectin (phytohaemagglutinin) makes people ill from a few beans on. Soak them, "
        f"pour the water away, and boil them in fresh water: {shown(limit('lectin_boil'))} min destroys it, "
        f"{shown(limit('lectin_advised'))} min are advised (US FDA).",
        step.pointer,
    )


def _boils(step: Treatment) -> bool:
    """Whether a step boils long enough; a boil that states neither time nor temperature is taken to."""
    warmth = step.temperature_c
    is_boiling = step.kind == "boil" if warmth is None else step.kind in {"boil", "simmer", "steam"}
    is_hot = warmth is None or warmth >= limit("boiling")
    is_long = step.duration_h is None or step.duration_h * 60 >= limit("lectin_boil") - 1e-9
    return is_boiling and is_hot and is_long


def _cooks(step: Treatment) -> bool:
    """Whether a step heats food through or boils a liquid, as far as it says."""
    is_heat = step.is_heat or step.kind == "reduce"
    return is_heat and (step.temperature_c is None or step.temperature_c >= limit("growth_to") - 0.05)


def ferment_notices(
    salt_percent: float, temperature_c: float | None, pointer: str, *, is_flesh: bool
) -> Iterator[Notice]:
    """What is to be said of a lactic ferment. salt_percent: of food and brine together, by weight."""
    if salt_percent < limit("ferment_least_salt"):
        yield safety_notice(
            "ferment-weak-salt",
            "stop",
            f"The ferment holds {shown(salt_percent, decimals=1)} % salt. Under "
            f"{shown(limit('ferment_least_salt'))} % other bacteria grow before acid holds them back; "
            f"vegetables usually get {shown(limit('ferment_usual_salt'))} % or more of their weight.",
            pointer,
        )
    if temperature_c is not None and temperature_c > limit("ferment_warm_c"):
        yield safety_notice(
            "ferment-too-warm",
            "check",
            f"At {shown(temperature_c)} °C a ferment spoils easily: keep it below "
            f"{whole(limit('ferment_warm_c'))} °C.",
            f"{pointer}/temperature_c",
        )
    if temperature_c is not None and temperature_c < limit("ferment_cool_c"):
        yield safety_notice(
            "ferment-slow",
            "info",
            f"Below {whole(limit('ferment_cool_c'))} °C vegetables sour slowly, if at all.",
            f"{pointer}/temperature_c",
        )
    if is_flesh:
        yield safety_notice(
            "ferment-of-flesh",
            "check",
            "Fermented meat and fish need a tested process: salt, starter, acidity and temperature measured.",
            pointer,
        )
