"""Amounts that follow from others, what energy rests on, and whose sugars were added."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings

from .dishes import CARROTS, PORK, SALT, SUGAR, WATER, answered, item, part, recipe, step
from .kitchens import recipes


def nutrients(document: dict[str, Any]) -> dict[str, Any]:
    return dict(answered(document)["per_serving"]["nutrients"])


def plain(*ingredients: Any, **more: Any) -> dict[str, Any]:
    return {"servings": 1, "ingredients": list(ingredients), **more}


@given(recipes())
@settings(max_examples=20, deadline=None)
def test_what_follows_stands_to_what_it_follows_from(document: dict[str, Any]) -> None:
    found = nutrients(document)
    for tag, of, factor in (("ENERC_KJ", "ENERC", 4.184), ("SALT", "NA", 0.0025)):
        assert (tag in found) == (of in found)
        if tag in found:
            for key in ("low", "amount", "high"):
                assert found[tag][key] == pytest.approx(found[of][key] * factor, rel=1e-4)
    if "ADDED_SUGARS" in found:
        assert 0 <= found["ADDED_SUGARS"]["amount"] <= found["SUGAR"]["amount"] * (1 + 1e-5)
    if "CHOAVL" in found:
        without = found["CHOCDF"]["amount"] - found["FIBTG"]["amount"]
        assert found["CHOAVL"]["amount"] == pytest.approx(max(without, 0), rel=1e-4, abs=1e-3)


def test_each_says_how_it_was_derived_and_nothing_else_does() -> None:
    found = nutrients(plain(item(CARROTS, 100), item(SUGAR, 10)))
    derived = {tag for tag, each in found.items() if "derived" in each}
    assert derived == {"ENERC_KJ", "CHOAVL", "SALT", "ADDED_SUGARS"}


def test_what_cannot_be_worked_out_is_left_out() -> None:
    own = {"code": "own", "name": "Own", "per_100g": {"CHOCDF": 10}}
    found = nutrients(plain(item("own", 100), custom_foods=[own]))
    assert "CHOCDF" in found
    assert not {"ENERC_KJ", "CHOAVL", "SALT", "ADDED_SUGARS"} & set(found)


def test_added_sugars_are_those_of_the_sugar_that_is_eaten() -> None:
    found = nutrients(plain(item(CARROTS, 100), item(SUGAR, 20)))
    assert found["ADDED_SUGARS"]["amount"] == pytest.approx(19.96, abs=0.1)
    assert found["ADDED_SUGARS"]["daily_value_percent"] == 40


def test_sugar_that_is_poured_away_does_not_make_the_carrots_sweet() -> None:
    document = recipe(
        [
            part("loin", item(PORK, 1000)),
            part("brine", item(WATER, 2000), item(SALT, 100), item(SUGAR, 200)),
            part("roots", item(CARROTS, 1000)),
        ],
        [step("brine", "loin", "brine", duration_h=1, thickness_cm=6)],
    )
    found = nutrients(document)
    of_carrots = nutrients(plain(item(CARROTS, 1000)))["SUGAR"]["amount"]
    assert found["ADDED_SUGARS"]["amount"] == pytest.approx(found["SUGAR"]["amount"] - of_carrots, rel=0.01)


def test_a_line_that_is_not_eaten_adds_no_sugar() -> None:
    found = nutrients(plain(item(CARROTS, 100), item(SUGAR, 20, eaten_fraction=0)))
    assert found["ADDED_SUGARS"]["amount"] == 0


def test_energy_says_which_factors_it_is_by() -> None:
    energy = answered(plain(item(CARROTS, 100)))["energy"]
    assert energy["specific_share"] == 1
    assert "specific factors of each food for 100 %" in energy["basis"]
    sets = energy["per_serving"]
    assert sets["as_dataset"]["kcal"] == 41
    assert sets["as_dataset"]["kj"] == pytest.approx(41 * 4.184)
    # SR28 11124: protein 0.93, fat 0.24, carbohydrate 9.58, fibre 2.8 g.
    assert sets["atwater_general"]["kcal"] == pytest.approx(4 * 0.93 + 9 * 0.24 + 4 * 9.58)
    assert sets["eu"]["kcal"] == pytest.approx(4 * 0.93 + 9 * 0.24 + 4 * (9.58 - 2.8) + 2 * 2.8)


def test_energy_without_its_nutrients_is_not_known() -> None:
    own = {"code": "own", "name": "Own", "per_100g": {"NA": 10}}
    energy = answered(plain(item("own", 100), custom_foods=[own]))["energy"]
    assert energy["per_serving"] == {"as_dataset": None, "atwater_general": None, "eu": None}
    assert energy["specific_share"] is None


def test_own_factors_are_not_claimed_where_the_caller_gave_the_energy() -> None:
    own = {"code": "own", "name": "Own", "per_100g": {"ENERC": 123}}
    energy = answered(plain(item("own", 100), custom_foods=[own]))["energy"]
    assert energy["specific_share"] == 0
    assert energy["per_serving"]["as_dataset"]["kcal"] == 123
