"""What tests of the edge share: one app in its default settings, and a client that calls it."""

from __future__ import annotations

import gc
import os
from collections.abc import Iterator
from contextlib import nullcontext
from pathlib import Path

import hypothesis
import pytest
from flask import Flask
from flask.testing import FlaskClient
from saltledger.batch import executors
from saltledger.calculator import answer_recipe
from saltledger.config import PREFIX, Settings
from saltledger.gate.reading import load
from saltledger.gate.recipe_schema import RecipeSchema

# The same examples on every run and no stopwatch: a gate must not fail by chance or by a busy machine.
# For other examples: pytest --hypothesis-profile=default.
hypothesis.settings.register_profile("gate", deadline=None, derandomize=True)
hypothesis.settings.load_profile("gate")


@pytest.fixture(scope="session", autouse=True)
def _tables_are_read() -> None:
    """What a worker of the service has read before it is asked, so that no first request pays for it."""
    soup = {"title": "Soup", "servings": 4, "ingredients": ["1 kg potatoes", "salt"], "method": ["Boil."]}
    answer_recipe(load(RecipeSchema(), soup))


@pytest.fixture(scope="module", autouse=True)
def _heap_is_left_alone() -> None:
    """The collector of garbage goes no more over what tests before have left: on a slow machine a round over
    all of it takes as long as a calculation may, and the one that it falls into would be stopped."""
    gc.collect()
    gc.freeze()


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """The longest file first, so that at the end no worker waits for the one that was dealt it last."""
    items.sort(key=lambda item: "test_tables_read" not in item.nodeid)


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport(item: pytest.Item, call: pytest.CallInfo[None]):  # type: ignore[no-untyped-def]
    """Where everything is required, a skipped test has failed."""
    report = yield
    if report.skipped and not hasattr(report, "wasxfail") and os.environ.get("TEST_REQUIRE_ALL"):
        report.outcome = "failed"
        report.longrepr = f"{item.nodeid} was skipped, and TEST_REQUIRE_ALL is set: {report.longrepr}"
    return report


@pytest.fixture(autouse=True)
def no_settings(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """No test depends on what the environment of the person who runs it says, or touches their store."""
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path))
    monkeypatch.delenv("STATE_DIRECTORY", raising=False)
    for name in [name for name in os.environ if name.startswith(PREFIX)]:
        if not name.startswith(f"{PREFIX}TEST_"):
            monkeypatch.delenv(name)


@pytest.fixture(scope="session", autouse=True)
def heap_as_it_is() -> Iterator[None]:
    """Go over no heap before each fork: that of all tests is large, and takes seconds to freeze and thaw.
    Runs in processes of their own do it (`commands/test_batch.py`)."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(executors, "_frozen", nullcontext)
        yield


@pytest.fixture(scope="session")
def app(tmp_path_factory: pytest.TempPathFactory) -> Flask:
    # Imported here, so that tests of a domain module need nothing of the edge.
    from saltledger.app import create_app  # noqa: PLC0415

    return create_app(Settings(database_url=f"sqlite:///{tmp_path_factory.mktemp('store')}/store.sqlite3"))


@pytest.fixture
def client(app: Flask) -> FlaskClient:
    return app.test_client()
