"""What is usual where nobody says: how big a piece is, how long it lies, what film clings, which cells
are open, what the others hold back and how far lots of a food differ."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache, lru_cache

import numpy as np

from ..core.name_rules import NameRules
from ..core.sourced import SourcedFigure, figure_of, figures
from ..core.spread import Draws
from ..core.tables import load

ANY = "any"
_DESALTED_H = 24.0
"""Hours in water that the rows of desalted food in usual_sizes.csv are of; size goes with their root."""
_SOAKS = (0.25, 3.0)
"""How far the hours tell of the size, over those."""
_LIKE = {
    "fish_lean": "fish",
    "fish_fatty": "fish",
    "fish_dried": "fish",
    "fruit": "vegetable",
    "seaweed": "vegetable",
    "mushroom_dried": "mushroom",
}


@dataclass(frozen=True, slots=True)
class UsualSize:
    """Shape of a piece, and its thickness or diameter in cm."""

    shape: str
    thickness_cm: SourcedFigure


@dataclass(frozen=True, slots=True)
class LivingCells:
    """share: of the salt that a food would hold beside brine of a strength, what its cells let in under dry
    salt, 0 to 1. die_from, dead_at: percent of salt in its brine from which on they die, and at which none
    lives."""

    share: SourcedFigure
    die_from: float
    dead_at: float

    def dead(self, percent: float) -> float:
        """The share of cells, 0 to 1, that a brine of so many percent kills."""
        return min(max((percent - self.die_from) / (self.dead_at - self.die_from), 0.0), 1.0)


@dataclass(frozen=True, slots=True)
class FatLayers:
    """Water that fat keeps from a bath: g for each g of fat that 100 g hold beyond lean_fat."""

    lean_fat: float
    water: SourcedFigure


@lru_cache(maxsize=1024)
def usual_size(food_class: str, food_name: str = "", treated: str = "") -> UsualSize:
    """The usual piece of a class and, where its name tells the cut, of that cut.

    treated: salted where it goes under dry salt, for which some food is cut smaller; desalted where salt is
    to leave it in water, of which the hours tell the size.
    """
    own = (food_class, ANY, f"{food_class}_{treated}")
    return next(size for of, size in _sizes().all(food_name) if of in own)


@lru_cache(maxsize=1024)
def usual_faces(food_class: str, words: str) -> SourcedFigure | None:
    """How many faces of a flat piece take up salt, by its name and line; None where both do."""
    own = (food_class, _LIKE.get(food_class, food_class))
    return next((faces for of, faces in _faces().all(words) if of in own), None)


@lru_cache(maxsize=1024)
def opened_cm(food_class: str, food_name: str = "") -> SourcedFigure | None:
    """How deep under a cut face cells are open, in cm; None where none are."""
    return next((depth for of, depth in _opened().all(food_name) if of == food_class), None)


@lru_cache(maxsize=256)
def usual_time(kind: str, food_class: str) -> SourcedFigure:
    """Hours that a cold step usually takes; of a soak, in each water."""
    table = figures("usual_times", "kind", "food_class")
    return next(table[kind, name] for name in lookups(food_class) if (kind, name) in table)


@lru_cache(maxsize=256)
def lot_pace(kind: str, food_class: str) -> SourcedFigure:
    """How fast salt goes in one lot of a food in a kind of cold step, over what size and diffusivity say."""
    table = figures("salting_lots", "kind", "food_class")
    return next(table[kind, name] for name in lookups(food_class) if (kind, name) in table)


@cache
def film_cm() -> SourcedFigure:
    """Thickness of the liquid that clings to a piece."""
    return load("clinging", figure_of)[0]


def washed_out(kind: str, *, hot: bool = False) -> SourcedFigure | None:
    """Of a food's own small solutes, what a cold bath or a pot reaches, 0 to 1: its cells hold the rest back.
    None where they hold nothing.

    kind: the food's class in a cold bath, its kind in a pot.
    """
    return figures("intact_cells", "kind", "bath").get((kind, "pot" if hot else "cold"))


def let_in(food_class: str) -> LivingCells | None:
    """What the living cells of a class of food let in; None where all of it."""
    return _living_cells().get(food_class)


def behind_fat(food_class: str) -> FatLayers | None:
    """What water the fat of a class of flesh keeps from a bath; None where it keeps none."""
    return _fat_layers().get(food_class)


def lookups(food_class: str) -> tuple[str, ...]:
    """The class, the one that it is like, and any: where figures of a class are looked for, in order."""
    return (food_class, _LIKE.get(food_class, ANY), ANY)


def by_hours(hours: Draws) -> Draws:
    """How much thicker than in a day's soak the salt food is that hours in water make fit to eat, as a ratio:
    who soaks it does so until it is."""
    return np.asarray(np.sqrt(np.clip(hours / _DESALTED_H, *_SOAKS)))


def desalted_cm(food_class: str, hours: float | None) -> float:
    """The thickness of salt food that so many hours in water, or a day, make fit to eat, in cm."""
    likely = usual_size(food_class, treated="desalted").thickness_cm.spread.likely
    return likely * float(by_hours(np.asarray(_DESALTED_H if hours is None else hours)))


@cache
def _sizes() -> NameRules[tuple[str, UsualSize]]:
    return NameRules.of(
        "usual_sizes", lambda row: (row["food_class"], UsualSize(row["shape"], figure_of(row)))
    )


@cache
def _faces() -> NameRules[tuple[str, SourcedFigure]]:
    return NameRules.of("faces", lambda row: (row["food_class"], figure_of(row)))


@cache
def _opened() -> NameRules[tuple[str, SourcedFigure]]:
    return NameRules.of("opened_cells", lambda row: (row["food_class"], figure_of(row)))


@cache
def _fat_layers() -> dict[str, FatLayers]:
    return dict(
        load(
            "fat_layers",
            lambda row: (row["food_class"], FatLayers(float(row["lean_fat"]), figure_of(row))),
        )
    )


@cache
def _living_cells() -> dict[str, LivingCells]:
    return dict(
        load(
            "living_cells",
            lambda row: (
                row["food_class"],
                LivingCells(figure_of(row), float(row["die_from"]), float(row["dead_at"])),
            ),
        )
    )
