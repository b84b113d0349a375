"""The whole way: ledger and fates, what is eaten when nobody says, the same answer every time."""

from __future__ import annotations

import copy
import json

import pytest
from saltledger.core.errors import InvalidRequest
from saltledger.foods.dataset import bundled
from saltledger.recipe.calculation import calculate
from saltledger.recipe.pool_rows import ROW, WEIGHT
from saltledger.recipe.request import RecipeRequest

from . import dishes
from .dishes import answered, brined, codes, cooked, item, likely, part, recipe, sodium_mg, step


def dinner(**more):
    """A brined loin, poached; carrots boiled in the same pot."""
    pots = [
        *brined()["components"],
        part("pot", item(dishes.WATER, 2000)),
        part("roots", item(dishes.CARROTS, 500)),
    ]
    steps = [
        *brined()["steps"],
        step("simmer", "loin", "pot", duration_h=1.5),
        step("boil", "roots", "pot", duration_h=0.3),
    ]
    return recipe(pots, steps, **({"servings": 8} | more))


def test_the_ledger_adds_up_at_every_place():
    sodium = answered(dinner())["sodium"]
    held = {"loin": sodium_mg(dishes.PORK, 1000), "pot": sodium_mg(dishes.WATER, 2000)}
    for place in ("loin", "pot"):
        came = sum(entry["mg"] for entry in sodium["ledger"] if entry["to"] == place)
        went = sum(entry["mg"] for entry in sodium["ledger"] if entry["from"] == place)
        assert held[place] + came == pytest.approx(went, rel=1e-4)


def test_fates_add_up_to_what_was_listed():
    sodium = answered(dinner())["sodium"]
    fates = sodium["fates"]
    listed = 8 * sodium["as_listed_per_serving_mg"]
    assert fates["eaten_mg"] + fates["discarded_mg"] == pytest.approx(listed, rel=1e-5)
    assert {entry["place"]: entry["mg"] for entry in fates["places"]} == pytest.approx(
        {"eaten": fates["eaten_mg"], "poured_away": fates["discarded_mg"]}, rel=1e-5
    )


def test_salt_goes_from_brine_to_meat_to_pot_to_roots():
    found = {(e["step"], e["from"], e["to"]) for e in answered(dinner())["sodium"]["ledger"]}
    assert {(0, "brine", "loin"), (1, "loin", "pot"), (2, "pot", "roots")} <= found
    assert {(None, "loin", "eaten"), (None, "brine", "poured_away")} <= found


def test_ledger_entries_run_low_likely_high():
    assert all(0 <= e["low"] <= e["mg"] <= e["high"] for e in answered(dinner())["sodium"]["ledger"])


@pytest.mark.parametrize("servings", [1, 4, 7.5])
def test_a_serving_is_its_part_of_the_whole(servings):
    whole, parted = (answered(dinner(servings=n))["per_serving"] for n in (1, servings))
    assert parted["weight_g"] == pytest.approx(whole["weight_g"] / servings, rel=1e-5)
    for tag, entry in parted["nutrients"].items():
        assert entry["amount"] == pytest.approx(whole["nutrients"][tag]["amount"] / servings, rel=1e-4)


def test_per_100g_does_not_hang_on_servings():
    assert answered(dinner(servings=2))["per_100g"] == answered(dinner(servings=9))["per_100g"]
    answer = answered(dinner(servings=1))
    by_weight = answer["per_serving"]["nutrients"]["NA"]["amount"] / answer["per_serving"]["weight_g"]
    assert answer["per_100g"]["nutrients"]["NA"]["amount"] == pytest.approx(100 * by_weight, rel=1e-4)


def test_short_form_is_all_eaten():
    answer = answered({"servings": 2, "ingredients": [item(dishes.PORK, 400), item(dishes.SALT, 4)]})
    sodium = answer["sodium"]
    assert sodium["per_serving_mg"]["likely"] == sodium["as_listed_per_serving_mg"]
    assert [entry["component"] for entry in answer["ingredients"]] == ["recipe", "recipe"]


# What is said of the brine and the pot, and whether each is eaten.
@pytest.mark.parametrize(
    ("steps", "pot", "eaten"),
    [
        ([step("simmer", "loin", "pot")], {}, False),
        ([step("simmer", "loin", "pot")], {"eaten_fraction": 1}, True),
        ([step("simmer", "loin", "pot"), step("reduce", "pot", yield_fraction=0.5)], {}, True),
        ([step("reduce", "pot", yield_fraction=0.5), step("simmer", "loin", "pot")], {}, False),
        ([], {}, True),
    ],
)
def test_a_bath_is_poured_away_unless_it_is_made_food(steps, pot, eaten):
    document = recipe(
        [
            part("loin", item("13346", 500)),
            part("pot", item(dishes.WATER, 1000), item(dishes.SALT, 5), **pot),
        ],
        steps,
    )
    assert (likely(document, "poured_away") == 0) == eaten
    assert (likely(document) > sodium_mg("13346", 500)) == eaten


def test_a_pot_whose_fate_is_assumed_is_asked_about():
    said = {
        n["pointer"]: n["severity"] for n in answered(dinner())["notices"] if n["code"] == "bath-fate-assumed"
    }
    assert said == {"/components/1": "info", "/components/2": "check"}


def test_a_component_left_out_is_not_eaten():
    document = recipe([part("garnish", item(dishes.SALT, 10), eaten_fraction=0.1)], [])
    assert likely(document) == pytest.approx(0.1 * 3875.8)
    assert likely(document, "not_eaten") == pytest.approx(0.9 * 3875.8)


def test_what_is_not_eaten_of_a_line_never_meets_the_bath():
    document = brined()
    document["components"][1]["ingredients"][1]["eaten_fraction"] = 0.0
    assert likely(document) < sodium_mg(dishes.PORK, 1000)


def test_the_same_request_gives_the_same_bytes():
    first, again = (json.dumps(answered(copy.deepcopy(dinner()))) for _ in range(2))
    assert first == again


def test_order_of_keys_does_not_change_the_id_and_content_does():
    document = dinner(title="Supper")
    turned = dict(reversed(document.items()))
    assert answered(document)["id"] == answered(turned)["id"]
    assert answered(document)["id"] != answered(dinner(title="Lunch"))["id"]


def test_every_faulty_line_is_named_at_once():
    document = recipe([part("a", item("99999", 10), item(dishes.SALT, 1)), part("b", item("88888", 1))], [])
    with pytest.raises(InvalidRequest) as refused:
        answered(document)
    assert [fault.pointer for fault in refused.value.faults] == [
        "/components/0/ingredients/0/food",
        "/components/1/ingredients/0/food",
    ]


def test_a_food_nobody_knows_is_reported_and_not_counted():
    answer = answered({"servings": 1, "ingredients": ["3 cups xyzzyqwv", item(dishes.SALT, 10)]})
    assert answer["ingredients"][0]["food"] is None
    assert answer["ingredients"][0]["sodium_mg"] is None
    told = codes(answer)
    assert (told["incomplete"], told["no-match"]) == ("check", "info")
    assert answer["sodium"]["per_serving_mg"]["likely"] == pytest.approx(3875.8)


def test_nothing_eaten_is_answered_all_the_same():
    answer = answered(recipe([part("salt", item(dishes.SALT, 10), eaten_fraction=0)], []))
    assert answer["per_serving"]["weight_g"] == 0
    assert answer["sodium"]["fates"]["discarded_mg"] == pytest.approx(3875.8)


def test_a_bath_without_food_in_it_or_water_in_it_moves_nothing_absurd():
    document = recipe([part("loin", item(dishes.PORK, 0)), part("brine", item(dishes.SALT, 0))], [])
    document["steps"] = [step("brine", "loin", "brine", duration_h=10, thickness_cm=3)]
    assert cooked(document).eaten.max() == 0


def test_nitrite_is_told_where_a_cure_goes_in():
    document = brined()
    document["components"][1]["ingredients"].append(item(dishes.CURING_SALT, 8))
    eaten = cooked(document).eaten
    assert 0 < eaten[ROW["NITRI"], 0] < 8 * 62.5
    assert eaten[WEIGHT, 0] > 0


def test_calculate_takes_a_request_and_a_table_of_foods():
    answer = calculate(RecipeRequest.from_document(dinner()), bundled())
    assert set(answer) >= {"id", "title", "servings", "dataset", "per_serving", "per_100g", "sodium"}
    assert set(answer) >= {"ingredients", "assumptions", "notices", "allergens"}
    assert answer["dataset"]["release"] == "28"
