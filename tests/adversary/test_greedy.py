"""What greedy requests come to at a small scale; at full scale `python -m tests.bench.work` measures them."""

from __future__ import annotations

import tracemalloc

import pytest
from saltledger.app import create_app
from saltledger.config import Settings

from . import greedy

MEBIBYTE = 1024 * 1024
MOST_MEMORY = 200 * MEBIBYTE
MOST_ANSWER = 8 * MEBIBYTE


@pytest.fixture(scope="module")
def client():
    return create_app(Settings(cpu_seconds=60, deadline_seconds=600)).test_client()


def send(client, asked):
    return client.open(asked.path, method=asked.method, data=asked.data, content_type="application/json")


def test_greedy_requests_are_answered_or_refused_and_never_fail(client):
    statuses = [send(client, asked).status_code for asked in greedy.of_scale(0.02)]
    assert set(statuses) <= {200, 422}
    assert statuses.count(200) > len(statuses) / 2


def test_at_full_scale_what_multiplies_is_refused_at_its_steps(client):
    found = [send(client, each) for each in greedy.of_scale(1.0) if each.name.endswith("everything")]
    assert {response.status_code for response in found} == {422}
    assert all("/steps" in response.json["errors"][0]["pointer"] for response in found)


@pytest.mark.parametrize(
    ("name", "scale"),
    [("boil: everything, compared", 0.05), ("soak: everything", 0.08), ("own foods, target /servings", 0.3)],
)
def test_memory_and_answers_are_bounded_where_much_is_let_through(client, name, scale):
    asked = next(each for each in greedy.of_scale(scale) if each.name == name)
    tracemalloc.start()
    try:
        response = send(client, asked)
        _, peak = tracemalloc.get_traced_memory()
    finally:
        tracemalloc.stop()
    assert response.status_code == 200
    assert peak < MOST_MEMORY
    assert len(response.data) < MOST_ANSWER
