"""Who may call: open at home, keys from the first key on, scopes, and nothing by way of another site."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import ExitStack
from pathlib import Path
from typing import Any

import pytest
from flask import Flask
from saltledger.app import create_app
from saltledger.config import Settings
from saltledger.core.errors import StoreUnavailable
from saltledger.http import auth
from saltledger.store import keys

from .kept import SOUP, kept_app
from .problems import problem

Make = Callable[..., Flask]


@pytest.fixture
def make(tmp_path: Path) -> Iterator[Make]:
    with ExitStack() as stack:
        yield lambda **settings: stack.enter_context(kept_app("sqlite", tmp_path, **settings))


def new_key(app: Flask, *scopes: Any) -> str:
    with app.extensions["saltledger-store"].database.write() as connection:
        return keys.create(connection, "newsroom", scopes)[1]


def lines(app: Flask, key: str | None = None, address: str = "127.0.0.1", **headers: str) -> Any:
    named = {name.replace("_", "-"): value for name, value in headers.items()}
    if key is not None:
        named["Authorization"] = f"Bearer {key}"
    environment = {"REMOTE_ADDR": address}
    return app.test_client().post(
        "/v1/lines", json={"lines": ["1 tsp salt"]}, headers=named, environ_overrides=environment
    )


@pytest.mark.parametrize("address", ["127.0.0.1", "::1", "127.8.8.8"])
def test_without_keys_this_machine_may_call(make: Make, address: str) -> None:
    assert lines(make(), address=address).status_code == 200


@pytest.mark.parametrize(
    ("address", "headers"),
    [
        ("192.0.2.7", {}),
        ("", {}),
        ("127.0.0.1", {"X_Forwarded_For": "192.0.2.7"}),
        ("127.0.0.1", {"Forwarded": "for=192.0.2.7"}),
        ("127.0.0.1", {"X_Forwarded_Host": "localhost"}),
        ("127.0.0.1", {"X_Forwarded_Proto": "https"}),
        ("127.0.0.1", {"X_Real_IP": "127.0.0.1"}),
        ("127.0.0.1", {"Via": "1.1 gate"}),
        ("127.0.0.1", {"X_Client_IP": "127.0.0.1"}),
        ("127.0.0.1", {"Proxy_Connection": "keep-alive"}),
        ("127.0.0.1", {"Host": "[::1"}),
        ("127.0.0.1", {"Host": "rebound.example"}),
        ("127.0.0.1", {"Host": "rebound.example:8080"}),
    ],
)
def test_without_keys_nobody_else_may(make: Make, address: str, headers: dict[str, str]) -> None:
    response = lines(make(), address=address, **headers)
    assert "its own machine" in problem(response, 401)["detail"]
    assert response.headers["WWW-Authenticate"].startswith("Bearer")


@pytest.mark.parametrize("host", ["localhost", "localhost:8080", "127.0.0.1:8080", "[::1]:8080", "[::1]"])
def test_this_machine_goes_by_its_own_names(make: Make, host: str) -> None:
    assert lines(make(), Host=host).status_code == 200


def test_from_the_first_key_on_everybody_brings_one(make: Make) -> None:
    app = make()
    key = new_key(app, "calculate")
    assert "Bearer" in problem(lines(app), 401)["detail"]
    assert lines(app, key, address="192.0.2.7").status_code == 200
    problem(lines(app, key + "0"), 401)
    problem(lines(app, "slk_x"), 401)
    problem(lines(app, Authorization="Basic aW5lczp4"), 401)
    problem(lines(app, Authorization=f"Token {key}"), 401)


def test_a_wrong_key_is_refused_where_none_is_needed(make: Make) -> None:
    problem(lines(make(), "slk_x_y"), 401)


def test_keys_from_the_start_and_open_to_all_where_told(make: Make) -> None:
    problem(lines(make(access="keys")), 401)
    assert lines(make(access="open"), address="192.0.2.7").status_code == 200


@pytest.mark.parametrize(
    ("method", "path", "scopes"),
    [
        ("POST", "/v1/calculations", {"calculate"}),
        ("GET", "/v1/foods/02047", {"calculate"}),
        ("POST", "/v1/batches", {"calculate"}),
        ("PUT", "/v1/recipes/soup", {"save"}),
        ("GET", "/v1/recipes/soup", {"save", "review"}),
        ("GET", "/v1/recipes/soup/versions", {"save", "review"}),
        ("GET", "/v1/recipes/soup/difference", {"save", "review"}),
        ("GET", "/v1/recipes", {"save", "review"}),
        ("GET", "/v1/events", {"save", "review"}),
        ("POST", "/v1/recipes/soup/overrules", {"review"}),
        ("POST", "/v1/recipes/soup/sign-offs", {"sign"}),
    ],
)
def test_each_route_has_its_scopes(make: Make, method: str, path: str, scopes: set[str]) -> None:
    app = make()
    for scope in keys.SCOPES:
        headers = {"Authorization": f"Bearer {new_key(app, scope)}"}
        response = app.test_client().open(path, method=method, headers=headers)
        assert (response.status_code != 403) == (scope in scopes), scope
        if scope not in scopes:
            assert scope in problem(response, 403)["detail"]
    problem(app.test_client().open(path, method=method), 401)


@pytest.mark.parametrize(
    "path", ["/health/live", "/health/ready", "/metrics", "/openapi.json", "/docs", "/static/docs.css"]
)
def test_what_tells_nothing_of_recipes_asks_for_nothing(make: Make, path: str) -> None:
    with make(access="keys").test_client().get(path) as response:
        assert response.status_code == 200


def test_an_unknown_address_is_not_there_for_anybody(make: Make) -> None:
    problem(make(access="keys").test_client().get("/v1/nothing"), 404)


def test_a_revoked_key_is_closed(make: Make) -> None:
    app = make()
    key = new_key(app, "calculate")
    new_key(app, "calculate")
    assert lines(app, key).status_code == 200
    with app.extensions["saltledger-store"].database.write() as connection:
        keys.revoke(connection, key.split("_")[1])
    assert "revoked" in problem(lines(app, key), 401)["detail"]


def test_revoking_takes_effect_with_the_next_request(make: Make) -> None:
    app = make()
    key = new_key(app, "calculate")
    assert lines(app, key).status_code == 200
    with app.extensions["saltledger-store"].database.write() as connection:
        keys.revoke(connection, key.split("_")[1])
    problem(lines(app, key), 401)


def test_revoking_the_last_key_opens_nothing(make: Make) -> None:
    app = make()
    with app.extensions["saltledger-store"].database.write() as connection:
        keys.revoke(connection, keys.create(connection, "newsroom", ["calculate"])[0].public_id)
    problem(lines(app), 401)
    app.extensions["saltledger-door"].had_keys = False  # as in another process
    problem(lines(app), 401)


@pytest.mark.parametrize("empty", ["Bearer", "Bearer ", "bearer  ", "Bearer\t"])
def test_an_empty_key_is_nobodys_in_either_order(make: Make, empty: str) -> None:
    app = make()
    new_key(app, "calculate")
    for _ in range(2):
        problem(lines(app, Authorization=empty), 401)
        problem(lines(app), 401)


def test_a_first_key_closes_the_door_at_once(make: Make) -> None:
    app = make()
    assert lines(app).status_code == 200
    new_key(app, "calculate")
    problem(lines(app), 401)


def test_known_keys_go_on_calculating_while_the_store_is_away(
    make: Make, monkeypatch: pytest.MonkeyPatch
) -> None:
    app = make()
    key, other = new_key(app, "calculate", "save"), new_key(app, "calculate")
    assert lines(app, key).status_code == 200

    def away(self: object) -> None:
        raise StoreUnavailable("it is away")

    kind = type(app.extensions["saltledger-store"].database)
    monkeypatch.setattr(kind, "read", away)
    monkeypatch.setattr(kind, "changes", lambda self: None)
    assert lines(app, key).status_code == 200
    problem(lines(app, other), 503)
    problem(lines(app), 401)
    problem(app.test_client().get("/v1/recipes", headers={"Authorization": f"Bearer {key}"}), 503)
    monkeypatch.setattr(auth, "KNOWN_SECONDS", 0)
    problem(lines(app, key), 503)


def test_saves_carry_the_label_of_their_key(make: Make) -> None:
    app = make()
    headers = {"Authorization": f"Bearer {new_key(app, 'save')}"}
    saved = app.test_client().put("/v1/recipes/soup", json=SOUP, headers=headers)
    assert saved.get_json()["saved_by"] == "newsroom"


def test_a_trusted_proxy_says_who_calls(make: Make) -> None:
    app = make(access="open", proxies=1)
    headers = {
        "X-Forwarded-For": "192.0.2.7",
        "X-Forwarded-Proto": "https",
        "X-Forwarded-Host": "menu.example",
    }
    response = app.test_client().get("/review", headers=headers)
    assert response.headers["Location"].startswith("/review/login")


def test_a_service_that_only_calculates_makes_no_file(tmp_path: Path) -> None:
    app = create_app(Settings(database_url=f"sqlite:///{tmp_path / 'store.sqlite3'}"))
    assert lines(app).status_code == 200
    assert list(tmp_path.iterdir()) == []
