"""Recipes of four and of twelve steps and a bath alone, each counted once by `instructions.counts_of`."""

from __future__ import annotations

import gc
from collections.abc import Callable
from functools import partial
from typing import Any

import numpy as np
from saltledger.core.spread import DRAWS
from saltledger.foods.dataset import bundled
from saltledger.gate.reading import load
from saltledger.http.schemas.bath import BathSchema
from saltledger.recipe.calculation import calculate, laid_out, read_all
from saltledger.recipe.request import RecipeRequest
from saltledger.recipe.single_bath import bath_answer
from saltledger.recipe.state import CalculationState
from saltledger.recipe.steps.dispatch import do
from saltledger.transfer.bath_requests import BathRequest

from .instructions import begin, counted

FOUR_STEPS: dict[str, Any] = {
    "title": "Poached loin with its roots",
    "servings": 8,
    "components": [
        {"id": "loin", "ingredients": ["1.4 kg pork loin"]},
        {"id": "brine", "ingredients": ["3 l water", "150 g salt", "40 g sugar"]},
        {"id": "pot", "ingredients": ["4 l water", "1 onion", "2 bay leaves"]},
        {"id": "roots", "ingredients": ["800 g carrots", "600 g potatoes"]},
        {"id": "water", "ingredients": ["3 l water"]},
        {"id": "coat", "ingredients": ["60 g flour", "1/2 tsp salt"]},
    ],
    "steps": [
        {"kind": "brine", "food": "loin", "bath": "brine", "duration_h": 72, "thickness_cm": 7},
        {"kind": "simmer", "food": "loin", "bath": "pot", "duration_h": 2},
        {"kind": "boil", "food": "roots", "bath": "pot", "duration_h": 0.4},
        {"kind": "roast", "food": "loin", "duration_h": 0.5, "temperature_c": 200},
    ],
}  # fmt: skip

TWELVE_STEPS: dict[str, Any] = FOUR_STEPS | {
    "steps": [
        {"kind": "brine", "food": "loin", "bath": "brine", "duration_h": 36, "thickness_cm": 7},
        {"kind": "brine", "food": "loin", "bath": "brine", "duration_h": 36, "thickness_cm": 7},
        {"kind": "rinse", "food": "loin", "duration_h": 0.05},
        {"kind": "soak", "food": "loin", "bath": "water", "duration_h": 2, "thickness_cm": 7},
        {"kind": "rest", "food": "loin", "duration_h": 12, "thickness_cm": 7},
        {"kind": "simmer", "food": "loin", "bath": "pot", "duration_h": 1},
        {"kind": "simmer", "food": "loin", "bath": "pot", "duration_h": 1},
        {"kind": "boil", "food": "roots", "bath": "pot", "duration_h": 0.4},
        {"kind": "drain", "food": "roots"},
        {"kind": "dredge", "food": "loin", "bath": "coat"},
        {"kind": "roast", "food": "loin", "duration_h": 0.5, "temperature_c": 200},
        {"kind": "rest", "food": "loin", "duration_h": 0.2, "thickness_cm": 7},
    ]
}  # fmt: skip

BATH: dict[str, Any] = {
    "food": {"class": "pork", "weight_g": 1400, "shape": "sheet", "thickness_cm": 6, "water_fraction": 0.7},
    "bath": {"water_g": 3000, "salt_g": 150, "nitrite_g": 0.6, "sugar_g": 40},
    "temperature_c": 3,
    "duration_h": 72,
    "product_class": "immersion_cured",
}

SALT_FOUR, SALT_TWELVE = "salt part, four steps", "salt part, twelve steps"
WHOLE_FOUR, WHOLE_TWELVE = "whole recipe, four steps", "whole recipe, twelve steps"
ALONE, ADDITIONS = "a bath alone", "1,000 additions of 201 draws"
NAMES = (SALT_FOUR, WHOLE_FOUR, SALT_TWELVE, WHOLE_TWELVE, ALONE, ADDITIONS)


_WARM = 2


def all_steps(request: RecipeRequest, state: CalculationState) -> None:
    for step in request.steps:
        do(step, state)


def additions() -> None:
    draws = np.ones(DRAWS + 1)
    for _ in range(1000):
        draws + draws


def bath() -> BathRequest:
    return BathRequest.from_document(load(BathSchema(), BATH))


def cases() -> dict[str, Callable[[], object]]:
    """A call by each of NAMES; the salt part can be asked for as often as a kitchen is filled for it here."""
    foods, asked = bundled(), bath()
    made: dict[str, Callable[[], object]] = {ADDITIONS: additions, ALONE: lambda: bath_answer(asked)}
    for salt, whole, document in (
        (SALT_FOUR, WHOLE_FOUR, FOUR_STEPS),
        (SALT_TWELVE, WHOLE_TWELVE, TWELVE_STEPS),
    ):
        request = RecipeRequest.from_document(document)
        listed = read_all(request, foods)
        filled = [laid_out(request, listed) for _ in range(_WARM + 1)]
        made[salt] = lambda request=request, filled=filled: all_steps(request, filled.pop())
        made[whole] = partial(calculate, request, foods)
    return made


def main() -> None:
    """Count each case once, in the order of NAMES, after what is made at first sight is made."""
    made = cases()
    for name in NAMES:
        for _ in range(_WARM):
            made[name]()
    gc.collect()
    gc.freeze()
    begin()
    for name in NAMES:
        counted(made[name])


if __name__ == "__main__":
    main()
