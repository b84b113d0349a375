"""Impossible answers stop, and name the line that did it."""

import pytest
from hypothesis import given, settings

from . import dishes
from .dishes import answered, item, part, recipe, step
from .kitchens import recipes


def plain(*lines, servings=4, **more):
    return answered({"servings": servings, "ingredients": list(lines), **more})


def graves(answer):
    return {
        notice["code"]: (notice["severity"], notice["pointer"])
        for notice in answer["notices"]
        if notice["severity"] != "info"
    }


def test_a_line_nobody_can_lift_stops():
    answer = plain("1 tsp table salt", item("11529", 98_000))
    assert graves(answer)["impossible-weight"] == ("stop", "/ingredients/1")


def test_dry_cubes_by_the_litre_stop():
    answer = plain("500 g carrots", item("06075", 950))
    assert graves(answer)["impossible-sodium"] == ("stop", "/ingredients/1")


def test_more_salt_than_a_vegetable_can_hold_stops():
    parts = [part("beet", item("11080", 500), item(dishes.SALT, 100))]
    answer = answered(recipe(parts, [], servings=10))
    assert graves(answer)["impossible-food"] == ("stop", "/components/0/ingredients/1")
    told = next(n["message"] for n in answer["notices"] if n["code"] == "impossible-food")
    assert "of salt" in told
    assert "Salt, table" in told


@pytest.mark.parametrize(("kind", "hours"), [("boil", 90), ("roast", 90), ("fry", 20), ("steam", 30)])
def test_hours_where_minutes_were_meant_stop(kind, hours):
    parts = [part("food", item(dishes.CARROTS, 500))]
    answer = answered(recipe(parts, [step(kind, "food", duration_h=hours)]))
    assert graves(answer)["impossible-time"] == ("stop", "/steps/0/duration_h")
    told = next(n["message"] for n in answer["notices"] if n["code"] == "impossible-time")
    assert f"{hours} minutes" in told


def test_slow_cold_and_low_steps_are_let_be():
    brined = dishes.brined(duration_h=90)
    assert "impossible-time" not in graves(answered(brined))
    low = answered(
        recipe([part("food", item("13023", 900))], [step("roast", "food", duration_h=30, temperature_c=60)])
    )
    assert not {"impossible-time", "long-time"} & set(graves(low))


@pytest.mark.parametrize(
    ("stated", "code"),
    [
        ({"NA": 60_000}, "impossible-food"),
        ({"ENERC": 2_000}, "impossible-food"),
        ({"FAT": 60, "CHOCDF": 60}, "impossible-food"),
        ({"ENERC": 700, "PROCNT": 5, "FAT": 2, "CHOCDF": 20}, "energy-differs"),
    ],
)
def test_a_packet_that_cannot_be_is_told(stated, code):
    answer = plain({"line": "40 g plinthian relish", "per_100g": stated})
    assert graves(answer)[code][1] == "/ingredients/0"


def test_a_packet_without_its_macronutrients_is_not_accused():
    assert "energy-differs" not in graves(
        plain({"line": "40 g xyzzyqwv", "per_100g": {"ENERC": 300, "NA": 600}})
    )


def test_every_eaten_component_is_mirrored_and_no_other():
    answer = answered(dishes.brined())
    assert [each["component"] for each in answer["mirror"]] == ["loin"]
    assert set(answer["mirror"][0]["ratio"]) == {"NA", "K", "WATER", "PROCNT", "ENERC"}
    assert 0.7 < answer["mirror"][0]["ratio"]["WATER"] < 1.4


def test_what_is_like_no_food_is_a_check_that_names_the_line():
    answer = plain("500 g potatoes", "30 g table salt")
    assert graves(answer)["unlike-any-food"] == ("check", "/ingredients/1")


def test_salt_of_a_line_without_a_weight_is_held_against_no_food():
    document = {
        "title": "Cabbage at Tern Quay",
        "servings": 6,
        "components": [
            {"id": "dish", "ingredients": ["5 g caraway", "some grated cheese"]},
            {"id": "cabbage", "ingredients": ["1 kg white cabbage"]},
        ],
        "steps": [],
    }
    assert "unlike-any-food" not in graves(answered(document))


@pytest.mark.parametrize(
    "lines",
    [
        ("800 g potatoes", "1 l milk", "2 tsp table salt", "50 g butter"),
        ("500 g ground beef", "1 onion", "400 g canned tomatoes", "1 tsp salt", "2 tbsp olive oil"),
        ("250 g flour", "120 g butter", "100 g sugar", "2 eggs", "1/4 tsp salt"),
        ("500 g spaghetti", "150 g bacon", "80 g parmesan", "4 eggs"),
    ],
)
def test_a_plain_recipe_that_was_read_whole_asks_at_most_once(lines):
    assert len(graves(plain(*lines))) <= 1


@settings(max_examples=30, deadline=None)
@given(recipes())
def test_any_recipe_can_be_looked_at(document):
    answer = answered(document)
    assert all(notice["pointer"] == "" or notice["pointer"][0] == "/" for notice in answer["notices"])
    assert {each["component"] for each in answer["mirror"]} <= {part["id"] for part in document["components"]}


@pytest.mark.parametrize(("potatoes_g", "is_asked"), [(1200, False), (200, True)])
def test_a_dressing_may_be_of_any_make_and_half_a_dish_may_not(potatoes_g: int, is_asked: bool) -> None:
    herbs = ["40 g olive oil", "15 g lemon juice", "8 g fresh parsley"]
    document = {
        "servings": 4,
        "components": [
            {"id": "potatoes", "ingredients": [f"{potatoes_g} g potatoes"]},
            {"id": "dressing", "ingredients": herbs},
        ],
        "steps": [],
    }
    asked = [
        each
        for each in answered(document)["notices"]
        if each["code"] == "unlike-any-food" and "dressing" in each["message"]
    ]
    assert bool(asked) is is_asked
