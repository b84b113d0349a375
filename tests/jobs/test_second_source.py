"""A line that only the second source knows: incomplete at the save, known after the look-up, and told."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

import pytest
from flask import Flask
from saltledger.app import create_app
from saltledger.config import Settings
from saltledger.foods.dataset import FoodTable
from saltledger.foods.remote.client import OutOfReach
from saltledger.foods.remote.kept import KeptFood
from saltledger.foods.remote.translation import kept_food
from saltledger.http import known_foods
from saltledger.http.stores import make_workbench
from saltledger.jobs.rounds import Rounds
from saltledger.jobs.second_source import LookUps
from saltledger.store import second_foods
from saltledger.store.saving import Workbench

from tests.databases import KINDS, database_url
from tests.foods.remote.shapes import food

PIE = {
    "title": "Quay pie",
    "servings": 4,
    "ingredients": ["1 kg potatoes", "2 tablespoons dulse paste", "10 g table salt"],
}


class Source:
    """Knows what it is given; out of reach where that is None."""

    def __init__(self, *known: dict[str, Any]) -> None:
        self.known: list[KeptFood] | None = [kept_food(each, "2026-11-25") for each in known]
        self.asked: list[str] = []

    def find(self, words: str) -> list[KeptFood]:
        self.asked.append(words)
        if self.known is None:
            raise OutOfReach("answered 503")
        return self.known


@pytest.fixture
def source() -> Source:
    return Source(food(), food(2700002, "Dulse, dried"))


@pytest.fixture(params=KINDS)
def app(request: pytest.FixtureRequest, tmp_path, source: Source, monkeypatch) -> Iterator[Flask]:
    # The rounds are gone by hand: a test waits for nothing.
    monkeypatch.setattr(Rounds, "_run", lambda self: None)
    with database_url(request.param, tmp_path) as url:
        made = create_app(Settings(database_url=url, remote_foods="ask"))
        monkeypatch.setattr(look_ups(made), "_source", source)
        yield made
        made.extensions["saltledger-store"].close()


def look_ups(app: Flask) -> LookUps:
    return app.extensions[known_foods.KEY]


def ingredient(answer: dict[str, Any]) -> dict[str, Any]:
    return answer["ingredients"][1]


def kinds(app: Flask) -> list[str]:
    return [each["kind"] for each in app.test_client().get("/v1/events").json["events"]]


def test_a_save_is_not_delayed_and_is_completed_when_the_food_is_known(app: Flask, source: Source) -> None:
    client = app.test_client()
    saved = client.put("/v1/recipes/pie", json=PIE).json
    assert ingredient(saved["calculation"])["food"] is None
    assert source.asked == []
    assert "is being asked" in next(
        each["message"] for each in saved["calculation"]["notices"] if each["code"] == "no-match"
    )
    sodium = saved["calculation"]["sodium"]
    assert [each["reason"] for each in sodium["uncounted"]] == ["being_asked_for"]
    look_ups(app).round()
    assert source.asked == ["dulse paste"]
    after = client.get("/v1/recipes/pie").json
    assert ingredient(after["calculation"])["food"] == {"code": "fdc:2700001", "name": "Dulse paste"}
    assert ingredient(after["calculation"])["grams"] == pytest.approx(36.0)
    assert after["version"] == 2
    assert after["calculation"]["sodium"]["complete"]
    assert kinds(app) == ["recipe.saved", "recipe.incomplete", "recipe.completed", "recipe.figure_changed"]
    (event,) = client.get("/v1/events?kind=recipe.completed").json["events"]
    assert event["words"] == "dulse paste"
    # 1 kg of potatoes and 10 g of table salt are counted either way.
    counted = saved["calculation"]["sodium"]["counted_per_serving_mg"]
    assert event["sodium_per_serving_mg"] == pytest.approx(counted + 36 * 25 / 4)


def test_a_recipe_is_completed_once(app: Flask) -> None:
    app.test_client().put("/v1/recipes/pie", json=PIE)
    for _ in range(3):
        look_ups(app).round()
    assert kinds(app) == ["recipe.saved", "recipe.incomplete", "recipe.completed", "recipe.figure_changed"]


def test_a_recipe_that_moves_while_it_is_completed_is_completed_as_it_is_then(
    app: Flask, monkeypatch
) -> None:
    """Another process, which has not heard of the food yet, saves in between."""
    elsewhere = create_app(app.extensions["saltledger"])
    client, other = app.test_client(), elsewhere.test_client()
    other.post("/v1/calculations", json=PIE)  # it looks at what is kept, and finds nothing
    client.put("/v1/recipes/pie", json=PIE)
    coming = [PIE | {"ingredients": [*PIE["ingredients"][:2], "20 g table salt"]}]
    make = look_ups(app)._make_workbench

    def overtaken(table: FoodTable) -> Workbench:
        bench = make(table)

        def slow(request: dict[str, Any], **more: Any) -> dict[str, Any]:
            if coming:
                assert other.put("/v1/recipes/pie", json=coming.pop()).status_code == 200
            return bench.calculate(request, **more)

        return replace(bench, calculate=slow)

    monkeypatch.setattr(look_ups(app), "_make_workbench", overtaken)
    look_ups(app).round()
    after = client.get("/v1/recipes/pie").json
    elsewhere.extensions["saltledger-store"].close()
    assert (after["version"], after["calculation"]["sodium"]["complete"]) == (3, True)
    assert after["calculation"]["ingredients"][2]["line"] == "20 g table salt"


def test_answers_name_the_source_and_its_release(app: Flask) -> None:
    client = app.test_client()
    client.post("/v1/calculations", json=PIE)
    look_ups(app).round()
    answer = client.post("/v1/calculations", json=PIE).json
    dataset, second = answer["sources"]
    assert dataset == answer["dataset"]
    assert (second["name"], second["food"], second["release"], second["retrieved"]) == (
        "USDA FoodData Central",
        "fdc:2700001",
        "2022-10-28",
        "2026-11-25",
    )


def test_what_is_signed_names_the_sources_it_rests_on(app: Flask) -> None:
    client = app.test_client()
    client.put("/v1/recipes/pie", json=PIE)
    look_ups(app).round()
    review = client.get("/v1/recipes/pie/review").json
    assert [each.get("food") for each in review["sources"]] == [None, "fdc:2700001"]
    printed = client.get(f"/review/{review['save_id']}/print").text
    assert "USDA FoodData Central, fdc:2700001, 2022-10-28, retrieved 2026-11-25" in printed


def test_the_same_text_with_another_release_has_another_id(app: Flask) -> None:
    client = app.test_client()
    ids = {client.post("/v1/calculations", json=PIE).json["id"]}
    for sodium in (2500, 2600):
        with look_ups(app)._open().write() as connection:
            second_foods.keep(connection, [kept_food(food(sodium=sodium), "2026-11-25")], "matched")
        look_ups(app).refresh()
        ids.add(client.post("/v1/calculations", json=PIE).json["id"])
    assert len(ids) == 3


def test_a_saved_recipe_recalculates_to_the_release_that_it_rests_on(app: Flask) -> None:
    client = app.test_client()
    client.put("/v1/recipes/pie", json=PIE)
    look_ups(app).round()
    before = client.get("/v1/recipes/pie").json["calculation"]
    database = look_ups(app)._open()
    with database.write() as connection:
        second_foods.keep(connection, [kept_food(food(sodium=4000.0), "2027-11-25")], "matched")
    look_ups(app).refresh()
    bench = make_workbench(database, look_ups(app).foods)
    assert not bench.recalculate("pie", 0.0).moved
    assert client.get("/v1/recipes/pie").json["calculation"] == before
    new = client.put("/v1/recipes/pie", json={**PIE, "title": "Quay pie, anew"}).json["calculation"]
    assert new["sources"][1]["sha256"] != before["sources"][1]["sha256"]


def test_a_source_that_is_out_of_reach_is_said_and_asked_again_later(app: Flask, source: Source) -> None:
    source.known = None
    client = app.test_client()
    client.put("/v1/recipes/pie", json=PIE)
    look_ups(app).round()
    look_ups(app).round()
    assert source.asked == ["dulse paste"]
    notice = next(
        each
        for each in client.post("/v1/calculations", json=PIE).json["notices"]
        if each["code"] == "no-match"
    )
    assert "out of reach just now" in notice["message"]
    assert "answered 503" not in notice["message"]
    sodium = client.post("/v1/calculations", json=PIE).json["sodium"]
    assert not sodium["complete"]
    assert [each["reason"] for each in sodium["uncounted"]] == ["out_of_reach"]


def test_a_food_that_fits_only_somewhat_is_offered_and_not_taken(app: Flask, source: Source) -> None:
    source.known = [kept_food(food(2700003, "Seaweed, dulse, dried"), "2026-11-25")]
    client = app.test_client()
    client.put("/v1/recipes/pie", json=PIE)
    look_ups(app).round()
    answer = client.post("/v1/calculations", json=PIE).json
    assert ingredient(answer)["food"] is None
    assert ingredient(answer)["alternatives"][0] == {"code": "fdc:2700003", "name": "Seaweed, dulse, dried"}
    assert kinds(app) == ["recipe.saved", "recipe.incomplete"]
    save = client.get("/v1/recipes/pie").json["save_id"]
    page = client.get(f"/review/{save}/change?at=/ingredients/1").text
    assert "from the second source: USDA FoodData Central" in page
    chosen = {**PIE, "ingredients": [{"line": "2 tbsp dulse paste", "food": "fdc:2700003"}]}
    taken = client.post("/v1/calculations", json=chosen).json["ingredients"][0]["food"]
    assert taken["code"] == "fdc:2700003"


def test_what_no_source_knows_is_said(app: Flask, source: Source) -> None:
    source.known = []
    client = app.test_client()
    client.post("/v1/lines", json={"lines": ["2 tbsp dulse paste"]})
    look_ups(app).round()
    notices = client.post("/v1/lines", json={"lines": ["2 tbsp dulse paste"]}).json["notices"]
    assert "no such food either" in notices[0]["message"]


def test_only_the_words_of_the_food_are_sent(app: Flask, source: Source) -> None:
    app.test_client().post(
        "/v1/calculations",
        json={**PIE, "ingredients": ["3 heaped tbsp (45 g) dulse paste, for aunt Wren at table 7"]},
    )
    look_ups(app).round()
    assert source.asked == ["dulse paste"]


def test_foods_of_the_second_source_can_be_looked_up(app: Flask) -> None:
    client = app.test_client()
    client.post("/v1/calculations", json=PIE)
    look_ups(app).round()
    found = client.get("/v1/foods?query=dulse paste").json["foods"]
    assert found[0]["code"] == "fdc:2700001"
    shown = client.get("/v1/foods/fdc:2700001").json
    assert shown["per_100g"]["NA"] == {"amount": 2500.0, "unit": "mg"}
    assert shown["source"].startswith("USDA FoodData Central, FDC 2700001")


def test_a_bundled_food_is_taken_before_a_kept_one(app: Flask, source: Source) -> None:
    source.known = [kept_food(food(2700004, "Salt, table"), "2026-11-25")]
    client = app.test_client()
    client.post("/v1/calculations", json=PIE)
    look_ups(app).round()
    answer = client.post("/v1/calculations", json=PIE).json
    assert answer["ingredients"][2]["food"]["code"] == "02047"


def test_a_store_that_is_away_stops_no_answer(tmp_path, monkeypatch) -> None:
    settings = Settings(
        database_url="postgresql://nobody@127.0.0.1:1/none", remote_foods="ask", access="open"
    )
    monkeypatch.setattr(Rounds, "_run", lambda self: None)
    answer = create_app(settings).test_client().post("/v1/calculations", json=PIE)
    assert answer.status_code == 200
    assert ingredient(answer.json)["food"] is None


def test_it_is_off_unless_it_is_turned_on(tmp_path) -> None:
    client = create_app(Settings(database_url=f"sqlite:///{tmp_path}/store")).test_client()
    notices = client.post("/v1/calculations", json=PIE).json["notices"]
    assert not any("FoodData" in each["message"] for each in notices)
