"""Salt that a method seasons with beside that of its list, which goes into the dough."""

from __future__ import annotations

import re
from collections.abc import Sequence

from .clause_words import needs_no_salt
from .clauses import Clause
from .reading_state import ReadingState

_SALT = re.compile(r"\bsalt\b", re.IGNORECASE)
_SEASONS = frozenset({"season", "salt"})
_STREWS = frozenset({"sprinkle", "rub", "strew"})
_CORRECTS = frozenset({"adjust", "correct", "check", "taste", "rectify"})
_SAID = _SEASONS | _CORRECTS | {"seasoning", "seasonings", "salted", "seasoned", "seasons", "salting"}
"""Words of which each of them has one."""
_LEFT = frozenset({"to-taste", "plus-more", "divided", "as-needed"})
"""Flags of a line of salt of which some is for seasoning."""
_SALTS = ("salt", "seasoning", "seasonings", "salted")


def seasons_beside(state: ReadingState, clauses: Sequence[Clause]) -> tuple[Clause, bool] | None:
    """The first clause that seasons with salt beside that of the list, all of which is used elsewhere.

    With it, whether that is likely: the list's stands under headings of other foods. None: no clause does.
    """
    salts = [n for n in state.index.lines if n.kind == "salt" or _SALT.search(n.text)]
    if not salts or any(n.line.amount is None or _LEFT & n.line.flags for n in salts):
        return None
    lines, headings = {n.index for n in salts}, {n.heading for n in salts}
    seasons = [
        c for c in clauses if not _SAID.isdisjoint(c.words) and _is_seasoning(c) and not needs_no_salt(c)
    ]
    if not seasons:
        return None
    for clause in seasons:
        foods = state.lines_of(clause).keys() - lines
        if "" not in headings and foods and headings.isdisjoint(state.lines[n].heading for n in foods):
            return clause, True
    general = {id(clause) for clause in seasons if _is_general(clause)}
    used: set[int] = set()
    for clause in clauses if general else ():
        if id(clause) in general and used == lines:
            return clause, False
        used |= {n for m in clause.mentions for n in m.lines} & lines
    return None


def _is_general(clause: Clause) -> bool:
    """ "Season to taste", "adjust the seasoning": of the whole dish."""
    return clause.base in _CORRECTS or clause.has("taste")


def _is_seasoning(clause: Clause) -> bool:
    if clause.negated:
        return False
    if clause.verb is None and clause.has("salt") and clause.has("taste"):
        return True  # "Salt and freshly ground pepper to taste."
    if clause.base in _STREWS and clause.has("salt"):
        return True
    return clause.base in _SEASONS or (clause.base in _CORRECTS and clause.has(*_SALTS))
