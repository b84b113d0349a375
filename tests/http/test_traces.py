"""Traces: off unless turned on, one span a request, joined to the caller's, and nothing of recipes in it."""

from __future__ import annotations

import json

import pytest
from opentelemetry import trace
from opentelemetry.sdk.trace import TracerProvider
from opentelemetry.sdk.trace.export import SimpleSpanProcessor
from opentelemetry.sdk.trace.export.in_memory_span_exporter import InMemorySpanExporter
from saltledger.app import create_app
from saltledger.config import Settings
from saltledger.http import traces

CALLER = "00-0af7651916cd43dd8448eb211c80319c-b7ad6b7169203331-01"


@pytest.fixture(scope="module")
def spans() -> InMemorySpanExporter:
    exporter, provider = InMemorySpanExporter(), TracerProvider()
    provider.add_span_processor(SimpleSpanProcessor(exporter))
    trace.set_tracer_provider(provider)
    return exporter


def test_a_request_is_a_span_of_its_callers_trace(spans: InMemorySpanExporter) -> None:
    client = create_app(Settings(traces="on")).test_client()
    headers = {"traceparent": CALLER, "X-Request-ID": "cms-44"}
    client.post("/v1/lines", json={"lines": ["1 tsp secret spice"]}, headers=headers).close()
    client.get("/v1/foods/02047?x=secret").close()
    first, second = spans.get_finished_spans()
    assert first.name == "POST /v1/lines"
    assert f"{first.context.trace_id:032x}" == CALLER.split("-")[1]
    assert first.attributes is not None
    assert first.attributes["http.response.status_code"] == 200
    assert first.attributes["saltledger.request_id"] == "cms-44"
    assert second.name == "GET /v1/foods/<string:code>"
    told = json.dumps([json.loads(span.to_json()) for span in (first, second)])
    assert "secret" not in told
    assert "02047" not in told


def test_off_there_are_none(spans: InMemorySpanExporter) -> None:
    spans.clear()
    create_app(Settings()).test_client().get("/v1/foods/02047").close()
    assert not spans.get_finished_spans()


def test_turned_on_without_the_library_it_says_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(traces, "find_spec", lambda name: None)
    with pytest.raises(traces.NoTracing, match=r"saltledger\[traces\]"):
        create_app(Settings(traces="on"))
