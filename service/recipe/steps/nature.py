"""What a component is to the physics: its kind of food, how big its pieces are and which faces are open.

As stated, else by its heaviest food and as pieces of such food usually are.
"""

from __future__ import annotations

from functools import lru_cache

from ...core.notices import STATED
from ...core.sourced import SourcedFigure
from ...core.spread import Draws, Spread
from ...diffusion.geometry import FLAT, THICKNESS_REACH, Body
from ...transfer.pots import yield_kind_of
from ...transfer.usual import usual_faces, usual_size
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
}


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
    return _POT_KIND_OF_CLASS.get(work.step.food_class or "") or work.composition.pot_kind


def yield_kind(work: Work) -> str | None:
    """The kind, as fine as the tables have it, whose yields hold for a component; None where none do."""
    stated = _POT_KIND_OF_CLASS.get(work.step.food_class or "")
    return stated or yield_kind_of(work.main) or work.composition.pot_kind


def open_share(step: StepRequest) -> float:
    """Share of a food's water that a bath can reach: all but what bone, a fat cap or skin keep shut."""
    return 1.0 - (step.untaken_fraction or 0.0)


def piece_of(work: Work, kind: str) -> tuple[Body, Draws]:
    """The body of a component's pieces at its likely size, and the draws of its thickness in cm. kind: the
    food class that usual sizes go by."""
    step, name = work.step, work.main.name if work.main else ""
    size = usual_size(kind, name, salted=step.kind == "dry_cure")
    # A thickness without a form is that of a sheet, and only flat pieces have faces.
    shape = step.shape or ("sheet" if step.thickness_cm or step.open_faces else size.shape)
    nominal = step.thickness_cm or size.thickness_cm.spread.likely
    faces = open_faces(work, kind, shape)
    thickness = stated_thickness(step.thickness_cm) if step.thickness_cm else size.thickness_cm
    draws = work.assume("thickness", thickness, "cm", shared=f"{kind}/thickness")
    return Body(shape, nominal, step.length_cm, step.width_cm, faces), draws


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
