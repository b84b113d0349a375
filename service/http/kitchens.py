"""What an answer stands on beside the dataset: what the caller's kitchen has measured, and saved recipes.

A key belongs to a kitchen, or is a kitchen of its own; callers without a key share one. No question asks for
two, so that none sees what another measured.
"""

from __future__ import annotations

from collections.abc import Mapping
from contextlib import ExitStack, suppress
from typing import TYPE_CHECKING, Any

from flask import Flask, current_app, g, request

from .. import store as kept
from ..core.assumptions import local_rows
from ..core.errors import StoreUnavailable
from ..core.remembered import Remembered
from ..jobs.workbenches import own_figures
from ..recipe.sub_recipes import cookbook
from . import known_foods
from .stores import store

if TYPE_CHECKING:
    from sqlalchemy import Connection

    from ..evidence.local import Local
    from ..recipe.sub_recipes import SavedRecipe
    from ..store.keys import ApiKey


OPEN = "open"
"""The kitchen of callers without a key."""

CALCULATING = frozenset({"calculations", "targets", "comparisons", "batches", "recipes", "readings"})
"""Blueprints whose answers stand on the caller's kitchen."""

REVIEWING = frozenset({"review", "reviews"})
"""Blueprints whose answers stand on the kitchen of the recipe that is reviewed."""

KEY = "saltledger-kitchens"
REMEMBERED = 200


def register(app: Flask) -> None:
    """Let answers stand on the caller's own kitchen, and recipes be made of saved ones."""
    app.extensions[KEY] = Remembered(REMEMBERED)
    app.before_request(_stand_on_own)
    app.teardown_request(_step_down)


def kitchen() -> str:
    """The caller's kitchen, as the store knows it."""
    key: ApiKey | None = g.get("api_key")
    return key.kitchen_id if key else OPEN


def _stand_on_own() -> None:
    if request.blueprint not in CALCULATING | REVIEWING:
        return
    stack = g.standing_on = ExitStack()
    if store().exists:
        of = kitchen() if request.blueprint in CALCULATING else _of_recipe(request.view_args or {})
        stack.enter_context(local_rows(own_or_last(of) if of is not None else None))
    stack.enter_context(cookbook(_find))


def _of_recipe(named: Mapping[str, Any]) -> str | None:
    """The kitchen of the recipe that a review is of."""
    with suppress(StoreUnavailable), store().database.read() as connection:
        key = named.get("key")
        if key is None and "name" in named:
            version = kept.recipes.by_save_id(connection, named["name"])
            key = version.key if version else None
        return kept.own_measurements.kitchen_of(connection, key) if key is not None else None
    return None


def _step_down(_: BaseException | None) -> None:
    stack: ExitStack | None = g.pop("standing_on", None)
    if stack is not None:
        stack.close()


def own_or_last(of: str) -> Local | None:
    """A kitchen's figures; while the store cannot be asked, what they were."""
    try:
        return store().as_it_stands(("kitchen", of), lambda connection: local_figures(connection, of))
    except StoreUnavailable:
        known = _kitchens().get(of)
        return known[1] if known else None


def local_figures(connection: Connection, of: str) -> Local | None:
    """A kitchen's figures; None where it has measured nothing."""
    state, known = kept.own_measurements.state(connection, of), _kitchens().get(of)
    if known is not None and known[0] == state:
        return known[1]
    standing = kept.own_measurements.standing(connection, of) if state[1] else []
    local = own_figures(standing, known_foods.foods()) if standing else None
    _kitchens().keep(of, (state, local))
    return local


def _kitchens() -> Remembered[tuple[tuple[int, int], Local | None]]:
    """What was worked out of kitchens' measurements, each with the state it was worked out of."""
    found: Remembered[tuple[tuple[int, int], Local | None]] = current_app.extensions[KEY]
    return found


def _find(key: str) -> SavedRecipe | None:
    if not store().exists:
        return None
    return kept.recipe_uses.finder(store().database)(key)
