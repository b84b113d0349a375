"""The inverse: what weight, time or number of servings brings a serving to a wanted sodium."""

from __future__ import annotations

from typing import Any

import pytest
from saltledger.errors import InvalidRequest
from saltledger.foods.dataset import bundled
from saltledger.recipe.targets import lever_at, levers, target_answer, wanted_mg

from . import dishes
from .dishes import brined, item

SALT_LINE = "/components/1/ingredients/1"


def ask(vary: str, mg: float = 480, document: dict[str, Any] | None = None, **target: Any) -> dict[str, Any]:
    recipe = document or {**brined(), "servings": 6}
    wanted = target or {"sodium_mg_per_serving": mg}
    return target_answer({"recipe": recipe, "target": wanted, "vary": vary}, bundled())


def plate(**more: Any) -> dict[str, Any]:
    return {"servings": 1, "ingredients": [item(dishes.CHEESE, 100), item(dishes.SALT, 2)], **more}


@pytest.mark.parametrize(
    ("vary", "unit", "usual"),
    [(SALT_LINE, "g", 120), ("/steps/0/duration_h", "h", 96), ("/servings", "servings", 6)],
)
def test_a_target_in_reach_is_met(vary, unit, usual):
    answer = ask(vary)
    assert answer["reachable"]
    assert answer["unit"] == unit
    assert answer["calculation"]["sodium"]["per_serving_mg"]["likely"] == pytest.approx(480, rel=1e-3)
    assert (answer["value"] < usual) == (unit != "servings")


def test_the_value_put_back_gives_the_target():
    grams = ask(SALT_LINE)["value"]
    document = {**brined(salt_g=grams), "servings": 6}
    assert dishes.likely(document) / 6 == pytest.approx(480, rel=1e-3)


def test_desalting_is_turned_the_other_way():
    document = dishes.recipe(
        [dishes.part("cod", item(dishes.SALT_COD, 400)), dishes.part("water", item(dishes.WATER, 4000))],
        [dishes.step("soak", "cod", "water", duration_h=24, thickness_cm=1.5, temperature_c=4)],
        servings=4,
    )
    short, long = (ask("/steps/0/duration_h", mg, document)["value"] for mg in (2500, 900))
    assert short < long


def test_a_line_given_as_text_keeps_its_text():
    document = {"servings": 2, "ingredients": ["400 g carrots, raw", {"line": "10 g table salt"}]}
    answer = ask("/ingredients/1", 900, document)
    assert answer["reachable"]
    assert answer["calculation"]["ingredients"][1]["line"] == "10 g table salt"
    assert document["ingredients"][1] == {"line": "10 g table salt"}


@pytest.mark.parametrize("name", [None, "100 g sharp cheddar"])
def test_a_floor_names_what_stands_in_the_way(name):
    document = plate()
    if name:
        document["ingredients"][0]["line"] = name
    answer = ask("/ingredients/1", 480, document)
    assert not answer["reachable"]
    assert answer["floor_mg"] == pytest.approx(653)
    (notice,) = answer["notices"]
    assert notice["pointer"] == "/vary"
    assert (name or "Cheese, cheddar") in notice["message"]
    assert "653 mg" in notice["message"]


def test_more_than_can_be_is_not_reachable():
    answer = ask("/steps/0/duration_h", 50_000)
    assert not answer["reachable"]
    assert answer["ceiling_mg"] < 50_000
    assert "the most it comes to" in answer["notices"][0]["message"]


def test_percent_of_a_reference():
    assert wanted_mg({"reference": "fda_daily_value", "percent": 20}, {}) == pytest.approx(460)
    answer = ask(SALT_LINE, reference="fda_daily_value", percent=20)
    assert answer["calculation"]["sodium"]["per_serving_mg"]["likely"] == pytest.approx(460, rel=1e-3)


def test_an_unknown_reference_is_refused_with_those_known():
    with pytest.raises(InvalidRequest) as refused:
        ask(SALT_LINE, reference="moon", percent=20)
    (fault,) = refused.value.faults
    assert fault.pointer == "/target/reference"
    assert "fda_daily_value" in fault.message


@pytest.mark.parametrize(
    "vary",
    ["", "/title", "/ingredients/0", "/components/5/ingredients/0", "/components/1/ingredients/9",
     "/components/1/ingredients/-1", "/components/x/ingredients/0", "/steps/1/duration_h", "/steps/0/kind",
     "/steps/²/duration_h", "/components/1"],
)  # fmt: skip
def test_a_pointer_to_nothing_that_varies_is_refused(vary):
    with pytest.raises(InvalidRequest) as refused:
        lever_at(brined(), vary)
    assert [fault.pointer for fault in refused.value.faults] == ["/vary"]


def test_faults_of_the_recipe_point_into_the_recipe():
    document = brined()
    document["steps"][0]["bath"] = "sea"
    with pytest.raises(InvalidRequest) as refused:
        ask("/servings", document=document)
    assert [fault.pointer for fault in refused.value.faults] == ["/recipe/steps/0/bath"]


def test_levers_are_ranked_by_what_they_save():
    document = {**brined(), "servings": 6}
    found = levers(document, bundled())
    assert [each["pointer"] for each in found] == [SALT_LINE, "/steps/0/duration_h"]
    saved = [each["saves_mg"] for each in found]
    assert saved == sorted(saved, reverse=True)
    halved = dishes.likely({**brined(salt_g=60), "servings": 6}) / 6
    assert saved[0] == pytest.approx(dishes.likely(document) / 6 - halved, rel=1e-3)
    assert found[0]["change"] == "Halve 'Salt, table'."


def test_asking_changes_nothing_in_the_recipe():
    document = brined()
    before = repr(document)
    ask(SALT_LINE, 900, document)
    assert repr(document) == before
