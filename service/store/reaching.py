"""Overrules that reach further than their recipe: which recipes, what they would move there, and doing it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from sqlalchemy import Connection

from ..core.checkpoint import WorkStopped
from ..core.errors import SaltledgerError
from ..review.overrides import Overrule
from . import listing, override_records, recipes
from .records import Signature, Version
from .saving import Workbench

Reached = tuple[str, str]
"""Key and save id of a recipe."""


@dataclass(frozen=True, slots=True)
class Move:
    """What an overrule would do to another recipe, mg of sodium a serving; after_mg None: it cannot be worked
    out, and `fault` says why."""

    version: Version
    before_mg: float
    after_mg: float | None
    fault: str | None = None


def others(connection: Connection, made: Iterable[Overrule], key: str) -> list[Reached]:
    """The recipes but `key` that have the lines or foods of some overrules, the most sodium first."""
    found: dict[Reached, None] = {}
    for each in made:
        if each.reach == "line":
            found |= dict.fromkeys(listing.with_line_or_food(connection, line=each.target.line_key))
        elif each.reach == "food":
            found |= dict.fromkeys(listing.with_line_or_food(connection, food=each.food_code))
    return [reached for reached in found if reached[0] != key]


def moves(bench: Workbench, made: Sequence[Overrule], reached: Iterable[Reached]) -> Iterator[Move]:
    """What overrules would move in other recipes, one after another; nothing is kept."""
    for key, save_id in reached:
        with bench.database.read() as connection:
            seen = recipes.by_save_id(connection, save_id)
            standing = override_records.in_force(connection, key)
        if seen is None:
            continue
        try:
            after = bench.with_overrules(seen, [*standing, *made])["sodium"]["per_serving_mg"]["likely"]
        except WorkStopped:
            raise
        except SaltledgerError as fault:
            yield Move(seen, seen.sodium_mg, None, str(fault))
        else:
            yield Move(seen, seen.sodium_mg, after)


def carry(bench: Workbench, reached: Iterable[Reached], signature: Signature) -> int:
    """Work other recipes out anew on the overrules that stand now; gives how many got a new version.

    One that cannot be worked out today is left as it is: its next save or recalculation will say why.
    """
    moved = 0
    for key, _ in reached:
        try:
            moved += bench.follow(key, signature) is not None
        except SaltledgerError:
            continue
    return moved
