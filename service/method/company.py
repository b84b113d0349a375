"""Which lines are put together, as a method is read: what lies in one dish shares its salt."""

from __future__ import annotations

from typing import TYPE_CHECKING

from .clause_words import is_in_new_pot
from .clauses import Clause

if TYPE_CHECKING:
    from .reading_state import ReadingState

_MOST = 40
"""Companies that are kept: more than any recipe has, so that any method is read in its length."""


def keep_company(state: ReadingState, clause: Clause, spoken: set[int]) -> None:
    """Which lines were put together: what lies in one dish catches each other's juice."""
    over = clause.base == "pour" and clause.has("over") and "water" not in clause.speaks
    if over and clause.vessel() != "pan":
        state.under_sauce.update(state.solids(clause) or state.last_foods)
    jars = clause.act == "hold" and clause.vessel() == "bowl"
    if clause.act == "season" and "flour" in map(state.kind, spoken):
        state.company.append(spoken)  # "season the flour with the salt"
    if not (jars or clause.act in {"mix", "put", "coat", "heat"}) or not (spoken or state.last_foods):
        return
    if clause.act == "heat" and len(spoken) < 2:
        return
    whole = "all" in clause.speaks and len(spoken) > 1  # "mix the breading ingredients"
    unsaid = not (whole or state.solids(clause, direct=True))
    adds = clause.base in ("fold", "stir") or (clause.act == "put" and not is_in_new_pot(clause))
    if state.last_foods and ((adds and len(spoken) == 1) or unsaid):
        spoken = spoken | set(state.last_foods)
    if len(spoken) > 1:
        state.company = [*state.company[-_MOST:], spoken]
