"""`saltledger verify`, and the scope a key needs to sign: end to end, by the service's own calculation."""

from __future__ import annotations

import re
import sqlite3
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result
from saltledger.app import create_app
from saltledger.commands.cli import main
from saltledger.config import Settings
from saltledger.store.packing import packed, unpacked

from .http.kept import BRINED
from .http.problems import problem


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return tmp_path / "store.sqlite3"


@pytest.fixture
def run(file: Path, monkeypatch: pytest.MonkeyPatch) -> Any:
    monkeypatch.setenv("SALTLEDGER_DATABASE_URL", f"sqlite:///{file}")
    return lambda *arguments: CliRunner().invoke(main, arguments)


def made(result: Result) -> dict[str, str]:
    """The headers that bring the key just made."""
    return {"Authorization": f"Bearer {result.stdout.strip()}"}


@pytest.fixture
def signed(run: Any, file: Path) -> Any:
    """A recipe that a key saved, another overruled and signed."""
    saving = made(run("keys", "create", "--label", "CMS west", "--scope", "save"))
    signing = made(run("keys", "create", "--label", "Desk", "--scope", "review", "--scope", "sign"))
    client = create_app(Settings(database_url=f"sqlite:///{file}")).test_client()
    first = client.put("/v1/recipes/legs", json=BRINED, headers=saving)
    pointer = "/components/1/ingredients/1"
    asked = {"pointer": pointer, "field": "grams", "value": 90, "reason": "weighed"}
    overrule = {"reviewer": "Ines Ware, RD", "overrules": [asked]}
    second = client.post(
        "/v1/recipes/legs/overrules", json=overrule, headers={**signing, "If-Match": first.headers["ETag"]}
    )
    verdict = {"verdict": "signed", "name": "Ines Ware, RD"}
    headers = {**signing, "If-Match": second.headers["ETag"]}
    return second, client.post("/v1/recipes/legs/sign-offs", json=verdict, headers=headers)


def test_beside_a_name_stands_whose_key_it_was_and_what_was_signed(signed: Any) -> None:
    overruled, review = (each.get_json() for each in signed)
    assert overruled["saved_by"] == "Ines Ware, RD (key Desk)"
    assert overruled["overrules"][0]["by"]["label"] == "Desk"
    (verdict,) = review["sign_offs"]
    assert (verdict["name"], verdict["by"]["kind"], verdict["by"]["label"]) == (
        "Ines Ware, RD",
        "key",
        "Desk",
    )
    assert verdict["version_sha256"] == review["sha256"]
    assert verdict["entry"] == 4


def test_everything_comes_out_the_same(run: Any, signed: Any) -> None:
    result = run("verify")
    assert result.exit_code == 0, result.output
    assert "4 entries, 2 versions, 2 worked out again: 0 altered, 0 differ." in result.output
    (head,) = re.findall(r"head (\d+:\w{64})", result.output)
    assert run("verify", "--quick", "--head", head).exit_code == 0
    assert run("verify", "--head", "nonsense").exit_code == 1


def test_an_altered_answer_and_signature_are_told(run: Any, signed: Any, file: Path) -> None:
    with sqlite3.connect(file) as connection:
        connection.execute("UPDATE versions SET sodium_mg = 1 WHERE number = 2")
        for number, answer in connection.execute("SELECT id, answer FROM versions").fetchall():
            changed = packed({**unpacked(answer), "servings": 7})
            connection.execute("UPDATE versions SET answer = ? WHERE id = ?", (changed, number))
        connection.execute("UPDATE sign_offs SET name = 'Somebody else'")
    result = run("verify", "legs")
    assert result.exit_code == 1
    assert "ALTERED  Version 2 of 'legs'" in result.output
    assert "name was 'Ines Ware, RD' and is 'Somebody else'" in result.output
    assert "/servings is kept as 7" in result.output


@pytest.mark.parametrize("scopes", [("review",), ("calculate", "save", "review")])
def test_a_key_signs_only_by_a_scope_of_its_own(run: Any, file: Path, scopes: tuple[str, ...]) -> None:
    options = [part for scope in scopes for part in ("--scope", scope)]
    created = run("keys", "create", "--label", "Service", *options)
    saving = made(run("keys", "create", "--label", "CMS", "--scope", "save"))
    client = create_app(Settings(database_url=f"sqlite:///{file}")).test_client()
    tag = client.put("/v1/recipes/legs", json=BRINED, headers=saving).headers["ETag"]
    headers = {**made(created), "If-Match": tag}
    verdict = {"verdict": "signed", "name": "Ines Ware, RD"}
    refused = client.post("/v1/recipes/legs/sign-offs", json=verdict, headers=headers)
    (remedy,) = re.findall(r"`saltledger (keys grant \w+ sign)`", problem(refused, 403)["detail"])
    assert run(*remedy.split()).exit_code == 0
    assert client.post("/v1/recipes/legs/sign-offs", json=verdict, headers=headers).status_code == 201


def test_a_scope_is_given_to_keys_that_are_open(run: Any) -> None:
    assert "no open key" in run("keys", "grant", "abc", "sign").stderr


@pytest.fixture
def measured(run: Any, file: Path) -> Any:
    """A recipe of a kitchen, saved after the kitchen had measured it; then it measured again."""
    who = made(run("keys", "create", "--label", "Quay", "--scope", "save", "--kitchen", "Quay Street"))
    client = create_app(Settings(database_url=f"sqlite:///{file}")).test_client()
    sent = {"recipe": BRINED, "what": "sodium_mg_per_100g", "amount": 460.0, "measured_by": "Dock Lab"}
    first = client.post("/v1/measurements", json=sent, headers=who).get_json()
    client.put("/v1/recipes/legs", json=BRINED, headers=who)
    assert "own measurements" in client.get("/v1/recipes/legs", headers=who).get_data(as_text=True)
    client.post("/v1/measurements", json={**sent, "amount": 400.0}, headers=who)
    return client, who, first


def test_a_version_on_own_measurements_is_held_to_those_of_its_day(run: Any, measured: Any) -> None:
    client, who, first = measured
    result = run("verify")
    assert result.exit_code == 0, result.output
    assert "1 worked out again: 0 altered, 0 differ." in result.output
    client.delete(f"/v1/measurements/{first['id']}", headers=who)
    client.put("/v1/recipes/other", json=BRINED, headers=who)
    assert "2 worked out again: 0 altered, 0 differ." in run("verify").output


def test_a_measurement_altered_past_the_service_differs(run: Any, measured: Any, file: Path) -> None:
    with sqlite3.connect(file) as connection:
        connection.execute("update measurements set amount = 390 where id = 1")
    result = run("verify")
    assert result.exit_code == 1
    assert "DIFFERS" in result.output
    with sqlite3.connect(file) as connection:
        connection.execute("delete from measurements")
    assert "the measurements that it stands on are gone" in run("verify").output
