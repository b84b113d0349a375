"""What a component is to the physics: its kind of food, how big its pieces are and which faces are open.

As stated, else by its heaviest food and as pieces of such food usually are.
"""

from __future__ import annotations

from functools import lru_cache

import numpy as np

from ...core.notices import STATED
from ...core.sourced import SourcedFigure
from ...core.spread import Draws, Spread
from ...diffusion.geometry import FLAT, THICKNESS_REACH, Body
from ...transfer.pots import yield_kind_of
from ...transfer.usual import by_hours, usual_faces, usual_size, usual_time
from ..request import StepRequest
from .work import Work

FALLBACK_CLASS = "vegetable"
"""Class whose figures stand in for an unknown food in a cold bath."""

_POT_KIND_OF_CLASS = {
    "beef": "meat",
    "pork": "meat",
    "poultry": "poultry",
    "fish": "fish",
    "fish_lean": "fish",
    "fish_fatty": "fish",
    "fish_dried": "fish",
    "vegetable": "vegetable",
    "dough": "noodles",
}
_FINER = {
    "vegetable": ("leaf", "florets", "potato", "mushroom", "cooked_vegetable"),
    "dough": ("pasta", "rice", "grain", "cooked_starch", "bread"),
}
"""Kinds in a pot that are finer than a stated class tells, where the food's own name tells them."""


def known_class(work: Work) -> str | None:
    """The class of food (beef, pork, poultry ...) of a component; None where the tables have none like it."""
    if work.step.food_class is not None:
        return work.step.food_class
    return work.composition.food_class


def food_class(work: Work) -> str:
    """The class whose salting figures hold for a component, or stand in for it."""
    found = known_class(work)
    if found is None:
        work.check(
            "food-class-unknown",
            f"The tables have no salting figures for a food like {work.name!r}; those of a {FALLBACK_CLASS} "
            "stand in. State food_class if it is another.",
        )
    return found or FALLBACK_CLASS


def pot_kind(work: Work) -> str | None:
    """The kind of food whose figures hold for a component in the heat; None where the tables have none."""
    return _of_class(work) or work.composition.pot_kind


def _of_class(work: Work) -> str | None:
    """The kind that a stated class of food is in a pot; None where none is stated, or the name tells more."""
    stated = work.step.food_class or ""
    if work.composition.pot_kind in _FINER.get(stated, ()):
        return None
    return _POT_KIND_OF_CLASS.get(stated)


def yield_kind(work: Work) -> str | None:
    """The kind, as fine as the tables have it, whose yields hold for a component; None where none do."""
    own, stated = yield_kind_of(work.main), _of_class(work)
    if own is not None and stated is not None and own.partition("/")[0] != stated:
        own = None
    return own or stated or work.composition.pot_kind


def open_share(step: StepRequest) -> float:
    """Share of a food's water that a bath can reach: all but what bone, a fat cap or skin keep shut."""
    return 1.0 - (step.untaken_fraction or 0.0)


def piece_of(work: Work, kind: str, hours: Draws | None = None) -> tuple[Body, Draws]:
    """The body of a component's pieces at its likely size, and the draws of its thickness in cm.

    kind: the food class that usual sizes go by. hours: of a bath. Who soaks salted fish of no stated size
    does so until it can be eaten: the hours of all its soaks tell how thick it is.
    """
    step, name = work.step, work.main.name if work.main else ""
    treated = _TREATED.get(step.kind, "")
    size = usual_size(kind, name, treated if treated != "desalted" or _is_salted(work) else "")
    # A thickness without a form is that of a sheet, and only flat pieces have faces.
    shape = step.shape or ("sheet" if step.thickness_cm or step.open_faces else size.shape)
    thickness, by_time = size.thickness_cm, np.ones(1)
    if step.thickness_cm:
        thickness = stated_thickness(step.thickness_cm)
    elif hours is not None and treated == "desalted" and size != usual_size(kind, name):
        by_time = by_hours(hours + _other_soaks_h(work, kind))
        thickness = thickness.scaled(float(np.ravel(by_time)[0]))
        by_time = by_time / np.ravel(by_time)[0]
    nominal = step.thickness_cm or thickness.spread.likely
    faces = open_faces(work, kind, shape)
    draws = work.assume("thickness", thickness, "cm", shared=f"{kind}/thickness")
    return Body(shape, nominal, step.length_cm, step.width_cm, faces), np.asarray(draws * by_time)


def _other_soaks_h(work: Work, kind: str) -> float:
    """Hours of a component's other soaks, before and after this one, so that a soak told in two is one."""
    each_h = usual_time("soak", kind).spread.likely
    return sum(
        each_h * (step.water_changes + 1) if step.duration_h is None else step.duration_h
        for step in work.state.steps
        if step.kind == "soak" and work.name in step.food and step.index != work.step.index
    )


def _is_salted(work: Work) -> bool:
    """Whether a food was salted so much that its soak is to take salt out of it."""
    sodium_mg = work.main.per_100g("NA") if work.main else None
    return sodium_mg is not None and sodium_mg > _SALTED_MG


_TREATED = {"dry_cure": "salted", "soak": "desalted"}
_SALTED_MG = 2000.0
"""Sodium in 100 g of a food that nobody eats unsoaked: five per cent of salt."""


def open_faces(work: Work, kind: str, shape: str) -> int:
    """How many broad faces (1 or 2) take up salt: as stated, else by what name and line say of the skin."""
    if shape not in FLAT:
        return 2
    if work.step.open_faces is not None:
        return work.step.open_faces
    usual = usual_faces(kind, work.composition.words)
    return 2 if usual is None else round(float(work.assume("open-faces", usual, "faces")[0]))


@lru_cache(maxsize=1024)
def stated_thickness(thickness_cm: float) -> SourcedFigure:
    return SourcedFigure(Spread.within(thickness_cm, THICKNESS_REACH), STATED)
