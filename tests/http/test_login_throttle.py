"""Wrong passwords close a login to who sent them, for a while, and to nobody else."""

from __future__ import annotations

import pytest
from saltledger.http import login_throttle
from saltledger.http.login_throttle import TRIES, TRIES_OF_ADDRESS, LoginThrottle

HERE, THERE = "192.0.2.7", "192.0.2.8"


@pytest.fixture
def clock(monkeypatch: pytest.MonkeyPatch) -> list[float]:
    now = [1000.0]
    monkeypatch.setattr(login_throttle.time, "monotonic", lambda: now[0])
    return now


def test_a_stranger_shuts_out_nobody_but_themselves(clock: list[float]) -> None:
    throttle = LoginThrottle()
    for _ in range(TRIES):
        assert not throttle.is_closed(HERE, "ines")
        throttle.failed(HERE, "ines")
    assert throttle.is_closed(HERE, "ines")
    assert not throttle.is_closed(THERE, "ines")
    assert not throttle.is_closed(HERE, "otto")
    clock[0] += login_throttle.CLOSED_SECONDS
    assert not throttle.is_closed(HERE, "ines")
    throttle.failed(HERE, "ines")
    assert throttle.is_closed(HERE, "ines")


def test_an_address_cannot_go_through_all_logins(clock: list[float]) -> None:
    throttle = LoginThrottle()
    for i in range(TRIES_OF_ADDRESS):
        throttle.failed(HERE, f"login{i}")
    assert throttle.is_closed(HERE, "ines")
    assert not throttle.is_closed(THERE, "ines")


def test_coming_in_begins_anew_and_so_does_time(clock: list[float]) -> None:
    throttle = LoginThrottle()
    for _ in range(TRIES - 1):
        throttle.failed(HERE, "ines")
    throttle.succeeded(HERE, "ines")
    throttle.failed(HERE, "ines")
    assert not throttle.is_closed(HERE, "ines")
    clock[0] += login_throttle.FORGOTTEN_SECONDS
    throttle.failed(HERE, "ines")
    assert not throttle.is_closed(HERE, "ines")


def test_what_is_remembered_is_bounded(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(login_throttle, "REMEMBERED", 100)
    throttle = LoginThrottle()
    for i in range(1000):
        throttle.failed(f"address{i}", "ines")
    assert len(throttle._failures) == 100
