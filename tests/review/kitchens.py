"""Answers small enough to follow by hand: a brined loin, poached with potatoes, the brine poured away."""

from __future__ import annotations

from typing import Any


def ingredient(
    component: str, line: str, sodium_mg: float | None, code: str = "", **more: Any
) -> dict[str, Any]:
    food = {"code": code, "name": f"food {code}"} if code else None
    return {"component": component, "line": line, "sodium_mg": sodium_mg, "food": food, **more}


def movement(source: str, target: str, step: int | None, mg: float) -> dict[str, Any]:
    return {"from": source, "to": target, "step": step, "mg": mg, "low": mg, "high": mg}


def answer(ingredients: list[Any], ledger: list[Any], servings: float = 4) -> dict[str, Any]:
    eaten = sum(each["mg"] for each in ledger if each["to"] == "eaten")
    return {
        "servings": servings,
        "ingredients": ingredients,
        "sodium": {"ledger": ledger, "per_serving_mg": {"likely": eaten / servings}},
    }


def loin(salt_mg: float = 10_000, into_loin: float = 2_000, servings: float = 4) -> dict[str, Any]:
    """Salt into the brine, part of it into the loin, a quarter of that out into the pot with the potatoes."""
    held = into_loin + 400
    into_pot = held / 4
    return answer(
        [
            ingredient("loin", "1 kg pork loin", 400, "10000"),
            ingredient("brine", "2 l water", 0, "14411"),
            ingredient("brine", "salt", salt_mg, "02047"),
            ingredient("pot", "500 g potatoes", 0, "11352"),
        ],
        [
            movement("brine", "loin", 0, into_loin),
            movement("loin", "pot", 1, into_pot),
            movement("loin", "eaten", None, held - into_pot),
            movement("brine", "poured_away", None, salt_mg - into_loin),
            movement("pot", "eaten", None, into_pot / 2),
            movement("pot", "poured_away", None, into_pot / 2),
        ],
        servings,
    )
