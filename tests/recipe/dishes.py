"""Small recipes by food code and grams, so that tests of the engine do not hang on how lines are read."""

from __future__ import annotations

from typing import Any

import numpy as np
from saltledger.foods.dataset import bundled
from saltledger.recipe.calculation import calculate, cook
from saltledger.recipe.outcome import Outcome
from saltledger.recipe.pool_rows import SODIUM
from saltledger.recipe.request import RecipeRequest

SALT, CURING_SALT, SUGAR, WATER = "02047", "SL0001", "19335", "14429"
PORK, CHICKEN, SALT_COD, CHEESE = "10060", "05062", "15018", "01009"
CARROTS, SPINACH, POTATOES, PASTA, CANNED_BEANS = "11124", "11457", "11352", "20120", "16034"
OIL, FLOUR, WINE, SOY_SAUCE, PEANUT_BUTTER, PINK_SALMON = "04582", "20081", "14096", "16123", "16098", "15083"


def item(food: str, grams: float, **more: Any) -> dict[str, Any]:
    return {"food": food, "grams": grams, **more}


def part(id: str, *ingredients: Any, **more: Any) -> dict[str, Any]:
    return {"id": id, "ingredients": list(ingredients), **more}


def step(kind: str, food: str | list[str], bath: str | None = None, **measures: Any) -> dict[str, Any]:
    return {"kind": kind, "food": food, **({"bath": bath} if bath else {}), **measures}


def recipe(parts: list[dict[str, Any]], steps: list[dict[str, Any]], **more: Any) -> dict[str, Any]:
    return {"servings": 1, "components": parts, "steps": steps, **more}


def brined(
    kind: str = "brine", *, loin_g: float = 1000, salt_g: float = 120, **measures: Any
) -> dict[str, Any]:
    """A pork loin in two litres of brine, four days cold and 5 cm thick unless `measures` say otherwise."""
    usual: dict[str, Any] = {"duration_h": 96, "thickness_cm": 5, "temperature_c": 3}
    stated = {key: value for key, value in (usual | measures).items() if value is not None}
    return recipe(
        [part("loin", item(PORK, loin_g)), part("brine", item(WATER, 2000), item(SALT, salt_g))],
        [step(kind, "loin", "brine", **stated)],
    )


def cooked(document: dict[str, Any]) -> Outcome:
    return cook(RecipeRequest.from_document(document), bundled())


def answered(document: dict[str, Any], scheme: str | None = None) -> dict[str, Any]:
    return calculate(RecipeRequest.from_document(document), bundled(), scheme=scheme)


def likely(document: dict[str, Any], place: str = "eaten", row: int = SODIUM) -> float:
    """What ends in a place, in the likely case: mg of sodium, or another row of the kitchen's pools."""
    return float(cooked(document).state.pools.amounts[place][row, 0])


def sodium_mg(code: str, grams: float) -> float:
    """Sodium of a food as listed."""
    return float(np.nan_to_num(bundled().get(code).per_100g("NA") or 0.0)) * grams / 100


def source_of(document: dict[str, Any], ending: str) -> str:
    """The source of the assumption whose id ends so."""
    (found,) = [a["source"] for a in answered(document)["assumptions"] if a["id"].endswith(ending)]
    return str(found)


def codes(answer: dict[str, Any]) -> dict[str, str]:
    """Severity by code of every notice."""
    return {notice["code"]: notice["severity"] for notice in answer["notices"]}
