"""What work by hand moves, wets or takes where nobody measured it (`handwork.csv`, `own_brine.csv`)."""

from __future__ import annotations

from typing import Literal

from ..core.sourced import SourcedFigure, figures
from .handling_figures import Course, courses

Handwork = Literal[
    "pump_drip",
    "skim",
    "rinse_min",
    "wetted",
    "crust_wet",
    "swelling_pace",
    "cure_run_off",
    "cure_drips",
    "colour_shows",
    "heat_goes_on",
]

COVERS = 0.5
"""Less liquid than this, its water over the food's, does not cover a food: part of it is wet at a time."""

USUAL_BRINE = 0.024
"""g of salt on a gram of a vegetable's water, at which the figures of own_brine.csv stand."""


def by_hand(what: Handwork) -> SourcedFigure:
    """The figure of `handwork.csv` for one thing that hands do; its head says of what it is a share."""
    return figures("handwork", "id")[what]


def pot_time(*, flesh: bool) -> SourcedFigure:
    """Time in a pot that nobody states, over the usual time; of flesh, or of all else."""
    return figures("handwork", "id")["pot_time/flesh" if flesh else "pot_time"]


def cure_run_off(food_class: str) -> SourcedFigure:
    """Of the water that a dry cure draws, the share that stays around a food of a salting class as brine."""
    return _of_kind("cure_run_off", food_class)


def cure_drips(food_class: str) -> SourcedFigure:
    """Of the water that does not stay, the share that runs off with its salt; the rest dries."""
    return _of_kind("cure_drips", food_class)


def _of_kind(what: Handwork, food_class: str) -> SourcedFigure:
    kind, _, _ = food_class.partition("_")
    return figures("handwork", "id").get(f"{what}/{kind}") or by_hand(what)


def pressed(kind: str, pot_kind: str | None) -> SourcedFigure:
    """Liquid that a press or a squeeze takes out of a food, g per g of its weight. kind: press or squeeze."""
    table = figures("handwork", "id")
    return table.get(f"{kind}/{pot_kind}") or table[f"{kind}/any"]


def own_brine(pot_kind: str | None) -> Course:
    """Water that dry-salted vegetables give: most in g from a gram of raw vegetable."""
    return courses("own_brine").get(pot_kind or "") or courses("own_brine")["any"]
