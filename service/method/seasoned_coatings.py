"""Salt that only the method names and that goes into the flour of a coating: "season the flour with salt"."""

from __future__ import annotations

import re
from collections.abc import Sequence

from .clauses import Clause
from .coats_used import is_used_up
from .egg_coats import coat_in_egg
from .happenings import Happening, Water
from .reading_state import ReadingState
from .shared_salt import share_salt
from .waters import amount_said

_BY_ITSELF = "dry"
"""Strength of salt that lies in a bath without water."""


def salt_coatings(state: ReadingState, clauses: Sequence[Clause]) -> None:
    """Move the salt of a seasoned flour from the dish to where the flour lies."""
    dredges = [each for each in state.happened if each.kind == "dredge"] or coat_in_egg(state, clauses)
    if not dredges:
        return
    for said in list(state.seasoned):
        coating = _salted(state, said[0], clauses, dredges)
        if coating is not None and coating.water is None:
            coating.water = Water(_BY_ITSELF, said[1])
            state.seasoned.remove(said)
    for coating in dredges:
        _salt_both(state, clauses, coating)
        _take_listed_salt(state, clauses, coating)
        share_salt(state, clauses, coating)
        if coating.water is None and is_used_up(state, clauses, coating):
            state.happened.remove(coating)


_SEASONED = re.compile(
    r"\b(?:seasoned|salted) (?:[a-z]+ )?(?:flour|cornflour|crumbs|breadcrumbs|semolina|polenta|cornmeal)\b"
    r"|\b(?:flour|crumbs|breadcrumbs)(?:[- ](?:and|&)[- ]|/)salt (?:mix|mixture)\b",
    re.IGNORECASE,
)


def _take_listed_salt(state: ReadingState, clauses: Sequence[Clause], coating: Happening) -> None:
    """ "Coat the chicken in seasoned flour", "salt the flour": with the salt of the list, if nothing else of
    the recipe is said to take it."""
    salts = state.index.of_kinds("salt")
    if len(salts) != 1 or coating.water is not None or any(salts[0] in h.liquid for h in state.happened):
        return
    seasoned = _SEASONED.search(coating.clause.text) is not None
    own = (c for c in clauses if c.base in ("salt", "season") and c.place <= coating.clause.place)
    flours = (state.lines_of(c).keys() for c in own)
    seasoned = seasoned or any(lines and lines <= coating.liquid.keys() for lines in flours)
    spoken = sum(salts[0] in m.lines for m in coating.clause.mentions)
    if seasoned and state.spoken.get(salts[0], 0) <= spoken and not state.seasoned:
        coating.liquid[salts[0]] = 1.0


def is_salted_to_taste(each: Happening) -> bool:
    """Whether a coating is seasoned, and nothing says with how much salt."""
    return each.kind == "dredge" and each.water is not None and not each.water.salt


def _salted(
    state: ReadingState, said: Clause, clauses: Sequence[Clause], dredges: Sequence[Happening]
) -> Happening | None:
    """The coating that a clause salts: it names what lies there, or else the clause before it does."""
    before = [c for c in clauses if c.method == said.method and c.start <= said.start]
    named = next((lines for c in reversed(before) if (lines := set(state.lines_of(c)))), set())
    return next((each for each in dredges if named and named <= each.liquid.keys()), None)


def _salt_both(state: ReadingState, clauses: Sequence[Clause], coating: Happening) -> None:
    """ "Salt" without an amount that the method also puts elsewhere seasons the dish and the flour."""
    elsewhere = any(
        c.base in ("salt", "season") and state.lines_of(c).keys() - coating.liquid.keys() for c in clauses
    )
    for line in list(coating.liquid):
        vague = state.kind(line) == "salt" and state.lines[line].line.amount is None
        if vague and (elsewhere or state.spoken.get(line, 0) > 1) and coating.water is None:
            del coating.liquid[line]
            coating.water = Water(_BY_ITSELF, _said_of_flour(state, clauses, coating, line))


def _said_of_flour(state: ReadingState, clauses: Sequence[Clause], coating: Happening, salt: int) -> str:
    """The salt that a clause measures into the flour and nothing else; it is none of the dish's then."""
    lying = coating.liquid.keys() | {salt}
    for clause in clauses:
        lines = state.lines_of(clause).keys()
        if salt in lines and len(lines) > 1 and lines <= lying and (said := amount_said(clause, "salt")):
            left = state.amounts.get(salt, [])
            left[:] = left[1:] if left and said.startswith(left[0]) else left
            return said
    return ""
