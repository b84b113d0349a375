"""Figures of baths: the brine that a dry cure draws and that stays around the food, and when a cure shows."""

from __future__ import annotations

from ..core.sourced import SourcedFigure
from ..core.spread import Spread

COLOURED_SHARE = SourcedFigure(
    Spread(0.13, 0.27, 0.45),
    "fitted to common practice, no source: six days colour a cold flat cut of 4 to 5.5 cm to its centre, "
    "three leave it grey; colour itself needs some 2 to 14 ppm (from memory)",
)
"""Share of equilibrium at which a cure shows at the centre.

Nitrite reacts as it goes, so published diffusivities of free nitrite in pork are a hundred times below
salt's (see solutes.csv) and would never give the trade's six days. Here it travels nearly as salt does, and
a share of it must have come: more than colour itself needs, since the meat on the way uses nitrite up.
"""

COVERS = 0.5
"""Less liquid than this, its water over the food's, does not cover a food: part of it is wet at a time."""
