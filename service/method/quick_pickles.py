"""Vegetables that stand in cold vinegar with salt: a salad, unless they are taken out of it again."""

from __future__ import annotations

from .clauses import Clause
from .happenings import SALTING, Happening
from .reading_state import ReadingState

_PIECES = frozenset({"vegetable", "fruit"})
_SHARP = frozenset({"acid", "water", "sweet", "spice", "herb", "aromatic"}) | SALTING


def lie_in_vinegar(state: ReadingState, clause: Clause) -> None:
    """ "Stir vinegar, salt and sugar, add the onion, leave for an hour": it counts if it is drained."""
    mixture, pending = state.mixture, state.pending
    if mixture.heated or (pending is not None and pending.kind != "dry_cure"):
        return
    foods = {n: s for n, s in mixture.lines.items() if state.kind(n) in _PIECES}
    liquid = {n: s for n, s in mixture.lines.items() if n not in foods}
    kinds = set(map(state.kind, liquid))
    if not foods or "acid" not in kinds or not kinds & SALTING or not kinds <= _SHARP:
        return
    state.pending = Happening("marinate", clause, foods=foods, liquid=liquid)
