"""How big a piece is and which of its faces are open: as stated, else as such pieces usually are."""

from __future__ import annotations

from functools import lru_cache

from ...core.notices import STATED
from ...core.sourced import SourcedFigure
from ...core.spread import Draws, Spread
from ...diffusion.geometry import FLAT, THICKNESS_REACH, Body
from ...transfer.usual import usual_faces, usual_size
from .work import Work


def piece_of(work: Work, kind: str) -> tuple[Body, Draws]:
    """The body of a component's pieces at its likely size, and the draws of its thickness in cm. kind: the
    food class that usual sizes go by."""
    step, size = work.step, usual_size(kind, work.main.name if work.main else "")
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
