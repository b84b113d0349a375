"""The API's description as a file: made of the schemas, held to the routes by a test."""

from __future__ import annotations

from typing import Any

import yaml

from ..app import create_app
from ..config import Settings

HEAD = "# Made of the schemas by `saltledger openapi --write`; change those, not this.\n"


def as_yaml() -> str:
    """The OpenAPI document of the service in its default settings."""
    app = create_app(Settings())
    document = app.extensions["saltledger-api"].document()
    return HEAD + str(yaml.dump(document, Dumper=_Plain, sort_keys=False, allow_unicode=True, width=110))


class _Plain(yaml.SafeDumper):  # type: ignore[misc]
    """Writes every value out, with no anchors that a reader would have to follow."""

    def ignore_aliases(self, data: Any) -> bool:
        return True
