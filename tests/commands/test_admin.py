"""The commands that keep the store: keys and reviewers."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result
from saltledger.commands.cli import main
from saltledger.store import keys, reviewers
from saltledger.store.database import Database

Run = Callable[..., Result]
SOUP: dict[str, Any] = {"title": "Soup", "servings": 4, "ingredients": ["1 litre water", "6 g table salt"]}


@pytest.fixture
def url(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    url = f"sqlite:///{tmp_path}/store.sqlite3"
    monkeypatch.setenv("SALTLEDGER_DATABASE_URL", url)
    return url


@pytest.fixture
def run(url: str) -> Run:
    return lambda *arguments, **more: CliRunner().invoke(main, list(arguments), **more)


def test_a_key_is_made_listed_and_revoked(run: Run, url: str) -> None:
    made = run("keys", "create", "--label", "newsroom")
    assert made.exit_code == 0
    text = made.stdout.strip()
    database = Database(url)
    with database.read() as connection:
        found = keys.check(connection, text)
        assert found is not None
        assert (found.label, found.scopes) == ("newsroom", {"calculate", "save"})
    listed = run("keys", "list").stdout
    assert f"{found.public_id}  " in listed
    assert "open" in listed
    assert text not in listed
    assert run("keys", "revoke", found.public_id).exit_code == 0
    assert "revoked" in run("keys", "list").stdout
    again = run("keys", "revoke", found.public_id)
    assert again.exit_code == 1
    assert "There is no open key" in again.stderr
    database.close()


def test_a_key_has_the_scopes_it_is_given(run: Run) -> None:
    assert "Key" in run("keys", "create", "--label", "desk", "--scope", "review").stderr
    assert "  review  desk" in run("keys", "list").stdout
    assert run("keys", "create", "--label", "desk", "--scope", "everything").exit_code == 2


def test_reviewers_come_and_go(run: Run, url: str) -> None:
    added = run(
        "reviewers", "add", "ines", "--name", "Ines Ware, RD", "--password-stdin", input="tide-table-noon\n"
    )
    assert added.exit_code == 0, added.output
    database = Database(url)
    assert reviewers.log_in(database, "ines", "tide-table-noon")
    asked = run("reviewers", "password", "ines", input="another-tide\nanother-tide\n")
    assert asked.exit_code == 0
    assert reviewers.log_in(database, "ines", "another-tide")
    assert run("reviewers", "list").stdout == "ines  active  Ines Ware, RD\n"
    assert run("reviewers", "remove", "ines").exit_code == 0
    assert run("reviewers", "list").stdout == "ines  removed  Ines Ware, RD\n"
    assert not reviewers.log_in(database, "ines", "another-tide")
    database.close()


@pytest.mark.parametrize(
    ("arguments", "given", "fault"),
    [
        (
            ("reviewers", "add", "ines", "--name", "I", "--password-stdin"),
            "short\n",
            "at least 10 characters",
        ),
        (
            ("reviewers", "add", "i n", "--name", "I", "--password-stdin"),
            "tide-table-noon\n",
            "a login is made of",
        ),
        (("reviewers", "remove", "nobody"), None, "no active reviewer"),
        (("reviewers", "password", "nobody", "--password-stdin"), "tide-table-noon\n", "no reviewer"),
    ],
)
def test_faults_are_told_in_words(
    run: Run, arguments: tuple[str, ...], given: str | None, fault: str
) -> None:
    result = run(*arguments, input=given)
    assert result.exit_code == 1
    assert fault in result.stderr


def test_a_store_that_is_away_is_told_in_words(run: Run, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SALTLEDGER_DATABASE_URL", "postgresql://nobody@127.0.0.1:1/none")
    result = run("keys", "list")
    assert result.exit_code == 1
    assert "not available just now" in result.stderr
