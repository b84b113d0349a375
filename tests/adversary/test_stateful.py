"""Sequences of requests made up from the description: what one gives, the next takes, and every check holds.

A save gives its key, its version and its ETag to whatever can be asked of a recipe. Bounded: the same few
sequences on every run.
"""

from __future__ import annotations

from typing import Any

import schemathesis
from hypothesis import HealthCheck, Phase, settings
from saltledger.app import create_app
from saltledger.config import Settings
from saltledger.http.examples import SHORT
from schemathesis.checks import CHECKS, load_all_checks

RECIPE = "/v1/recipes/{key}"
KEY = {"path.key": "$response.body#/key"}
REVIEWED = {**KEY, "header.If-Match": "$response.header.ETag"}
LINKS = {
    "list_versions": KEY,
    "show_version": {**KEY, "path.number": "$response.body#/version"},
    "show_difference": KEY,
    "show_review": KEY,
    "overrule_recipe": REVIEWED,
    "decide_on_recipe": REVIEWED,
}
"""By operation, what it takes of a saved version."""

STREAMED = ("/v1/batches", "/v1/recipes")
"""What is posted there are lines, one document each."""

LEFT_OUT = {"negative_data_rejection", "positive_data_acceptance", "ignored_auth", "missing_required_header"}
"""Saves are put in order before they are sent. Rules across fields are no part of JSON Schema; without keys
there is no auth to ignore; that If-Match is missing is said by 428 (RFC 6585)."""


def linked(document: dict[str, Any]) -> dict[str, Any]:
    """The description, with links from what gives a saved version to what takes one."""
    links = {name: {"operationId": name, "parameters": dict(taken)} for name, taken in LINKS.items()}
    for method, path, statuses in (("put", RECIPE, ("200", "201")),):
        for status in statuses:
            document["paths"][path][method]["responses"][status]["links"] = links
    return document


def test_sequences_of_requests_hold_to_every_check(tmp_path: Any) -> None:
    app = create_app(Settings(database_url=f"sqlite:///{tmp_path}/s.sqlite3", access="open"))
    load_all_checks()
    checks = [check for check in CHECKS.get_all() if check.__name__ not in LEFT_OUT]
    schema = schemathesis.openapi.from_dict(linked(app.extensions["saltledger-api"].document()))
    schema = schema.exclude(
        lambda context: context.operation.path in STREAMED and context.operation.method == "post"
    )
    schema.app = app

    answered: set[tuple[str, str]] = set()

    class Sequences(schema.as_state_machine()):  # type: ignore[misc]
        def before_call(self, case: Any) -> None:
            if case.method == "PUT":  # a recipe that can stand, so that there is something to go on with
                case.body, case.path_parameters = SHORT, {"key": "soup"}
                case.headers = {}

        def validate_response(self, response: Any, case: Any, **how: Any) -> None:
            case.validate_response(response, checks=checks)
            if response.status_code < 300:
                answered.add((case.method, case.path))

    Sequences.run(
        settings=settings(
            max_examples=12,
            stateful_step_count=8,
            derandomize=True,
            deadline=None,
            database=None,
            phases=[Phase.generate],
            suppress_health_check=list(HealthCheck),
        )
    )
    assert {("PUT", RECIPE), ("GET", f"{RECIPE}/review"), ("GET", f"{RECIPE}/versions")} <= answered
