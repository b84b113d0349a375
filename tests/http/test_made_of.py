"""Recipes that are made of saved recipes, over HTTP: saved, stale, worked out again, deleted, renamed."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator
from pathlib import Path
from threading import Thread
from typing import Any

import pytest
from flask.testing import FlaskClient
from saltledger.store.database import Database
from saltledger.store.recipe_uses import finder

from ..databases import KINDS
from .kept import kept_app
from .problems import faults

STOCK: dict[str, Any] = {"title": "Stock", "servings": 10, "ingredients": ["3 l water", "20 g table salt"]}
SOUP: dict[str, Any] = {
    "title": "Soup",
    "servings": 4,
    "ingredients": ["500 g potatoes", {"recipe": "stock", "grams": 1000}],
}
MENU: dict[str, Any] = {
    "title": "Menu",
    "servings": 2,
    "ingredients": [{"recipe": "soup", "servings": 2}, {"line": "2 slices white bread", "grams": 60}],
}


@pytest.fixture(params=KINDS)
def cms(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[FlaskClient]:
    with kept_app(request.param, tmp_path) as app:
        yield app.test_client()


def put(cms: FlaskClient, key: str, document: dict[str, Any]) -> Any:
    response = cms.put(f"/v1/recipes/{key}", json=document)
    assert response.status_code in (200, 201), response.text
    return response.json


def salted(grams: int) -> dict[str, Any]:
    return {**STOCK, "ingredients": ["3 l water", f"{grams} g table salt"]}


@pytest.fixture
def menu(cms: FlaskClient) -> FlaskClient:
    for key, document in (("stock", STOCK), ("soup", SOUP), ("menu", MENU)):
        put(cms, key, document)
    return cms


def stale(cms: FlaskClient) -> list[str]:
    return [each["key"] for each in cms.get("/v1/recipes?stale=true").json["recipes"]]


def events(cms: FlaskClient, kind: str) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = cms.get(f"/v1/events?kind={kind}").json["events"]
    return found


def likely(document: dict[str, Any]) -> float:
    return float(document["calculation"]["sodium"]["per_serving_mg"]["likely"])


def test_a_change_marks_those_above_as_stale(menu: FlaskClient) -> None:
    assert stale(menu) == []
    put(menu, "stock", {**STOCK, "title": "Another name"})
    assert stale(menu) == []
    put(menu, "stock", salted(30))
    assert stale(menu) == ["menu", "soup"]
    told = {each["key"]: each for each in events(menu, "recipe.stale")}
    assert told["menu"]["path"] == ["menu", "soup", "stock"]
    assert told["soup"]["because"] == "stock"
    put(menu, "stock", salted(40))
    assert len(events(menu, "recipe.stale")) == 2


def test_what_is_stale_is_worked_out_again(menu: FlaskClient) -> None:
    before = likely(menu.get("/v1/recipes/soup").json)
    put(menu, "stock", salted(30))
    found = menu.post("/v1/recipes/soup/recalculation")
    assert (found.status_code, found.json["version"], found.json["cause"]) == (200, 2, "recalculated")
    assert likely(found.json) > before
    assert stale(menu) == ["menu"]
    again = put(menu, "menu", MENU)
    assert again["version"] == 2
    assert stale(menu) == []
    assert put(menu, "menu", MENU)["version"] == 2


def test_what_comes_out_the_same_is_no_longer_stale(menu: FlaskClient) -> None:
    put(menu, "stock", salted(30))
    put(menu, "stock", STOCK)
    assert stale(menu) == ["menu", "soup"]
    assert menu.post("/v1/recipes/soup/recalculation").json["version"] == 1
    assert stale(menu) == ["menu"]


def test_a_kept_version_stays_on_the_versions_that_it_was_made_of(menu: FlaskClient) -> None:
    kept = menu.get("/v1/recipes/menu").json
    put(menu, "stock", salted(30))
    label = menu.get("/v1/recipes/menu?label=fda").json["calculation"]
    assert label.pop("label")
    assert label == kept["calculation"]
    asked = {"pointer": "/ingredients/1", "field": "grams", "value": 60, "reason": "weighed"}
    tag = {"If-Match": f'"{kept["save_id"]}"'}
    overrule = {"reviewer": "Ines Ware", "overrules": [asked]}
    made = menu.post("/v1/recipes/menu/overrules", json=overrule, headers=tag)
    assert likely(made.json) == likely(kept)
    assert "menu" in stale(menu)


def test_a_change_of_a_part_is_told_as_the_cause(menu: FlaskClient) -> None:
    put(menu, "stock", salted(40))
    put(menu, "soup", {**SOUP, "ingredients": [*SOUP["ingredients"], "3 g table salt"]})
    found = menu.get("/v1/recipes/soup/difference").json
    told = [(each["kind"], each["what"], each["before"], each["after"]) for each in found["causes"]]
    assert told == [
        ("made_of", "Stock", "version 1", "version 2"),
        ("line", "3 g table salt", None, "3 g table salt"),
    ]
    by_part, by_line = (each["moved_mg"] for each in found["causes"])
    assert by_part == found["recipes_moved_mg"]
    assert by_part + by_line == pytest.approx(found["moved_mg"])
    assert by_line == pytest.approx(3000 * 0.38758 / 4, rel=1e-3)
    menu.post("/v1/recipes/menu/recalculation")
    (cause,) = menu.get("/v1/recipes/menu/difference").json["causes"]
    assert (cause["kind"], cause["what"]) == ("made_of", "Soup, Stock")


def test_no_recipe_is_made_of_itself(menu: FlaskClient) -> None:
    asked = {**STOCK, "ingredients": ["1 l water", {"recipe": "menu", "servings": 1}]}
    found = faults(menu.put("/v1/recipes/stock", json=asked))
    assert "stock → menu → soup → stock" in found["/ingredients/1/recipe"]
    itself = faults(
        menu.put("/v1/recipes/new", json={**asked, "ingredients": [{"recipe": "new", "grams": 1}]})
    )
    assert "/ingredients/0/recipe" in itself
    assert menu.get("/v1/recipes/stock").json["version"] == 1


def test_two_saves_at_once_make_no_circle(cms: FlaskClient) -> None:
    put(cms, "a", STOCK)
    put(cms, "b", STOCK)
    answers = []

    def save(key: str, other: str) -> None:
        with cms.application.test_client() as client:
            document = {**STOCK, "ingredients": ["1 l water", {"recipe": other, "grams": 10}]}
            answers.append(client.put(f"/v1/recipes/{key}", json=document).status_code)

    threads = [Thread(target=save, args=pair) for pair in (("a", "b"), ("b", "a"))]
    for each in threads:
        each.start()
    for each in threads:
        each.join()
    assert sorted(answers) == [200, 422]


def test_a_recipe_that_others_name_is_not_renamed_and_may_be_deleted(menu: FlaskClient) -> None:
    assert "'soup'" in faults(menu.post("/v1/recipes/stock/rename", json={"key": "broth"}))["/key"]
    assert menu.delete("/v1/recipes/stock").status_code == 200
    assert stale(menu) == ["menu", "soup"]
    assert "no saved recipe 'stock'" in faults(menu.post("/v1/recipes/soup/recalculation"))[""]
    assert menu.get("/v1/recipes/soup").status_code == 200
    menu.post("/v1/recipes/stock/restore")
    assert menu.post("/v1/recipes/soup/recalculation").json["version"] == 1


def test_the_amount_is_asked_for_once(menu: FlaskClient) -> None:
    def found(**portion: Any) -> dict[str, str]:
        return faults(menu.post("/v1/calculations", json={**SOUP, "ingredients": [portion]}))

    assert "one of grams, servings and fraction" in found(recipe="stock")["/ingredients/0"]
    assert "grams and fraction" in found(recipe="stock", grams=1, fraction=1)["/ingredients/0"]
    assert list(found(line="1 egg", servings=2)) == ["/ingredients/0/servings"]
    assert list(found(recipe="stock", food="02047", grams=1)) == ["/ingredients/0/food"]


def test_targets_and_comparisons_know_saved_recipes(menu: FlaskClient) -> None:
    asked = {"recipe": SOUP, "target": {"sodium_mg_per_serving": 300}, "vary": "/ingredients/1"}
    found = menu.post("/v1/targets", json=asked).json
    assert found["reachable"]
    assert found["value"] < 1000
    versions = [
        {"label": str(g), "recipe": {**SOUP, "ingredients": [{"recipe": "stock", "grams": g}]}}
        for g in (1, 2)
    ]
    assert menu.post("/v1/comparisons", json={"versions": versions}).status_code == 200


def test_the_spreadsheet_holds_what_a_portion_brings(menu: FlaskClient) -> None:
    text = menu.get("/v1/recipes/soup", headers={"Accept": "text/csv"}).text
    rows = {row["line"] or row["row"]: row for row in csv.DictReader(io.StringIO(text))}
    whole = float(rows["Stock"]["NA (mg)"]) + float(rows["500 g potatoes"]["NA (mg)"])
    assert float(rows["listed_total"]["NA (mg)"]) == pytest.approx(whole)
    assert float(rows["eaten_per_serving"]["NA (mg)"]) == pytest.approx(whole / 4)


def test_a_finder_gives_what_was_pinned(menu: FlaskClient) -> None:
    database: Database = menu.application.extensions["saltledger-store"].database
    first = menu.get("/v1/recipes/stock").json["save_id"]
    put(menu, "stock", salted(30))
    pinned, current = finder(database, {"stock": first})("stock"), finder(database)("stock")
    assert pinned is not None
    assert current is not None
    assert (pinned.version, current.version) == (1, 2)
