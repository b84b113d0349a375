"""Texts of a family, each part crossed with the others and every food, and what their readings miss."""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import yaml

from ..plain_acts.grid import Act, Cell, faults

FAMILIES = Path(__file__).with_name("families.yaml")
TIMES = (
    "",
    " for 8 minutes",
    " until tender",
    " (8 minutes)",
    " for 8 minutes while you slice the onion",
    " while you make the sauce",
)


@dataclass(frozen=True, slots=True)
class Crossed:
    """One text of a family. parts: the entry of each part, and the food first."""

    family: str
    act: Act
    cell: Cell
    parts: tuple[str, ...]

    def faults(self) -> list[str]:
        return faults(self.act, self.cell)


def families() -> dict[str, dict[str, Any]]:
    found: dict[str, dict[str, Any]] = yaml.safe_load(FAMILIES.read_text(encoding="utf-8"))
    return found


def crossed(name: str, most: int, seed: int = 1) -> Iterator[Crossed]:
    """So many texts of a family, drawn by chance."""
    family, chance = families()[name], random.Random(f"{name}{seed}")
    left = most
    while left:
        food = chance.choice(list(family["foods"]))
        parts = tuple(chance.choice(part) for part in family["parts"])
        text = "".join(parts).replace("{time}", chance.choice(TIMES)).replace("{food}", food)
        if any(word in text for word in family.get("not_for", {}).get(food, ())):
            continue
        left -= 1
        lines = (family["foods"][food], *family["lines"])
        steps = tuple(step.replace("{food}", food) for step in family["steps"])
        yield Crossed(name, Act(food, lines, steps, ()), Cell(text, ()), (food, *parts))
