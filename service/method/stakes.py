"""How much sodium hangs on a line, roughly: which doubts of a reading are worth a question."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache, lru_cache

from ..core.tables import rows
from .happenings import Happening
from .left_to_the_cook import grams_roughly
from .listed import ListedLine
from .reading_state import ReadingState
from .weights_told import grams_of, per_litre_g

WORTH_ASKING = 0.10
"""Share of all the sodium of a recipe from which on a doubt about it is a question."""
SALT_MG_PER_G = 390.0
"""Sodium of a gram of salt, mg."""
_PLAIN_MG_PER_G = 0.6
"""Sodium of food to which nothing was added, mg in a gram."""
_UNWEIGHED_G = {"salt": 6.0, "savoury": 20.0}
"""What is taken for a line without an amount, g."""
_IN_SALT = re.compile(
    r"\b(?:in|under) (?:\w+ )?(?:brine|salt)\b|\b(?:brined|salted|preserved|pickled|salt-\w+)\b",
    re.IGNORECASE,
)
_FRESH, _IN_SALT_MG_PER_G = frozenset({"vegetable", "fish", "seafood", "other", "legume", "herb"}), 10.0
"""Kinds that are fresh unless a line says that they lie in salt; sodium of those that do, mg in a gram."""
_SALTED_TOO = frozenset({"fruit", "egg", "nut", "acid"})
"""Kinds that are sour or sweet where they are preserved, and salty only where a line calls them salted."""
_SALTED_MG = 3000.0
"""Sodium of a litre of water that is salted as usual, mg."""


@cache
def _by_class() -> dict[str, tuple[tuple[frozenset[str], float], ...]]:
    found: dict[str, list[tuple[frozenset[str], float]]] = {}
    for row in rows("method_sodium"):
        words = frozenset() if row["words"] == "*" else frozenset(row["words"].split("|"))
        found.setdefault(row["class"], []).append((words, float(row["mg_per_g"])))
    return {name: tuple(each) for name, each in found.items()}


@lru_cache(maxsize=1 << 12)
def line_mg(line: ListedLine) -> float:
    """Sodium of a line, mg, roughly."""
    if line.kind == "water":
        return 0.0
    return (grams_roughly(line) or _UNWEIGHED_G.get(line.kind, 0.0)) * _mg_per_g(line)


def _mg_per_g(line: ListedLine) -> float:
    for words, mg in _by_class().get(line.kind, ()):
        if not (words and words.isdisjoint(line.words)):
            return mg
    return _IN_SALT_MG_PER_G if _was_salted(line) else _PLAIN_MG_PER_G


def _was_salted(line: ListedLine) -> bool:
    """ "Anchovies under salt", "salted plums"."""
    if line.kind in _SALTED_TOO:
        return "salted" in line.words
    return line.kind in _FRESH and _IN_SALT.search(line.text) is not None


def lies_in_salt(line: ListedLine) -> bool:
    """Whether a line says that its food lies in salt or brine: "anchovies under salt"."""
    return _IN_SALT.search(line.text) is not None


def is_salty(line: ListedLine) -> bool:
    """Whether a line is of food that was salted or cured before it was bought."""
    if _was_salted(line):
        return True
    return any(words & set(line.words) for words, _ in _by_class().get(line.kind, ()) if words)


def lines_mg(state: ReadingState, lines: Iterable[int]) -> float:
    return sum(line_mg(state.lines[n]) for n in lines)


def liquid_mg(state: ReadingState, happening: Happening) -> float:
    """Sodium of a bath or a pot, mg, roughly."""
    found = lines_mg(state, happening.liquid)
    water = happening.water
    if water is None:
        return found
    if water.salt:
        grams = per_litre_g(water.salt) or grams_of(water.salt) or _UNWEIGHED_G["salt"]
        return found + grams * SALT_MG_PER_G
    return found + (_SALTED_MG if water.strength else 0.0)


def eaten_mg(state: ReadingState) -> float:
    """Sodium of all that is eaten, mg, roughly: of a bath that is poured away a tenth."""
    poured = {n for each in state.happened if each.eaten != 1.0 for n in each.liquid}
    lines = state.lines.values()
    return sum(line_mg(line) * (0.1 if line.index in poured else 1.0) for line in lines)


def is_worth_asking(state: ReadingState, moved_mg: float) -> bool:
    """Whether so much sodium is a share of the recipe's that a person should be asked about it."""
    return moved_mg >= WORTH_ASKING * max(eaten_mg(state), 1.0)
