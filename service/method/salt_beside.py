"""Salt that a method seasons with beside that of its list, which goes into the dough."""

from __future__ import annotations

import re
from collections.abc import Sequence

from .clause_words import goal, needs_no_salt
from .clauses import Clause
from .happenings import Happening
from .listed import ListedLine
from .method_words import small_words
from .reading_state import HOT, ReadingState

_SALT = re.compile(r"\bsalt\b", re.IGNORECASE)
_SEASONS = frozenset({"season", "salt"})
_STREWS = frozenset({"sprinkle", "rub", "strew"})
_CORRECTS = frozenset({"adjust", "correct", "check", "taste", "rectify"})
_SAID = _SEASONS | _CORRECTS | {"seasoning", "seasonings", "salted", "seasoned", "seasons", "salting"}
"""Words of which each of them has one."""
SEASONS_TOO = frozenset({"to-taste", "plus-more", "divided", "as-needed"})
"""Flags of a line of salt of which some is for seasoning."""
_MORE_BESIDE = "plus-more"
"""The flag of those whose amount is for one use, and more comes on top: "1 tbsp salt, plus more to taste"."""
_SALTS = ("salt", "seasoning", "seasonings", "salted")


def _says_salt(text: str) -> bool:
    return "salt" in text.lower() and _SALT.search(text) is not None


def gives_more(line: ListedLine) -> bool:
    """Whether a line of salt measures one use of it, and leaves open how much more the dish takes."""
    return line.line.amount is not None and _MORE_BESIDE in line.line.flags


def _leaves_some(state: ReadingState, salt: ListedLine) -> bool:
    """Whether a line of salt may be what is seasoned with: of no amount, or divided."""
    vague = salt.line.amount is None and salt.index not in state.amounts
    return vague or (bool(SEASONS_TOO & salt.line.flags) and not gives_more(salt))


def seasons_beside(state: ReadingState, clauses: Sequence[Clause]) -> tuple[Clause, bool] | None:
    """The first clause that seasons with salt beside that of the list, all of which is used elsewhere.

    With it, whether that is likely: the list's stands under headings of other foods. None: no clause does.
    """
    salts = [n for n in state.index.lines if n.kind == "salt" or _says_salt(n.text)]
    if not salts or any(_leaves_some(state, n) for n in salts):
        return None
    told = None in [n.line.amount for n in salts]  # "add 2 teaspoons of salt", of a line that gives none
    lines, headings = {n.index for n in salts}, {n.heading for n in salts}
    seasons = [
        c for c in clauses if not _SAID.isdisjoint(c.words) and _is_seasoning(c) and not needs_no_salt(c)
    ]
    seasons = [c for c in seasons if not _seasons_otherwise(state, c)]
    for clause in seasons if "" not in headings and not told else ():
        foods = state.lines_of(clause).keys() - lines or _spoken_of_before(state, clauses, clause) - lines
        if foods and headings.isdisjoint(state.lines[n].heading for n in foods):
            return clause, True
    bath, more = None if told else _bath_of_all(state, lines), any(map(gives_more, salts))
    if more and (bath is None or bath.kind not in HOT):
        return None  # what is seasoned with may be of the line
    back = bath is not None and bath.kind in HOT and any(state.spoken.get(n, 0) > 1 for n in lines)
    back = back and not more
    if bath is not None and not back and (later := _after_bath(bath, clauses, lines)) is not None:
        return later, True
    if bath is not None and bath.kind in (*HOT, "brine"):
        bases = ("season",) if bath.kind in HOT else _SEASONS
        bare = next((c for c in seasons if c.base in bases and c.place > bath.clause.place), None)
        if bare is not None:
            return bare, True  # "season", of a sauce, once the salt went into the pot
    general = {id(c) for c in seasons if _is_general(c) or (told and c.base == "season")}
    used: set[int] = set()
    for clause in clauses if general else ():
        if id(clause) in general and used == lines:
            comes_on_top = not told and not _MORE.isdisjoint(clause.words)
            return clause, comes_on_top and _PERHAPS.isdisjoint(clause.words)
        for mention in clause.mentions:
            used |= lines.intersection(mention.lines)
    first = next((c for c in seasons if id(c) in general), None) if told and used == lines else None
    return None if first is None else (first, False)


_MORE = frozenset({"additional", "more", "extra", "further"})
_PERHAPS = small_words("perhaps")


def seasons_somewhere(state: ReadingState, clauses: Sequence[Clause]) -> bool:
    """Whether a clause seasons, with salt that it names or not."""
    said = (c for c in clauses if not _SAID.isdisjoint(c.words) and _is_seasoning(c))
    return any(not (needs_no_salt(c) or _seasons_otherwise(state, c) or _salts_water(state, c)) for c in said)


def _salts_water(state: ReadingState, clause: Clause) -> bool:
    """ "Salt the water", "bring it to the boil, salt it": a pot's, and no food's."""
    waters = (h.water for h in state.happened if h.water is not None)
    at_pot = clause.base == "salt" and any(water.salted_at == clause.place for water in waters)
    return at_pot or (clause.base == "salt" and "water" in clause.speaks)


def _seasons_otherwise(state: ReadingState, clause: Clause) -> bool:
    """ "Season with pepper": with what is named, and no salt."""
    return bool(state.lines_of(clause, ("spice", "herb", "savoury"))) and not clause.has(*_SALTS)


def _spoken_of_before(state: ReadingState, clauses: Sequence[Clause], clause: Clause) -> set[int]:
    """ "Pour in the cream and season": the lines that were spoken of last."""
    at = next(i for i, each in enumerate(clauses) if each is clause)
    return next((found for each in reversed(clauses[:at]) if (found := set(state.lines_of(each)))), set())


_GIVES = frozenset({"season", "coat", "put", "serve", ""})
_WETS = frozenset({"water", "bath"})


def _bath_of_all(state: ReadingState, salts: set[int]) -> Happening | None:
    """The bath that is thrown away and that all the salt of the list went into."""
    baths = [h for h in state.happened if h.kind in _THROWN and h.eaten in (None, 0.0)]
    return next((h for h in baths if all(h.liquid.get(n) == 1.0 for n in salts)), None)


def _after_bath(bath: Happening, clauses: Sequence[Clause], salts: set[int]) -> Clause | None:
    """The clause that salts food once it left a bath: "drain the chops … sprinkle with salt"."""
    end = bath.clause.method, bath.clause.end
    speaking = dict.fromkeys([c for c in clauses for m in c.mentions if not salts.isdisjoint(m.lines)])
    later = (c for c in [*speaking][1:] if c.place > end and _SALT.search(c.text))
    return next((c for c in later if _gives_salt(c, salts)), None)


_THROWN = frozenset({"brine", "boil", "simmer", "soak"})


def _gives_salt(clause: Clause, salts: set[int]) -> bool:
    adds = clause.act in _GIVES or clause.has("adding", "sprinkling")
    if clause.negated or not adds or not _WETS.isdisjoint(clause.speaks) or clause.has("pot", "excess"):
        return False
    given = [m for m in clause.mentions if m.prep in ("", "with") and not salts.isdisjoint(m.lines)]
    named = any(not goal(clause, m) for m in given) and clause.tokens[0].text not in ("if", "unless")
    return named and not needs_no_salt(clause)


def _is_general(clause: Clause) -> bool:
    """ "Season to taste", "adjust the seasoning": of the whole dish."""
    return clause.base in _CORRECTS or clause.has("taste")


def _is_seasoning(clause: Clause) -> bool:
    if clause.negated:
        return False
    if clause.base in _STREWS and clause.has("salt"):
        return True
    return clause.base in _SEASONS or (clause.base in _CORRECTS and clause.has(*_SALTS))
