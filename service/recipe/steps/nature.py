"""What kind of food a component is, to the physics: as stated, else by its heaviest food."""

from __future__ import annotations

from ...transfer.pots import yield_kind_of
from ..request import StepRequest
from .work import Work

FALLBACK_CLASS = "vegetable"
"""Class whose figures stand in for an unknown food in a cold bath."""

_POT_KIND_OF_CLASS = {
    "beef": "meat",
    "pork": "meat",
    "poultry": "poultry",
    "fish": "fish",
    "fish_lean": "fish",
    "fish_fatty": "fish",
    "fish_dried": "fish",
    "vegetable": "vegetable",
}


def known_class(work: Work) -> str | None:
    """The class of food (beef, pork, poultry ...) of a component; None where the tables have none like it."""
    if work.step.food_class is not None:
        return work.step.food_class
    return work.composition.food_class


def food_class(work: Work) -> str:
    """The class whose salting figures hold for a component, or stand in for it."""
    found = known_class(work)
    if found is None:
        work.check(
            "food-class-unknown",
            f"The tables have no salting figures for a food like {work.name!r}; those of a {FALLBACK_CLASS} "
            "stand in. State food_class if it is another.",
        )
    return found or FALLBACK_CLASS


def pot_kind(work: Work) -> str | None:
    """The kind of food whose figures hold for a component in the heat; None where the tables have none."""
    return _POT_KIND_OF_CLASS.get(work.step.food_class or "") or work.composition.pot_kind


def yield_kind(work: Work) -> str | None:
    """The kind, as fine as the tables have it, whose yields hold for a component; None where none do."""
    stated = _POT_KIND_OF_CLASS.get(work.step.food_class or "")
    return stated or yield_kind_of(work.main) or work.composition.pot_kind


def open_share(step: StepRequest) -> float:
    """Share of a food's water that a bath can reach: all but what bone, a fat cap or skin keep shut."""
    return 1.0 - (step.untaken_fraction or 0.0)
