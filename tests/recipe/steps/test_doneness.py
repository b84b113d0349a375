"""Raw and cooked rows: nothing is cooked twice, nothing raw is passed off as cooked, and alcohol is told."""

from __future__ import annotations

from typing import Any

import pytest
from saltledger.recipe.pool_rows import ROW, WEIGHT

from tests.recipe.dishes import (
    CARROTS,
    CHEESE,
    PORK,
    SALT,
    WATER,
    WINE,
    answered,
    codes,
    item,
    likely,
    part,
    recipe,
    step,
)

ROASTED_PORK, CANNED_TOMATOES = "10061", "11531"


def roasted(*ingredients: Any) -> dict[str, Any]:
    return recipe([part("tray", *ingredients)], [step("roast", "tray", duration_h=0.75)])


def notice(document: dict[str, Any], code: str) -> dict[str, Any]:
    (found,) = [each for each in answered(document)["notices"] if each["code"] == code]
    return dict(found)


def test_a_cooked_row_keeps_its_weight_and_vitamins_in_the_oven() -> None:
    document = roasted(item(ROASTED_PORK, 500))
    assert likely(document, row=WEIGHT) == pytest.approx(500)
    plain = recipe([part("tray", item(ROASTED_PORK, 500))], [])
    assert likely(document, row=ROW["THIA"]) == pytest.approx(likely(plain, row=ROW["THIA"]))
    raw = roasted(item(PORK, 500))
    assert likely(raw, row=WEIGHT) < 450


def test_a_cooked_row_neither_swells_nor_shrinks_in_a_pot() -> None:
    document = recipe(
        [part("meat", item(ROASTED_PORK, 500)), part("pot", item(WATER, 1000))],
        [step("simmer", "meat", "pot", duration_h=2)],
    )
    assert likely(document, row=WEIGHT) == pytest.approx(500, rel=0.02)


def test_only_the_raw_part_of_a_mix_loses_weight() -> None:
    both = likely(roasted(item(PORK, 500), item(ROASTED_PORK, 500)), row=WEIGHT)
    raw = likely(roasted(item(PORK, 500)), row=WEIGHT)
    assert both == pytest.approx(500 + raw, rel=0.01)


def test_a_measured_weight_overrules_it() -> None:
    document = roasted(item(ROASTED_PORK, 500))
    document["steps"][0]["weight_after_g"] = 430
    assert likely(document, row=WEIGHT) == pytest.approx(430)


def test_a_cooked_row_that_is_cooked_again_is_noticed_at_its_line() -> None:
    found = notice(roasted(item(CARROTS, 100), item(ROASTED_PORK, 500)), "cooked-food-cooked-again")
    assert (found["severity"], found["pointer"]) == ("check", "/components/0/ingredients/1")
    assert "step 1" in found["message"]
    assert "raw row" in found["message"]


@pytest.mark.parametrize(
    ("line", "food"),
    [("500 g roasted pork tenderloin", ROASTED_PORK), ("400 g canned tomatoes", CANNED_TOMATOES)],
)
def test_what_the_line_means_to_be_cooked_before_is_for_information(line: str, food: str) -> None:
    found = notice(roasted(item(food, 500, line=line)), "cooked-food-cooked-again")
    assert found["severity"] == "info"
    assert "raw row" not in found["message"]


def test_raw_foods_that_no_step_heats_are_said_to_be_summed_as_listed() -> None:
    found = notice({"servings": 1, "ingredients": [item(PORK, 500), item(SALT, 5)]}, "summed-as-listed")
    assert (found["severity"], found["pointer"]) == ("info", "")
    assert "Pork" in found["message"]
    assert "Salt" not in found["message"]


@pytest.mark.parametrize("foods", [(CARROTS, CHEESE), (ROASTED_PORK, SALT)])
def test_what_needs_no_cooking_is_not_spoken_of(foods: tuple[str, ...]) -> None:
    document = {"servings": 1, "ingredients": [item(food, 100) for food in foods]}
    assert "summed-as-listed" not in codes(answered(document))


def test_heat_is_of_the_component_that_is_in_it() -> None:
    """Neither the heat of another component's step nor a cold step of its own cooks a food."""
    roast, rest = step("roast", "meat", duration_h=1), step("rest", "raw", duration_h=1)
    document = recipe([part("meat", item(PORK, 500)), part("raw", item(PORK, 100))], [roast, rest])
    assert notice(document, "summed-as-listed")["pointer"] == "/components/1"


def test_what_is_cooked_by_a_step_or_poured_away_is_not_spoken_of() -> None:
    assert not {"summed-as-listed", "cooked-food-cooked-again"} & set(
        codes(answered(roasted(item(PORK, 500))))
    )
    discarded = recipe([part("bones", item(PORK, 500), eaten_fraction=0), part("a", item(CARROTS, 10))], [])
    assert "summed-as-listed" not in codes(answered(discarded))


def test_three_raw_foods_are_named_and_the_others_counted() -> None:
    raw = [item(code, 100) for code in (PORK, "05062", "13023", "15076", "15083")]
    message = notice({"servings": 2, "ingredients": raw}, "summed-as-listed")["message"]
    named, more = message.partition("lost in cooking: ")[2].split(" and 2 more")
    assert named.count("; ") == 2
    assert more.startswith(". Give the steps")


def test_alcohol_without_heat_is_all_kept_and_said_to_be() -> None:
    document = {"servings": 2, "ingredients": [item(WINE, 200)]}
    found = notice(document, "alcohol-all-kept")
    assert "a serving" in found["message"]
    listed = likely(document, row=ROW["ALC"])
    assert listed > 15
    heated = recipe([part("pan", item(WINE, 200))], [step("simmer", "pan", duration_h=1)])
    assert likely(heated, row=ROW["ALC"]) < listed / 2
    assert "alcohol-all-kept" not in codes(answered(heated))
    for alcohol_g, is_told in ((0.099, False), (0.101, True)):  # a serving: a tenth of a gram is worth a word
        few = {"servings": 2, "ingredients": [item(WINE, 2 * alcohol_g * 200 / listed)]}
        assert ("alcohol-all-kept" in codes(answered(few))) is is_told
