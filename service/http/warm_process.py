"""Imported by the process that those of `line_pool` are forked from: loads what each of them needs."""

from __future__ import annotations

import gc

from ..calculator import answer_recipe
from ..core.logs import configure
from ..gate.reading import load
from ..gate.recipe_schema import RecipeSchema
from . import pool_work
from .examples import SHORT

__all__ = ["pool_work"]

configure("info")
answer_recipe(load(RecipeSchema(), SHORT))
gc.collect()
gc.freeze()
