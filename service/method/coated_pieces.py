"""How thin the pieces are that are turned in a coating: a cutlet beaten flat takes more than a thigh."""

from __future__ import annotations

from .happenings import PROTEINS, Happening
from .layout import Step
from .left_to_the_cook import thickness_of
from .reading_state import ReadingState

_LEAST_CM = 1.0
"""Thickness, cm, below which no more clings: a third of its weight, as in seed_foods/coatings.csv; common
practice, no source."""
_THIN_CM = 1.5
"""Pieces from here on take the film that a dredge is worked out with anyway."""


def note_thin_pieces(state: ReadingState, coating: Happening, step: Step) -> None:
    """State how thin the coated pieces are, where the method or the list says so or such pieces are thin."""
    if PROTEINS.isdisjoint(map(state.kind, coating.foods)):
        return
    told = [_told_cm(state, line, coating) for line in coating.foods]
    said = [cm for cm in told if cm is not None]
    found = max(said) if said else thickness_of(state.lines[line] for line in coating.foods)
    if found is None or found >= _THIN_CM:
        return
    step.body["thickness_cm"] = round(max(found, _LEAST_CM), 2)
    (step.stated if said else step.assumed).append("thickness_cm")


def _told_cm(state: ReadingState, line: int, coating: Happening) -> float | None:
    """What a method says of a food's thickness before it is coated, cm."""
    clause = state.thickness.get(line)
    return clause.thickness if clause is not None and clause.place <= coating.clause.place else None
