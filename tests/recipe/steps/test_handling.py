"""Coating, draining, trimming and boiling down."""

from __future__ import annotations

import pytest
from saltledger.recipe.pool_rows import ROW, SODIUM, WEIGHT

from tests.recipe import dishes
from tests.recipe.dishes import answered, codes, cooked, item, likely, part, recipe, sodium_mg, step

CHICKPEAS = "16058"
"""SR28: chickpeas, canned, solids and liquids; a can holds 448 g."""


def coated(*foods, flour_g=100, **measures):
    flour = part("coat", item(dishes.FLOUR, flour_g), item(dishes.SALT, 5))
    return recipe([*foods, flour], [step("dredge", [food["id"] for food in foods], "coat", **measures)])


def one(food, grams, kind, **measures):
    return recipe([part("piece", item(food, grams))], [step(kind, "piece", **measures)])


def can(**measures):
    return one(CHICKPEAS, 448, "drain", **measures)


def test_part_of_a_coating_sticks_and_the_range_is_broad():
    answer = answered(coated(part("chops", item(dishes.PORK, 500))))
    found = answer["sodium"]["per_serving_mg"]
    own, coat = sodium_mg(dishes.PORK, 500), sodium_mg(dishes.SALT, 5)
    assert own < found["low"] < found["likely"] < found["high"] < own + coat
    assert codes(answer)["coating-share-assumed"] == "check"


def test_a_weighed_coating_is_taken_as_weighed():
    answer = answered(coated(part("chops", item(dishes.PORK, 500)), absorption_factor=0.3))
    assert answer["per_serving"]["weight_g"] == pytest.approx(500 + 0.3 * 105)
    assert "coating-share-assumed" not in codes(answer)


def test_pieces_share_a_coating_by_weight():
    document = coated(
        part("chops", item(dishes.PORK, 600)), part("wings", item(dishes.CHICKEN, 200)), absorption_factor=0.4
    )
    to = {m.target: m.sodium_mg[0] for m in cooked(document).state.pools.ledger if m.source == "coat"}
    assert to["chops"] == pytest.approx(3 * to["wings"])


@pytest.mark.parametrize("share", [0.0, 0.2, 1.0])
def test_sugar_for_rolling_is_eaten_as_far_as_said(share):
    document = recipe(
        [part("dough", item(dishes.FLOUR, 500), item(dishes.SUGAR, 100, eaten_fraction=share))], []
    )
    flour_g = cooked(recipe([part("dough", item(dishes.FLOUR, 500))], [])).eaten[ROW["SUGAR"], 0]
    assert likely(document, row=ROW["SUGAR"]) - flour_g == pytest.approx(share * 99.8, abs=0.3)
    assert likely(document, "not_eaten", WEIGHT) == pytest.approx(100 * (1 - share))


def test_a_can_loses_its_liquid_and_rinsing_takes_more():
    listed, drained, rinsed = sodium_mg(CHICKPEAS, 448), likely(can()), likely(can(rinsed=True))
    assert 0.6 * listed > drained > rinsed > 0.3 * listed
    assert likely(can(), row=WEIGHT) == pytest.approx(0.6 * 448, rel=0.02)
    assert likely(can(), row=ROW["PROCNT"]) == pytest.approx(4.48 * 4.92, rel=0.02)


@pytest.mark.parametrize(
    "measures", [{"discarded_g": 170}, {"weight_after_g": 278}, {"yield_fraction": 278 / 448}]
)
def test_a_weighed_drain_pours_off_the_liquid_at_its_strength(measures):
    outcome = cooked(can(**measures))
    assert outcome.eaten[WEIGHT, 0] == pytest.approx(278, rel=0.01)
    water = outcome.eaten[ROW["WATER"], 0] / outcome.state.pools.brought[ROW["WATER"], 0]
    assert outcome.eaten[SODIUM, 0] == pytest.approx(water * sodium_mg(CHICKPEAS, 448))


@pytest.mark.parametrize("mg_per_100g", [150, 270])
def test_measured_sodium_of_drained_beans_stands(mg_per_100g):
    outcome = cooked(can(sodium_after_mg_per_100g=mg_per_100g))
    assert outcome.sodium_per_serving_mg == pytest.approx(mg_per_100g * outcome.eaten[WEIGHT] / 100, rel=0.01)


@pytest.mark.parametrize("beans", ["white beans", "black beans", "kidney beans", "chickpeas"])
@pytest.mark.parametrize("rinsed", [False, True])
def test_a_can_is_drained_once_whether_its_line_or_a_step_says_so(beans, rinsed):
    def eaten(line):
        document = {
            "servings": 1,
            "components": [{"id": "beans", "ingredients": [{"line": line}]}],
            "steps": [{"kind": "drain", "food": "beans", "rinsed": rinsed}],
        }
        return answered(document)

    as_step, as_both = eaten(f"2 x 400 g cans {beans}"), eaten(f"2 x 400 g cans {beans}, drained")
    for figure in (lambda a: a["per_serving"]["weight_g"], lambda a: a["sodium"]["per_serving_mg"]["likely"]):
        assert figure(as_both) == pytest.approx(figure(as_step), rel=0.15)


@pytest.mark.parametrize(
    ("first", "second"), [(False, False), (False, True), (True, False), (True, True)], ids=str
)
def test_a_can_that_two_steps_drain_loses_its_liquid_once(first, second):
    document = can(rinsed=first)
    document["steps"].append(step("drain", "piece", rinsed=second))
    once = likely(can(rinsed=first or second))
    assert likely(document) == pytest.approx(once, rel=0.06)
    assert likely(document, row=WEIGHT) == pytest.approx(likely(can(), row=WEIGHT), rel=0.02)


@pytest.mark.parametrize("minutes", [None, 0.5, 3])
def test_a_can_that_is_drained_and_then_rinsed_is_one_drained_and_rinsed(minutes):
    document = can()
    told = {} if minutes is None else {"duration_h": minutes / 60}
    document["steps"].append(step("rinse", "piece", **told))
    assert likely(document) == pytest.approx(likely(can(rinsed=True)), rel=0.06)
    document["steps"] = document["steps"][1:]
    assert likely(document) == pytest.approx(likely(can(rinsed=True)), rel=0.01)


@pytest.mark.parametrize("line", ["2 tbsp capers", "500 g sauerkraut"])
def test_small_pickles_are_rinsed_as_they_are_drained(line):
    def sodium(*steps):
        document = {
            "servings": 1,
            "components": [{"id": "food", "ingredients": [{"line": line}]}],
            "steps": list(steps),
        }
        return answered(document)["sodium"]["per_serving_mg"]["likely"]

    at_once = sodium({"kind": "drain", "food": "food", "rinsed": True})
    assert at_once < 0.8 * sodium()
    assert at_once == sodium({"kind": "rinse", "food": "food"})


def test_what_drains_of_an_unknown_food_is_asked():
    assert codes(answered(one("14429", 500, "drain")))["drain-not-known"] == "check"


def test_lifting_meat_out_of_its_brine_loses_nothing():
    document = dishes.brined()
    document["steps"].append(step("drain", "loin"))
    assert likely(document) == pytest.approx(likely(dishes.brined()))


@pytest.mark.parametrize(
    "measures", [{"discarded_g": 150}, {"weight_after_g": 850}, {"yield_fraction": 0.85}]
)
def test_trimming_takes_its_share(measures):
    document = one("13346", 1000, "trim", **measures)
    assert likely(document) == pytest.approx(0.85 * sodium_mg("13346", 1000))
    assert likely(document, "trimmed", WEIGHT) == pytest.approx(150)


@pytest.mark.parametrize("measures", [{"discarded_g": 700}, {"weight_after_g": 300}, {"yield_fraction": 0.3}])
def test_boiling_down_keeps_the_salt(measures):
    document = recipe(
        [part("stock", item(dishes.WATER, 992), item(dishes.SALT, 8))], [step("reduce", "stock", **measures)]
    )
    assert likely(document) == pytest.approx(sodium_mg(dishes.SALT, 8) + sodium_mg(dishes.WATER, 992))
    assert likely(document, row=WEIGHT) == pytest.approx(300)
    assert likely(document, "evaporated", WEIGHT) == pytest.approx(700)


def test_no_more_boils_off_than_there_is_water():
    document = recipe(
        [part("stock", item(dishes.WATER, 500), item(dishes.SUGAR, 500))],
        [step("reduce", "stock", yield_fraction=0.1)],
    )
    assert likely(document, row=WEIGHT) == pytest.approx(500, rel=0.01)


def test_three_per_cent_of_coat_take_all_the_fat_that_coated_food_takes():
    def fat_g(flour_g):
        parts = [
            part("bird", item(dishes.CHICKEN, 1000)),
            part("oil", item(dishes.OIL, 3000), eaten_fraction=0),
        ]
        flour = part("flour", item(dishes.FLOUR, 500), eaten_fraction=0)
        dredged = step("dredge", "bird", "flour", absorption_factor=flour_g / 500)
        fried = step("fry", "bird", "oil", duration_h=0.1)
        return likely(recipe([*parts, flour], [dredged, fried]), row=ROW["FAT"])

    bare, half, most, all_of_it = map(fat_g, (0.0, 13.0, 28.0, 30.0))
    assert most - bare > 0.98 * (all_of_it - bare)
    assert half - bare < 0.6 * (all_of_it - bare)
