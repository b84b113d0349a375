"""What work by hand moves, wets or takes where nobody measured it (`handwork.csv`, `own_brine.csv`)."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Literal

from ..core.sourced import SourcedFigure, figure_of
from ..core.tables import Row, load

Handwork = Literal[
    "pump_drip", "skim", "rinse_min", "wetted", "crust_wet", "cure_run_off", "pot_time", "colour_shows"
]

COVERS = 0.5
"""Less liquid than this, its water over the food's, does not cover a food: part of it is wet at a time."""

USUAL_BRINE = 0.024
"""g of salt on a gram of a vegetable's water, at which the figures of own_brine.csv stand."""


@dataclass(frozen=True, slots=True)
class OwnBrine:
    """most: g of water from a gram of raw vegetable by the end of time; half of it in half_h hours."""

    most: SourcedFigure
    half_h: float


def by_hand(what: Handwork) -> SourcedFigure:
    """The figure of `handwork.csv` for one thing that hands do; its head says of what it is a share."""
    return _figures()[what]


def cure_run_off(food_class: str) -> SourcedFigure:
    """Of the water that a dry cure draws, the share that stays around a food of a salting class as brine."""
    return _figures().get(f"cure_run_off/{food_class}") or by_hand("cure_run_off")


def pressed(kind: str, pot_kind: str | None) -> SourcedFigure:
    """Liquid that a press or a squeeze takes out of a food, g per g of its weight. kind: press or squeeze."""
    table = _figures()
    return table.get(f"{kind}/{pot_kind}") or table[f"{kind}/any"]


def own_brine(pot_kind: str | None) -> OwnBrine:
    """What dry-salted vegetables give of their own water."""
    return _brines().get(pot_kind or "") or _brines()["any"]


@cache
def _brines() -> dict[str, OwnBrine]:
    return dict(load("own_brine", _brine_of))


def _brine_of(row: Row) -> tuple[str, OwnBrine]:
    return row["kind"], OwnBrine(figure_of(row), float(row["half_h"]))


@cache
def _figures() -> dict[str, SourcedFigure]:
    return dict(load("handwork", lambda row: (row["id"], figure_of(row))))
