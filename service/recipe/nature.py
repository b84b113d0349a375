"""What kind of food a component is, to the physics: as stated, else by its heaviest food."""

from __future__ import annotations

from ..salt.food_classes import food_class_of
from .bench import Bench
from .request import StepRequest


def food_class(step: StepRequest, bench: Bench, name: str) -> str:
    """The class of food (beef, pork, poultry ...) whose figures hold for a component."""
    if step.food_class is not None:
        return step.food_class
    main = bench.characters[name].main
    found = food_class_of(main.group_code, main.name) if main else None
    if found is None:
        bench.note(
            "food-class-unknown",
            "check",
            f"The tables have no figures for a food like {name!r}; those of {FALLBACK} stand in. State food_class.",
            step.pointer,
        )
    return found or FALLBACK


FALLBACK = "vegetable"
"""Class whose figures stand in for an unknown food."""


def open_share(step: StepRequest) -> float:
    """Share of a food's water that a bath can reach: all but what bone, a fat cap or skin keep shut."""
    return 1.0 - (step.untaken_fraction or 0.0)
