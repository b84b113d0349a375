"""What kind of food a component is, to the physics: as stated, else by its heaviest food."""

from __future__ import annotations

from ..salt.food_classes import food_class_of
from ..salt.pots import pot_kind_of
from .bench import Bench
from .request import StepRequest

FALLBACK_CLASS = "vegetable"
"""Class whose figures stand in for an unknown food in a cold bath."""

_POT_KIND_OF_CLASS = {
    "beef": "meat",
    "pork": "meat",
    "poultry": "poultry",
    "fish": "fish",
    "fish_lean": "fish",
    "fish_fatty": "fish",
    "vegetable": "vegetable",
}


def known_class(step: StepRequest, bench: Bench, name: str) -> str | None:
    """The class of food (beef, pork, poultry ...) of a component; None where the tables have none like it."""
    if step.food_class is not None:
        return step.food_class
    main = bench.characters[name].main
    return food_class_of(main.group_code, main.name) if main else None


def food_class(step: StepRequest, bench: Bench, name: str) -> str:
    """The class whose salting figures hold for a component, or stand in for it."""
    found = known_class(step, bench, name)
    if found is None:
        bench.note(
            "food-class-unknown",
            "check",
            f"The tables have no salting figures for a food like {name!r}; those of a {FALLBACK_CLASS} stand in. "
            "State food_class if it is another.",
            step.pointer,
        )
    return found or FALLBACK_CLASS


def pot_kind(step: StepRequest, bench: Bench, name: str) -> str | None:
    """The kind of food whose figures hold for a component in the heat; None where the tables have none."""
    if step.food_class is not None and step.food_class in _POT_KIND_OF_CLASS:
        return _POT_KIND_OF_CLASS[step.food_class]
    return pot_kind_of(bench.characters[name].main)


def open_share(step: StepRequest) -> float:
    """Share of a food's water that a bath can reach: all but what bone, a fat cap or skin keep shut."""
    return 1.0 - (step.untaken_fraction or 0.0)
