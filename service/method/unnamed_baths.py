"""Baths of which the method speaks and that no heading or sentence makes: "put it in the marinade"."""

from __future__ import annotations

from .happenings import DRY, SALTING, WET, Mixture
from .reading_state import ReadingState

_OF_BATHS = {
    "cure": DRY - {"flour"},
    "brine": DRY - {"flour"} | {"water", "acid"},
    "marinade": DRY - {"flour"} | WET,
}
"""Kinds of lines that a bath is made of."""


def mix_unnamed(state: ReadingState, name: str) -> None:
    """ "Mix the cure", of a list without headings: the lines that stand together and can be of it."""
    run: list[int] = []
    for line in state.index.lines:
        if line.kind in _OF_BATHS[name] and not state.spoken.get(line.index):
            run.append(line.index)
        elif run and _is_salty(state, run):
            break
        else:
            run = []
    if len(run) > 1 and _is_salty(state, run):
        state.mixture = state.named[name] = Mixture(lines=dict.fromkeys(run, 1.0), name=name)


def _is_salty(state: ReadingState, lines: list[int]) -> bool:
    return any(state.kind(n) in SALTING | {"savoury"} for n in lines)


def bath_meant(state: ReadingState, name: str) -> Mixture:
    """The bath of a name; where none was made, of the lines of the list that can be it."""
    known = state.mixture_named(name)
    if known.lines or known.water is not None or name in state.named:
        return known
    mix_unnamed(state, name)
    return state.named.get(name, known)


def unspoken_brine(state: ReadingState) -> dict[int, float]:
    """ "Brine the chops in salt water", of a list with water and salt that nothing was done with yet."""
    free = [n for n in state.index.lines if not state.spoken.get(n.index) and n.line.amount is not None]
    kinds = {n.kind for n in free}
    return {n.index: 1.0 for n in free if n.kind in ("water", "salt")} if {"water", "salt"} <= kinds else {}


def unspoken_salt(state: ReadingState) -> dict[int, float]:
    """ "Lay the aubergines in salted water", of a list with one amount of salt that nothing was done with."""
    salts = [n for n in state.index.by_kind.get("salt", ()) if n.line.amount is not None]
    return {salts[0].index: 1.0} if len(salts) == 1 and not state.spoken.get(salts[0].index) else {}
