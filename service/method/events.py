"""The method read from end to end: its clauses, each given to whom it concerns."""

from __future__ import annotations

import re
from collections.abc import Sequence

from .baths import mix, read_bath
from .clauses import Clause, clauses_of
from .coatings import read_coating
from .fates import lines_rinsed, read_fate
from .happenings import Happening
from .kitchen import HOT, Kitchen
from .listed import Index
from .pots import amount_said, pot_is_poured, read_pot

_MOVES_SALT = re.compile(
    r"\b(?:salt(?:ed|ing|y)?|brin\w+|marinad\w+|marinat\w+|soak\w*|drain\w*|rins\w+|cur(?:e|ed|ing))\b",
    re.IGNORECASE,
)
_TO_TASTE = re.compile(
    r"to taste|as needed|if needed|season|pinch|some|little|sprinkl|generous", re.IGNORECASE
)


def watch(paragraphs: Sequence[str], index: Index) -> Kitchen:
    """The kitchen at the end of the method, with everything that happened."""
    kitchen = Kitchen.of(index)
    first: Clause | None = None
    for clause in clauses_of(paragraphs, index):
        first = first or clause
        _take(kitchen, clause)
    lines_rinsed(kitchen, first)
    kitchen.happened = [each for each in kitchen.happened if each.foods and _counts(kitchen, each)]
    return kitchen


def _take(kitchen: Kitchen, clause: Clause) -> None:
    before = len(kitchen.happened)
    read_fate(kitchen, clause)
    taken = len(kitchen.happened) > before
    if not taken:
        taken = read_bath(kitchen, clause) or read_pot(kitchen, clause)
    if not taken:
        read_coating(kitchen, clause)
    if not taken or clause.act in ("heat", "mix"):
        mix(kitchen, clause)
    kitchen.seasoned += _seasonings(kitchen, clause, taken)
    if not taken and not clause.verb and _MOVES_SALT.search(clause.text) and clause.opens:
        kitchen.unread.append(clause)
    kitchen.remember(clause)


def _seasonings(kitchen: Kitchen, clause: Clause, taken: bool) -> list[tuple[Clause, str]]:
    """Salt that goes into the dish and stands in no line."""
    said = kitchen.salt_said(clause)
    if clause.base == "salt" and not kitchen.index.of_kinds("salt") and not clause.negated:
        return [(clause, "")] if not taken else []
    if said is None or taken or clause.negated or said.prep == "without":
        return []
    if (
        kitchen.water_of(clause) is not None
        and clause.has("water")
        and kitchen.pot is not None
        and kitchen.pot.clause is clause
    ):
        return []
    return [(clause, amount_said(clause, "salt"))]


def _counts(kitchen: Kitchen, each: Happening) -> bool:
    if each.kind in HOT:
        return pot_is_poured(each, kitchen)
    return True
