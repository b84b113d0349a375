"""Sequences of keys, reviewers, revocations and requests of every shape, held against a model of who may do what.

The model is short and knows no cache: a caller may do something if a key of theirs is open now and has the
scope; or if nobody ever made a key, and they are on this machine and came through nothing.
"""

from __future__ import annotations

import shutil
from itertools import count
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import hypothesis.strategies as st
import pytest
from flask import Flask
from hypothesis import settings as hypothesis_settings
from hypothesis.stateful import Bundle, RuleBasedStateMachine, initialize, rule, run_state_machine_as_test
from saltledger.app import create_app
from saltledger.config import Settings
from saltledger.http.auth import Door
from saltledger.http.stores import Store
from saltledger.store import keys, reviewers
from saltledger.store.database import Database
from werkzeug.test import TestResponse

PASSWORD = "tide-table-at-noon"
ACCESS = ("loopback", "keys", "open")

ROUTES = {
    "calculate": ("POST", "/v1/lines", {"calculate"}),
    "save": ("PUT", "/v1/recipes/soup", {"save"}),
    "list": ("GET", "/v1/recipes", {"save", "review"}),
    "sign": ("POST", "/v1/recipes/soup/sign-offs", {"review"}),
}
"""What is asked for, and the scopes of which one is needed. An empty body is refused (422) only after that."""

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
"""Forms of Authorization. Only "right" and "lower case" are a key; "none" is no attempt; others are refused."""

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

KEYLESS = st.sampled_from(["none", "empty", "basic", "made up"])
NAMES = st.sampled_from(sorted(ROUTES))
PROCESSES = st.integers(0, 1)
ORIGINS = st.sampled_from([*FOREIGN, *LOCAL])


class WhoMay(RuleBasedStateMachine):
    """One store and two processes that serve from it, so that what one remembers does not follow the other."""

    made = Bundle("made")
    template: Path
    apps: list[Flask]

    @initialize(access=st.sampled_from(ACCESS))
    def start(self, access: str) -> None:
        self.access, self.folder = access, TemporaryDirectory()
        file = Path(self.folder.name) / "store.sqlite3"
        shutil.copy(self.template, file)
        url = f"sqlite:///{file}"
        for app in self.apps:  # as if started anew
            app.extensions["saltledger"] = Settings(database_url=url, access=access)  # type: ignore[arg-type]
            app.extensions["saltledger-store"] = Store(url)
            app.extensions["saltledger-door"] = Door()
        self.database = Database(url)
        self.scopes: dict[str, set[str]] = {}
        self.any_key = self.any_reviewer = False
        self.logins = (f"reviewer{number}" for number in count())

    def teardown(self) -> None:
        if hasattr(self, "folder"):
            self.database.close()
            for app in self.apps:
                app.extensions["saltledger-store"].close()
            self.folder.cleanup()

    @rule(target=made, scopes=st.sets(st.sampled_from(keys.SCOPES), min_size=1))
    def make_key(self, scopes: set[Any]) -> str:
        with self.database.write() as connection:
            _, text = keys.create(connection, "newsroom", scopes)
        self.scopes[text], self.any_key = scopes, True
        return text

    @rule(key=made)
    def revoke(self, key: str) -> None:
        with self.database.write() as connection:
            keys.revoke(connection, key.split("_")[1])
        self.scopes.pop(key, None)

    @rule(stays=st.booleans())
    def add_reviewer(self, stays: bool) -> None:
        login = next(self.logins)
        with self.database.write() as connection:
            reviewers.add(connection, login, "Ines Ware, RD", PASSWORD)
            if not stays:
                reviewers.remove(connection, login)
        self.any_reviewer = True

    @rule(process=PROCESSES, route=NAMES, shape=KEYLESS, origin=ORIGINS)
    def call_without_a_key(self, process: int, route: str, shape: str, origin: str) -> None:
        response = self._call(process, route, SHAPES[shape], origin)
        may = shape == "none" and (self.access == "open" or self._is_home(origin))
        assert (response.status_code == 401) == (not may), response.get_data(as_text=True)

    @rule(process=PROCESSES, route=NAMES, shape=st.sampled_from(sorted(SHAPES)), key=made, origin=ORIGINS)
    def call(self, process: int, route: str, shape: str, key: str, origin: str) -> None:
        form = SHAPES[shape]
        response = self._call(process, route, form and form.format(key=key, cut=key[:-1]), origin)
        expected = self._expected(shape, key, route, origin)
        found = response.status_code if response.status_code in (401, 403) else 200
        assert found == expected, response.get_data(as_text=True)

    @rule(process=PROCESSES, origin=ORIGINS)
    def open_pages(self, process: int, origin: str) -> None:
        response = self._send(process, "GET", "/review", origin, {})
        may = self._is_home(origin) and not self.any_reviewer
        assert response.status_code == (200 if may else 303)

    def _expected(self, shape: str, key: str, route: str, origin: str) -> int:
        if shape == "none":
            return 200 if self.access == "open" or self._is_home(origin) else 401
        if shape not in ("right", "lower case") or key not in self.scopes:
            return 401
        return 200 if self.scopes[key] & ROUTES[route][2] else 403

    def _is_home(self, origin: str) -> bool:
        return self.access != "keys" and not self.any_key and origin in LOCAL

    def _call(self, process: int, route: str, authorization: str | None, origin: str) -> TestResponse:
        method, path, _ = ROUTES[route]
        headers = {} if authorization is None else {"Authorization": authorization}
        return self._send(process, method, path, origin, headers, json={})

    def _send(
        self, process: int, method: str, path: str, origin: str, headers: dict[str, str], **more: Any
    ) -> TestResponse:
        address = "192.0.2.7" if origin == "address" else "127.0.0.1"
        client = self.apps[process].test_client(use_cookies=False)
        return client.open(
            path,
            method=method,
            headers={**headers, **{**FOREIGN, **LOCAL}[origin]},
            environ_overrides={"REMOTE_ADDR": address},
            **more,
        )


def test_nobody_comes_in_who_may_not(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(reviewers, "_hashed", lambda password: "not asked for here")
    WhoMay.apps = [create_app(Settings()) for _ in range(2)]
    WhoMay.template = tmp_path / "empty.sqlite3"
    Database(f"sqlite:///{WhoMay.template}").close()
    run_state_machine_as_test(
        WhoMay, settings=hypothesis_settings(max_examples=40, stateful_step_count=25, deadline=None)
    )
