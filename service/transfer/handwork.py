"""What work by hand moves, wets or takes where nobody measured it (`handwork.csv`, `own_brine.csv`)."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from ..core.sourced import SourcedFigure, figure_of
from ..core.tables import Row, load

USUAL_BRINE = 0.024
"""g of salt on a gram of a vegetable's water, at which the figures of own_brine.csv stand."""


@dataclass(frozen=True, slots=True)
class OwnBrine:
    """most: g of water from a gram of raw vegetable by the end of time; half of it in half_h hours."""

    most: SourcedFigure
    half_h: float


def pump_drip() -> SourcedFigure:
    """Of the pickle that a pump puts in, the share that runs out again and is lost."""
    return _figures()["pump_drip"]


def pressed(kind: str, pot_kind: str | None) -> SourcedFigure:
    """Liquid that a press or a squeeze takes out of a food, g per g of its weight. kind: press or squeeze."""
    table = _figures()
    return table.get(f"{kind}/{pot_kind}") or table[f"{kind}/any"]


def skimmed() -> SourcedFigure:
    """The share of the fat of a liquid that is skimmed off."""
    return _figures()["skim"]


def rinse_min() -> SourcedFigure:
    """Minutes that food is rinsed where nobody says."""
    return _figures()["rinse_min"]


def wetted() -> SourcedFigure:
    """Share of a food's surface that a liquid too little to cover it wets."""
    return _figures()["wetted"]


def crust_wet() -> SourcedFigure:
    """Share of a food's surface that the salt of a crust wets as it bakes."""
    return _figures()["crust_wet"]


def cure_run_off(food_class: str) -> SourcedFigure:
    """Of the water that a dry cure draws, the share that stays around the food as brine."""
    return _figures().get(f"cure_run_off/{food_class}") or _figures()["cure_run_off"]


def pot_time() -> SourcedFigure:
    """Time in a pot that nobody states, over the usual time of such a food."""
    return _figures()["pot_time"]


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
