"""Many saves in one request: answered line by line, on disk when answered, sent again without harm."""

from __future__ import annotations

import json
import zlib
from collections.abc import Iterator
from contextlib import suppress
from http.client import HTTPConnection, HTTPException
from pathlib import Path
from threading import Thread
from typing import Any

import pytest
from flask.testing import FlaskClient
from saltledger.app import create_app
from saltledger.commands.verify import _today
from saltledger.config import Settings
from saltledger.http.line_streams import MEDIA_TYPE
from saltledger.jobs.line_saves import LineSaves
from saltledger.store import bulk
from saltledger.store.database import Database
from saltledger.store.verifying import verify

from ..databases import KINDS, database_url
from ..serving import Service, served
from .kept import BRINED, SOUP, soup

LINKED = {
    "@context": "https://schema.org",
    "@type": "Recipe",
    "name": "Oat porridge",
    "recipeYield": "2",
    "recipeIngredient": ["100 g rolled oats", "500 ml water", "2 g salt"],
    "recipeInstructions": "Simmer the oats in the salted water for 5 minutes.",
}


@pytest.fixture(params=KINDS)
def url(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[str]:
    with database_url(request.param, tmp_path) as found:
        yield found


@pytest.fixture
def cms(url: str) -> Iterator[FlaskClient]:
    app = create_app(Settings(database_url=url))
    yield app.test_client()
    app.extensions["saltledger-store"].close()


def lines(*saves: Any) -> bytes:
    return b"\n".join(each if isinstance(each, bytes) else json.dumps(each).encode() for each in saves)


def send(cms: FlaskClient, *saves: Any) -> list[dict[str, Any]]:
    response = cms.post("/v1/recipes", data=lines(*saves), content_type=MEDIA_TYPE)
    assert (response.status_code, response.mimetype) == (200, MEDIA_TYPE)
    return [json.loads(line) for line in response.text.splitlines()]


def save(key: str, recipe: Any = SOUP, **more: Any) -> dict[str, Any]:
    return {"key": key, "recipe": recipe, **more}


def test_each_line_is_saved_as_it_would_be_alone(cms: FlaskClient) -> None:
    answers = send(cms, save("soup"), save("legs", BRINED), save("porridge", LINKED))
    assert [(each["line"], each["key"], each["saved"]) for each in answers] == [
        (1, "soup", "new"),
        (2, "legs", "new"),
        (3, "porridge", "new"),
    ]
    for key, recipe in (("soup", SOUP), ("legs", BRINED), ("porridge", LINKED)):
        cms.put(f"/v1/recipes/{key}-alone", json=recipe)
        one, other = (cms.get(f"/v1/recipes/{name}").json for name in (key, f"{key}-alone"))
        for name in ("recipe", "calculation", "overrules", "cause", "saved_by", "version"):
            assert one[name] == other[name]
    listed = {each["key"]: each for each in cms.get("/v1/recipes").json["recipes"]}
    same = ("title", "sodium_per_serving_mg", "complete", "stops", "checks", "status", "state")
    assert all(listed["soup"][name] == listed["soup-alone"][name] for name in same)
    assert [each["key"] for each in cms.get("/v1/recipes?search=oats").json["recipes"]] == [
        "porridge",
        "porridge-alone",
    ]
    events = cms.get("/v1/events?key=legs").json["events"]
    assert [(each["kind"], each["save_id"]) for each in events] == [("recipe.saved", answers[1]["save_id"])]


def test_what_is_written_so_stands_on_record(cms: FlaskClient, url: str) -> None:
    send(cms, save("soup"), save("legs", BRINED), save("porridge", LINKED))
    send(cms, save("soup", soup("1 leek")), save("tea"))
    database = Database(url)
    with database.read() as connection:
        found = verify(connection, _today(database, connection))
    database.close()
    assert (found.versions, found.recalculated, found.altered, found.differs) == (5, 5, [], [])


def test_sent_again_nothing_changes(cms: FlaskClient) -> None:
    saves = [save("soup"), save("legs", BRINED)]
    first, again = send(cms, *saves), send(cms, *saves)
    assert [each["saved"] for each in again] == ["unchanged", "unchanged"]
    assert [each["save_id"] for each in again] == [each["save_id"] for each in first]
    changed = send(cms, save("soup", soup("1 leek")), save("legs", BRINED))
    assert [(each["saved"], each["version"]) for each in changed] == [("changed", 2), ("unchanged", 1)]


def test_bad_lines_give_their_problems_and_stop_nothing(cms: FlaskClient) -> None:
    answers = send(
        cms,
        save("soup"),
        b"{",
        save("bad", {**SOUP, "servings": 0}),
        save(" "),
        {"recipe": SOUP},
        save("odd", {**SOUP, "ingredients": [{"food": "nothing"}]}),
        save("tea"),
    )
    assert [each["line"] for each in answers] == [1, 2, 3, 4, 5, 6, 7]
    assert [each.get("status") for each in answers] == [None, 400, 422, 422, 422, 422, None]
    pointers = [[fault["pointer"] for fault in each.get("errors", ())] for each in answers]
    assert pointers[2:6] == [["/recipe/servings"], ["/key"], ["/key"], ["/recipe/ingredients/0/food"]]
    assert [each["key"] for each in cms.get("/v1/recipes").json["recipes"]] == ["soup", "tea"]


def test_lines_may_build_on_one_another(cms: FlaskClient) -> None:
    twice = send(cms, save("soup"), save("soup", soup("1 leek")), save("soup", soup("1 leek")))
    assert [(each["saved"], each["version"]) for each in twice] == [
        ("new", 1),
        ("changed", 2),
        ("unchanged", 2),
    ]
    part = {**SOUP, "ingredients": ["1 egg", {"recipe": "stock", "grams": 100}]}
    answers = send(cms, save("dish", part), save("stock"), save("dish", part))
    assert [each.get("saved") for each in answers] == [None, "new", "new"]
    send(cms, save("stock", soup("10 g salt")))
    assert [each["key"] for each in cms.get("/v1/recipes?stale=true").json["recipes"]] == ["dish"]
    (circle,) = send(cms, save("stock", {**SOUP, "ingredients": [{"recipe": "dish", "grams": 1}]}))
    assert "stock → dish → stock" in circle["errors"][0]["message"]


def test_a_line_may_say_what_it_changes(cms: FlaskClient) -> None:
    (first,) = send(cms, save("soup"))
    (changed,) = send(cms, save("soup", soup("1 leek"), etag=first["save_id"]))
    assert changed["saved"] == "changed"
    (refused,) = send(cms, save("soup", soup("2 leeks"), etag=first["save_id"]))
    assert (refused["status"], refused["key"]) == (412, "soup")


def test_a_strict_service_wants_to_know_what_is_changed(tmp_path: Path) -> None:
    with database_url("sqlite", tmp_path) as url:
        cms = create_app(Settings(database_url=url, if_match="required")).test_client()
        (first,) = send(cms, save("soup"))
        assert send(cms, save("soup", soup("1 leek")))[0]["status"] == 428
        assert send(cms, save("soup", soup("1 leek"), etag=first["save_id"]))[0]["saved"] == "changed"
        cms.application.extensions["saltledger-store"].close()


def test_a_key_that_somebody_else_takes_meanwhile_is_saved_by_itself(
    cms: FlaskClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    write = bulk.write

    def somebody_else() -> None:
        cms.application.test_client().put("/v1/recipes/soup", json=soup("1 leek"))

    def later(*arguments: Any) -> Any:
        other = Thread(target=somebody_else)
        other.start()
        other.join()
        return write(*arguments)

    monkeypatch.setattr(bulk, "write", later)
    answers = send(cms, save("soup"), save("tea"))
    assert [(each["saved"], each["version"]) for each in answers] == [("changed", 2), ("new", 1)]


PIE = {**SOUP, "title": "Pie", "ingredients": ["300 g cod", "1 jar of glop", "2 g table salt"]}
CHANGES: dict[str, tuple[list[str], dict[str, Any], dict[str, Any]]] = {
    "amount": ([], SOUP, soup("3 g salt")),
    "title": ([], SOUP, {**SOUP, "title": "Soup of the quay"}),
    "overruled": (["overrule"], SOUP, soup("1 leek")),
    "signed-and-moved": (["sign"], SOUP, soup("3 g salt")),
    "signed-title": (["sign"], SOUP, {**SOUP, "title": "Soup of the quay"}),
    "signed-then-changed": (["sign", "change"], SOUP, soup("4 g salt")),
    "sent-back": (["send back"], SOUP, soup("3 g salt")),
    "archived": (["archive"], SOUP, soup("1 leek")),
    "deleted": (["delete"], SOUP, soup("1 leek")),
    "completed": ([], PIE, {**PIE, "ingredients": PIE["ingredients"][::2]}),
    "incomplete": ([], {**PIE, "ingredients": PIE["ingredients"][::2]}, PIE),
    "signed-incomplete": (["sign"], PIE, {**PIE, "title": "Pie of the quay"}),
    "part": (["use"], SOUP, soup("3 g salt")),
    "in-prose": ([], LINKED, {**LINKED, "name": "Porridge of the quay"}),
    "of-a-part-no-more": (
        [],
        {**SOUP, "ingredients": [{"recipe": "stock", "grams": 100}]},
        SOUP,
    ),
}
"""By name: what is done with a recipe, the recipe as it is first saved, and as it is saved then."""


def _done(cms: FlaskClient, key: str, what: str) -> None:
    path, tag = f"/v1/recipes/{key}", {"If-Match": f'"{cms.get(f"/v1/recipes/{key}").json["save_id"]}"'}
    match what:
        case "overrule":
            asked = {"pointer": "/ingredients/0", "field": "grams", "value": 700, "reason": "weighed"}
            sent: Any = {"reviewer": "Ines Ware", "overrules": [asked]}
            assert cms.post(f"{path}/overrules", json=sent, headers=tag).status_code == 201
        case "sign" | "send back":
            gaps = cms.get(path).json["calculation"]["sodium"]["uncounted"]
            sent = {
                "verdict": "signed" if what == "sign" else "sent_back",
                "name": "Ines Ware",
                "note": "as cooked",
            }
            sent |= {"confirmed_uncounted": [gap["pointer"] for gap in gaps]} if gaps else {}
            assert cms.post(f"{path}/sign-offs", json=sent, headers=tag).status_code == 201
        case "change":
            cms.put(path, json=soup("2 g salt"))
        case "archive":
            assert cms.post(f"{path}/archive").status_code == 200
        case "delete":
            assert cms.delete(path).status_code == 200
        case "use":
            above = {**SOUP, "ingredients": ["1 egg", {"recipe": key, "grams": 100}]}
            assert cms.put(f"{path}-above", json=above).status_code == 201


def _told(cms: FlaskClient, prefix: str) -> dict[str, str]:
    """All that is told of each recipe, by name, without its key and what is new with every save."""
    new = {
        "save_id",
        "created_at",
        "calculation_id",
        "record",
        "id",
        "review",
        "sha256",
        "version_sha256",
        "entry",
        "changed_at",
    }
    listed = {each["key"]: each for each in cms.get("/v1/recipes?limit=200").json["recipes"]}
    events = cms.get("/v1/events?limit=500").json["events"]

    def plain(value: Any) -> Any:
        if isinstance(value, dict):
            return {name: plain(each) for name, each in value.items() if name not in new}
        return [plain(each) for each in value] if isinstance(value, list) else value

    found = {}
    for name in CHANGES:
        key = prefix + name
        one = cms.get(f"/v1/recipes/{key}").json
        told = [one, cms.get(f"/v1/recipes/{key}/review").json, listed[key], listed.get(f"{key}-above")]
        told += [each for each in events if each["key"] in {key, f"{key}-above"}]
        found[name] = json.dumps(plain(told), indent=1).replace(prefix, "").replace(one["save_id"], "")
    return found


def test_changes_are_what_single_saves_make_of_them(cms: FlaskClient, url: str) -> None:
    cms.put("/v1/recipes/stock", json=SOUP)
    for prefix in ("alone ", "bulk "):
        for name, (acts, first, _) in CHANGES.items():
            assert cms.put(f"/v1/recipes/{prefix}{name}", json=first).status_code == 201
            for act in acts:
                _done(cms, prefix + name, act)
    for name, (_, _, then) in CHANGES.items():
        assert cms.put(f"/v1/recipes/alone {name}", json=then).status_code in {200, 201}
    answers = send(cms, *(save(f"bulk {name}", then) for name, (_, _, then) in CHANGES.items()))
    assert {each["key"]: each.get("saved") for each in answers} == {
        f"bulk {name}": "new" if name == "deleted" else "changed" for name in CHANGES
    }
    one, other = _told(cms, "bulk "), _told(cms, "alone ")
    for name in CHANGES:
        assert one[name] == other[name]
    database = Database(url)
    with database.read() as connection:
        found = verify(connection, _today(database, connection), recalculating=False)
    database.close()
    assert found.altered == []


def test_plain_changes_are_written_together(cms: FlaskClient, monkeypatch: pytest.MonkeyPatch) -> None:
    plain = ("amount", "title", "overruled", "signed-and-moved", "signed-title", "incomplete", "in-prose")
    for name in plain:
        cms.put(f"/v1/recipes/{name}", json=CHANGES[name][1])
        for act in CHANGES[name][0]:
            _done(cms, name, act)
    tags = {name: cms.get(f"/v1/recipes/{name}").json["save_id"] for name in plain}
    monkeypatch.setattr(LineSaves, "_alone", lambda *_: pytest.fail("one of them is saved by itself"))
    answers = send(cms, *(save(name, CHANGES[name][2], etag=tags[name]) for name in plain))
    assert {each["saved"] for each in answers} == {"changed"}


@pytest.mark.parametrize("meanwhile", ["change", "sign", "use", "archive", "delete"])
def test_what_happens_to_a_recipe_meanwhile_is_looked_at_again(
    cms: FlaskClient, monkeypatch: pytest.MonkeyPatch, meanwhile: str
) -> None:
    (first,) = send(cms, save("soup"))
    write = bulk.write

    def later(*arguments: Any) -> Any:
        monkeypatch.setattr(bulk, "write", write)
        other = Thread(target=lambda: _done(cms.application.test_client(), "soup", meanwhile))
        other.start()
        other.join()
        return write(*arguments)

    monkeypatch.setattr(bulk, "write", later)
    (answer,) = send(cms, save("soup", soup("1 leek"), etag=first["save_id"]))
    if meanwhile in {"change", "delete"}:
        assert answer["status"] == 412
        return
    assert (answer["saved"], answer["version"]) == ("changed", 2)
    listed = {each["key"]: each for each in cms.get("/v1/recipes").json["recipes"]}
    assert listed["soup"]["changed_since_signing"] is (meanwhile == "sign")
    assert [key for key, each in listed.items() if each["stale"]] == ["soup-above"] * (meanwhile == "use")


def test_what_came_whole_is_saved_though_the_body_breaks_off(cms: FlaskClient) -> None:
    whole = lines(*(save(f"soup {number}") for number in range(3))) + b"\n"
    packer = zlib.compressobj(wbits=31)
    body = packer.compress(whole) + packer.flush(zlib.Z_SYNC_FLUSH)
    headers = {"Content-Encoding": "gzip"}
    answer = cms.post("/v1/recipes", data=body, content_type=MEDIA_TYPE, headers=headers)
    told = [json.loads(line) for line in answer.text.splitlines()]
    assert [each.get("saved", each.get("status")) for each in told] == ["new", "new", "new", 400]
    for nothing in (body[:20], b"no gzip at all"):
        answer = cms.post("/v1/recipes", data=nothing, content_type=MEDIA_TYPE, headers=headers)
        assert answer.status_code == 400


def test_it_needs_the_scope_to_save_and_the_right_media_type(cms: FlaskClient) -> None:
    assert cms.post("/v1/recipes", json=save("soup")).status_code == 415
    assert cms.post("/v1/recipes", data=b"", content_type=MEDIA_TYPE).data == b""


def test_what_was_answered_is_on_disk_and_the_rest_is_sent_again(tmp_path: Path) -> None:
    """The rest is never sent to the service that is killed, so that it cannot have saved it, however slowly
    this process comes to read the answers."""
    saves = [save(f"soup-{number}", soup(f"{number + 1} g salt")) for number in range(40)]
    with database_url("sqlite", tmp_path) as url:
        with served(url, tmp_path / "log", "--workers", "1", body_seconds="600") as service:
            acknowledged = _acknowledged(service, lines(*saves[:30]) + b"\n", 20)
        assert 20 <= len(acknowledged) <= 30
        app = create_app(Settings(database_url=url, batch_processes=1))
        answers = send(app.test_client(), *saves)
        app.extensions["saltledger-store"].close()
    assert {each["version"] for each in answers} == {1}
    assert [each["save_id"] for each in answers[: len(acknowledged)]] == acknowledged
    assert {each["saved"] for each in answers[: len(acknowledged)]} == {"unchanged"}
    assert {each["saved"] for each in answers[30:]} == {"new"}


def _acknowledged(service: Service, first: bytes, enough: int) -> list[str]:
    """The save ids that came back for the first part of a body, of a service that is then killed."""
    connection = HTTPConnection(service.url.removeprefix("http://"), timeout=120)
    connection.putrequest("POST", "/v1/recipes")
    connection.putheader("Content-Type", MEDIA_TYPE)
    connection.putheader("Transfer-Encoding", "chunked")
    connection.endheaders()
    connection.send(b"%x\r\n%b\r\n" % (len(first), first))
    response, found = connection.getresponse(), []
    with suppress(HTTPException, OSError):
        while (line := response.readline()).endswith(b"\n"):
            found.append(json.loads(line)["save_id"])
            if len(found) == enough:
                service.kill()
    connection.close()
    return found
