"""What work by hand moves where nobody weighed it: pump, press, squeeze, skim (`handwork.csv`)."""

from __future__ import annotations

from functools import cache

from ..core.sourced_figures import Figure, figure_of
from ..core.tables import load


def pump_drip() -> Figure:
    """Of the pickle that a pump puts in, the share that runs out again and is lost."""
    return _figures()["pump_drip"]


def pressed(kind: str, pot_kind: str | None) -> Figure:
    """Liquid that a press or a squeeze takes out of a food, g per g of its weight. kind: press or squeeze."""
    table = _figures()
    return table.get(f"{kind}/{pot_kind}") or table[f"{kind}/any"]


def skimmed() -> Figure:
    """The share of the fat of a liquid that is skimmed off."""
    return _figures()["skim"]


def rinse_min() -> Figure:
    """Minutes that food is rinsed where nobody says."""
    return _figures()["rinse_min"]


@cache
def _figures() -> dict[str, Figure]:
    return dict(load("handwork", lambda row: (row["id"], figure_of(row))))
