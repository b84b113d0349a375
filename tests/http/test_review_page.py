"""What a review page shows of a version, before any template: rows, scale, steps, changes, what is stale."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from flask import current_app
from saltledger.http.pages.review_page import Page, page_of, stops_of
from saltledger.http.pages.trade_words import WORDS
from saltledger.http.stores import workbench
from saltledger.review.chain import Actor
from saltledger.review.overrides import Overrule, targets
from saltledger.store.records import Signature, Version
from saltledger.store.saving import Workbench

from .kept import BRINED, SOUP, kept_app, soup

CMS = Actor("key", "k1", "cms")
INES = Signature(Actor("login", "ines", "Ines"), "Ines")


@pytest.fixture
def bench(tmp_path: Path) -> Iterator[Workbench]:
    with kept_app("sqlite", tmp_path) as app, app.app_context():
        yield workbench()


def page(bench: Workbench, version: Version, reference: str | None = None) -> Page:
    with bench.database.read() as connection:
        return page_of(connection, version, reference)


def save(bench: Workbench, document: dict[str, Any], key: str = "soup") -> Version:
    return bench.save(key, document, CMS).version


def test_rows_stand_in_the_order_of_the_recipe_with_what_is_listed_and_eaten(bench: Workbench) -> None:
    found = page(bench, save(bench, SOUP))
    assert [row.asked["line"] for row in found.rows] == SOUP["ingredients"]
    assert [row.pointer for row in found.rows] == [f"/ingredients/{number}" for number in range(3)]
    likely = found.sodium["per_serving_mg"]["likely"]
    assert sum(row.eaten_mg for row in found.rows) == pytest.approx(likely, rel=0.01)
    assert found.rows[2].listed_mg == max(row.listed_mg for row in found.rows)


def test_what_is_poured_away_is_listed_and_not_eaten(bench: Workbench) -> None:
    found = page(bench, save(bench, BRINED))
    salt = next(row for row in found.rows if row.asked["line"] == "180 g table salt")
    assert 0 < salt.eaten_mg < 0.5 * salt.listed_mg


def test_the_scale_holds_range_and_limit_and_a_little_room(bench: Workbench) -> None:
    version = save(bench, SOUP)
    found = page(bench, version)
    sodium, limit = found.sodium["per_serving_mg"], found.reference["limit_mg"]
    assert found.scale.top_mg == pytest.approx(1.08 * max(sodium["high"], limit))
    for at, mg in (
        (found.scale.low, sodium["low"]),
        (found.scale.likely, sodium["likely"]),
        (found.scale.high, sodium["high"]),
        (found.scale.limit, limit),
    ):
        assert at == pytest.approx(100 * mg / found.scale.top_mg)
        assert 0 <= at < 100


def test_a_reference_is_taken_by_its_name_and_else_the_first(bench: Workbench) -> None:
    version = save(bench, SOUP)
    first, second, *_ = version.answer["sodium"]["references"]
    assert page(bench, version).reference == first
    assert page(bench, version, second["id"]).reference == second
    assert page(bench, version, "no such reference").reference == first


def test_main_nutrients_have_their_amount_in_a_serving_and_in_a_hundred_grams(bench: Workbench) -> None:
    version = save(bench, SOUP)
    found = {each.name: each for each in page(bench, version).nutrients}
    assert set(found) <= set(WORDS["nutrients"].values())
    assert found["Sodium"].serving == version.answer["per_serving"]["nutrients"]["NA"]
    assert found["Sodium"].per_100g == version.answer["per_100g"]["nutrients"]["NA"]["amount"]


def test_steps_are_counted_from_one_and_told_in_words(bench: Workbench) -> None:
    (told,) = page(bench, save(bench, BRINED)).steps
    assert (told["number"], told["pointer"]) == (1, "/steps/0")
    assert told["food"] == "Chicken legs"
    assert told["bath"] == "Brine"
    assert told["assumptions"]
    assert all(each["step"] == 0 for each in (*told["assumptions"], *told["others"]))


def test_components_tell_baths_from_food(bench: Workbench) -> None:
    legs, brine = page(bench, save(bench, BRINED)).components
    assert (legs["name"], legs["is_bath"]) == ("Chicken legs", False)
    assert (brine["name"], brine["is_bath"], brine["eaten_fraction"]) == ("Brine", True, None)
    assert not brine["is_unused"]


def test_a_liquid_that_no_step_uses_is_marked(bench: Workbench) -> None:
    unused = {**BRINED, "steps": []}
    legs, brine = page(bench, save(bench, unused)).components
    gaps = page(bench, save(bench, unused)).gaps
    assert brine["is_unused"] == any(gap["reason"] == "liquid_not_used" for gap in gaps)
    assert not legs["is_unused"]


def weighed(version: Version, place: str, grams: float) -> Overrule:
    return Overrule(targets(version.request)[place], "grams", grams, "weighed", "Ines", by=INES.by)


def test_an_overrule_stands_at_its_line_alone(bench: Workbench) -> None:
    first = save(bench, SOUP)
    second = bench.overrule(first.save_id, [weighed(first, "/ingredients/2", 10.0)])
    rows = page(bench, second).rows
    assert [len(row.overruled) for row in rows] == [0, 0, 1]
    assert rows[2].overruled[0]["value"] == 10.0
    assert not page(bench, first).is_current
    assert page(bench, second).is_current


def test_an_overrule_of_the_same_line_elsewhere_is_offered_until_somebody_speaks(bench: Workbench) -> None:
    first = save(bench, SOUP)
    bench.overrule(first.save_id, [weighed(first, "/ingredients/2", 10.0)])
    other = save(bench, soup("1 onion"), "stew")
    (offer,) = page(bench, other).rows[2].offers
    assert (offer.overrule.field, offer.overrule.value) == ("grams", 10.0)
    spoken = bench.overrule(other.save_id, [weighed(other, "/ingredients/2", 12.0)])
    assert page(bench, spoken).rows[2].offers == ()


def test_what_changed_is_told_since_the_version_that_was_signed_last(bench: Workbench) -> None:
    first = save(bench, SOUP)
    assert page(bench, first).since is None
    bench.decide(first.save_id, "signed", INES, "")
    save(bench, soup("1 tsp salt"))
    third = save(bench, soup("2 tsp salt"))
    found = page(bench, third)
    assert found.since is not None
    older, _ = found.since
    assert older.save_id == first.save_id
    assert [each.number for each in found.versions] == [3, 2, 1]
    assert len(page(bench, first).verdicts) == 1
    assert found.verdicts == ()


def test_without_a_signature_it_is_since_the_version_before(bench: Workbench) -> None:
    save(bench, SOUP)
    second = save(bench, soup("1 tsp salt"))
    third = save(bench, soup("2 tsp salt"))
    found = page(bench, third).since
    assert found is not None
    assert found[0].save_id == second.save_id


def test_grave_notices_are_counted(bench: Workbench) -> None:
    warm = {**BRINED, "steps": [{**BRINED["steps"][0], "temperature_c": 20}]}
    version = save(bench, warm)
    stops = [each for each in version.answer["notices"] if each["severity"] == "stop"]
    assert page(bench, version).stops == stops_of(version) == len(stops) > 0
    assert page(bench, save(bench, BRINED)).stops == 0


def test_a_dish_that_was_not_all_counted_is_incomplete_and_names_the_gap(bench: Workbench) -> None:
    found = page(bench, save(bench, soup("1 jar zzyzx relish")))
    assert found.is_incomplete
    assert [gap["line"] for gap in found.gaps] == ["1 jar zzyzx relish"]
    assert not page(bench, save(bench, SOUP)).is_incomplete


def test_a_title_or_else_the_key(bench: Workbench) -> None:
    assert page(bench, save(bench, SOUP)).title == "Tern Quay potato soup"
    untitled = {key: value for key, value in SOUP.items() if key != "title"}
    assert page(bench, save(bench, untitled, "plain")).title == "plain"


def test_figures_that_belong_to_no_step_stand_apart(bench: Workbench) -> None:
    found = page(bench, save(bench, BRINED))
    assert all(each["step"] is None for each in found.whole_figures)
    assert len(found.whole_figures) < len(found.version.answer["assumptions"])


@pytest.mark.parametrize("path", ["", "/print", "/change?at=/ingredients/2"])
def test_an_address_that_asks_for_what_a_page_does_not_know_is_refused(bench: Workbench, path: str) -> None:
    client, name = current_app.test_client(), save(bench, SOUP).save_id
    assert client.get(f"/review/{name}{path}").status_code == 200
    refused = client.get(f"/review/{name}{path}{'&' if '?' in path else '?'}depth=2")
    assert refused.status_code == 422
    assert "&#39;depth&#39;, which it does not know" in refused.text


def test_a_place_that_the_recipe_does_not_have_is_told_in_words(bench: Workbench) -> None:
    client, name = current_app.test_client(), save(bench, SOUP).save_id
    refused = client.get(f"/review/{name}/change?at=/ingredients/9")
    assert refused.status_code == 422
    assert "The recipe has no such line, part or step" in refused.text
    assert "/ingredients/9" not in refused.text


def test_portions_by_weight_are_told_as_such(bench: Workbench) -> None:
    document = {name: value for name, value in SOUP.items() if name != "servings"}
    version = save(bench, {**document, "portion_g": 250})
    for path in ("", "/print"):
        shown = current_app.test_client().get(f"/review/{version.save_id}{path}").text
        assert "Served in portions by weight: 250 g each, of which the recipe makes 7.2" in shown
