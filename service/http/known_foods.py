"""The foods of a running app: the bundle, and what is kept of the second source where that is on."""

from __future__ import annotations

from typing import TYPE_CHECKING

from flask import Flask, current_app

from ..config import Settings
from ..foods.dataset import FoodTable, bundled
from ..jobs.second_source import LazySource, LookUps
from ..jobs.workbenches import make_workbench

if TYPE_CHECKING:
    from ..store.saving import Workbench

KEY = "saltledger-look-ups"


def foods() -> FoodTable:
    """The foods that the current app knows now."""
    look_ups: LookUps | None = current_app.extensions[KEY]
    return bundled() if look_ups is None else look_ups.foods


def register(app: Flask) -> None:
    """Give the app its second source, where the settings turn it on."""
    settings: Settings = app.extensions["saltledger"]
    app.extensions[KEY] = None if settings.remote_foods == "off" else _look_ups(app, settings)


def _look_ups(app: Flask, settings: Settings) -> LookUps:
    def workbench(table: FoodTable) -> Workbench:
        return make_workbench(app.extensions["saltledger-store"].database, table, asking=True)

    source = LazySource(settings) if settings.remote_foods == "ask" else None
    return LookUps(lambda: app.extensions["saltledger-store"].database, source, workbench)
