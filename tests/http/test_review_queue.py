"""The list of the review pages: its order, search and filters, pages both ways, and what it refuses."""

from __future__ import annotations

import re
from collections.abc import Iterator
from html import unescape
from pathlib import Path
from typing import Any

import pytest
from flask.testing import FlaskClient

from ..databases import KINDS
from .kept import kept_app, soup
from .test_review import HALF_READ, change, decide, save, words


@pytest.fixture(params=KINDS)
def desk(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[FlaskClient]:
    with kept_app(request.param, tmp_path) as app:
        yield app.test_client()


def titles(client: FlaskClient, query: str = "") -> list[str]:
    """The recipes of a list in its order."""
    page = client.get(f"/review?{query}").get_data(as_text=True)
    return re.findall(r'<th scope="row"><a [^>]*>([^<]*)</a>', page)


def link(client: FlaskClient, path: str, name: str) -> str | None:
    found = re.search(rf'class="{name}" [^>]*href="([^"]+)"', client.get(path).get_data(as_text=True))
    return unescape(found[1]) if found else None


def fill(client: FlaskClient) -> None:
    save(client, soup(title="Thin soup", servings=40), "thin")
    save(client, soup("3 tsp table salt", title="Éclat of roots"), "roots")
    save(client, HALF_READ, "stew")
    save(client, soup("2 tbsp capers", title="Caper soup"), "tern-quay-7")


def test_what_needs_a_person_comes_first_and_then_most_sodium(desk: FlaskClient) -> None:
    fill(desk)
    assert titles(desk)[0] == "Cellar stew"
    assert titles(desk)[-1] == "Thin soup"
    assert titles(desk, "order=sodium")[0] == "Éclat of roots"
    assert titles(desk, "order=title") == ["Caper soup", "Cellar stew", "Éclat of roots", "Thin soup"]
    assert titles(desk, "order=key") == ["Éclat of roots", "Cellar stew", "Caper soup", "Thin soup"]


@pytest.mark.parametrize(
    ("search", "found"),
    [
        ("caper", ["Caper soup"]),
        ("CAPERS tbsp", ["Caper soup"]),
        ("eclat", ["Éclat of roots"]),
        ("quay-7", ["Caper soup"]),
        ("salt taste", ["Cellar stew"]),
        ("apers", []),
        ("' OR 1=1 --", []),
        ('"* & | ! <->', []),
    ],
)
def test_title_key_and_ingredients_are_searched(
    desk: FlaskClient, search: str, found: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    fill(desk)
    for most in (1000, 1):  # by the index of words alone, and on the way through the list
        monkeypatch.setattr("saltledger.store.listing.MANY", most)
        page = desk.get("/review", query_string={"search": search, "order": "title"})
        text = page.get_data(as_text=True)
        assert page.status_code == 200
        assert re.findall(r'<th scope="row"><a [^>]*>([^<]*)</a>', text) == found


def test_filters_hold_together(desk: FlaskClient) -> None:
    fill(desk)
    assert titles(desk, "only=incomplete") == ["Cellar stew"]
    assert titles(desk, "only=incomplete&only=stop") == []
    assert "Thin soup" not in titles(desk, "above_mg=200")
    assert titles(desk, "only=incomplete&search=cellar&above_mg=1") == ["Cellar stew"]
    assert titles(desk, "only=mine") == []
    name = desk.get("/v1/recipes/roots").get_json()["save_id"]
    assert decide(desk, name, read_stops="yes").status_code == 303
    assert titles(desk, "only=mine&status=all") == ["Éclat of roots"]
    stew = desk.get("/v1/recipes/stew").get_json()["save_id"]
    change(desk, stew, "/ingredients/0", grams="700", name="Ines Ware, RD")
    assert titles(desk, "only=mine&status=all") == ["Cellar stew", "Éclat of roots"]
    for order in ("title", "sodium", "urgency"):
        assert titles(desk, f"only=incomplete&order={order}&status=all") == ["Cellar stew"]
        assert titles(desk, f"only=stop&order={order}&status=all") == []
        assert titles(desk, f"only=changed&order={order}&status=all") == []
    desk.put("/v1/recipes/roots", json=soup("4 tsp table salt", title="Éclat of roots"))
    assert titles(desk, "only=changed") == ["Éclat of roots"]
    assert "Éclat of roots" in titles(desk, "only=mine")


def test_a_row_has_range_notices_and_completeness(desk: FlaskClient) -> None:
    fill(desk)
    sodium = desk.get("/v1/recipes/roots").get_json()["calculation"]["sodium"]["per_serving_mg"]
    page = words(desk.get("/review"))
    assert f"{sodium['low']:,.0f} to {sodium['high']:,.0f}" in page
    assert "incomplete" in page
    assert re.search(r"\d check", page)


@pytest.mark.parametrize(
    ("query", "message"),
    [
        ("status=lost", "Found 'lost'; choose one of: Waits for review, Signed off, Sent back, All."),
        ("order=size", "Found 'size'; choose one of: What needs a person first"),
        ("only=salty", "Found 'salty'; choose one of: Stop notices"),
        ("above_mg=much", "Found 'much'; write a number of mg"),
        ("above_mg=-1", "Found '-1'; write a number of mg"),
        ("colour=red", "There is no filter 'colour'"),
        ("after=xyz", "This place in the list is not known"),
        ("before=xyz", "This place in the list is not known"),
        (f"search={'x' * 201}", "Search for at most 200 characters"),
    ],
)
def test_a_filter_that_means_nothing_is_refused_in_words(desk: FlaskClient, query: str, message: str) -> None:
    save(desk)
    page = words(desk.get(f"/review?{query}"), 422)
    assert message in page
    assert "Tern Quay potato soup" not in page


@pytest.mark.parametrize("order", ["urgency", "sodium", "doubtful", "changed", "title", "key"])
def test_pages_go_both_ways_and_keep_the_filter(
    desk: FlaskClient, order: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("saltledger.http.pages.review.ON_A_PAGE", 2)
    for i in range(5):
        save(desk, soup(f"{i % 3 + 1} tsp table salt", title=f"Soup {i % 2}"), f"soup-{i}")
    decide(desk, desk.get("/v1/recipes/soup-1").get_json()["save_id"])
    path: str | None = f"/review?status=all&order={order}&search=soup"
    pages: list[tuple[str, list[str]]] = []
    while path:
        pages.append((path, re.findall(r"<small>(soup-\d)<", desk.get(path).get_data(as_text=True))))
        assert "status=all" in path
        path = link(desk, path, "next")
    assert [len(keys) for _, keys in pages] == [2, 2, 1]
    assert sorted(key for _, keys in pages for key in keys) == [f"soup-{i}" for i in range(5)]
    back: Any = pages[-1][0]
    for _, keys in reversed(pages):
        assert re.findall(r"<small>(soup-\d)<", desk.get(back).get_data(as_text=True)) == keys
        back = link(desk, back, "previous")
    assert back is None
