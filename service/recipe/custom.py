"""The caller's own foods, as stated in a request."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import Any

from ..core.errors import Faults
from ..foods.dataset import Food, custom_food
from ..foods.food import Sugars
from ..nutrition.stated import stated_food


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
