"""The hostile corpus against the app, and raw bytes against a real server."""

from __future__ import annotations

import re
from pathlib import Path
from urllib.parse import urlsplit

import pytest
import requests
from saltledger.app import create_app
from saltledger.config import Settings

from ..serving import served
from .attack import answer_to, fault_of
from .hostile import RAW, corpus, made_up

LEAST = 700
FAILED = {500, 502, 503, 504}
"""Not 501 and 505, by which HTTP itself wants an unknown coding or version refused."""
EVERY = 4
"""So many are left out between two that are sent; `python -m tests.adversary` sends all."""


@pytest.fixture(scope="module")
def client(tmp_path_factory):
    app = create_app(Settings(database_url=f"sqlite:///{tmp_path_factory.mktemp('hostile') / 's.db'}"))
    yield app.test_client()
    app.extensions["saltledger-store"].close()


def test_no_hostile_body_is_answered_with_a_failure(client):
    sent = list(corpus())[::EVERY]
    assert len(sent) >= LEAST
    assert [fault for asked in sent if (fault := fault_of(client, asked))] == []


def test_no_made_up_body_is_either(client):
    sent = (asked for asked, _ in zip(made_up(1), range(300), strict=False))
    assert [fault for asked in sent if (fault := fault_of(client, asked))] == []


def test_raw_bytes_are_answered_or_the_door_is_closed_and_the_service_lives(tmp_path: Path):
    with served(
        f"sqlite:///{tmp_path}/s.db", tmp_path / "log", head_seconds="2", body_seconds="2"
    ) as service:
        where = urlsplit(service.url)
        answers = [answer_to((where.hostname, where.port), raw) for raw in RAW]
        statuses = [
            int(found[1]) if (found := re.match(rb"HTTP/1\.\d (\d+) ", each)) else None for each in answers
        ]
        assert [raw for raw, status in zip(RAW, statuses, strict=True) if status in FAILED] == []
        assert sum(status is not None for status in statuses) > len(RAW) / 2
        assert requests.get(f"{service.url}/health/live", timeout=5).ok
        assert b'"level": "error"' not in (tmp_path / "log").read_bytes()
