"""What goes on behind the answers of an app: begun in each process that answers, when it is ready to, so
that what waits to be delivered goes on after a restart though nobody asks anything."""

from __future__ import annotations

from flask import Flask

from ..config import Settings
from ..jobs.rounds import Rounds

KEY = "saltledger-rounds"


def register(app: Flask) -> None:
    """Deliver events where the settings say so. Raises BadWebhook."""
    settings: Settings = app.extensions["saltledger"]
    app.extensions[KEY] = rounds = _deliveries(app, settings) if settings.webhook_url else None
    if rounds is not None:
        app.before_request(rounds.begin)


def begin(app: Flask) -> None:
    """Begin what goes on behind the answers, in the process that calls; once."""
    rounds: Rounds | None = app.extensions[KEY]
    if rounds is not None:
        rounds.begin()


def _deliveries(app: Flask, settings: Settings) -> Rounds:
    # An HTTP client of 4 MiB, of which most services have no use.
    from ..jobs.webhooks import LOOK_EVERY_SECONDS, Deliveries, Receiver, secret_of  # noqa: PLC0415

    receiver = Receiver(
        settings.webhook_url, secret_of(settings.webhook_secret), settings.webhook_private == "allowed"
    )
    deliveries = Deliveries(lambda: app.extensions["saltledger-store"].database, receiver)
    return Rounds("Webhooks", deliveries.round, LOOK_EVERY_SECONDS)
