"""Brines, marinades and cures that the list makes: under a heading, or by what a line says it is for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from .happenings import PROTEINS, Happening, Mixture, Water
from .headings import bath_of_heading
from .listed import Index
from .weights_told import per_litre_g

if TYPE_CHECKING:
    from .reading_state import ReadingState


def baths_listed(index: Index) -> dict[str, Mixture]:
    """The baths by name, each with its lines."""
    found: dict[str, Mixture] = {}
    for line in index.lines:
        own = line.purpose in ("brine", "marinade", "cure")
        name = line.purpose if own else bath_of_heading(line.heading)
        if not name or line.kind in PROTEINS:
            continue
        bath = found.setdefault(name, Mixture(name=name))
        bath.add({line.index: 1.0})
        if name == "brine" and "water" not in index.by_kind and per_litre_g(line.text) is not None:
            bath.water = Water()  # "60 g salt per litre", which is of water
    salts = [line for line in index.by_kind.get("salt", ()) if (per_litre_g(line.text) or 0.0) >= _STRONG_G]
    if salts and "brine" not in found and "water" not in index.by_kind:
        found["brine"] = Mixture(lines={salts[0].index: 1.0}, water=Water(), name="brine")
    return found


_STRONG_G = 25.0
"""Salt to the litre, g, from which on a list makes a brine, and salts no pot; common practice, no source."""


def lie_in_litres(state: ReadingState, cure: Happening) -> None:
    """Lay food in water that seems to lie under salt, where that is told by the litre."""
    if cure.kind != "dry_cure" or cure.water is not None or state.waters:
        return
    if any(state.kind(n) == "salt" and per_litre_g(state.lines[n].text) for n in cure.liquid):
        cure.kind, cure.water, cure.eaten, cure.guessed = "brine", Water(), None, False
