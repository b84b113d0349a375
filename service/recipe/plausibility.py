"""Whether an answer can be: weights, sodium, and what 100 g of every eaten component hold; each with the
line that did it.

What cannot be gets a stop, what no finished food is like a check. A component is looked at as it stands
when the steps are done, before it is served.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from ..core.documents import figure
from ..core.notices import Notice, Severity
from ..core.numbers import shown, whole
from ..foods.food import Food
from ..foods.nutrients import NUTRIENTS, TAGS
from ..nutrition.food_limits import (
    LEAST,
    MIRRORED,
    OWN_ENERGY_WITHIN,
    Likeness,
    Limit,
    limit,
    nearest,
    own_energy_kcal,
)
from .outcome import Outcome, ResolvedIngredient
from .pool_rows import LEAD, NUTRIENT_ROWS, OTHERS, ROW, WEIGHT
from .pools import SALT_PER_SODIUM, TRACE
from .request import SHORT_FORM, RecipeRequest, eaten_share
from .state import CalculationState, Composition

MOST_OF_IT = 0.7
"""A component is of one kind of food where one group has this share of its weight."""

_NEEDED = ("WATER", "PROCNT", "FAT", "CHOCDF", "FIBTG", "SUGAR", *MIRRORED)

LOW_C = 95.0
"""Below so many °C stated, cooking takes days and not hours: limits of time are twice as long, and none
asks."""

_WHOLE = ("WATER", "PROCNT", "FAT", "CHOCDF", "ALC")
_STATED = ("NA", "ENERC", "FIBTG", *_WHOLE)

SEASONING_G = 40.0
"""A component that weighs less than this a serving may be pure seasoning: salt itself, a dip."""


def remember_finished(state: CalculationState) -> None:
    """Keep what every component holds now, in the likely case: called when the steps are done."""
    pools = state.pools
    for name in state.compositions:
        kept = np.zeros(len(ROW))
        kept[:LEAD] = pools.leading[name][:, 0]
        state.finished[name] = kept
    pools.ride_along(lambda: _others(state))


def _others(state: CalculationState) -> None:
    """The rows that ride along, when they are where the leading ones were."""
    for name, kept in state.finished.items():
        kept[OTHERS] = state.pools.trailing(name)


@dataclass(frozen=True, slots=True)
class Plausible:
    """What a look at an outcome gave: notices, and the mirror as answers have it."""

    notices: tuple[Notice, ...]
    mirror: list[dict[str, Any]]


def plausible(outcome: Outcome) -> Plausible:
    """What cannot be in an outcome, what is like no finished food, and what each component is most like."""
    eaten = list(_eaten_components(outcome))
    alike = list(_likenesses(outcome, eaten))
    stops = [
        *_heavy_lines(outcome),
        *_stated_foods(outcome),
        *_long_steps(outcome.request),
        *_serving(outcome),
    ]
    for component, per_100g in eaten:
        stops += _component(outcome, component, per_100g)
    if not any(notice.severity == "stop" for notice in stops):
        stops += [
            notice for component, found in alike for notice in _mirror_notice(outcome, component, found)
        ]
    return Plausible(tuple(stops), [_mirror_document(component, found) for component, found in alike])


def _heavy_lines(outcome: Outcome) -> Iterator[Notice]:
    most = _known("line", "weight")
    for each in outcome.listed:
        per_serving = each.grams * each.eaten_share / outcome.request.servings
        if most.verdict(per_serving) and each.component not in outcome.request.baths:
            message = (
                f"{each.name!r} was read as {whole(each.grams / 1000)} kg, "
                f"{shown(per_serving / 1000, decimals=1)} kg a serving, which "
                "cannot be. Look at its amount and unit, or at the number of servings, and give grams."
            )
            yield Notice("impossible-weight", "stop", message, each.pointer)


def _long_steps(request: RecipeRequest) -> Iterator[Notice]:
    for step in request.steps:
        found = limit("step", step.kind)
        hours = step.duration_h or 0.0
        is_low = step.temperature_c is not None and step.temperature_c < LOW_C
        verdict = found.verdict(hours / 2 if is_low else hours) if found else None
        if is_low and verdict == "check":
            continue
        if found and verdict:
            meant = (
                f" If {shown(hours)} minutes are meant, write {shown(hours / 60)}." if hours <= 600 else ""
            )
            most = shown((found.stop if verdict == "stop" else found.check) or 0.0)
            took = f"{shown(hours, 6)} hours of {step.kind}"
            message = f"Found {took}, more than the {most} that it takes at most.{meant}"
            code = "impossible-time" if verdict == "stop" else "long-time"
            yield Notice(code, verdict, message, f"{step.pointer}/duration_h")


def _serving(outcome: Outcome) -> Iterator[Notice]:
    sodium_mg = float(outcome.sodium_per_serving_mg[0])
    if _known("serving", "sodium").verdict(sodium_mg):
        source = _saltiest(outcome.listed)
        message = (
            f"A serving would hold {shown(sodium_mg / 1000, decimals=1)} g of sodium, which nobody can "
            f"eat{_blame(source)}. Look at its amount, at what is poured away, and at the number of servings."
        )
        yield Notice("impossible-sodium", "stop", message, source.pointer if source else "")


def _component(outcome: Outcome, component: str, per_100g: dict[str, float]) -> Iterator[Notice]:
    """What 100 g of a component hold against what food can be."""
    composition = outcome.state.compositions[component]
    salt_g = per_100g["NA"] * SALT_PER_SODIUM / 1000
    measures = (
        ("salt", salt_g, limit("component", "salt", composition.food_class)),
        ("water", per_100g["WATER"], limit("component", "water")),
        ("protein", per_100g["PROCNT"], limit("component", "protein")),
        ("energy", per_100g["ENERC"], limit("component", "energy")),
    )
    own = [each for each in outcome.listed if each.component == component]
    for name, amount, found in measures:
        if found and found.verdict(amount) and not (name == "salt" and _is_seasoning(outcome, component)):
            culprit = _saltiest(outcome.listed) if name == "salt" else _heaviest(own)
            message = (
                f"100 g of {_named(component)} as eaten would hold {shown(amount)} {found.unit} of {name}, "
                f"more or less than such "
                f"food can{_blame(culprit)}. Look at that line, and at the steps that it goes through."
            )
            yield Notice("impossible-food", "stop", message, culprit.pointer if culprit else "")


def _stated_foods(outcome: Outcome) -> Iterator[Notice]:
    """What callers state of 100 g of a food, by packet or as a food of their own, against what food can
    be."""
    for each in outcome.listed:
        food = each.ingredient.food
        if food is None or each.ingredient.portion is not None:
            continue
        if each.ingredient.packet or food.sugars is not None:
            known = {tag: amount for tag in _STATED if (amount := food.per_100g(tag)) is not None}
            yield from (Notice(*told, each.pointer) for told in _impossible(each.name, known))


def _impossible(name: str, known: Mapping[str, float]) -> Iterator[tuple[str, Severity, str]]:
    """Code, severity and message of what is wrong with 100 g of a food as stated."""
    parts_g = sum(known.get(tag, 0.0) for tag in _WHOLE)
    for key, amount, what in (
        ("NA", known.get("NA", 0.0), "mg of sodium"),
        ("ENERC", known.get("ENERC", 0.0), "kcal"),
        ("whole", parts_g, "g of water, protein, fat, carbohydrate and alcohol together"),
    ):
        if _known("packet", key).verdict(amount):
            message = (
                f"100 g of {name!r} cannot hold {shown(amount, 4, grouped=True)} {what}. Look at the "
                "packet's units and serving."
            )
            yield "impossible-food", "stop", message
    if all(tag in known for tag in ("ENERC", "PROCNT", "FAT", "CHOCDF")):
        kcal, own = known["ENERC"], own_energy_kcal({"FIBTG": 0.0, "ALC": 0.0} | dict(known))
        if abs(kcal - own) > max(OWN_ENERGY_WITHIN * max(kcal, own), LEAST["ENERC"]):
            message = (
                f"100 g of {name!r} hold {whole(kcal)} kcal as stated, but their protein, fat, carbohydrate "
                f"and alcohol come to {whole(own)} kcal. Look at the packet, and whether it is this food."
            )
            yield "energy-differs", "check", message


def _is_seasoning(outcome: Outcome, component: str) -> bool:
    weight_g = float(outcome.state.finished[component][WEIGHT])
    return weight_g / outcome.request.servings < SEASONING_G


def _eaten_components(outcome: Outcome) -> Iterator[tuple[str, dict[str, float]]]:
    """Every component that is eaten in part and weighs something, and what 100 g of it hold, by tag."""
    outcome.state.pools.catch_up()
    liquids = _whole_liquids(outcome)
    for component in outcome.request.components:
        kept = outcome.state.finished[component.id]
        if component.id in liquids:
            continue
        if kept[WEIGHT] > 1.0 and eaten_share(component, outcome.request) > 0:
            yield component.id, _per_100g(kept)


def _whole_liquids(outcome: Outcome) -> set[str]:
    """Components that are nothing but a liquid that no step uses."""
    keys = {key for liquid in outcome.liquids for key in liquid.keys}
    return {each.component for each in outcome.liquids} - {
        each.component for each in outcome.listed if each.key not in keys
    }


def _per_100g(kept: NDArray[np.float64]) -> dict[str, float]:
    return dict(zip(TAGS, (kept[NUTRIENT_ROWS] * 100 / kept[WEIGHT]).tolist(), strict=True))


def _mirror_document(component: str, found: Likeness) -> dict[str, Any]:
    """An eaten component beside the finished food of the dataset that is nearest to it by its make."""
    ratio = {tag: None if (times := found.ratio[tag]) is None else figure(times, 4) for tag in MIRRORED}
    return {"component": component, "food": {"code": found.code, "name": found.name}, "ratio": ratio}


def _likenesses(
    outcome: Outcome, eaten: Iterable[tuple[str, dict[str, float]]]
) -> Iterator[tuple[str, Likeness]]:
    for component, per_100g in eaten:
        if _is_known(outcome, component):
            yield component, nearest(per_100g, _group(outcome.state.compositions[component]))


def _is_known(outcome: Outcome, component: str) -> bool:
    """Whether every figure that the mirror needs is known of all that is in a component."""
    foods = outcome.state.compositions[component].foods
    return bool(foods) and all(_tells_needed(food) for food, _ in foods)


@lru_cache(maxsize=4096)
def _tells_needed(food: Food) -> bool:
    return all(food.per_100g(tag) is not None for tag in _NEEDED)


def _group(composition: Composition) -> str | None:
    """The food group that makes most of a component, two figures; None where none does."""
    weights: dict[str, float] = defaultdict(float)
    for food, grams in composition.foods:
        weights[food.group_code[:2]] += grams
    group = max(weights, key=lambda each: weights[each])
    return group if weights[group] >= MOST_OF_IT * sum(weights.values()) else None


def _mirror_notice(outcome: Outcome, component: str, found: Likeness) -> Iterator[Notice]:
    far = found.far_off()
    own = [each for each in outcome.listed if each.component == component]
    if any(each.ingredient.food is not None and each.ingredient.grams is None for each in own):
        return  # what is usual of a line without a weight stands against the weight of the others
    if "NA" in far or (far and _part_of_dish(outcome, component) >= (_known("mirror", "part").low or 0.0)):
        names = {nutrient.tag: nutrient.name for nutrient in NUTRIENTS}
        told = "; ".join(f"{names[tag]} {shown(found.ratio[tag] or 0.0, 2)} times" for tag in far)
        culprit = _saltiest(own) if "NA" in far else _heaviest(own)
        message = (
            f"What is made of {_named(component)} is like no finished food: against the nearest, "
            f"{found.name} ({found.code}), it holds "
            f"{told} as much{_blame(culprit)}. Look whether its lines and steps are right."
        )
        yield Notice("unlike-any-food", "check", message, culprit.pointer if culprit else "")


def _part_of_dish(outcome: Outcome, component: str) -> float:
    """The share (0 to 1) of what is eaten that a component weighs when the steps are done."""
    weights = {name: float(outcome.state.finished[name][WEIGHT]) for name in outcome.state.served}
    return weights.get(component, 0.0) / max(sum(weights.values()), TRACE)


def _named(component: str) -> str:
    return "the dish" if component == SHORT_FORM else repr(component)


def _saltiest(listed: Sequence[ResolvedIngredient]) -> ResolvedIngredient | None:
    """The line that lists the most sodium."""
    salty = max(listed, key=lambda each: each.sodium_mg or 0.0, default=None)
    return salty if salty is not None and salty.sodium_mg else None


def _heaviest(listed: Sequence[ResolvedIngredient]) -> ResolvedIngredient | None:
    return max(listed, key=lambda each: each.grams, default=None)


def _blame(culprit: ResolvedIngredient | None) -> str:
    return f"; most of it by {culprit.name!r}" if culprit else ""


def _known(subject: str, key: str) -> Limit:
    found = limit(subject, key)
    if found is None:
        raise KeyError(f"{subject} {key}")
    return found
