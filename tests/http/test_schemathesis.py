"""Requests made up from the description: whatever fits it or does not, the service keeps to its word.

Bounded: a few examples an operation, always the same ones.
"""

from __future__ import annotations

import json
from typing import Any

import schemathesis
from hypothesis import HealthCheck, Phase, settings
from saltledger.app import create_app
from saltledger.config import Settings
from schemathesis.checks import not_a_server_error
from schemathesis.specs.openapi.checks import (
    content_type_conformance,
    negative_data_rejection,
    response_schema_conformance,
    status_code_conformance,
    unsupported_method,
)

CHECKS = [
    not_a_server_error,
    status_code_conformance,
    content_type_conformance,
    response_schema_conformance,
    negative_data_rejection,
    unsupported_method,
]
"""Not among them: that what fits the schema is taken. Rules across fields (a step that names a missing
component, say) are no part of JSON Schema."""

app = create_app(Settings())
schema = schemathesis.openapi.from_wsgi("/openapi.json", app)


@schemathesis.serializer("application/x-ndjson")
def lines_of_json(context: Any, value: Any) -> bytes:
    """A batch as made up: text as it is, anything else as one line."""
    return value.encode("utf-8", "replace") if isinstance(value, str) else json.dumps(value).encode() + b"\n"


@schema.include(path_regex=r"^/(v1/|health)").parametrize()
@settings(
    max_examples=10,
    derandomize=True,
    deadline=None,
    database=None,
    phases=[Phase.explicit, Phase.generate],
    suppress_health_check=list(HealthCheck),
)
def test_the_service_keeps_to_its_description(case: schemathesis.Case) -> None:
    case.call_and_validate(checks=CHECKS)
