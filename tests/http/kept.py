"""Apps with a store of their own, and recipes to save in it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from flask import Flask
from saltledger.app import create_app
from saltledger.config import Settings

from ..databases import database_url

MakeApp = Callable[..., Flask]

SOUP: dict[str, Any] = {
    "title": "Tern Quay potato soup",
    "servings": 4,
    "ingredients": ["800 g potatoes", "1 litre water", "2 tsp table salt"],
}

BRINED: dict[str, Any] = {
    "title": "Brined chicken legs",
    "servings": 6,
    "components": [
        {"id": "legs", "label": "Chicken legs", "ingredients": ["1.6 kg chicken legs"]},
        {"id": "brine", "ingredients": ["3 litres water", "180 g table salt"]},
    ],
    "steps": [
        {
            "kind": "brine",
            "food": "legs",
            "bath": "brine",
            "duration_h": 8,
            "temperature_c": 3,
            "thickness_cm": 4.5,
        }
    ],
}


def soup(*more: str, **parts: Any) -> dict[str, Any]:
    """The soup, with more lines or other parts."""
    return {**SOUP, "ingredients": [*SOUP["ingredients"], *more], **parts}


@contextmanager
def kept_app(kind: str, folder: Path, **settings: Any) -> Iterator[Flask]:
    """An app whose store is an empty database of a kind."""
    with database_url(kind, folder) as url:
        app = create_app(Settings(database_url=url, **settings))
        yield app
        app.extensions["saltledger-store"].close()
