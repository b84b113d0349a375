"""Salty food that a method calls soaked and that no sentence soaks: "add the soaked and drained capers"."""

from __future__ import annotations

from .clauses import Clause
from .happenings import Happening, Water
from .reading_state import ReadingState
from .stakes import is_salty

_AMONG = frozenset({"and", ",", "&", "drained", "rinsed", "squeezed", "dried", "chopped", "well", "salted"})
"""Words between "soaked" and the food that it is said of."""


def named_as_soaked(state: ReadingState, clause: Clause) -> bool:
    """Take salty food that is called soaked for soaked, if no clause tells of its soaking; whether it was."""
    if clause.act == "soak" or clause.negated:
        return False
    for i, token in enumerate(clause.tokens):
        if token.text != "soaked":
            continue
        end = next((k for k in range(i + 1, len(clause.tokens)) if clause.tokens[k].text not in _AMONG), i)
        said = (m for m in clause.mentions if m.kind == "line" and m.i in (end, end - 1) and end > i)
        alone = (m.lines[0] for m in said if len(m.lines) == 1)  # "the soaked meats" are those of before
        foods = {n: 1.0 for n in alone if _is_unsoaked(state, n)}
        if foods:
            state.begin(Happening("soak", clause, foods=foods, water=Water(), drained=True, closed=True))
            return True
    return False


def _is_unsoaked(state: ReadingState, line: int) -> bool:
    """Whether a line is of salty food of which neither the list nor a clause tells that it soaks."""
    salty = state.kind(line) == "salty" or (is_salty(state.lines[line]) and state.kind(line) != "cheese")
    told = "soak" in state.lines[line].text.lower() or any(line in each.foods for each in state.happened)
    return salty and not told
