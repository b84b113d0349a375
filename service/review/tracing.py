"""Which component, and which line of it, the sodium came from that was eaten, poured away or left behind.

The answer tells it (`recipe.sodium_origins`); here it is laid out for pages and differences.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

Document = Mapping[str, Any]

EATEN = "eaten"


@dataclass(frozen=True, slots=True)
class Line:
    """One ingredient's sodium, likely case, mg per serving. listed: as the list has it, less what the
    caller said of this line is not eaten. eaten: what of it is in a serving."""

    component: str
    line: str
    food_code: str | None
    food_name: str | None
    listed_mg: float
    eaten_mg: float


def lines(answer: Document) -> list[Line]:
    """Each ingredient's sodium per serving, as listed and as eaten, in the order of the answer."""
    return [_line(each, answer["servings"]) for each in answer["ingredients"]]


def eaten_shares(answer: Document) -> dict[str, float]:
    """The share (0 to 1) of each component's own sodium that is eaten, by its id; 0 where it had none."""
    eaten: dict[str, float] = {}
    whole: dict[str, float] = {each["component"]: 0.0 for each in answer["ingredients"]}
    for each in answer["sodium"]["origins"]:
        whole[each["component"]] += each["mg"]
        if each["place"] == EATEN:
            eaten[each["component"]] = each["mg"]
    return {name: eaten.get(name, 0.0) / mg if mg > 0 else 0.0 for name, mg in whole.items()}


def _line(ingredient: Document, servings: float) -> Line:
    food = ingredient["food"] or {"code": None, "name": None}
    share = ingredient.get("eaten_fraction")
    listed = float(ingredient["sodium_mg"] or 0.0) + float(ingredient.get("assumed_mg") or 0.0)
    return Line(
        ingredient["component"],
        ingredient["line"],
        food["code"],
        food["name"],
        listed * (1.0 if share is None else share) / servings,
        float(ingredient["eaten_mg"] or 0.0) / servings,
    )
