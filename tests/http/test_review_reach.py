"""Overrules that hold in every recipe with a line or food; signatures that are kept; causes of a change."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from flask.testing import FlaskClient

from ..databases import KINDS
from .kept import SOUP, kept_app, soup
from .test_review import SALT, change, decide, review, save, send, words

BROTH: dict[str, Any] = {
    "title": "Broth",
    "servings": 2,
    "ingredients": ["2 tsp Table  Salt", "1 litre water"],
}
OIL = "04053"


@pytest.fixture(params=KINDS)
def desk(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[FlaskClient]:
    with kept_app(request.param, tmp_path) as app:
        yield app.test_client()


def sodium(client: FlaskClient, key: str) -> float:
    found = client.get(f"/v1/recipes/{key}").get_json()["calculation"]["sodium"]["per_serving_mg"]
    return float(found["likely"])


def keep_everywhere(client: FlaskClient, name: str, **fields: Any) -> str:
    """Keep a change for other recipes too, having looked at what moves; the text of that page."""
    looked = change(client, name, **fields)
    page = looked.get_data(as_text=True)
    seen = re.search(r'name="seen" value="([^"]+)"', page)
    assert seen is not None
    assert change(client, name, seen=seen[1], **fields).status_code == 303
    return words(looked)


def test_a_weight_is_kept_for_every_recipe_with_the_line_once_it_was_seen(desk: FlaskClient) -> None:
    name = save(desk)
    save(desk, BROTH, "broth")
    save(desk, soup("1 bay leaf", title="Other"), "other")
    before = {key: sodium(desk, key) for key in ("soup", "broth", "other")}
    page = keep_everywhere(desk, name, grams="3", reach="line")
    assert "It applies to 2 others" in page
    assert "See what moves, then keep it" in page
    assert re.search(rf"Broth {before['broth']:,.0f} \d+ −", page)
    for key, mg in before.items():
        assert sodium(desk, key) == pytest.approx(mg * 3 / 12, rel=0.1)
    told = desk.get("/v1/recipes/broth").get_json()["overrules"]
    assert [(each["field"], each["value"], each["reach"]) for each in told] == [("grams", 3, "line")]
    assert "in every recipe with this line" in words(desk.get(f"/review/{review(desk, 'broth')['save_id']}"))


def test_it_holds_for_later_recipes_unless_their_author_says_otherwise(
    desk: FlaskClient,
) -> None:
    name = save(desk)
    save(desk, BROTH, "broth")
    keep_everywhere(desk, name, grams="3", reach="line")
    save(desk, {"servings": 1, "ingredients": ["2 tsp table salt"]}, "later")
    save(desk, {"servings": 1, "ingredients": [{"line": "2 tsp table salt", "grams": 9}]}, "stated")
    found = [desk.get(f"/v1/recipes/{key}").get_json()["calculation"] for key in ("later", "stated")]
    grams = [each["ingredients"][0]["grams"] for each in found]
    assert grams == [3, 9]


def test_a_packet_is_kept_for_every_recipe_with_the_food(desk: FlaskClient) -> None:
    lines = ("1 tbsp soy sauce", "30 ml soy sauce")
    for key, line in zip(("soup", "wok"), lines, strict=True):
        save(desk, soup(line, title=key), key)
    name = review(desk)["save_id"]
    page = keep_everywhere(desk, name, at="/ingredients/3", packet_sodium="3000", reach="food")
    assert "It applies to 1 other" in page
    for key in ("soup", "wok"):
        soy = desk.get(f"/v1/recipes/{key}").get_json()["calculation"]["ingredients"][3]
        assert soy["sodium_mg"] == pytest.approx(30 * soy["grams"])


def test_a_mapping_of_a_food_is_kept_everywhere_and_taken_back_everywhere(desk: FlaskClient) -> None:
    name = save(desk)
    save(desk, BROTH, "broth")
    before = {key: sodium(desk, key) for key in ("soup", "broth")}
    keep_everywhere(desk, name, food=OIL, reach="food")
    for key in before:
        assert sodium(desk, key) < 100
    newer = review(desk, "broth")["save_id"]
    number = desk.get("/v1/recipes/broth").get_json()["overrules"][0]["id"]
    assert "Take back everywhere" in words(desk.get(f"/review/{newer}"))
    taken = send(desk, f"/review/{newer}/withdraw", f"/review/{newer}", overrule=number)
    assert taken.status_code == 303
    assert {key: sodium(desk, key) for key in before} == pytest.approx(before)
    assert "taken back or replaced on" in words(desk.get(f"/review/{review(desk)['save_id']}"))


def test_what_cannot_hold_elsewhere_is_refused_in_words(desk: FlaskClient) -> None:
    name = save(desk)
    save(desk, BROTH, "broth")
    assert "A weight or a share eaten holds for a line" in words(
        change(desk, name, grams="3", reach="food"), 422
    )
    assert "Choose where the change holds" in words(change(desk, name, grams="3", reach="planet"), 422)
    asked = {"pointer": SALT, "field": "grams", "value": 3, "reason": "weighed", "reach": "food"}
    answer = desk.post(
        "/v1/recipes/soup/overrules",
        json={"reviewer": "Ines", "overrules": [asked]},
        headers={"If-Match": f'"{name}"'},
    )
    assert answer.status_code == 422
    assert answer.get_json()["errors"][0]["pointer"] == "/overrules/0/reach"


def test_the_api_reaches_further_too(desk: FlaskClient) -> None:
    name = save(desk)
    save(desk, BROTH, "broth")
    asked = {"pointer": SALT, "field": "grams", "value": 3, "reason": "weighed", "reach": "line"}
    answer = desk.post(
        "/v1/recipes/soup/overrules",
        json={"reviewer": "Ines", "overrules": [asked]},
        headers={"If-Match": f'"{name}"'},
    )
    assert answer.status_code == 201
    assert desk.get("/v1/recipes/broth").get_json()["calculation"]["ingredients"][0]["grams"] == 3


def test_a_change_that_moves_no_figure_keeps_the_signature_and_says_so(desk: FlaskClient) -> None:
    decide(desk, save(desk))
    again = {
        **SOUP,
        "title": "Renamed soup",
        "ingredients": ["2  tsp table salt", "1 litre water", "800 g potatoes"],
    }
    name = save(desk, again)
    kept = review(desk)
    assert (kept["version"], kept["status"]) == (2, "signed")
    assert kept["sign_offs"][0]["by"]["label"] == "signature kept"
    page = words(desk.get(f"/review/{name}"))
    assert re.search(r"Signed as version 1 on \d{4}-\d\d-\d\d by [^;.]+; no figure has moved since", page)
    kinds = [each["kind"] for each in desk.get("/v1/events").get_json()["events"]]
    assert kinds == ["recipe.saved", "recipe.signed", "recipe.saved", "recipe.signed"]
    save(desk, soup("1 tsp table salt"))
    assert review(desk)["status"] == "open"


def test_a_difference_names_its_causes_and_adds_up(desk: FlaskClient) -> None:
    decide(desk, save(desk, soup("100 g cheese")))
    change(desk, review(desk)["save_id"], "/ingredients/3", food="01040")
    found = desk.get("/v1/recipes/soup/difference").get_json()
    assert [(each["kind"], each["by"]) for each in found["causes"]] == [("override", "Ines Ware, RD")]
    assert found["steps_moved_mg"] == 0
    assert found["overrules_moved_mg"] == pytest.approx(found["moved_mg"])
    lines = ["700 g potatoes", "1 litre water", "3 tsp table salt", "100 g cheese", "1 bay leaf"]
    name = save(desk, {**SOUP, "servings": 5, "ingredients": lines})
    found = desk.get("/v1/recipes/soup/difference?from=1").get_json()
    kinds = [each["kind"] for each in found["causes"]]
    assert sorted(kinds) == ["line", "line", "line", "override", "servings"]
    assert sum(each["moved_mg"] for each in found["causes"]) == pytest.approx(found["moved_mg"], abs=1e-6)
    parts = ("steps", "servings", "overrules", "data", "other")
    whole = sum(found[f"{part}_moved_mg"] for part in parts) + sum(
        each["moved_mg"] for each in found["lines"]
    )
    assert whole == pytest.approx(found["moved_mg"], abs=1e-6)
    page = words(desk.get(f"/review/{name}"))
    assert "Since version 1, which was signed" in page
    assert "Food of 100 g cheese, by Ines Ware, RD" in page
    assert "Number of servings 4 → 5 4 5" in page  # in one cell on a phone, in two elsewhere
