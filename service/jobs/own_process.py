"""What a process needs that works on parts of a batch: settings, foods and the store, each loaded once."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache, lru_cache
from typing import TYPE_CHECKING

from .. import __version__
from ..config import Settings
from ..core.assumptions import local_rows
from ..core.tables import tables_sha256
from ..foods.dataset import bundled
from ..recipe.sub_recipes import SavedRecipe, cookbook
from ..review.chain import exact_sha256

if TYPE_CHECKING:
    from ..evidence.local import Local
    from ..foods.dataset import FoodTable
    from ..store.database import Database
    from ..store.saving import Workbench

MOST_KITCHENS = 64
"""Kitchens whose own figures a process remembers."""


@cache
def settings() -> Settings:
    """The settings of the environment. Raises BadSetting."""
    return Settings.from_environment()


@cache
def database() -> Database:
    """The store that the settings name. Raises StoreUnavailable."""
    from ..config import default_url
    from ..store.database import Database

    return Database(settings().database_url or default_url())


@cache
def foods() -> FoodTable:
    """The bundle, and what is kept of the second source where that is on. Raises StoreUnavailable."""
    if settings().remote_foods == "off":
        return bundled()
    from .second_source import standing_foods

    return standing_foods(database())


@cache
def rests_on() -> str:
    """What figures rest on in this process, as one text: where it is the same, answers are."""
    return exact_sha256([__version__, foods().identity["sha256"], tables_sha256(), _kept_sha256s()])


@cache
def rests_on_store() -> str:
    """The same of saved recipes: the store is the very one too. Raises StoreUnavailable."""
    from ..store import journal

    with database().read() as connection:
        return exact_sha256([rests_on(), journal.first_hash(connection)])


def _kept_sha256s() -> list[str]:
    if settings().remote_foods == "off":
        return []
    from ..store import second_foods

    with database().read() as connection:
        return sorted(each.food.sha256 for each in second_foods.standing(connection))


@cache
def workbench() -> Workbench:
    """Working saved recipes out in the store that the settings name. Raises StoreUnavailable."""
    from .workbenches import make_workbench

    return make_workbench(database(), foods())


@contextmanager
def own_figures_of(key: str) -> Iterator[None]:
    """While it is open, answers stand on what the kitchen that saved a recipe has measured itself."""
    from ..store import own_measurements

    with database().read() as connection:
        kitchen = own_measurements.kitchen_of(connection, key)
    with local_rows(figures_of_kitchen(kitchen) if kitchen else None):
        yield


def figures_of_kitchen(kitchen: str) -> Local | None:
    """What a kitchen has measured itself; None where it has measured nothing."""
    from ..store import own_measurements

    with database().read() as connection:
        state = own_measurements.state(connection, kitchen)
    return _figures_of(kitchen, state) if state[1] else None


@lru_cache(MOST_KITCHENS)
def _figures_of(kitchen: str, _state: tuple[int, int]) -> Local | None:
    from . import workbenches

    with database().read() as connection:
        return workbenches.figures_of_kitchen(connection, kitchen, foods())


@contextmanager
def loaded() -> Iterator[None]:
    """For commands: what was loaded before is forgotten, and what is loaded meanwhile let go of."""
    _forget()
    try:
        yield
    finally:
        _forget()


def _forget() -> None:
    if database.cache_info().currsize:
        database().close()
    for each in (settings, database, foods, rests_on, rests_on_store, workbench, _figures_of):
        each.cache_clear()


@contextmanager
def kept_recipes() -> Iterator[None]:
    """While it is open, recipes may name saved ones as ingredients; the store is opened when one does."""
    with cookbook(_find):
        yield


def _find(key: str) -> SavedRecipe | None:
    from ..store.recipe_uses import finder

    return finder(database())(key)
