"""Whose X-Forwarded headers are believed."""

from __future__ import annotations

import pytest
from flask import Flask, request
from saltledger.config import BadSetting, Settings
from saltledger.http.proxies import install, networks_of


def caller_of(address: str, networks: str, count: int = 1) -> tuple[str | None, str]:
    app = Flask(__name__)
    app.add_url_rule("/", "seen", lambda: [request.remote_addr, request.scheme])
    install(app, count, networks)
    headers = {"X-Forwarded-For": "192.0.2.7", "X-Forwarded-Proto": "https"}
    seen = app.test_client().get("/", headers=headers, environ_overrides={"REMOTE_ADDR": address})
    who, scheme = seen.get_json()
    return who, scheme


@pytest.mark.parametrize("address", ["127.0.0.1", "::ffff:127.0.0.1", "10.1.2.3", "::1"])
def test_a_proxy_of_ours_is_believed(address: str) -> None:
    assert caller_of(address, "127.0.0.1, 10.0.0.0/8, ::1") == ("192.0.2.7", "https")


@pytest.mark.parametrize("address", ["192.0.2.9", "11.1.2.3", "", "nonsense", "::2"])
def test_anybody_else_is_not(address: str) -> None:
    assert caller_of(address, "127.0.0.1, 10.0.0.0/8, ::1") == (address, "http")


def test_without_proxies_nobody_is() -> None:
    assert caller_of("127.0.0.1", "127.0.0.1", count=0) == ("127.0.0.1", "http")


def test_what_is_no_network_is_refused_at_the_start() -> None:
    with pytest.raises(ValueError, match="appear"):
        networks_of("10.0.0.0/8, gate")
    with pytest.raises(BadSetting, match="SALTLEDGER_TRUSTED_PROXIES"):
        Settings.from_environment({"SALTLEDGER_TRUSTED_PROXIES": "gate"})
