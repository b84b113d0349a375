"""The Flask app: settings in, a WSGI application out. Every blueprint is named here, once."""

from __future__ import annotations

import logging
from collections.abc import Callable
from typing import Any

from flask import Flask

from .config import Settings
from .foods.dataset import bundled
from .http import (
    auth,
    behind,
    bodies,
    encodings,
    headers,
    kept_answers,
    kitchens,
    known_foods,
    line_streams,
    media_types,
    metrics,
    problems,
    proxies,
    rates,
    read_ahead,
    request_log,
    stores,
    traces,
)
from .http.api import Api
from .http.pages import review
from .http.routes import (
    batches,
    baths,
    bulk_saves,
    calculations,
    docs,
    events,
    foods,
    health,
    lines,
    measurements,
    planning,
    readings,
    reference_values,
    reviews,
)

BLUEPRINTS = (
    calculations.blueprint,
    lines.blueprint,
    readings.blueprint,
    foods.blueprint,
    baths.blueprint,
    planning.targets,
    planning.comparisons,
    batches.blueprint,
    measurements.blueprint,
    bulk_saves.blueprint,  # that of saves, with one route more
    reviews.blueprint,
    events.blueprint,
    reference_values.blueprint,
    health.blueprint,
    metrics.blueprint,
    docs.blueprint,
)
"""What the API is made of, in the order of its description."""

PARTS = (
    media_types,
    request_log,
    metrics,
    headers,
    problems,
    stores,
    known_foods,
    auth,
    rates,
    kitchens,
    bodies,
    kept_answers,
    read_ahead,
    events,
    behind,
    traces,
    line_streams,
    encodings,
)
"""What sees every request, in this order; and every response, in the order turned round."""


class Service(Flask):
    """Flask without coroutines: it asks of every view, wrapper and hook of each request whether it is one."""

    def ensure_sync(self, func: Callable[..., Any]) -> Callable[..., Any]:
        return func


def create_app(settings: Settings | None = None) -> Flask:
    """The service as a WSGI application, its dataset loaded.

    settings: those of the environment where not given. Raises BadSetting (see config).
    """
    settings = settings or Settings.from_environment()
    logging.getLogger("saltledger").setLevel(settings.log_level.upper())
    app = Service(
        __name__,
        static_folder="http/static",
        static_url_path="/static",
        template_folder="http/templates",
    )
    app.config["MAX_CONTENT_LENGTH"] = settings.body_bytes
    app.extensions["saltledger"] = settings
    bundled()
    proxies.install(app, settings.proxies, settings.trusted_proxies)
    for part in PARTS:
        part.register(app)
    api = Api(app)
    for blueprint in BLUEPRINTS:
        api.register_blueprint(blueprint)
    app.register_blueprint(review.blueprint)
    return app
