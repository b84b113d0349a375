"""An incomplete figure says so in every form that an answer takes, and a complete one does not."""

from __future__ import annotations

import csv
import io
import json
import re
from html import unescape
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from flask.testing import FlaskClient
from saltledger.app import create_app
from saltledger.commands.cli import main

HALF_READ = {"title": "Cellar stew", "servings": 4, "ingredients": ["800 g potatoes", "salt", "xyzzyqwv"]}
WHOLE = {"title": "Potatoes", "servings": 4, "ingredients": ["800 g potatoes", "1 tsp table salt"]}


@pytest.fixture(scope="module")
def client() -> FlaskClient:
    return create_app().test_client()


def form(client: FlaskClient, recipe: Any, accept: str, query: str = "") -> str:
    answer = client.post(f"/v1/calculations{query}", json=recipe, headers={"Accept": accept})
    assert answer.status_code == 200
    return answer.get_data(as_text=True)


def words(html: str) -> str:
    return " ".join(unescape(re.sub(r"<[^>]*>", " ", html)).split())


def test_structured_data_gives_no_sodium(client: FlaskClient) -> None:
    assert "sodiumContent" not in json.loads(form(client, HALF_READ, "application/ld+json"))["nutrition"]
    assert "sodiumContent" in json.loads(form(client, WHOLE, "application/ld+json"))["nutrition"]


def test_a_spreadsheet_has_a_row_for_each_gap_and_a_status_for_each_sum(client: FlaskClient) -> None:
    sheet = list(csv.DictReader(io.StringIO(form(client, HALF_READ, "text/csv"))))
    gaps = [row for row in sheet if row["row"] == "uncounted"]
    assert [row["line"] for row in gaps] == ["salt", "xyzzyqwv"]
    assert "it gives no amount" in gaps[0]["grams_basis"]
    sums = [row["sodium_status"] for row in sheet if row["row"].startswith(("eaten", "listed"))]
    assert set(sums) == {"incomplete"}
    whole = list(csv.DictReader(io.StringIO(form(client, WHOLE, "text/csv"))))
    assert {row["sodium_status"] for row in whole} == {"", "complete"}


@pytest.mark.parametrize("label", ["", "?label=fda", "?label=eu", "?label=uk"])
def test_a_panel_declares_no_sodium_and_names_what_is_missing(client: FlaskClient, label: str) -> None:
    panel = words(form(client, HALF_READ, "text/html", label))
    assert "Incomplete: only" in panel
    assert "salt (it gives no amount); xyzzyqwv (no food of the dataset fits)" in panel
    if label:
        assert re.search(r"(Sodium|Salt)\s+incomplete", panel, re.IGNORECASE)
    assert "ncomplete" not in words(form(client, WHOLE, "text/html", label))


@pytest.mark.parametrize("scheme", ["fda", "eu", "uk"])
def test_a_label_view_declares_no_sodium(client: FlaskClient, scheme: str) -> None:
    label = json.loads(form(client, HALF_READ, "application/json", f"?label={scheme}"))["label"]
    rows = [row for column in label["columns"] for row in column["rows"] if row["tag"] in ("NA", "SALT")]
    assert rows
    assert {(row["declared"], row["percent"], row["note"]) for row in rows} == {(None, None, "incomplete")}
    assert label["sodium_complete"] is False


def test_comparisons_say_whether_both_are_complete(client: FlaskClient) -> None:
    versions = [{"label": "a", "recipe": WHOLE}, {"label": "b", "recipe": HALF_READ}]
    (difference,) = client.post("/v1/comparisons", json={"versions": versions}).get_json()["differences"]
    assert difference["complete"] is False


def test_a_target_is_not_said_to_be_met(client: FlaskClient) -> None:
    asked = {"recipe": HALF_READ, "target": {"sodium_mg_per_serving": 900}, "vary": "/servings"}
    found = client.post("/v1/targets", json=asked).get_json()
    assert found["complete"] is False
    assert found["met_at_likely"] is None
    assert "incomplete" in {notice["code"] for notice in found["notices"]}


def test_a_target_in_millimoles_is_the_same_target(client: FlaskClient) -> None:
    asked = {"recipe": WHOLE, "vary": "/ingredients/1"}
    given = ({"amount": 20, "unit": "mmol"}, 459.7954)
    found = [
        client.post("/v1/targets", json={**asked, "target": {"sodium_mg_per_serving": each}}).get_json()
        for each in given
    ]
    assert found[0]["value"] == pytest.approx(found[1]["value"], rel=1e-6)
    wrong = {"sodium_mg_per_serving": {"amount": 20, "unit": "kcal"}}
    refused = client.post("/v1/targets", json={**asked, "target": wrong})
    assert refused.status_code == 422
    assert refused.get_json()["errors"][0]["pointer"] == "/target/sodium_mg_per_serving/unit"
    assert "mmol" in refused.get_json()["errors"][0]["message"]


def test_batches_and_the_command_line_say_it(client: FlaskClient, tmp_path: Path) -> None:
    lines = "\n".join(json.dumps(each) for each in (HALF_READ, WHOLE))
    answer = client.post("/v1/batches", data=lines, headers={"Content-Type": "application/x-ndjson"})
    told = [json.loads(line)["sodium"]["complete"] for line in answer.get_data(as_text=True).splitlines()]
    assert told == [False, True]
    file = tmp_path / "recipe.json"
    file.write_text(json.dumps(HALF_READ), "utf-8")
    printed = CliRunner().invoke(main, ["calculate", str(file)]).output
    assert "Incomplete: only" in printed
