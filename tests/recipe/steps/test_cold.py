"""Brines, marinades, soaks and dry cures: which figure is taken, and what it does."""

from __future__ import annotations

import re

import numpy as np
import pytest
from saltledger.core.spread import draw
from saltledger.foods.dataset import bundled
from saltledger.recipe.pool_rows import ROW, WATER, WEIGHT
from saltledger.recipe.single_bath import BathRequest, bath_answer
from saltledger.transfer.food_kinds import partition_at_rest

from tests.recipe import dishes
from tests.recipe.dishes import (
    answered,
    brined,
    codes,
    cooked,
    item,
    likely,
    part,
    recipe,
    sodium_mg,
    source_of,
    step,
)

OWN_MG = sodium_mg(dishes.PORK, 1000)
BRINE_MG = sodium_mg(dishes.SALT, 120) + sodium_mg(dishes.WATER, 2000)
LOIN_WATER_G = 10 * (bundled().get(dishes.PORK).per_100g("WATER") or 0)
BATH_WATER_G = 2000 * 0.999 + 120 * 0.002
FOREVER_H = 1e5


def gained_mg(**measures):
    return likely(brined(**measures)) - OWN_MG


def test_most_of_a_brine_is_poured_away():
    sodium = answered(brined())["sodium"]
    assert sodium["as_listed_per_serving_mg"] == pytest.approx(OWN_MG + BRINE_MG, rel=1e-5)
    assert sodium["per_serving_mg"]["high"] < 0.28 * sodium["as_listed_per_serving_mg"]


# Each line adds a better figure to those of the line before.
FIGURES = [
    ({"thickness_cm": None, "duration_h": None}, "/duration", "common practice"),
    ({}, "/salt-diffusivity", "Springer"),
    ({"absorption_factor": 0.2}, "/absorption-factor", "stated by the caller"),
    ({"absorption_factor": 0.2, "sodium_after_mg_per_100g": 800}, "/sodium", "measured in the kitchen"),
]


@pytest.mark.parametrize(("measures", "ending", "word"), FIGURES)
def test_the_best_figure_is_taken_and_its_source_said(measures, ending, word):
    assert word in source_of(brined(**measures), ending)


@pytest.mark.parametrize("better", [1, 2, 3])
def test_a_better_figure_narrows_the_range(better):
    def width(measures):
        found = answered(brined(**measures))["sodium"]["per_serving_mg"]
        return found["high"] - found["low"]

    narrow = FIGURES[better][0] | {"pick_up_percent": 6}
    assert width(narrow) < width(FIGURES[0][0]) / 1.6


def test_a_measured_value_is_met():
    outcome = cooked(brined(sodium_after_mg_per_100g=800, weight_before_g=1000, weight_after_g=1080))
    assert outcome.eaten[WEIGHT] == pytest.approx(1080, rel=2e-3)
    assert outcome.sodium_per_serving_mg == pytest.approx(8 * outcome.eaten[WEIGHT], rel=2e-3)


def test_a_stated_factor_is_the_share_of_the_baths_salt():
    assert gained_mg(absorption_factor=0.2) == pytest.approx(0.2 * BRINE_MG)


def test_a_stated_factor_says_how_much_and_not_where():
    """So a soak that follows takes as much out after an hour in the brine as after twelve days."""
    brine = part("brine", item(dishes.WATER, 1000), item(dishes.SALT, 40), eaten_fraction=0)
    water = part("water", item(dishes.WATER, 2000), eaten_fraction=0)
    still = {"thickness_cm": 5, "pick_up_percent": 0}
    left = [
        likely(
            recipe(
                [part("loin", item(dishes.PORK, 500)), brine, water],
                [
                    step("brine", "loin", "brine", duration_h=hours, absorption_factor=0.2, **still),
                    step("soak", "loin", "water", duration_h=5, **still),
                ],
            )
        )
        for hours in (1, 288)
    ]
    assert left[0] == pytest.approx(left[1], rel=1e-6)


def test_a_cure_is_held_to_the_pick_up_that_was_weighed():
    """In so little pickle that a quarter of the weight taken up brings more than both at rest would share."""
    pickle = part("pickle", item(dishes.WATER, 290), item(dishes.CURING_SALT, 4), eaten_fraction=0)

    def said(**weighed):
        usual = {"duration_h": 96, "thickness_cm": 5, "temperature_c": 3, "product_class": "immersion_cured"}
        loin, cured = (
            part("loin", item(dishes.PORK, 1000)),
            step("brine", "loin", "pickle", **usual, **weighed),
        )
        return codes(answered(recipe([loin, pickle], [cured])))

    assert "cure-nitrite-over-limit" not in said()
    assert said(weight_after_g=1250)["cure-nitrite-over-limit"] == "stop"


def test_pieces_in_one_bath_share_a_stated_factor_by_what_they_have_room_for():
    brine = part("brine", item(dishes.WATER, 2000), item(dishes.SALT, 120), eaten_fraction=0)
    pieces = [part("large", item(dishes.PORK, 750)), part("small", item(dishes.PORK, 250))]
    together = step("brine", ["large", "small"], "brine", duration_h=24, absorption_factor=0.2)
    ledger = answered(recipe([*pieces, brine], [together]))["sodium"]["ledger"]
    taken = {each["to"]: each["mg"] for each in ledger if each["from"] == "brine"}
    assert taken["large"] == pytest.approx(0.75 * 0.2 * BRINE_MG, rel=1e-6)
    assert taken["small"] == pytest.approx(0.25 * 0.2 * BRINE_MG, rel=1e-6)


def share_at_rest(held_g, whole_g):
    """Of all salt, what the meat holds at rest: its water binds some of it, or shuts some out."""
    room_g = held_g * draw(partition_at_rest("pork").spread, "pork/at-rest")
    return room_g / (room_g + whole_g - held_g)


def test_at_rest_the_meat_holds_its_share_of_the_water():
    outcome = cooked(brined(duration_h=FOREVER_H))
    share = share_at_rest(outcome.eaten[WATER], LOIN_WATER_G + BATH_WATER_G)
    assert outcome.sodium_per_serving_mg == pytest.approx((OWN_MG + BRINE_MG) * share)


def test_no_time_no_salt():
    assert gained_mg(duration_h=0) == pytest.approx(0)


@pytest.mark.parametrize(("thin", "thick"), [(2.5, 5), (5, 10)])
def test_half_the_thickness_takes_a_quarter_of_the_time(thin, thick):
    # The film that clings is the same on both, and so more on the thin one, for its weight.
    quick, slow = gained_mg(thickness_cm=thin, duration_h=6), gained_mg(thickness_cm=thick, duration_h=24)
    assert quick == pytest.approx(slow, rel=0.03)
    assert gained_mg(thickness_cm=thin, duration_h=24) > gained_mg(thickness_cm=thick, duration_h=24)


def test_round_pieces_take_up_faster_than_flat_ones():
    by_shape = [gained_mg(shape=shape) for shape in ("sheet", "cylinder", "sphere")]
    assert by_shape == sorted(by_shape)
    assert by_shape[0] < by_shape[2]


def test_warmth_hurries_salt():
    assert gained_mg(temperature_c=1) < gained_mg(temperature_c=4)


@pytest.mark.parametrize("untaken", [0.2, 0.5, 0.9])
def test_bone_and_fat_take_nothing(untaken):
    # All swells, whatever it may hold: that the gain comes to its salt keeps the rest as it is.
    outcome = cooked(brined(duration_h=FOREVER_H, untaken_fraction=untaken))
    open_water, open_mg = outcome.eaten[WATER] - LOIN_WATER_G * untaken, OWN_MG * (1 - untaken)
    share = share_at_rest(open_water, LOIN_WATER_G * (1 - untaken) + BATH_WATER_G)
    found = outcome.sodium_per_serving_mg - OWN_MG
    assert found == pytest.approx((open_mg + BRINE_MG) * share - open_mg)


def test_pieces_share_one_bath_by_their_water():
    alone = brined(duration_h=FOREVER_H)
    both = brined(duration_h=FOREVER_H)
    both["components"].append(part("breast", item(dishes.CHICKEN, 500)))
    both["steps"][0]["food"] = ["loin", "breast"]
    outcome = cooked(both)
    gained = {m.target: m.sodium_mg[0] for m in outcome.state.pools.ledger if m.source == "brine"}
    assert gained["loin"] < likely(alone) - OWN_MG
    assert gained["loin"] / gained["breast"] == pytest.approx(2, rel=0.05)


def test_sugar_goes_in_more_slowly_than_salt():
    document = brined()
    document["components"][1]["ingredients"].append(item(dishes.SUGAR, 100))
    outcome = cooked(document)
    sugar_g = outcome.eaten[ROW["SUGAR"], 0]
    salt_share = (float(outcome.eaten[ROW["NA"], 0]) - OWN_MG) / BRINE_MG
    assert 0 < sugar_g / 100 < salt_share
    assert outcome.eaten[ROW["ENERC"], 0] - cooked(brined()).eaten[ROW["ENERC"], 0] == pytest.approx(
        3.87 * sugar_g, rel=0.02
    )


@pytest.mark.parametrize(
    ("measures", "grams"),
    [
        ({"weight_before_g": 950, "weight_after_g": 1045}, 1100),
        ({"weight_after_g": 1100}, 1100),
        ({"yield_fraction": 1.1}, 1100),
        ({"pick_up_percent": 12.5}, 1125),
        ({"pick_up_percent": -8}, 920),
    ],
)
def test_weights_of_the_kitchen_are_met(measures, grams):
    eaten = cooked(brined(**measures)).eaten
    assert eaten[WEIGHT] == pytest.approx(grams)


def test_weak_brine_swells_and_strong_brine_dries():
    weak, strong = (cooked(brined(salt_g=salt)).eaten[WEIGHT, 0] for salt in (80, 700))
    assert weak > 1000 > strong


def soaked(**measures):
    usual = {"duration_h": 36, "thickness_cm": 1.5, "temperature_c": 4}
    return recipe(
        [part("cod", item(dishes.SALT_COD, 500)), part("water", item(dishes.WATER, 3000))],
        [step("soak", "cod", "water", **(usual | measures))],
    )


def test_a_soak_takes_salt_out():
    sodium = answered(soaked())["sodium"]
    assert sodium["per_serving_mg"]["likely"] < 0.33 * sodium["as_listed_per_serving_mg"]
    assert (sodium["ledger"][0]["from"], sodium["ledger"][0]["to"]) == ("cod", "water")


def test_more_waters_take_out_more_and_each_brings_its_own():
    left = [likely(soaked(duration_h=96, water_changes=changes)) for changes in (0, 1, 2, 4)]
    assert left == sorted(left, reverse=True)
    assert left[0] > 1.5 * left[-1]


def test_every_water_fills_the_vessel_as_high_as_the_first():
    """What the food took up by swelling is not poured in anew: the vessel is as full as it was."""
    outcome = cooked(soaked(water_changes=2))
    (percent,) = (each.value.likely for each in outcome.state.log if each.id == "step-0/cod/pick-up")
    swells_g, brought_g = 500 * percent / 100, outcome.state.pools.brought[WATER, 0]
    assert 3 * 2997 - 2 * 1.3 * swells_g < brought_g < 3 * 2997 + 500 - 2 * swells_g


def test_a_soak_by_the_table_asks_for_times():
    answer = answered(soaked(thickness_cm=None) | {"steps": [step("soak", "cod", "water")]})
    assert codes(answer)["absorption-from-table"] == "check"


def washed_out(*first, code="11352", **measures):
    """Of the potassium that a food has when it comes into cold water, the share that it loses there."""
    parts = [part(each, item(dishes.WATER, 3000), eaten_fraction=0) for each in ("pot", "bath")]
    parts.append(part("p", item(code, 300)))
    soak = step("soak", "p", "bath", duration_h=6, thickness_cm=1, **measures)
    after, before = (cooked(recipe(parts, [*first, *then])).eaten[ROW["K"]][0] for then in ([soak], []))
    return 1 - after / before


def test_cold_water_takes_more_from_cells_that_heat_or_drying_killed():
    cold = washed_out(temperature_c=20)
    assert cold < washed_out(temperature_c=50) < washed_out(temperature_c=60)
    assert washed_out(step("boil", "p", "pot", duration_h=0.35, thickness_cm=1)) > 2 * cold
    assert washed_out(code="11268") > 2 * washed_out(code="11238")  # shiitake, dried and raw


def test_the_hours_of_a_soak_tell_how_thick_salted_fish_is():
    def thickness(code, of=1, **measures):
        parts = [part("p", item(code, 500)), part("bath", item(dishes.WATER, 4000), eaten_fraction=0)]
        outcome = cooked(recipe(parts, [step("soak", "p", "bath", **measures)] * of))
        return outcome.state.log.draws_of("step-0/p/thickness")[0]

    cod = [thickness(dishes.SALT_COD, duration_h=hours) for hours in (6, 24, 54)]
    assert cod == pytest.approx([cod[1] / 2, cod[1], cod[1] * 1.5])
    assert thickness(dishes.SALT_COD, duration_h=6, thickness_cm=3) == 3
    assert thickness(dishes.SALT_COD, of=2, duration_h=12) == cod[1]
    assert thickness("15015", duration_h=6) == thickness("15015", duration_h=24)


def dry_cured(**measures):
    return recipe(
        [part("loin", item(dishes.PORK, 1000)), part("rub", item(dishes.SALT, 25))],
        [step("dry_cure", "loin", "rub", **measures)],
    )


def test_a_weighed_rub_goes_in_given_time_but_for_what_runs_off():
    document = dry_cured(duration_h=240, thickness_cm=4, temperature_c=3)
    whole = OWN_MG + sodium_mg(dishes.SALT, 25)
    assert 0.9 * whole < likely(document) < 0.97 * whole
    assert cooked(document).eaten[WEIGHT, 0] < 1000
    assert source_of(document, "cure-run-off").startswith("common practice")


def test_a_rub_that_draws_nothing_goes_in_whole():
    document = dry_cured(duration_h=240, thickness_cm=4, temperature_c=3, pick_up_percent=2.5)
    assert likely(document) == pytest.approx(OWN_MG + sodium_mg(dishes.SALT, 25), rel=1e-3)


def test_little_liquid_wets_but_a_part():
    thin, deep = brined(loin_g=6000, salt_g=60, duration_h=6), brined(loin_g=2000, salt_g=60, duration_h=6)
    assert source_of(thin, "wetted").startswith("common practice")
    assert not [a for a in answered(deep)["assumptions"] if a["id"].endswith("wetted")]


def test_the_last_drop_that_covers_a_food_changes_nothing():
    def gained_per_kg(over):
        """mg per kg of loin in a bath with so many times the water that just wets all of it."""
        loin_g = BATH_WATER_G / (0.75 * over * LOIN_WATER_G / 1000)
        return likely(brined(loin_g=loin_g, duration_h=6)) / loin_g

    assert gained_per_kg(0.999) == pytest.approx(gained_per_kg(1.001), rel=1e-3)


def test_only_what_is_there_has_a_pace():
    """Pork has salt and potassium; sugar and nitrite are in neither the loin nor its brine."""
    paces = {a["id"].split("/")[-1] for a in answered(brined())["assumptions"] if "diffusivity" in a["id"]}
    assert paces == {"salt-diffusivity", "potassium-diffusivity"}


@pytest.mark.parametrize("hours", [48, 96, 120])
def test_the_share_of_a_cure_at_the_centre_is_that_of_a_sheet_in_much_liquid(hours):
    """Crank, The Mathematics of Diffusion, 2nd ed. 1975, eq. 4.17 at x = 0 (from memory), in a bath 20 times
    as heavy."""
    brine = part("brine", item(dishes.WATER, 3800), item(dishes.SALT, 291), item(dishes.CURING_SALT, 9.6))
    cure = {"product_class": "immersion_cured", "pick_up_percent": 0, "shape": "sheet"}
    cure |= {"thickness_cm": 5, "temperature_c": 3, "duration_h": hours}
    parts = [part("flat", item("13346", 200)), brine]
    answer = answered(recipe(parts, [step("brine", "flat", "brine", **cure)]))
    (pace,) = (a["value"] for a in answer["assumptions"] if a["id"].endswith("nitrite-diffusivity"))
    (told,) = (each["message"] for each in answer["notices"] if each["code"] == "cure-short-of-centre")
    odd = 2 * np.arange(50) + 1
    left = np.exp(-(odd**2) * np.pi**2 / 4 * pace * hours * 3600 / 0.025**2)
    percent = 100 * (1 - 4 / np.pi * np.sum(np.tile([1, -1], 25) / odd * left))
    assert f"After {hours} h" in told
    assert float(re.findall(r"about (\d+) %", told)[0]) == pytest.approx(percent, abs=1)


def test_dry_salt_needs_time_and_never_oversaturates():
    brief = dry_cured(duration_h=1, thickness_cm=4, temperature_c=3)
    assert OWN_MG < likely(brief) < likely(dry_cured(duration_h=240, thickness_cm=4, temperature_c=3))
    bed = dry_cured(duration_h=FOREVER_H, thickness_cm=4, pick_up_percent=0)
    bed["components"][1]["ingredients"] = [item(dishes.SALT, 3000)]
    salt_g = likely(bed) / 393.4
    assert salt_g == pytest.approx(0.357 * cooked(bed).eaten[WATER, 0], rel=0.02)


def test_a_marinade_by_table_and_by_time():
    def document(**measures):
        bath = part("marinade", item(dishes.SOY_SAUCE, 120), item(dishes.WATER, 60), eaten_fraction=0)
        return recipe(
            [part("breast", item(dishes.CHICKEN, 600)), bath],
            [step("marinate", "breast", "marinade", **measures)],
        )

    by_table, by_time = (
        answered(document(**m))["sodium"]["per_serving_mg"]
        for m in ({}, {"duration_h": 1, "thickness_cm": 2})
    )
    assert by_table["low"] < by_time["likely"] < by_table["high"]
    assert by_table["high"] < answered(document())["sodium"]["as_listed_per_serving_mg"]


def test_an_unknown_kind_of_food_is_said_and_can_be_stated():
    document = recipe(
        [part("butter", item("01001", 300)), part("brine", item(dishes.WATER, 1000), item(dishes.SALT, 50))],
        [step("brine", "butter", "brine", duration_h=24, thickness_cm=4, temperature_c=4)],
    )
    assert codes(answered(document))["food-class-unknown"] == "check"
    document["steps"][0]["food_class"] = "poultry"
    assert "food-class-unknown" not in codes(answered(document))


def test_a_dry_cure_has_one_figure_alone_and_in_a_recipe():
    loin = bundled().get("10020")
    food = {
        "class": "pork",
        "weight_g": 1000,
        "thickness_cm": 4,
        "water_fraction": loin.per_100g("WATER") / 100,
    }
    asked = {"food": food, "bath": {"water_g": 0, "salt_g": 80}, "temperature_c": 3, "duration_h": 240}
    alone = bath_answer(BathRequest.from_document(asked))["absorption_factor"]["likely"]
    cured = step("dry_cure", "loin", "rub", duration_h=240, thickness_cm=4, temperature_c=3)
    cure = recipe([part("loin", item("10020", 1000)), part("rub", item(dishes.SALT, 80))], [cured])
    gained = likely(cure) - sodium_mg("10020", 1000)
    assert gained / sodium_mg(dishes.SALT, 80) == pytest.approx(alone, rel=0.02)
