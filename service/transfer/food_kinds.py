"""Which kind a dataset food is for one purpose, a bath or a fryer, say (`food_kinds.csv`)."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Literal

from ..core.figures import Named
from ..core.tables import Row, load

Purpose = Literal["bath", "pot", "yield", "composition", "fryer", "coating", "can"]


@dataclass(frozen=True, slots=True)
class _Rule:
    purpose: str
    group: str
    any_of: re.Pattern[str] | None
    none_of: re.Pattern[str] | None
    kind: str | None

    def fits(self, purpose: str, group: str, name: str) -> bool:
        return (
            self.purpose == purpose
            and self.group in {"", group}
            and (self.any_of is None or self.any_of.search(name) is not None)
            and (self.none_of is None or self.none_of.search(name) is None)
        )


def kind_of(purpose: Purpose, food: Named | None) -> str | None:
    """The kind of a food by the first rule that fits; None where none does or there is no food."""
    return None if food is None else kind_named(purpose, food.group_code[:2], food.name)


@lru_cache(maxsize=4096)
def kind_named(purpose: Purpose, group: str, name: str) -> str | None:
    """`kind_of` by the first two figures of a food group's code and the food's name."""
    lowered = name.lower()
    return next((rule.kind for rule in _rules() if rule.fits(purpose, group, lowered)), None)


@cache
def _rules() -> tuple[_Rule, ...]:
    return load("food_kinds", _rule_of)


def _rule_of(row: Row) -> _Rule:
    kind = None if row["kind"] == "-" else row["kind"]
    return _Rule(row["purpose"], row["group"], _words(row["any_of"]), _words(row["none_of"]), kind)


def _words(cell: str) -> re.Pattern[str] | None:
    """A pattern for any of the words of a cell, each whole or in the plural."""
    if not cell:
        return None
    return re.compile("|".join(rf"\b{re.escape(word)}(?:s|es)?\b" for word in cell.split("|")))
