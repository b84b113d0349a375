"""Bones and vegetables that gave a stock its taste and stay behind when it is strained."""

from __future__ import annotations

import re

from .clauses import Clause
from .happenings import LIQUIDS, SOLIDS, Happening
from .reading_state import HOT, ReadingState

_THROUGH = frozenset({"sieve", "strainer", "chinois", "muslin", "cheesecloth", "colander"})
_POURS = frozenset(
    {"pour", "pass", "run", "tip", "ladle", "put", "press", "push", "rub", "work", "turn", "empty"}
)
_FLAVOURINGS = frozenset({"vegetable", "aromatic"})
_KEPT_BACK = SOLIDS | {"aromatic", "herb", "spice", "other"}


def strains(clause: Clause) -> bool:
    """Whether a clause parts a liquid from what cooked in it: "strain", "pass through a sieve"."""
    if clause.base in ("strain", "sieve", "decant"):
        return True
    return clause.base in _POURS and clause.has("through", "into") and clause.has(*_THROUGH)


_SIEVED_FOR_ITSELF = frozenset({"pasta", "potato", "vegetable", "grain", "egg", "legume"})


def is_tipped_out(state: ReadingState, pot: Happening, clause: Clause) -> bool:
    """ "Tip the pasta into a colander": what stays in it is eaten, so that its water is poured away."""
    if clause.base in ("strain", "sieve", "decant") or not clause.has("colander", "sieve", "strainer"):
        return False
    solids = {state.kind(n) for n in pot.foods} <= _SIEVED_FOR_ITSELF
    if not solids or clause.has("broth", "stock", "liquid", "liquor", "soup"):
        return False
    if clause.has("water") and not clause.has("run", "running", "tap"):
        return False
    if state.solids(clause).keys() - pot.foods.keys():
        return True  # "tip the (canned) beans into a sieve"
    pot.drained = pot.closed = True
    state.pot = None if state.pot is pot else state.pot
    return True


def is_drink(clause: Clause) -> bool:
    """Whether what is strained off is drunk: "strain into bottles"."""
    return strains(clause) and clause.has("bottle", "bottles", "drink", "glasses", "jug")


_FOR_LATER = re.compile(
    r"\bfreez|\banother (?:time|day|use|meal|dish)\b|\bfor (?:a |\w+ )?soup\b", re.IGNORECASE
)


def note_straining(state: ReadingState, pot: Happening, clause: Clause) -> None:
    """The liquid of a pot is kept, for this dish or another; what is not spoken of again stays behind."""
    pot.closed, pot.strained_at = True, state.turn
    if _FOR_LATER.search(clause.sentence):
        pot.eaten, pot.drained = 0.0, True
    else:
        pot.eaten = 1.0
    if state.pot is pot:
        state.pot = None


def leave_solids(state: ReadingState) -> None:
    """What stayed in the sieve is the food of its pot, and is not eaten."""
    for pot in state.happened:
        if pot.strained_at < 0 or (pot.eaten is None and not pot.kept_ml):
            continue
        cooked = dict.fromkeys(pot.extra, 1.0) | pot.liquid | pot.foods
        left = {
            n: share
            for n, share in cooked.items()
            if state.kind(n) in _KEPT_BACK
            and n not in state.taken_out
            and state.last_spoken.get(n, 0) <= pot.strained_at
        }
        if pot.foods.keys() <= left.keys() and any(state.kind(n) in SOLIDS for n in left):
            pot.liquid = {n: s for n, s in cooked.items() if n not in left and n not in pot.foods}
            pot.foods, pot.spent = left, True
        else:
            state.thrown_out |= dict.fromkeys(left, state.turn)


def strain_mixture(state: ReadingState) -> None:
    """ "Simmer the shells with the onion and the water, then strain": no step, and yet strained."""
    if state.latest(HOT) is not None:
        return
    mixture = state.mixture
    cooked = set(mixture.lines) if mixture.heated else state.simmered
    if any(state.kind(n) in LIQUIDS for n in cooked) or (mixture.heated and mixture.water):
        flavourings = (n for n in cooked if state.kind(n) in _FLAVOURINGS)
        state.thrown_out |= dict.fromkeys(flavourings, state.turn)
