"""A store to test, on every kind of database; a calculation small enough to follow by hand."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from saltledger.core.errors import Fault, InvalidRequest
from saltledger.review.chain import Actor
from saltledger.store.database import Database
from saltledger.store.records import Signature
from saltledger.store.saving import Workbench

from ..databases import KINDS, database_url

CMS = Actor("key", "k1", "cms")
INES = Signature(Actor("login", "ines", "Ines"), "Ines")


@pytest.fixture(params=KINDS)
def url(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[str]:
    with database_url(request.param, tmp_path) as url:
        yield url


@pytest.fixture
def database(url: str) -> Iterator[Database]:
    opened = Database(url)
    yield opened
    opened.close()


@pytest.fixture
def bench(database: Database) -> Workbench:
    return Workbench(database, calculate, "factors-1")


def calculate(request: dict[str, Any], *, pins: Any = ()) -> dict[str, Any]:
    """1 mg of sodium for each gram; a line without grams weighs 100 g; the food "gone" is refused."""
    grams = [each.get("grams", 100) if isinstance(each, dict) else 100 for each in request["ingredients"]]
    foods = [each.get("food") if isinstance(each, dict) else None for each in request["ingredients"]]
    if "gone" in foods:
        raise InvalidRequest([Fault(f"/ingredients/{foods.index('gone')}/food", "There is no food 'gone'.")])
    sodium = sum(grams) / request["servings"]
    return {
        "id": f"c{hash(str(request)) & 0xFFFFFFFF:08x}",
        "servings": request["servings"],
        "dataset": {"name": "small", "release": "1", "sha256": "data-1"},
        "sources": [],
        "sodium": {"per_serving_mg": {"low": sodium * 0.9, "likely": sodium, "high": sodium * 1.1}},
    }


def recipe(*ingredients: Any, title: str = "Quay soup", servings: float = 4) -> dict[str, Any]:
    return {"title": title, "servings": servings, "ingredients": list(ingredients) or ["1 l stock"]}
