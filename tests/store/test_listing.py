"""Lists of what is kept: which recipes, in what order, page by page in both directions, and how many."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from saltledger.store import listing
from saltledger.store.records import Order, Signature, Wanted
from saltledger.store.saving import Workbench

from .conftest import CMS, INES, calculate, recipe


def keys(bench: Workbench, wanted: Wanted) -> list[str]:
    with bench.database.read() as connection:
        return [each.key for each in listing.page(connection, wanted, None, 50)]


@pytest.fixture
def shelf(bench: Workbench) -> Workbench:
    """Four recipes: 25 mg a serving under "d", 50 under "b", and 100 each under "a" and "c"."""
    for key, grams, title in (
        ("a", 400, "Éclair of fish"),
        ("b", 200, "Broth"),
        ("c", 400, "Zest"),
        ("d", 100, ""),
    ):
        bench.save(key, recipe({"line": f"{grams} g {key} food", "grams": grams}, title=title), CMS)
    return bench


@pytest.mark.parametrize(
    ("order", "found"),
    [
        ("key", ["a", "b", "c", "d"]),
        ("title", ["d", "b", "a", "c"]),
        ("sodium", ["a", "c", "b", "d"]),
        ("changed", ["d", "c", "b", "a"]),
    ],
)
def test_a_list_has_its_order_and_pages_go_through_it_both_ways(
    shelf: Workbench, order: Order, found: list[str]
) -> None:
    wanted = Wanted(order=order)
    assert keys(shelf, wanted) == found
    with shelf.database.read() as connection:
        first = listing.page(connection, wanted, None, 2)
        place = listing.place_of(first[-1], order)
        second = listing.page(connection, wanted, place, 2)
        back = listing.page(connection, wanted, listing.place_of(second[0], order), 5, back=True)
        last = listing.page(connection, wanted, None, 3, back=True)
    assert [each.key for each in (*first, *second)] == found
    assert [each.key for each in back] == found[:2]
    assert [each.key for each in last] == found[1:]


@pytest.mark.parametrize(
    ("wanted", "found"),
    [
        (Wanted(above_mg=50), ["a", "c"]),
        (Wanted(above_mg=49.9), ["a", "b", "c"]),
        (Wanted(search="brot"), ["b"]),
        (Wanted(search="ECLAIR fis"), ["a"]),
        (Wanted(search="fish broth"), []),
        (Wanted(search="!!!"), []),
        (Wanted(search="  "), ["a", "b", "c", "d"]),
        (Wanted(status="signed"), []),
        (Wanted(state="archived"), []),
        (Wanted(stops=True), []),
        (Wanted(checks=True), []),
        (Wanted(stale=True), []),
        (Wanted(doubtful=True), []),
        (Wanted(changed_since_signing=True), []),
        (Wanted(handled_by=INES.handle), []),
        (Wanted(changed_since="9999"), []),
        (Wanted(changed_since="2000"), ["a", "b", "c", "d"]),
    ],
    ids=str,
)
def test_a_list_has_those_that_are_wanted(shelf: Workbench, wanted: Wanted, found: list[str]) -> None:
    assert keys(shelf, wanted) == found


def test_a_verdict_moves_a_recipe_and_says_whose_it_is(shelf: Workbench) -> None:
    with shelf.database.read() as connection:
        (broth,) = listing.page(connection, Wanted(search="broth"), None, 5)
    signed = shelf.decide(broth.save_id, "signed", INES, "as it is")
    assert (signed.verdict, signed.note) == ("signed", "as it is")
    assert keys(shelf, Wanted(status="signed")) == ["b"]
    assert keys(shelf, Wanted(status="open")) == ["a", "c", "d"]
    assert keys(shelf, Wanted(handled_by=INES.handle)) == ["b"]
    assert keys(shelf, Wanted(handled_by="name somebody")) == []
    with shelf.database.read() as connection:
        assert listing.count_by_status(connection) == {"signed": 1, "open": 3}


def test_somebody_is_known_by_their_login_or_else_by_the_name_they_give() -> None:
    assert INES.handle == "login ines"
    assert Signature(CMS, "Ines Ware").handle == "name ines ware"
    assert Signature(CMS).handle == "name "


def test_recipes_are_found_by_line_and_by_food(bench: Workbench) -> None:
    def with_lines(request: dict[str, Any], *, pins: Any = ()) -> dict[str, Any]:
        lines = [each["line"] for each in request["ingredients"]]
        foods = [{"code": "02047"} if "salt" in line else None for line in lines]
        read = [
            {"line": line, "food": food, "confidence": 1} for line, food in zip(lines, foods, strict=True)
        ]
        return calculate(request, pins=pins) | {"ingredients": read}

    bench = replace(bench, calculate=with_lines)
    bench.save("a", recipe({"line": "1 l stock"}), CMS)
    stew = bench.save("a", recipe({"line": "2 l stock"}, {"line": "4 g salt"}), CMS).version
    salt = bench.save("b", recipe({"line": "4 g salt"}), CMS).version
    both = [("a", stew.save_id), ("b", salt.save_id)]
    old, new, shared = map(listing.line_key, ("1 l stock", "2 l stock", "4 g salt"))
    with bench.database.read() as connection:
        assert listing.with_line_or_food(connection, line=old) == []
        assert listing.with_line_or_food(connection, line=new) == both[:1]
        assert listing.with_line_or_food(connection, line=shared) == both
        assert listing.with_line_or_food(connection, food="02047") == both
        assert listing.with_line_or_food(connection, food="nothing") == []
        assert listing.count_with(connection, 10, line=shared) == 2
        assert listing.count_with(connection, 1, food="02047") == 1
        assert listing.count_with(connection, 10, food="nothing") == 0


def test_keys_go_on_from_a_key_and_archived_ones_only_where_asked(shelf: Workbench) -> None:
    with shelf.database.write() as connection:
        listing.set_state(connection, "c", "archived")
        listing.set_state(connection, "d", "deleted")
    with shelf.database.read() as connection:
        assert listing.keys_after(connection, "", 10) == ["a", "b"]
        assert listing.keys_after(connection, "a", 10, archived=True) == ["b", "c"]
        assert listing.keys_after(connection, "", 1) == ["a"]
        assert listing.keys_after(connection, "", 10, alone=True) == ["a", "b"]
        assert (listing.count(connection), listing.count(connection, archived=True)) == (2, 3)
        assert listing.state_of(connection, "d") == "deleted"
        assert listing.state_of(connection, "e") is None
        assert listing.count_by_status(connection) == {"open": 2}
    assert keys(shelf, Wanted(state="archived")) == ["c"]


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("Crème BRÛLÉE, 2 eggs; crème", ["creme", "brulee", "2", "eggs"]),
        ("x" * 70, ["x" * 60]),
        ("", []),
        ("—!", []),
    ],
)
def test_words_are_searched_for_without_case_accents_and_marks(text: str, words: list[str]) -> None:
    assert listing.words_of(text) == words
