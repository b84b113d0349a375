"""Sequences of keys, reviewers, revocations and requests, held against a model of who may do what.

The model is short and knows no cache: a caller may do something if a key of theirs is open now and has the
scope; or if nobody ever made a key, and they are on this machine and came through nothing.
"""

from __future__ import annotations

import shutil
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import hypothesis.strategies as st
import pytest
from flask import Flask
from hypothesis import given, settings
from saltledger.app import create_app
from saltledger.config import Access, Settings
from saltledger.http.auth import Door
from saltledger.http.stores import Store
from saltledger.store import keys, reviewers
from saltledger.store.database import Database
from werkzeug.test import TestResponse

ROUTES = {
    "calculate": ("POST", "/v1/lines", {"calculate"}),
    "save": ("PUT", "/v1/recipes/soup", {"save"}),
    "list": ("GET", "/v1/recipes", {"save", "review"}),
    "sign": ("POST", "/v1/recipes/soup/sign-offs", {"sign"}),
}
"""What is asked for, and the scopes of which one is needed. An empty body is refused after that, with 422."""

SHAPES = {
    "none": None,
    "empty": "Bearer",
    "blank": "Bearer  ",
    "no scheme": "{key}",
    "basic": "Basic aW5lczp4",
    "right": "Bearer {key}",
    "lower case": "bearer {key}",
    "longer": "Bearer {key}0",
    "shorter": "Bearer {cut}",
    "twice": "Bearer {key}, Bearer {key}",
    "made up": "Bearer slk_0123456789ab_" + "0" * 64,
}
"""Forms of Authorization. Only "right" and "lower case" are a key; "none" is none; others are refused."""

FOREIGN: dict[str, dict[str, str]] = {
    "forwarded for": {"X-Forwarded-For": "127.0.0.1"},
    "forwarded": {"Forwarded": "for=127.0.0.1"},
    "real ip": {"X-Real-IP": "127.0.0.1"},
    "via": {"Via": "1.1 gate"},
    "host": {"Host": "rebound.example"},
    "address": {},
}
LOCAL: dict[str, dict[str, str]] = {
    "plain": {},
    "cookie": {"Cookie": "saltledger=x; session=y; saltledger-login=z"},
    "loopback name": {"Host": "[::1]:8080"},
}

PROCESSES = st.integers(0, 1)
ORIGINS = st.sampled_from(sorted(LOCAL)) | st.sampled_from(sorted(FOREIGN))
MEMORY = "/dev/shm" if Path("/dev/shm").is_dir() else None
"""Where a store can be made quickly: nothing here is about what lasts."""

SCOPES = st.sets(st.sampled_from(keys.SCOPES), min_size=1)
CALLS = st.tuples(
    st.just("call"),
    PROCESSES,
    st.sampled_from(sorted(ROUTES)),
    st.sampled_from(["none", "none", "empty", "right", "right", *SHAPES]),
    st.integers(0, 2),
    ORIGINS,
)
PAGES = st.tuples(st.just("open_pages"), PROCESSES, ORIGINS)
CHANGES = st.one_of(
    st.tuples(st.just("make_key"), SCOPES),
    st.tuples(st.just("revoke"), st.integers(0, 2)),
    st.just(("revoke_all",)),
    st.tuples(st.just("add_reviewer"), st.booleans()),
)
SEQUENCES = st.lists(CALLS | CALLS | PAGES | CHANGES, min_size=6, max_size=14)


class House:
    """One store and two processes that serve from it, each with what it remembers, and the model of both."""

    def __init__(self, apps: list[Flask], file: Path, access: Access) -> None:
        url = f"sqlite:///{file}"
        for app in apps:  # as if started anew
            app.extensions["saltledger"] = Settings(database_url=url, access=access)
            app.extensions["saltledger-store"] = Store(url)
            app.extensions["saltledger-door"] = Door()
        self.apps, self.access, self.database = apps, access, Database(url)
        self.made: list[str] = []
        self.scopes: dict[str, set[str]] = {}
        self.reviewers = 0

    def close(self) -> None:
        for each in (self.database, *(app.extensions["saltledger-store"] for app in self.apps)):
            each.close()

    def make_key(self, scopes: set[Any]) -> None:
        with self.database.write() as connection:
            _, text = keys.create(connection, "newsroom", scopes)
        self.made.append(text)
        self.scopes[text] = scopes

    def revoke(self, number: int) -> None:
        if number < len(self.made):
            with self.database.write() as connection:
                keys.revoke(connection, self.made[number].split("_")[1])
            self.scopes.pop(self.made[number], None)

    def revoke_all(self) -> None:
        for number in range(len(self.made)):
            self.revoke(number)

    def add_reviewer(self, stays: bool) -> None:
        self.reviewers += 1
        login = f"reviewer{self.reviewers}"
        with self.database.write() as connection:
            reviewers.add(connection, login, "Ines Ware, RD", "tide-table-at-noon")
            if not stays:
                reviewers.remove(connection, login)

    def call(self, process: int, route: str, shape: str, number: int, origin: str) -> None:
        key = self.made[number] if number < len(self.made) else "slk_0123456789ab_0"
        form = SHAPES[shape]
        headers = {"Authorization": form.format(key=key, cut=key[:-1])} if form is not None else {}
        response = self._send(process, *ROUTES[route][:2], origin, headers, json={})
        answered = response.status_code if response.status_code in (401, 403) else 200
        assert answered == self._expected(shape, key, route, origin), response.get_data(as_text=True)

    def open_pages(self, process: int, origin: str) -> None:
        response = self._send(process, "GET", "/review", origin, {})
        may = self._is_home(origin) and not self.reviewers
        assert response.status_code == (200 if may else 303)

    def _expected(self, shape: str, key: str, route: str, origin: str) -> int:
        if shape == "none":
            return 200 if self.access == "open" or self._is_home(origin) else 401
        if shape not in ("right", "lower case") or key not in self.scopes:
            return 401
        return 200 if self.scopes[key] & ROUTES[route][2] else 403

    def _is_home(self, origin: str) -> bool:
        return self.access != "keys" and not self.made and origin in LOCAL

    def _send(
        self, process: int, method: str, path: str, origin: str, headers: dict[str, str], **more: Any
    ) -> TestResponse:
        address = "192.0.2.7" if origin == "address" else "127.0.0.1"
        return (
            self.apps[process]
            .test_client(use_cookies=False)
            .open(
                path,
                method=method,
                headers={**headers, **{**FOREIGN, **LOCAL}[origin]},
                environ_overrides={"REMOTE_ADDR": address},
                **more,
            )
        )


@pytest.fixture(scope="module")
def apps() -> list[Flask]:
    return [create_app(Settings()) for _ in range(2)]


@pytest.fixture(scope="module")
def empty(tmp_path_factory: pytest.TempPathFactory) -> Path:
    file = tmp_path_factory.mktemp("who") / "empty.sqlite3"
    Database(f"sqlite:///{file}").close()
    return file


@pytest.mark.parametrize("access", ["loopback", "keys", "open"])
def test_nobody_comes_in_who_may_not(
    access: Access, apps: list[Flask], empty: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(reviewers, "_hashed", lambda password: "never asked for here")

    @settings(max_examples=100 if access == "loopback" else 30)
    @given(at_first=st.lists(SCOPES, max_size=2), sequence=SEQUENCES)
    def hold(at_first: list[set[str]], sequence: list[tuple[Any, ...]]) -> None:
        with TemporaryDirectory(dir=MEMORY) as folder:
            house = House(apps, Path(shutil.copy(empty, folder)), access)
            for action, *parts in [*(("make_key", scopes) for scopes in at_first), *sequence]:
                getattr(house, action)(*parts)
            house.close()

    hold()
