"""Parts of a marinade or sauce: "set half aside", "pour two thirds over the tuna"."""

from __future__ import annotations

from .clauses import Clause
from .kept_liquids import millilitres
from .left_to_the_cook import grams_roughly
from .reading_state import ReadingState
from .times_and_sizes import number_at

_PARTS = {"third": 1 / 3, "quarter": 0.25, "fifth": 0.2}
_NEXT = frozenset({"of", "over", "into", "the", "for", "in", "on", "to", "with", "aside", "back", ",", "."})
_KEEPS = frozenset({"reserve", "reserving", "aside", "keep", "save", "back", "saving", "keeping", "hold"})
_MIXED = frozenset({"marinade", "sauce", "mixture", "dressing", "it", "glaze", "paste"})


def part_said(clause: Clause) -> float | None:
    """The fraction of something that a clause speaks of, 0 to 1; None where it names none."""
    for i, token in enumerate(clause.tokens):
        after = clause.tokens[i + 1].text if i + 1 < len(clause.tokens) else "."
        if after not in _NEXT:
            continue
        if token.text == "half":
            return 0.5
        if token.text == "most":
            return 0.8
        if token.stem in _PARTS:
            number = number_at(clause.tokens, i - 1) if i else None
            return min((number[0] if number else 1.0) * _PARTS[token.stem], 1.0)
    return None


def hold_back(state: ReadingState, clause: Clause) -> None:
    """Note how much of what was stirred together is kept from the food that will lie in it."""
    mixture = state.mixture
    if mixture.closed or clause.negated or _KEEPS.isdisjoint(clause.words) or _MIXED.isdisjoint(clause.words):
        return
    part = part_said(clause)
    if part is None and (ml := millilitres(clause)) is not None:
        whole = sum(grams_roughly(state.lines[n]) or 0.0 for n in mixture.lines)
        part = min(ml / whole, 1.0) if whole else None
    if part is not None:
        mixture.taken = 1.0 - part
