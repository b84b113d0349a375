"""Foods as a request states them: its own, and those whose packet speaks in place of the dataset.

Where no food of the dataset fits, the packet alone is the food, and what it does not say is not known.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import Any

import numpy as np

from ..core.errors import Faults
from ..core.notices import STATED
from ..foods.food import Food, Sugars
from ..foods.hand_kept import custom_food
from ..foods.matching.matcher import Match
from ..foods.nutrients import INDEX
from ..nutrition.stated import StatedFood, stated_food

CODE = "packet"
"""Code of a food that only its packet tells."""


def with_packet(found: Match, packet: StatedFood, line: str) -> Match:
    """The match with the packet's figures; sure where the packet is all there is."""
    if found.food is None:
        food, confidence = custom_food(CODE, line[:80] or CODE, packet.per_100g), 1.0
    else:
        food, confidence = _overlaid(found.food, packet), found.confidence
    sugars = Sugars(packet.added_sugars_g) if _tells_sugars(food, packet) else food.sugars
    return replace(found, food=replace(food, sugars=sugars), confidence=confidence, why=STATED)


def _tells_sugars(food: Food, packet: StatedFood) -> bool:
    return "SUGAR" in packet.per_100g or packet.added_sugars_g is not None or food.code == CODE


def _overlaid(food: Food, packet: StatedFood) -> Food:
    values = np.array(food.values)
    for tag, amount in packet.per_100g.items():
        values[INDEX[tag]] = amount
    values.setflags(write=False)
    made = replace(food, values=values, source=f"packet, {STATED}; the rest: {food.source}")
    if "ENERC" not in packet.per_100g:
        return made
    return replace(made, protein_kcal_g=None, fat_kcal_g=None, carbohydrate_kcal_g=None)


def custom_foods(stated: Iterable[Mapping[str, Any]]) -> tuple[Food, ...]:
    """Foods of the request's `custom_foods`. Raises InvalidRequest, pointing at each that cannot stand."""
    made: dict[str, Food] = {}
    faults = Faults()
    for i, each in enumerate(stated):
        pointer = f"/custom_foods/{i}"
        if each["code"] in made:
            faults.add(f"{pointer}/code", f"The code {each['code']!r} is used twice; codes are unique.")
        with faults.below(pointer):
            told = stated_food(each["per_100g"], pointer="/per_100g")
            food = custom_food(each["code"], each["name"], told.per_100g, each.get("household", ()))
            made[each["code"]] = replace(food, sugars=Sugars(told.added_sugars_g))
    faults.refuse()
    return tuple(made.values())
