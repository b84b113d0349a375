"""Saved recipes as ingredients: while a request is answered, its recipes may name what the store keeps."""

from __future__ import annotations

from contextlib import AbstractContextManager
from typing import TYPE_CHECKING

from flask import Flask, g, request

from .. import store as kept
from ..recipe.sub_recipes import cookbook
from .kitchens import CALCULATING, REVIEWING
from .stores import store

if TYPE_CHECKING:
    from ..recipe.sub_recipes import SavedRecipe


def register(app: Flask) -> None:
    """Let calculations find the recipes that they are made of."""
    app.before_request(_open)
    app.teardown_request(_close)


def _open() -> None:
    if request.blueprint in CALCULATING | REVIEWING:
        opened: AbstractContextManager[None] = cookbook(_find)
        opened.__enter__()
        g.cookbook = opened


def _close(_: BaseException | None) -> None:
    opened: AbstractContextManager[None] | None = g.pop("cookbook", None)
    if opened is not None:
        opened.__exit__(None, None, None)


def _find(key: str) -> SavedRecipe | None:
    if not store().exists:
        return None
    return kept.recipe_uses.finder(store().database)(key)
