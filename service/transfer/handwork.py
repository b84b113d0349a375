"""What work by hand moves, wets or takes where nobody measured it (`handwork.csv`)."""

from __future__ import annotations

from functools import cache

from ..core.sourced import SourcedFigure, figure_of
from ..core.tables import load


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


def cure_run_off() -> SourcedFigure:
    """Of the water that a dry cure draws, the share that stays around the food as brine."""
    return _figures()["cure_run_off"]


def pot_time() -> SourcedFigure:
    """Time in a pot that nobody states, over the usual time of such a food."""
    return _figures()["pot_time"]


@cache
def _figures() -> dict[str, SourcedFigure]:
    return dict(load("handwork", lambda row: (row["id"], figure_of(row))))
