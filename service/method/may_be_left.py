"""Salt and salty liquids that are taken to be eaten whole, and of which some may be left behind."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from ..nutrition.dietary_references import daily_value
from .clauses import Clause
from .happenings import PROTEINS, SALTING, Happening
from .listed import ListedLine
from .method_words import small_words
from .reading_state import COLD, ReadingState
from .stakes import is_worth_asking, line_mg, liquid_mg

_MOVES = small_words("moves_salt")
_HINTS = {
    "sours": frozenset(
        {"ferment", "fermented", "fermenting", "fermentation", "crock", "sauerkraut", "kimchi"}
    ),
    "bastes": frozenset({"baste", "basted", "basting", "brush", "brushing", "brushed"}),
}
"""Words of what sours in its own juice, and of what is put on food bit by bit."""
_GATHERS = small_words("gathers")
_EATEN_AFTER_ALL = frozenset({"gravy", "sauce", "juices", "spoon", "soup", "stew", "ladle", "glaze"})
_TAKES_SALT = (*COLD, "ferment", "dredge", "inject")
_LIQUIDS = ("stock", "wine", "milk", "oil")
_ABSORBS = ("grain", "pasta", "legume", "flour", "bread")
_ROASTS = ("roast", "smoke")


def find_may_be_left(state: ReadingState, clauses: Sequence[Clause]) -> None:
    """Note the lines that the method may leave some of behind, if no step takes them: salt that no clause
    names, and salty liquids under a roast."""
    state.hints |= {name for name, words in _HINTS.items() if _says(clauses, words)}
    taken = {n for each in state.happened if each.kind in _TAKES_SALT for n in each.liquid}
    salts = [n for n in state.index.of_kinds(*SALTING) if n not in state.spoken]
    if salts and taken.isdisjoint(state.index.of_kinds(*SALTING)) and _says(clauses, _MOVES):
        state.may_be_left.update(salts)
    if "steam" in [clause.act for clause in clauses]:
        state.may_be_left |= _salt_of_juice(state, clauses)
    wet = [n for n in state.index.of_kinds(*_LIQUIDS) if n not in taken]
    if not wet or state.is_soup or state.index.of_kinds(*_ABSORBS) or not state.main_foods():
        return
    if (
        any(c.act in _ROASTS for c in clauses)
        and _says(clauses, _GATHERS)
        and not _says(clauses, _EATEN_AFTER_ALL)
    ):
        state.may_be_left.update(wet)


def _salt_of_juice(state: ReadingState, clauses: Sequence[Clause]) -> set[int]:
    """ "Rub the fish with the salt, steam it, tip away the juice on the plate": the salt, some of which goes
    with the juice."""
    steams = next(i for i, clause in enumerate(clauses) if clause.act == "steam")
    if not any(c.act in _POURS and _JUICE.search(c.sentence) for c in clauses[steams + 1 :]):
        return set()
    return set(state.index.of_kinds("salt"))


_POURS = frozenset({"discard", "drain"})
_JUICE = re.compile(r"\b(?:juices?|liquid|liquor)\b", re.IGNORECASE)


def is_of_a_day(mg: float, servings: float | None) -> bool:
    """Whether the sodium of one line makes every serving a day's: it is asked about."""
    a_day_mg = daily_value("NA")
    return servings is not None and a_day_mg is not None and mg >= a_day_mg * servings


def _says(clauses: Iterable[Clause], words: frozenset[str]) -> bool:
    return not all(map(words.isdisjoint, [clause.words for clause in clauses]))


def may_be_left(state: ReadingState, line: ListedLine, servings: float | None) -> bool:
    """Whether a person is to be asked if all of a line that lies in the dish is eaten."""
    if line.line.amount is None:
        return False
    is_salty = line.kind in SALTING or line.kind == "savoury"
    in_doubt = line.index in state.may_be_left or (is_salty and is_of_a_day(line_mg(line), servings))
    return in_doubt and is_worth_asking(state, line_mg(line))


def may_drip(state: ReadingState, marinade: Happening) -> bool:
    """Whether much of what food is basted with may drip off it or burn in the tin."""
    dry = (each for each in state.happened if each.kind in ("roast", "smoke"))
    is_roast = any(each.foods.keys() & marinade.foods.keys() for each in dry)
    return is_roast and "bastes" in state.hints and is_worth_asking(state, 0.5 * liquid_mg(state, marinade))


def in_its_juice(state: ReadingState, cure: Happening) -> bool:
    """Whether the juice that salt draws may be kept, of what ferments in it."""
    return "sours" in state.hints and not set(map(state.kind, cure.foods)) & PROTEINS
