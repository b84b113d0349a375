"""`saltledger foods`: looked at, kept, used offline, brought up to date."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
import responses
from click.testing import CliRunner, Result
from saltledger.commands.cli import main

from ..foods.remote.shapes import URL, food, search

Run = Callable[..., Result]
KEY = "k3y-that-nobody-may-see"
PIE = {"title": "Quay pie", "servings": 4, "ingredients": ["1 kg potatoes", "2 tbsp dulse paste"]}


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Run:
    monkeypatch.setenv("SALTLEDGER_DATABASE_URL", f"sqlite:///{tmp_path}/store.sqlite3")
    monkeypatch.setenv("SALTLEDGER_REMOTE_FOODS_URL", URL)
    monkeypatch.setenv("SALTLEDGER_REMOTE_FOODS_KEY", KEY)
    monkeypatch.setenv("SALTLEDGER_REMOTE_FOODS_CACHE", str(tmp_path / "answers.sqlite3"))
    return lambda *arguments, **more: CliRunner().invoke(main, list(arguments), **more)


@pytest.fixture
def api() -> Iterator[responses.RequestsMock]:
    with responses.RequestsMock(assert_all_requests_are_fired=False) as mock:
        mock.add(responses.GET, re.compile(re.escape(URL + "/foods/search")), json=search(2700001))
        yield mock


def gives(api: responses.RequestsMock, *foods: dict) -> None:
    api.upsert(responses.GET, re.compile(re.escape(URL + "/foods") + r"\?"), json=list(foods))


def test_what_was_looked_at_and_kept_is_used_offline(run: Run, api, monkeypatch) -> None:
    gives(api, food())
    shown = run("foods", "fetch", "dulse paste")
    assert shown.exit_code == 0
    assert "fdc:2700001  2500 mg sodium in 100 g" in shown.stdout
    assert run("foods", "list").stdout == ""
    kept = run("foods", "fetch", "dulse paste", "--keep", "fdc:2700001")
    assert "Kept fdc:2700001." in kept.stderr
    assert "Dulse paste" in run("foods", "list").stdout
    api.reset()  # nothing can be asked from here on
    recipe = json.dumps(PIE)
    plain = json.loads(run("calculate", "-", "--json", input=recipe).stdout)
    assert plain["ingredients"][1]["food"] is None
    monkeypatch.setenv("SALTLEDGER_REMOTE_FOODS", "kept")
    known = json.loads(run("calculate", "-", "--json", input=recipe).stdout)
    assert known["ingredients"][1]["food"]["code"] == "fdc:2700001"
    assert KEY not in shown.output + kept.output


def test_a_code_that_was_not_found_keeps_nothing(run: Run, api) -> None:
    gives(api, food())
    refused = run("foods", "fetch", "dulse", "--keep", "fdc:2700001", "--keep", "fdc:9")
    assert refused.exit_code == 1
    assert "fdc:9 is not among what was found; nothing was kept" in refused.stderr
    assert run("foods", "list").stdout == ""


@pytest.mark.parametrize("dry", [True, False])
def test_sync_tells_what_moved_and_keeps_it(run: Run, api, monkeypatch, tmp_path, dry) -> None:
    gives(api, food())
    run("foods", "fetch", "dulse paste", "--keep", "fdc:2700001")
    gives(api, food(sodium=2600.0))
    done = run("foods", "sync", *(["--dry-run"] if dry else []))
    assert done.exit_code == 0
    assert "NA 2500.0 -> 2600.0" in done.stdout
    listed = run("foods", "list").stdout
    assert ("2500 mg" if dry else "2600 mg") in listed


def test_sync_leaves_what_is_no_longer_given(run: Run, api) -> None:
    gives(api, food())
    run("foods", "fetch", "dulse paste", "--keep", "fdc:2700001")
    gives(api)
    done = run("foods", "sync")
    assert "fdc:2700001: no longer given" in done.stderr
    assert "fdc:2700001" in run("foods", "list").stdout


def test_without_a_key_nothing_is_asked(run: Run, monkeypatch) -> None:
    monkeypatch.delenv("SALTLEDGER_REMOTE_FOODS_KEY")
    refused = run("foods", "fetch", "dulse")
    assert refused.exit_code == 1
    assert "SALTLEDGER_REMOTE_FOODS_KEY is not set" in refused.stderr


def test_a_source_out_of_reach_is_told_in_words(run: Run, api) -> None:
    api.upsert(responses.GET, re.compile(re.escape(URL + "/foods/search")), status=403)
    refused = run("foods", "fetch", "dulse")
    assert refused.exit_code == 1
    assert "FoodData Central answered 403" in refused.stderr
    assert KEY not in refused.output


def test_a_food_is_dropped(run: Run, api) -> None:
    gives(api, food())
    run("foods", "fetch", "dulse paste", "--keep", "fdc:2700001")
    assert run("foods", "drop", "fdc:2700001").exit_code == 0
    again = run("foods", "drop", "fdc:2700001")
    assert again.exit_code == 1
    assert "is not kept" in again.stderr
