"""Example answers for the API's description: `python -m saltledger.seed_foods.derive_examples`.

Every endpoint is called as its own example says, in a store of its own, and what it answers is written to
example_answers.json, cut short: one of each list, three nutrients of each table. Names and moments that
differ from run to run are always the same ones.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from flask.testing import FlaskClient

# mypy sees this folder apart from the package that it is installed in.
from ..app import create_app  # type: ignore[import-not-found]
from ..config import Settings  # type: ignore[import-not-found]
from ..http import examples  # type: ignore[import-not-found]

FILE = Path(__file__).with_name("example_answers.json")
KEY = "/v1/recipes/quay-potato-soup"
NDJSON = "application/x-ndjson"

MOST_LISTED = 1
SHOWN = ("ENERC", "NA", "K")
"""The nutrients that are left of a table of them."""

STEADY = (
    (re.compile(r"save_[0-9a-f]{24}"), "save_0123456789abcdef01234567"),
    (re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{6}Z"), "2026-11-25T08:00:00.000000Z"),
    (re.compile(r"\b[0-9a-f]{64}\b"), "5f" * 32),
)

Call = tuple[str, str, str, dict[str, Any]]
"""Operation, method, path, and what is sent."""


def calls() -> list[Call]:
    """Every call in an order in which each finds what it needs. If-Match is filled in with the newest tag."""
    stock = {"title": "Quay stock", "servings": 10, "ingredients": ["3 litres water", "20 g salt"]}
    written, tagged = examples.WRITTEN, {"headers": {"If-Match": ""}}
    save = {"key": "quay-stock", "recipe": stock}
    demo = examples.recipe_example()
    return [
        ("calculate_recipe", "POST", "/v1/calculations", {"json": demo}),
        ("read_lines", "POST", "/v1/lines", {"json": examples.LINES}),
        ("read_recipe", "POST", "/v1/readings", {"json": written}),
        ("search_foods", "GET", "/v1/foods?query=table+salt", {}),
        ("show_food", "GET", "/v1/foods/02047", {}),
        ("ask_bath", "POST", "/v1/baths", {"json": examples.BATH}),
        ("ask_target", "POST", "/v1/targets", {"json": examples.TARGET}),
        ("compare_versions", "POST", "/v1/comparisons", {"json": examples.COMPARISON}),
        ("answer_batch", "POST", "/v1/batches", {"data": _lines(examples.SHORT), "content_type": NDJSON}),
        ("save_recipes", "POST", "/v1/recipes", {"data": _lines(save), "content_type": NDJSON}),
        ("save_recipe", "PUT", KEY, {"json": examples.SHORT}),
        ("save_recipe", "PUT", KEY, {"json": examples.SHORT}),
        ("preview_overrules", "POST", f"{KEY}/overrules/preview", {"json": examples.OVERRULES}),
        ("overrule_recipe", "POST", f"{KEY}/overrules", {"json": examples.OVERRULES, **tagged}),
        ("list_overrules", "GET", f"{KEY}/overrules", {}),
        ("decide_on_recipe", "POST", f"{KEY}/sign-offs", {"json": examples.SIGN_OFF, **tagged}),
        ("keep_measurement", "POST", "/v1/measurements", {"json": examples.MEASUREMENT}),
        ("list_measurements", "GET", "/v1/measurements", {}),
        ("show_recipe", "GET", KEY, {}),
        ("list_recipes", "GET", "/v1/recipes", {}),
        ("list_versions", "GET", f"{KEY}/versions", {}),
        ("show_version", "GET", f"{KEY}/versions/1", {}),
        ("show_difference", "GET", f"{KEY}/difference", {}),
        ("show_review", "GET", f"{KEY}/review", {}),
        ("recalculate_recipe", "POST", f"{KEY}/recalculation", {}),
        (
            "withdraw_overrule",
            "POST",
            f"{KEY}/overrules/1/withdrawal",
            {"json": examples.WITHDRAWAL, **tagged},
        ),
        ("archive_recipe", "POST", f"{KEY}/archive", {}),
        ("restore_recipe", "POST", f"{KEY}/restore", {}),
        ("delete_recipe", "DELETE", KEY, {}),
        ("restore_recipe", "POST", f"{KEY}/restore", {}),
        ("rename_recipe", "POST", f"{KEY}/rename", {"json": {"key": "quay-soup-2027"}}),
        ("list_events", "GET", "/v1/events", {}),
        ("list_reference_values", "GET", "/v1/reference-values", {}),
        ("live", "GET", "/health/live", {}),
        ("ready", "GET", "/health/ready", {}),
        ("show_start", "GET", "/", {}),
    ]


def _lines(*documents: Any) -> str:
    return "".join(json.dumps(each) + "\n" for each in documents)


def derived() -> dict[str, dict[str, Any]]:
    """By operation and status, an example of its answer; text where it is no JSON document."""
    found: dict[str, dict[str, Any]] = {}
    with TemporaryDirectory() as folder:
        app = create_app(Settings(database_url=f"sqlite:///{Path(folder) / 'store.sqlite3'}"))
        for operation, status, answer in _answered(app.test_client()):
            found.setdefault(operation, {})[status] = answer
        app.extensions["saltledger-store"].close()
    return found


def _answered(client: FlaskClient) -> Iterator[tuple[str, str, Any]]:
    tag = ""
    for operation, method, path, sent in calls():
        headers = dict.fromkeys(sent.get("headers", {}), tag)
        response = client.open(path, method=method, **{**sent, "headers": headers})
        if response.status_code >= 400:
            raise SystemExit(f"{operation}: {response.status_code} {response.text}")
        tag = response.headers.get("ETag", tag)
        lines = [short(steady(json.loads(line))) for line in response.text.splitlines()]
        whole = lines[0] if response.mimetype == "application/json" else _lines(*lines)
        yield operation, str(response.status_code), whole


def steady(value: Any) -> Any:
    """A document with the same names and moments in every run."""
    text = json.dumps(value, ensure_ascii=False)
    for pattern, always in STEADY:
        text = pattern.sub(always, text)
    return json.loads(text)


def short(value: Any) -> Any:
    """A document with no more than a few of what is many."""
    match value:
        case list():
            return [short(each) for each in value[:MOST_LISTED]]
        case dict() if value and all(name.isupper() for name in value):
            return {name: short(each) for name, each in value.items() if name in SHOWN}
        case dict():
            return {name: short(each) for name, each in value.items()}
    return value


def main() -> None:
    text = json.dumps(derived(), ensure_ascii=False, indent=1)
    FILE.write_text(text + "\n", encoding="utf-8")
    print(f"Wrote {FILE.name}, {len(text):,} characters.")


if __name__ == "__main__":
    main()
