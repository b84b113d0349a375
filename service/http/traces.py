"""OpenTelemetry traces: one span a request, where they are turned on. Off, nothing of it is loaded.

The span tells what the log's line does: the route and not the path, no recipe text and no keys. Where spans
go is said by OpenTelemetry's own OTEL_ variables; without an exporter installed they go nowhere.
"""

from __future__ import annotations

import os
from importlib import import_module
from importlib.util import find_spec
from typing import Any

from flask import Flask, Response, g, request

from ..config import Settings
from ..core.errors import SaltledgerError
from .request_log import request_id

EXPORTER = "opentelemetry.exporter.otlp.proto.http.trace_exporter"


class NoTracing(SaltledgerError):
    """Traces are turned on, and the library for them is not installed."""

    def __str__(self) -> str:
        return "SALTLEDGER_TRACES is on; install 'saltledger[traces]', or turn it off."


def register(app: Flask) -> None:
    """Trace the app's requests, if the settings say so. Raises NoTracing."""
    settings: Settings = app.extensions["saltledger"]
    if settings.traces == "off":
        return
    if find_spec("opentelemetry") is None or find_spec("opentelemetry.sdk") is None:
        raise NoTracing
    app.before_request(_begin)
    app.after_request(_end)


def _begin() -> None:
    from opentelemetry import propagate, trace  # noqa: PLC0415

    _send_spans_on()
    route = request.url_rule.rule if request.url_rule else "(none)"
    g.span = trace.get_tracer("saltledger").start_span(
        f"{request.method} {route}",
        context=propagate.extract({name.lower(): value for name, value in request.headers.items()}),
        kind=trace.SpanKind.SERVER,
        attributes={"http.request.method": request.method, "http.route": route},
    )


def _end(response: Response) -> Response:
    span = g.pop("span", None)
    if span is not None:
        span.set_attribute("http.response.status_code", response.status_code)
        span.set_attribute("saltledger.request_id", request_id())
        response.call_on_close(span.end)
    return response


def _send_spans_on() -> None:
    """Give this process a provider of its own, since what sends spans is a thread and no fork keeps it."""
    if _set_up.get("pid") == os.getpid():
        return
    _set_up["pid"] = os.getpid()
    from opentelemetry import trace  # noqa: PLC0415
    from opentelemetry.sdk.trace import TracerProvider  # noqa: PLC0415
    from opentelemetry.sdk.trace.export import BatchSpanProcessor  # noqa: PLC0415

    if isinstance(trace.get_tracer_provider(), TracerProvider):
        return  # somebody else's, as of a test
    provider = TracerProvider()
    if find_spec("opentelemetry.exporter") and find_spec(EXPORTER):
        provider.add_span_processor(BatchSpanProcessor(import_module(EXPORTER).OTLPSpanExporter()))
    trace.set_tracer_provider(provider)


_set_up: dict[str, Any] = {}
