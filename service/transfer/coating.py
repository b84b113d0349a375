"""A coat that clings: so much on every face of the food, and never more than is set out (`coatings`)."""

from __future__ import annotations

from functools import cache

import numpy as np

from ..core.sourced import Named, SourcedFigure, figure_of
from ..core.spread import Draws
from ..core.tables import load
from .food_kinds import kind_of

FOOD_G_CM3 = 1.06
"""Density of meat and fish, near that of most solid food (from memory)."""

LEFT = 0.05
"""Of what is set out, the least that is left on tray and hands: common practice, no source."""


def clinging(coating: Named | None) -> SourcedFigure:
    """g of a coating (flour, crumbs, sugar ...) on 100 cm2 of food."""
    table = _films()
    return table.get(kind_of("coating", coating) or "any", table["any"])


def wanted_g(weight_g: Draws, surface_per_cm: Draws, film_g_100_cm2: Draws) -> Draws:
    """g that the faces of a food would take. surface_per_cm: cm2 of surface per cm3 of food."""
    return np.asarray(weight_g / FOOD_G_CM3 * surface_per_cm * film_g_100_cm2 / 100)


def clings_g(wanted_g: Draws, set_out_g: Draws) -> Draws:
    """g that cling of what is set out: what is wanted, as long as there is enough of it."""
    return np.minimum(wanted_g, (1 - LEFT) * set_out_g)


@cache
def _films() -> dict[str, SourcedFigure]:
    return dict(load("coatings", lambda row: (row["kind"], figure_of(row))))
