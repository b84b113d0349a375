"""Counts and times of requests by route, for Prometheus.

With several worker processes `serve` sets PROMETHEUS_MULTIPROC_DIR before this is imported, and /metrics
adds up all of them; without that folder the figures are those of the process that answers.
"""

from __future__ import annotations

import logging
import os
from time import perf_counter

from flask import Flask, Response, current_app, g, request
from prometheus_client import CONTENT_TYPE_LATEST, CollectorRegistry, Counter, Histogram, generate_latest
from prometheus_client.multiprocess import MultiProcessCollector

from .api import Blueprint

blueprint = Blueprint("metrics", __name__, description="Figures for those who run the service.")

METHODS = frozenset({"GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "OPTIONS"})
log = logging.getLogger("saltledger")

SECONDS = (0.001, 0.0025, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 2.5, 10)


class Metrics:
    """The counters of one app."""

    def __init__(self) -> None:
        self.registry = CollectorRegistry()
        self._failed = False
        self.requests = Counter(
            "saltledger_requests",
            "Requests by method, route and status.",
            ("method", "route", "status"),
            registry=self.registry,
        )
        self.seconds = Histogram(
            "saltledger_request_seconds",
            "Time until the response begins, by route.",
            ("route",),
            buckets=SECONDS,
            registry=self.registry,
        )

    def seen(self, method: str, route: str, status: int, seconds: float) -> None:
        """Count one request. A figure that cannot be written is left out, and the first time it is logged."""
        try:
            self.requests.labels(method, route, str(status)).inc()
            self.seconds.labels(route).observe(seconds)
        except Exception as fault:
            if not self._failed:
                log.warning("requests cannot be counted: %s", fault)
            self._failed = True

    def exposition(self) -> bytes:
        """The figures in Prometheus' text format."""
        return generate_latest(self._all_processes() or self.registry)

    def _all_processes(self) -> CollectorRegistry | None:
        if not os.path.isdir(os.environ.get("PROMETHEUS_MULTIPROC_DIR", "")):
            return None
        registry = CollectorRegistry()
        MultiProcessCollector(registry)  # type: ignore[no-untyped-call]
        return registry


def register(app: Flask) -> None:
    """Count every request of the app; /metrics gives the figures."""
    metrics = Metrics()

    @app.before_request
    def start() -> None:
        g.started = perf_counter()

    @app.after_request
    def count(response: Response) -> Response:
        # The rule, not the path: a label for every food code or recipe key would grow without end.
        route = request.url_rule.rule if request.url_rule else "(none)"
        method = request.method if request.method in METHODS else "(other)"
        elapsed = perf_counter() - g.get("started", perf_counter())
        metrics.seen(method, route, response.status_code, elapsed)
        return response

    app.extensions["saltledger-metrics"] = metrics


@blueprint.route("/metrics")
@blueprint.gives({"type": "string"}, "The figures in Prometheus' text format.", "text/plain")
def show_metrics() -> Response:
    """Give counts and times of requests, for Prometheus"""
    metrics: Metrics = current_app.extensions["saltledger-metrics"]
    return Response(metrics.exposition(), content_type=CONTENT_TYPE_LATEST)
