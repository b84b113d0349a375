"""Carrying overrules to the other recipes that they reach: some at once, the rest behind the answer."""

from __future__ import annotations

import threading
from collections.abc import Sequence
from typing import TYPE_CHECKING

from flask import Flask, current_app

from .. import store as kept
from ..review.overrides import Overrule
from ..store.records import Signature
from .stores import store, workbench

if TYPE_CHECKING:
    from ..store.reaching import Reached

AT_ONCE = 40
"""Recipes that are worked out anew before the answer; more would keep its reader waiting."""


def reached_by(made: Sequence[Overrule], key: str) -> list[Reached]:
    """The recipes but `key` that overrules reach, the most sodium first."""
    if all(each.reach == "recipe" for each in made):
        return []
    with store().database.read() as connection:
        return kept.reaching.others(connection, made, key)


def carry(reached: Sequence[Reached], signature: Signature) -> None:
    """Work recipes out anew on the overrules that stand now; what a stopped service leaves of the rest,
    their next save or recalculation does."""
    kept.reaching.carry(workbench(), reached[:AT_ONCE], signature)
    rest = reached[AT_ONCE:]
    if rest:
        app: Flask = current_app._get_current_object()  # type: ignore[attr-defined]
        threading.Thread(target=_carry_rest, args=(app, rest, signature), daemon=True).start()


def _carry_rest(app: Flask, rest: Sequence[Reached], signature: Signature) -> None:
    with app.app_context():
        kept.reaching.carry(workbench(), rest, signature)
