"""Counts and times of requests by route."""

from __future__ import annotations

import re

import pytest
from flask.testing import FlaskClient
from saltledger.app import create_app
from saltledger.config import Settings


@pytest.fixture
def fresh() -> FlaskClient:
    return create_app(Settings()).test_client()


def count(client: FlaskClient, **labels: str) -> float:
    wanted = ",".join(f'{name}="{value}"' for name, value in labels.items())
    text = client.get("/metrics").get_data(as_text=True)
    found = re.search(rf"^saltledger_requests_total{{{re.escape(wanted)}}} (\S+)$", text, re.M)
    return float(found[1]) if found else 0.0


def test_requests_are_counted_by_rule_and_not_by_path(fresh: FlaskClient) -> None:
    fresh.get("/v1/foods/02047")
    fresh.get("/v1/foods/01001")
    fresh.get("/v1/foods/none")
    assert count(fresh, method="GET", route="/v1/foods/<string:code>", status="200") == 2
    assert count(fresh, method="GET", route="/v1/foods/<string:code>", status="404") == 1
    assert "02047" not in fresh.get("/metrics").get_data(as_text=True)


def test_strange_paths_and_methods_make_no_labels_of_their_own(fresh: FlaskClient) -> None:
    fresh.get("/anything")
    fresh.open("/anything/else", method="BREW")
    assert count(fresh, method="GET", route="(none)", status="404") == 1
    assert count(fresh, method="(other)", route="(none)", status="404") == 1


def test_times_are_kept_by_route(fresh: FlaskClient) -> None:
    fresh.get("/health/live")
    text = fresh.get("/metrics").get_data(as_text=True)
    assert 'saltledger_request_seconds_count{route="/health/live"} 1.0' in text
