"""The Flask app: settings in, a WSGI application out. Every blueprint is named here, once."""

from __future__ import annotations

import logging

from flask import Flask
from werkzeug.middleware.proxy_fix import ProxyFix

from .config import Settings
from .foods.dataset import bundled
from .http import (
    answers,
    auth,
    batches,
    baths,
    bodies,
    calculations,
    comparisons,
    docs,
    events,
    foods,
    headers,
    health,
    known_foods,
    lines,
    metrics,
    problems,
    readings,
    reference_values,
    review,
    reviews,
    saves,
    stores,
    targets,
)
from .http.api import Api

BLUEPRINTS = (
    calculations.blueprint,
    lines.blueprint,
    readings.blueprint,
    foods.blueprint,
    baths.blueprint,
    targets.blueprint,
    comparisons.blueprint,
    batches.blueprint,
    saves.blueprint,
    reviews.blueprint,
    events.blueprint,
    reference_values.blueprint,
    health.blueprint,
    metrics.blueprint,
    docs.blueprint,
)
"""What the API is made of, in the order of its description."""


def create_app(settings: Settings | None = None) -> Flask:
    """The service as a WSGI application, its dataset loaded.

    settings: those of the environment where not given. Raises BadSetting (see config).
    """
    settings = settings or Settings.from_environment()
    logging.getLogger("saltledger").setLevel(settings.log_level.upper())
    app = Flask(
        __name__,
        static_folder="http/static",
        static_url_path="/static",
        template_folder="http/templates",
    )
    app.config["MAX_CONTENT_LENGTH"] = settings.body_bytes
    app.extensions["saltledger"] = settings
    bundled()
    if settings.proxies:
        app.wsgi_app = ProxyFix(app.wsgi_app, *[settings.proxies] * 3)  # type: ignore[method-assign]
    for part in (answers, metrics, headers, problems, stores, known_foods, auth, bodies, events):
        part.register(app)
    api = Api(app)
    for blueprint in BLUEPRINTS:
        api.register_blueprint(blueprint)
    app.register_blueprint(review.blueprint)
    return app
