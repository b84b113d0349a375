"""Answers small enough to follow by hand: a brined loin, poached with potatoes, the brine poured away."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from hypothesis import strategies as st


def ingredient(
    component: str, line: str, sodium_mg: float | None, code: str = "", **more: Any
) -> dict[str, Any]:
    food = {"code": code, "name": f"food {code}"} if code else None
    return {"component": component, "line": line, "sodium_mg": sodium_mg, "food": food, **more}


def movement(source: str, target: str, step: int | None, mg: float) -> dict[str, Any]:
    return {"from": source, "to": target, "step": step, "mg": mg, "low": mg, "high": mg}


def answer(ingredients: list[Any], ledger: list[Any], servings: float = 4) -> dict[str, Any]:
    """An answer whose origins follow from its ledger, every component well mixed."""
    eaten = sum(each["mg"] for each in ledger if each["to"] == "eaten")
    ended = _ended(ingredients, ledger)
    eaten_by_line = ended.get("eaten", [0.0] * len(ingredients))
    return {
        "servings": servings,
        "ingredients": [
            {**each, "eaten_mg": mg} for each, mg in zip(ingredients, eaten_by_line, strict=True)
        ],
        "sodium": {
            "ledger": ledger,
            "per_serving_mg": {"likely": eaten / servings},
            "origins": list(_by_component(ingredients, ended)),
        },
    }


def _ended(ingredients: list[Any], ledger: list[Any]) -> dict[str, list[float]]:
    """mg of each line by the place where it ended."""
    held: dict[str, list[float]] = {}

    def put(place: str, mg: list[float]) -> None:
        held[place] = [a + b for a, b in zip(held.get(place, [0.0] * len(ingredients)), mg, strict=True)]

    for at, each in enumerate(ingredients):
        brought = [(each["sodium_mg"] or 0.0) if i == at else 0.0 for i in range(len(ingredients))]
        share = each.get("eaten_fraction", 1.0)
        put(each["component"], [mg * share for mg in brought])
        put("not_eaten", [mg * (1 - share) for mg in brought])
    for each in ledger:
        source = held.get(each["from"], [0.0] * len(ingredients))
        whole = sum(source)
        share = min(each["mg"] / whole, 1.0) if whole > 0 and each["to"] != "not_eaten" else 0.0
        held[each["from"]] = [mg * (1 - share) for mg in source]
        put(each["to"], [mg * share for mg in source])
    return {place: mg for place, mg in held.items() if sum(mg) > 0}


def _by_component(ingredients: list[Any], ended: dict[str, list[float]]) -> Iterator[dict[str, Any]]:
    for component in dict.fromkeys(each["component"] for each in ingredients):
        for place, mg in ended.items():
            own = sum(
                part for part, each in zip(mg, ingredients, strict=True) if each["component"] == component
            )
            if own > 0:
                yield {"component": component, "place": place, "mg": own}


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


@st.composite
def kitchens(draw: Any) -> dict[str, Any]:
    """Any recipe's answer: a few components, any movements between them, then all of it served or not."""
    names = ["a", "b", "c"]
    held = {name: draw(st.floats(0, 1e5)) for name in names}
    ingredients = [ingredient(name, f"line {name}", held[name], "1") for name in names]
    ledger = []
    for step in range(draw(st.integers(0, 5))):
        source, target = draw(st.permutations(names))[:2]
        mg = held[source] * draw(st.floats(0, 1))
        held[source] -= mg
        held[target] += mg
        ledger.append(movement(source, target, step, mg))
    for name in names:
        eaten = held[name] * draw(st.floats(0, 1))
        ledger.append(movement(name, "eaten", None, eaten))
        ledger.append(movement(name, "poured_away", None, held[name] - eaten))
    return answer(ingredients, ledger)
