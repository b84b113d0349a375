"""What a process remembers of keys and of wrong passwords, and what a header has to say."""

from __future__ import annotations

import pytest
from saltledger.app import create_app
from saltledger.config import Settings
from saltledger.http import auth, login_throttle
from saltledger.http.auth import Door
from saltledger.http.login_throttle import LoginThrottle
from saltledger.store.keys import ApiKey

HERE = "192.0.2.7"


def key(label: str = "cms") -> ApiKey:
    return ApiKey(label, label, frozenset({"calculate"}), "2026-01-01", None)


@pytest.fixture
def clock(monkeypatch: pytest.MonkeyPatch) -> list[float]:
    now = [1000.0]
    monkeypatch.setattr(auth.time, "monotonic", lambda: now[0])
    monkeypatch.setattr(login_throttle.time, "monotonic", lambda: now[0])
    return now


def test_a_key_is_remembered_for_ten_minutes(clock: list[float]) -> None:
    door = Door()
    door.remember("text", key())
    assert door.recall("text") == key()
    clock[0] += 599.0
    assert door.recall("text") == key()
    clock[0] += 1.0
    assert door.recall("text") is None


def test_seeing_it_again_begins_the_ten_minutes_anew(clock: list[float]) -> None:
    door = Door()
    door.remember("text", key())
    clock[0] += 500.0
    door.remember("text", key())
    clock[0] += 500.0
    assert door.recall("text") == key()


def test_what_the_store_knows_no_more_is_forgotten(clock: list[float]) -> None:
    door = Door()
    door.remember("text", key())
    door.remember("text", None)
    assert door.recall("text") is None
    assert door.had_keys


def test_a_text_that_was_no_key_leaves_no_trace(clock: list[float]) -> None:
    door = Door()
    door.remember("text", None)
    assert door.recall("text") is None
    assert door.recall("other") is None
    assert not door.had_keys


def test_a_thousand_keys_are_remembered_and_the_one_seen_longest_ago_goes(clock: list[float]) -> None:
    door = Door()
    for number in range(1000):
        door.remember(f"text {number}", key(str(number)))
    door.remember("text 0", key("0"))
    assert door.recall("text 1") == key("1")
    door.remember("one more", key("more"))
    assert door.recall("text 1") is None
    assert door.recall("text 0") == key("0")
    assert door.recall("one more") == key("more")


@pytest.mark.parametrize("scheme", ["Basic", "Token", "Bear", ""])
def test_only_a_bearer_is_let_in(scheme: str) -> None:
    client = create_app(Settings(access="open")).test_client()
    answer = client.post("/v1/lines", json={"lines": ["salt"]}, headers={"Authorization": f"{scheme} text"})
    assert answer.status_code == 401
    assert answer.headers["WWW-Authenticate"].lower().startswith("bearer")
    assert "Authorization: Bearer" in answer.get_json()["detail"]


@pytest.mark.parametrize(("failures", "is_closed"), [(4, False), (5, True), (9, True)])
def test_five_wrong_passwords_close_a_login_for_half_a_minute(
    clock: list[float], failures: int, is_closed: bool
) -> None:
    throttle = LoginThrottle()
    for _ in range(failures):
        throttle.failed(HERE, "ines")
    assert throttle.is_closed(HERE, "ines") is is_closed
    clock[0] += 29.9
    assert throttle.is_closed(HERE, "ines") is is_closed
    clock[0] += 0.1
    assert not throttle.is_closed(HERE, "ines")


@pytest.mark.parametrize(("failures", "is_closed"), [(49, False), (50, True)])
def test_fifty_of_any_login_close_an_address(clock: list[float], failures: int, is_closed: bool) -> None:
    throttle = LoginThrottle()
    for number in range(failures):
        throttle.failed(HERE, f"login {number}")
    assert throttle.is_closed(HERE, "ines") is is_closed


@pytest.mark.parametrize(("waited", "is_closed"), [(599.0, True), (600.0, False)])
def test_failures_are_forgotten_after_ten_minutes(clock: list[float], waited: float, is_closed: bool) -> None:
    throttle = LoginThrottle()
    for _ in range(4):
        throttle.failed(HERE, "ines")
    clock[0] += waited
    throttle.failed(HERE, "ines")
    assert throttle.is_closed(HERE, "ines") is is_closed
