"""Recipes in recipes on the review pages: what one is made of, what it goes into, what has changed since."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from flask.testing import FlaskClient

from .kept import kept_app
from .test_made_of import MENU, SOUP, STOCK, put, salted
from .test_review import decide, send, words


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[FlaskClient]:
    with kept_app("sqlite", tmp_path) as app:
        client = app.test_client()
        for key, document in (("stock", STOCK), ("soup", SOUP), ("menu", MENU)):
            put(client, key, document)
        yield client


def name(desk: FlaskClient, key: str) -> str:
    return str(desk.get(f"/v1/recipes/{key}").json["save_id"])


def page(desk: FlaskClient, key: str) -> str:
    return words(desk.get(f"/review/{name(desk, key)}"))


def links(desk: FlaskClient, key: str) -> list[str]:
    text = desk.get(f"/review/{name(desk, key)}").get_data(as_text=True)
    section = text[text.index('id="made-of-title"') :]
    return re.findall(r'href="/review/(save_\w+)"', section[: section.index("</section>")])


def test_a_page_leads_to_the_recipes_below_and_above(desk: FlaskClient) -> None:
    assert links(desk, "menu") == [name(desk, "soup"), name(desk, "stock")]
    assert links(desk, "soup") == [name(desk, "stock"), name(desk, "menu")]
    assert links(desk, "stock") == [name(desk, "soup")]
    assert "This one is made of" not in page(desk, "stock")
    assert "It goes into" not in page(desk, "menu")


def test_the_ledger_goes_down_into_every_part(desk: FlaskClient) -> None:
    shown = page(desk, "menu")
    assert "Of this, in Soup (version 1, 50 % of what it makes)" in shown
    assert "Of this, in Stock (version 1," in shown
    printed = words(desk.get(f"/review/{name(desk, 'menu')}/print"))
    assert "Recipes in it Soup, version 1: 50 % of what it makes" in printed
    assert "Of this, in Stock" in printed


def test_a_page_says_which_recipe_has_changed_and_works_it_out_again(desk: FlaskClient) -> None:
    decide(desk, name(desk, "soup"))
    put(desk, "stock", salted(40))
    shown = page(desk, "soup")
    assert "changed since it was worked out: Stock , version 1 then, now version 2." in shown
    assert "not yet worked out on this version" in page(desk, "stock")
    before = desk.get("/v1/recipes/soup").json["calculation"]["sodium"]["per_serving_mg"]["likely"]
    path = f"/review/{name(desk, 'soup')}"
    assert "its figures moved" in words(desk.get(send(desk, f"{path}/recalculation", path).location))
    current = desk.get("/v1/recipes/soup").json
    assert (current["version"], current["cause"]) == (2, "recalculated")
    assert current["calculation"]["sodium"]["per_serving_mg"]["likely"] > before
    assert "has changed since" not in page(desk, "soup")


def test_what_moves_no_figure_keeps_the_signature_when_it_is_worked_out_again(desk: FlaskClient) -> None:
    decide(desk, name(desk, "soup"))
    put(desk, "stock", {**STOCK, "ingredients": ["3 l water", "20 g table salt", "1 bay leaf"]})
    put(desk, "stock", STOCK)
    path = f"/review/{name(desk, 'soup')}"
    send(desk, f"{path}/recalculation", path)
    assert desk.get("/v1/recipes/soup/review").json["status"] == "signed"
    assert "soup" not in [each["key"] for each in desk.get("/v1/recipes?stale=true").json["recipes"]]


def test_the_list_can_be_narrowed_to_recipes_whose_parts_have_changed(desk: FlaskClient) -> None:
    put(desk, "stock", salted(40))
    shown = words(desk.get("/review?only=stale"))
    assert "a recipe in it changed" in shown
    assert re.findall(r"<small>(\w+)<", desk.get("/review?only=stale").get_data(as_text=True)) == [
        "menu",
        "soup",
    ]


def test_what_is_assumed_in_a_part_is_told_by_its_name_and_leads_there(desk: FlaskClient) -> None:
    put(desk, "stock", {**STOCK, "ingredients": ["3 l water", "1 handful of table salt"]})
    put(desk, "soup", {**SOUP, "servings": 5})
    put(desk, "menu", {**MENU, "servings": 3})
    shown = page(desk, "menu")
    assert "In the recipe Stock, weight of 1 handful of table salt" in shown
    assert "In that recipe: In that recipe" not in shown
    text = desk.get(f"/review/{name(desk, 'menu')}").get_data(as_text=True)
    assert re.search(rf'href="/review/{name(desk, "stock")}">See that recipe', text)
