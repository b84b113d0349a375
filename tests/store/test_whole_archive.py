"""The whole store as a file and back: equal, on record, between both kinds of database, cut off or not."""

from __future__ import annotations

import io
import json
from collections.abc import Iterator
from itertools import islice
from pathlib import Path
from typing import Any

import pytest
from saltledger.app import create_app
from saltledger.commands.verify import _today
from saltledger.config import Settings
from saltledger.store import keys, reviewers, whole_archive
from saltledger.store.database import Database, HalfImported
from saltledger.store.verifying import verify
from saltledger.store.whole_archive import BadArchive, NotEmpty

from ..databases import KINDS, database_url
from ..http.kept import BRINED, SOUP, soup

PAIRS = [
    ("sqlite", "sqlite"),
    pytest.param("sqlite", "postgresql", marks=pytest.mark.postgresql),
    pytest.param("postgresql", "sqlite", marks=pytest.mark.postgresql),
]


@pytest.fixture(params=KINDS)
def url(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[str]:
    (tmp_path / "to").mkdir()
    with database_url(request.param, tmp_path / "to") as found:
        yield found


def filled(url: str) -> None:
    """A store with all that a kitchen leaves behind in one."""
    app = create_app(Settings(database_url=url))
    client, database = app.test_client(), app.extensions["saltledger-store"].database
    client.put("/v1/recipes/legs", json=BRINED)
    first = client.put("/v1/recipes/soup", json=SOUP).headers["ETag"]
    asked = {"pointer": "/ingredients/2", "field": "grams", "value": 9.0, "reason": "weighed"}
    overrule = {"reviewer": "Ines Ware", "overrules": [asked]}
    second = client.post("/v1/recipes/soup/overrules", json=overrule, headers={"If-Match": first})
    verdict = {"verdict": "signed", "name": "Ines Ware", "note": "as weighed"}
    client.post("/v1/recipes/soup/sign-offs", json=verdict, headers={"If-Match": second.headers["ETag"]})
    client.put("/v1/recipes/soup", json=soup("1 bay leaf"))
    menu = {**SOUP, "ingredients": [{"recipe": "soup", "servings": 2}, "1 slice bread", "salt to taste"]}
    client.put("/v1/recipes/menu", json=menu)
    for key in ("old", "older", "gone"):
        client.put(f"/v1/recipes/{key}", json=soup(f"1 {key} carrot"))
    client.delete("/v1/recipes/gone")
    client.post("/v1/recipes/old/archive")
    client.post("/v1/recipes/older/rename", json={"key": "renamed-ä"})
    weighed = {"recipe": SOUP, "what": "weight_g", "amount": 2000, "measured_by": "Ola"}
    client.post("/v1/measurements", json=weighed)
    with database.write() as connection:
        reviewers.add(connection, "ines", "Ines Ware", "a long password")
        keys.create(connection, "cms", ("calculate", "save"), None)
    app.extensions["saltledger-store"].close()


def written(url: str, **wishes: Any) -> list[bytes]:
    database, out = Database(url), io.BytesIO()
    whole_archive.write(database, out, **wishes)
    database.close()
    return out.getvalue().splitlines(keepends=True)


def brought(url: str, lines: Any) -> whole_archive.Counted:
    database = Database(url, importing=True)
    try:
        return whole_archive.read(database, lines)
    finally:
        database.close()


def rows(lines: list[bytes]) -> list[Any]:
    """The rows of an archive; what stands in no order of its own is put in one."""
    return sorted((json.loads(line) for line in lines[1:-1]), key=lambda row: json.dumps(row, sort_keys=True))


@pytest.mark.parametrize(("one", "other"), PAIRS)
def test_there_and_back_is_equal_and_stands_on_record(one: str, other: str, tmp_path: Path) -> None:
    (tmp_path / "a").mkdir()
    (tmp_path / "b").mkdir()
    with database_url(one, tmp_path / "a") as source, database_url(other, tmp_path / "b") as target:
        filled(source)
        lines = written(source)
        counted = brought(target, lines)
        assert (counted.rows, counted.before) == (len(lines) - 2, 0)
        assert rows(written(target)) == rows(lines)
        database = Database(target)
        with database.read() as connection:
            found = verify(connection, _today(database, connection))
        database.close()
        assert (found.altered, found.differs, found.unchecked) == ([], [], [])
        assert found.versions == found.recalculated == 8
        _goes_on(target)


def _goes_on(url: str) -> None:
    """What is done after an import gets numbers of its own, in every table."""
    client = create_app(Settings(database_url=url)).test_client()
    app = client.application
    database = app.extensions["saltledger-store"].database
    with database.write() as connection:
        _, secret = keys.create(connection, "desk", ("save", "review", "sign"), None)
        reviewers.add(connection, "ola", "Ola", "another long password")
    who = {"Authorization": f"Bearer {secret}"}
    before = client.get("/v1/events?limit=1000", headers=who).json["latest_id"]
    saved = client.put("/v1/recipes/new", json=SOUP, headers=who)
    assert saved.status_code == 201
    asked = {"pointer": "/ingredients/2", "field": "grams", "value": 9.0, "reason": "weighed"}
    tagged = {**who, "If-Match": saved.headers["ETag"]}
    overrule = {"reviewer": "Ines Ware", "overrules": [asked]}
    assert client.post("/v1/recipes/new/overrules", json=overrule, headers=tagged).status_code == 201
    assert (
        client.get("/v1/events?limit=1000", headers=who).json["latest_id"] == before + 3
    )  # saved, overruled, another figure
    assert [each["key"] for each in client.get("/v1/recipes?search=bay", headers=who).json["recipes"]] == [
        "soup"
    ]
    app.extensions["saltledger-store"].close()


@pytest.fixture(scope="module")
def lines(tmp_path_factory: pytest.TempPathFactory) -> list[bytes]:
    with database_url("sqlite", tmp_path_factory.mktemp("from")) as url:
        filled(url)
        return written(url)


class PowerCutError(Exception):
    """The end of a run in its middle."""


@pytest.mark.parametrize("after", [1, 7, 20, 45])
def test_a_run_that_is_cut_off_goes_on(
    url: str, lines: list[bytes], after: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(whole_archive, "ROWS_AT_ONCE", 5)

    def cut() -> Iterator[bytes]:
        yield from islice(lines, after)
        raise PowerCutError

    with pytest.raises(PowerCutError):
        brought(url, cut())
    with pytest.raises(HalfImported):
        Database(url)
    counted = brought(url, lines)
    assert (counted.rows, counted.before) == (len(lines) - 2, max(0, after - 1) // 5 * 5)
    assert rows(written(url)) == rows(lines)
    assert brought(url, lines).before == len(lines) - 2


def test_only_an_empty_store_takes_one(url: str, lines: list[bytes]) -> None:
    create_app(Settings(database_url=url)).test_client().put("/v1/recipes/soup", json=SOUP)
    with pytest.raises(NotEmpty):
        brought(url, lines)
    Database(url).close()


def test_a_second_archive_is_not_mixed_into_a_first(url: str, lines: list[bytes]) -> None:
    with pytest.raises(BadArchive):
        brought(url, lines[:-3])
    head = json.loads(lines[0]) | {"id": "another"}
    with pytest.raises(NotEmpty):
        brought(url, [json.dumps(head).encode(), *lines[1:]])


def test_what_is_no_whole_archive_is_refused(lines: list[bytes]) -> None:
    def refused(changed: list[bytes]) -> str:
        with pytest.raises(BadArchive) as caught:
            whole_archive.check(changed)
        return str(caught.value)

    whole = whole_archive.check(lines)
    assert (whole.versions, whole.before) == (8, 0)
    assert "no archive" in refused([b'{"a": 1}\n'])
    assert "not JSON" in refused([])
    assert "breaks off" in refused(lines[:-1])
    assert "not JSON" in refused([*lines[:4], lines[4][:-9]])
    assert "altered" in refused([*lines[:3], lines[3].replace(b':"2026-', b':"2025-'), *lines[4:]])
    assert "altered" in refused([*lines[:4], *lines[5:]])
    assert "no row" in refused([*lines[:4], b'{"table":"cats","row":{}}\n', *lines[4:]])
    head = json.loads(lines[0])
    assert "0001" in refused([json.dumps(head | {"schema": "0001"}).encode() + b"\n", *lines[1:]])


def test_keys_may_be_left_out(lines: list[bytes], url: str) -> None:
    brought(url, lines)
    told = b"".join(written(url, with_keys=False))
    assert b"secret_hash" not in told
    assert b"password_hash" not in told
    assert b"secret_hash" in b"".join(lines)
