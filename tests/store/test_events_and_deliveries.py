"""The feed of what happened, and how far each receiver has it: in order, once, and again after a pause."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from saltledger import config
from saltledger.store import deliveries, event_feed
from saltledger.store.database import Database
from saltledger.store.expectations import Condition, PreconditionFailed, PreconditionRequired
from saltledger.store.records import Event
from saltledger.store.saving import Workbench
from saltledger.store.schema import deliveries as table
from saltledger.store.schema import stamp
from sqlalchemy import select, update

from .conftest import CMS, INES, recipe

URL, LEASE = "https://menu.example/hook", timedelta(seconds=30)


def test_events_are_numbered_and_asked_for_by_kind_and_recipe(bench: Workbench) -> None:
    first = bench.save("soup", recipe(), CMS).version
    bench.save("stew", recipe("2 l stock"), CMS)
    bench.decide(first.save_id, "signed", INES, "")
    with bench.database.read() as connection:
        every = event_feed.after(connection, 0, 10)
        assert [(each.kind, each.payload["key"]) for each in every] == [
            ("recipe.saved", "soup"),
            ("recipe.saved", "stew"),
            ("recipe.signed", "soup"),
        ]
        ids = [each.id for each in every]
        assert ids == sorted(set(ids))
        assert event_feed.latest_id(connection) == ids[-1]
        assert [each.id for each in event_feed.after(connection, ids[0], 1)] == [ids[1]]
        assert [each.id for each in event_feed.after(connection, 0, 9, key="soup")] == [ids[0], ids[2]]
        signed = event_feed.after(connection, 0, 9, kinds=["recipe.signed"])
        assert [each.id for each in signed] == [ids[2]]
    payload = every[0].payload
    assert (payload["version"], payload["save_id"]) == (1, first.save_id)
    assert payload["sodium_per_serving_mg"] == first.sodium_mg
    assert payload["record"]["number"] >= 1


def test_an_empty_feed_has_no_number(bench: Workbench) -> None:
    with bench.database.read() as connection:
        assert event_feed.latest_id(connection) == 0
        assert event_feed.after(connection, 0, 10) == []


def claimed(database: Database) -> Event | None:
    with database.write() as connection:
        return deliveries.claim(connection, URL, LEASE)


def is_due(database: Database) -> bool:
    with database.read() as connection:
        return deliveries.any_due(connection, URL)


def pause(database: Database) -> timedelta:
    with database.read() as connection:
        due = connection.scalars(select(table.c.due_at)).one()
    return datetime.fromisoformat(due) - datetime.now(UTC)


def make_due(database: Database) -> None:
    with database.write() as connection:
        connection.execute(update(table).values(due_at=stamp(datetime.now(UTC) - timedelta(seconds=1))))


def test_a_new_receiver_begins_with_what_happens_from_now_on(bench: Workbench) -> None:
    bench.save("soup", recipe(), CMS)
    assert is_due(bench.database)
    assert claimed(bench.database) is None
    assert not is_due(bench.database)
    bench.save("stew", recipe("2 l stock"), CMS)
    assert is_due(bench.database)
    event = claimed(bench.database)
    assert event is not None
    assert event.id == 2


def test_a_claimed_event_is_nobody_elses_until_the_lease_ends(bench: Workbench) -> None:
    claimed(bench.database)
    bench.save("soup", recipe(), CMS)
    event = claimed(bench.database)
    assert event is not None
    assert claimed(bench.database) is None
    assert not is_due(bench.database)
    assert timedelta(seconds=20) < pause(bench.database) <= LEASE
    make_due(bench.database)
    assert claimed(bench.database) == event


def test_what_was_taken_does_not_come_again(bench: Workbench) -> None:
    claimed(bench.database)
    bench.save("soup", recipe(), CMS)
    event = claimed(bench.database)
    assert event is not None
    with bench.database.write() as connection:
        deliveries.done(connection, URL, event)
    make_due(bench.database)
    assert not is_due(bench.database)
    assert claimed(bench.database) is None


def test_pauses_double_from_five_seconds_to_an_hour(bench: Workbench) -> None:
    claimed(bench.database)
    bench.save("soup", recipe(), CMS)
    waited = []
    for _ in range(12):
        with bench.database.write() as connection:
            deliveries.failed(connection, URL)
        waited.append(round(pause(bench.database).total_seconds()))
    for found, least in zip([*waited[:4], *waited[-2:]], (5, 10, 20, 40, 3600, 3600), strict=True):
        assert least - 2 <= found <= least * (1 + deliveries.MOST_JITTER) + 2
    make_due(bench.database)
    event = claimed(bench.database)
    assert event is not None
    with bench.database.write() as connection:
        deliveries.done(connection, URL, event)
        deliveries.failed(connection, URL)
    assert 3 <= pause(bench.database).total_seconds() <= 5 * (1 + deliveries.MOST_JITTER) + 2


def test_what_a_caller_expects_is_held_against_what_stands(bench: Workbench) -> None:
    version = bench.save("soup", recipe(), CMS).version
    tag = frozenset({version.etag})
    for fine in (
        Condition(),
        Condition(match=tag),
        Condition(match=frozenset({"*"})),
        Condition(match=tag, required=True),
    ):
        fine.check("soup", version)
    for fine in (Condition(), Condition(absent=True), Condition(unlike=tag), Condition(required=True)):
        fine.check("new", None)
    Condition(unlike=frozenset({"other"})).check("soup", version)
    for wrong, current in (
        (Condition(absent=True), version),
        (Condition(unlike=tag), version),
        (Condition(match=frozenset({"other"})), version),
        (Condition(match=frozenset()), version),
        (Condition(match=tag), None),
        (Condition(match=frozenset({"*"})), None),
    ):
        with pytest.raises(PreconditionFailed):
            wrong.check("soup", current)
    with pytest.raises(PreconditionRequired, match="If-Match"):
        Condition(required=True).check("soup", version)


def test_a_refusal_says_what_stands_there(bench: Workbench) -> None:
    version = bench.save("soup", recipe(), CMS).version
    assert "Nothing is saved under 'soup'" in str(PreconditionFailed("soup", None))
    said = str(PreconditionFailed("soup", version))
    assert "Version 1 of 'soup'" in said
    assert version.etag in said


def test_the_store_lies_in_the_state_folder(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "mine"))
    monkeypatch.delenv("STATE_DIRECTORY", raising=False)
    assert config.default_file() == tmp_path / "mine" / "saltledger" / "saltledger.sqlite3"
    monkeypatch.delenv("XDG_STATE_HOME")
    monkeypatch.setenv("HOME", str(tmp_path))
    assert config.default_file() == tmp_path / ".local" / "state" / "saltledger" / "saltledger.sqlite3"
    monkeypatch.setenv("STATE_DIRECTORY", str(tmp_path / "service"))
    assert config.default_file() == tmp_path / "service" / "saltledger.sqlite3"
    assert config.default_url() == f"sqlite:///{tmp_path}/service/saltledger.sqlite3"
