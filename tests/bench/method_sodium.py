"""How near a reading's sodium is to that of the right structure, written by hand (method_structures.yaml)."""

from __future__ import annotations

import re
from pathlib import Path
from typing import Any

import yaml
from saltledger.calculator import reading_answer
from saltledger.foods.dataset import FoodTable
from saltledger.method.method_reading import Reading
from saltledger.method.prose_documents import as_written
from saltledger.recipe.calculation import cook
from saltledger.recipe.request import RecipeRequest

HERE = Path(__file__).parent
WITHIN = 0.15
NEARER = 0.8
LEAST_SHARE = 0.90
_COMPONENT = re.compile(r"([\w-]+) (=|~|%([\d.]+)) (.+)")
_LINE = re.compile(r"(\d+)(?:\*([\d.]+))?")
_UNITS = {
    "h": "duration_h",
    "C": "temperature_c",
    "cm": "thickness_cm",
    "changes": "water_changes",
    "pump": "pump_percent",
    "yield": "yield_fraction",
}


def structures() -> dict[str, str]:
    """By title, the right structure as written."""
    found: dict[str, str] = yaml.safe_load((HERE / "method_structures.yaml").read_text(encoding="utf-8"))
    return found


def right_recipe(document: dict[str, Any], text: str, headings: set[int]) -> dict[str, Any]:
    """The body that the structure says; lines that it does not name lie in the dish, all eaten."""
    lines, left = document["ingredients"], {}
    left = {i: 1.0 for i in range(len(lines)) if i not in headings}
    components, steps = [], []
    for row in filter(None, map(str.strip, text.splitlines())):
        if " | " in row or row.endswith("|"):
            steps.append(_step(row))
            continue
        name, fate, share, parts = _COMPONENT.fullmatch(row).groups()  # type: ignore[union-attr]
        eaten = {"=": 1.0, "~": 0.0}.get(fate, float(share or 0))
        ingredients = [_part(part.strip(), lines, left) for part in parts.split(";")]
        components.append({"id": name, "ingredients": ingredients, "eaten_fraction": eaten})
    rest = [{"line": lines[i], "share": share} for i, share in left.items() if share > 1e-6]
    if rest:
        components.append({"id": "dish", "ingredients": rest})
    return {"title": "t", "servings": document["servings"], "components": components, "steps": steps}


def _part(part: str, lines: list[str], left: dict[int, float]) -> dict[str, Any]:
    place, is_meant, meant = part.partition(": ")
    if is_meant:
        left[int(place)] = 0.0
        return {"line": meant}
    found = _LINE.fullmatch(part)
    if found is None:
        return {"line": part}
    share = float(found[2] or 1)
    left[int(found[1])] -= share
    return {"line": lines[int(found[1])], "share": share}


def _step(row: str) -> dict[str, Any]:
    kind, food, bath, figures = (each.strip() for each in row.split("|"))
    foods = [each.strip() for each in food.split(",")]
    step: dict[str, Any] = {"kind": kind, "food": foods[0] if len(foods) == 1 else foods}
    if bath != "-":
        step["bath"] = bath
    for each in filter(None, map(str.strip, figures.split(","))):
        number, _, unit = each.partition(" ")
        if each == "rinsed":
            step["rinsed"] = True
        elif number == "into":
            step["into"] = unit
        else:
            step[_UNITS[unit]] = (int if unit == "changes" else float)(number)
    return step


def sodium_mg(recipe: dict[str, Any], foods: FoodTable) -> float:
    """Sodium of a serving, mg."""
    return float(cook(RecipeRequest.from_document(recipe), foods).sodium_per_serving_mg[0])


def asked_of(reading: Reading, foods: FoodTable) -> list[dict[str, Any]]:
    """The questions that a person is asked, as POST /v1/readings tells them."""
    questions: list[dict[str, Any]] = reading_answer({"written": as_written(reading.written)}, foods)[
        "questions"
    ]
    return questions


def tried_mg(reading: Reading, foods: FoodTable) -> list[list[float]]:
    """Sodium of a serving, mg, with each choice of each question that is asked."""
    return [
        [choice["sodium_mg_per_serving"] for choice in question["choices"]]
        for question in asked_of(reading, foods)
    ]


def moves_towards(tried: list[list[float]], found: float, right: float) -> bool:
    """Whether a choice brings the sodium nearer to the right figure, by a fifth of its error at least."""
    return any(abs(mg - right) < NEARER * abs(found - right) for mgs in tried for mg in mgs)
