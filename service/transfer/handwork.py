"""What work by hand moves, wets or takes where nobody measured it (`handwork.csv`, `cure_brines.csv`,
`own_brine.csv`)."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Literal

from ..core.name_rules import NameRules
from ..core.sourced import SourcedFigure, figure_of, figures
from .handling_figures import Course, courses

Handwork = Literal[
    "pump_drip",
    "skim",
    "rinse_min",
    "wetted",
    "crust_wet",
    "swelling_pace",
    "colour_shows",
    "heat_goes_on",
]


@dataclass(frozen=True, slots=True)
class CureBrine:
    """Of the water that a dry cure draws, the share (0 to 1) that stays around the food as brine, and of what
    does not stay the share that runs off with its salt; the rest dries."""

    stays: SourcedFigure
    drips: SourcedFigure


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


def cure_brine(food_class: str, name: str) -> CureBrine:
    """What becomes of the water that a dry cure draws from a food of a salting class, by the food's name."""
    kind, _, _ = food_class.partition("_")
    return next(each for of, each in _cure_brines().all(name.lower()) if of in (kind, "any"))


@cache
def _cure_brines() -> NameRules[tuple[str, CureBrine]]:
    return NameRules.of(
        "cure_brines",
        lambda row: (row["food_class"], CureBrine(figure_of(row, "stays_"), figure_of(row, "drips_"))),
    )


def pressed(kind: str, pot_kind: str | None) -> SourcedFigure:
    """Liquid that a press or a squeeze takes out of a food, g per g of its weight. kind: press or squeeze."""
    table = figures("handwork", "id")
    return table.get(f"{kind}/{pot_kind}") or table[f"{kind}/any"]


def own_brine(pot_kind: str | None) -> Course:
    """Water that dry-salted vegetables give: most in g from a gram of raw vegetable."""
    return courses("own_brine").get(pot_kind or "") or courses("own_brine")["any"]
