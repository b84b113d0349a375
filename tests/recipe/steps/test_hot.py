"""Pots, steam, ovens and frying: what runs out, what comes in, and what becomes of the liquid."""

from __future__ import annotations

import numpy as np
import pytest
from saltledger.recipe.pool_rows import FREE, ROW, SODIUM, WEIGHT
from saltledger.recipe.steps.paces import closed_shares, free_shares

from tests.recipe import dishes
from tests.recipe.dishes import answered, codes, cooked, item, likely, part, recipe, sodium_mg, step

CURED = "13346"
"""SR28: beef, cured, brisket, raw."""
FATTY_RIB, RIB, COD = "13847", "13841", "15015"
"""SR28: raw beef ribs of 50.4 and 53.0 % of water, and raw cod."""


def pot(food, grams, *, salt_g=0.0, water_g=2000, kind="simmer", eaten_fraction=None, **measures):
    """A piece of food in a pot of its own."""
    bath = part("pot", item(dishes.WATER, water_g), item(dishes.SALT, salt_g))
    if eaten_fraction is not None:
        bath["eaten_fraction"] = eaten_fraction
    return recipe([part("piece", item(food, grams)), bath], [step(kind, "piece", "pot", **measures)])


def alone(food, grams, kind, **measures):
    return recipe([part("piece", item(food, grams))], [step(kind, "piece", **measures)])


def moves(document):
    return {(entry["from"], entry["to"]): entry["mg"] for entry in answered(document)["sodium"]["ledger"]}


def test_salty_meat_gives_to_a_weak_pot():
    found = moves(pot(CURED, 1000, duration_h=2))
    assert found["piece", "pot"] > 0.3 * sodium_mg(CURED, 1000)
    assert found["pot", "poured_away"] == pytest.approx(
        found["piece", "pot"] + sodium_mg(dishes.WATER, 2000), rel=1e-4
    )


def test_longer_and_thinner_give_more():
    brief, long = (likely(pot(CURED, 1000, duration_h=hours)) for hours in (0.5, 4))
    thin, thick = (likely(pot(CURED, 1000, duration_h=1, thickness_cm=cm)) for cm in (1, 8))
    assert long < brief
    assert thin < thick


@pytest.mark.parametrize("food", [dishes.CARROTS, dishes.SPINACH, dishes.POTATOES, dishes.PASTA])
def test_what_is_boiled_in_salted_water_takes_salt(food):
    plain, salted = (likely(pot(food, 400, kind="boil", salt_g=salt, duration_h=0.25)) for salt in (0, 20))
    assert sodium_mg(food, 400) * 0.1 < plain <= sodium_mg(food, 400) + sodium_mg(dishes.WATER, 2000)
    assert plain + 50 < salted < plain + 0.5 * sodium_mg(dishes.SALT, 20)


def test_uptake_goes_with_the_strength_of_the_pot():
    plain, once, twice = (
        likely(pot(dishes.PASTA, 400, kind="boil", salt_g=salt, water_g=5000, duration_h=0.2))
        for salt in (0, 25, 50)
    )
    assert twice - plain == pytest.approx(2 * (once - plain), rel=1e-3)


def test_pasta_swells_by_the_pots_water_and_keeps_its_flour():
    eaten = cooked(pot(dishes.PASTA, 400, kind="boil", duration_h=0.2)).eaten
    assert 2 < eaten[WEIGHT, 0] / 400 < 2.7
    assert eaten[ROW["PROCNT"], 0] == pytest.approx(4 * 13.04, rel=0.01)


@pytest.mark.parametrize("share", [1.0, 0.25])
def test_broth_that_is_served_is_eaten(share):
    document = pot(CURED, 1000, duration_h=2, eaten_fraction=share)
    kept = moves(document)["piece", "eaten"]
    rest = sodium_mg(CURED, 1000) + sodium_mg(dishes.WATER, 2000) - kept
    assert likely(document) == pytest.approx(kept + share * rest)
    assert "bath-fate-assumed" not in codes(answered(document))


def test_a_stated_yield_is_what_it_is_after_the_time_of_the_step():
    stated = [{"row": "cooking_yields:vegetable/roast", "of": "yield", "likely": 0.8}]
    for hours in (0.25, 2):
        document = alone(dishes.CARROTS, 400, "roast", duration_h=hours) | {"figures": stated}
        assert likely(document, row=WEIGHT) == pytest.approx(320, rel=1e-3)


def test_fat_that_a_kind_never_loses_is_no_assumption():
    for food, has_one in ((dishes.CARROTS, False), (CURED, True)):
        found = [a["id"] for a in answered(alone(food, 400, "roast"))["assumptions"]]
        assert ("step-0/piece/fat-kept" in found) == has_one


def test_pasta_said_to_weigh_less_than_its_flour_has_no_juice_to_lose():
    """A weighing that cannot be: no more water leaves than there is, and the pot's salt goes in as ever."""
    boiled = pot(dishes.PASTA, 400, kind="boil", salt_g=20, duration_h=0.3, yield_fraction=0.3)
    assert likely(boiled) > sodium_mg(dishes.PASTA, 400)


def test_what_is_weighed_to_have_drunk_brought_the_salt_of_the_pot_along():
    pot = part("pot", item(dishes.WATER, 2000), item(dishes.SALT, 20), eaten_fraction=0)
    held = []
    for weighs in (1.5, 2.5):
        boiled = step("boil", "rice", "pot", duration_h=0.3, yield_fraction=weighs)
        held.append(likely(recipe([part("rice", item("20444", 100)), pot], [boiled])))
    strength = sodium_mg(dishes.SALT, 20) / 2020
    assert (held[1] - held[0]) / 100 == pytest.approx(strength, rel=0.05)


def test_juice_takes_its_salt_along_however_much_is_closed_to_the_pot():
    """So thick that next to nothing passes but what is pressed out: it is as salty as what it comes from."""
    pot = part("pot", item(dishes.WATER, 20000), eaten_fraction=0)
    gone = []
    for closed in (0.0, 0.3):
        form = {"thickness_cm": 30, "untaken_fraction": closed, "yield_fraction": 0.8}
        hot = step("simmer", "leg", "pot", duration_h=0.5, **form)
        leg = part("leg", item(dishes.PORK, 5000))
        gone.append(sodium_mg(dishes.PORK, 5000) - likely(recipe([leg, pot], [hot])))
    assert gone[1] == pytest.approx(gone[0], rel=0.03)


def test_juice_of_two_heats_is_as_salty_as_that_of_either():
    """What was set aside as juice in a warm pot is not set aside again in a hot one."""
    bath = part("pot", item(dishes.WATER, 20000), eaten_fraction=0)

    def strength(*heats_c):
        """mg of sodium in each g that a leg loses, so thick that little else passes."""
        hot = {"duration_h": 0.5, "thickness_cm": 30}
        steps = [step("simmer", "leg", "pot", temperature_c=heat_c, **hot) for heat_c in heats_c]
        eaten = cooked(recipe([part("leg", item(dishes.PORK, 5000)), bath], steps)).eaten
        return (sodium_mg(dishes.PORK, 5000) - eaten[SODIUM, 0]) / (5000 - eaten[WEIGHT, 0])

    assert strength(95) < strength(60, 95) < strength(60)


def test_flesh_that_was_dried_before_has_little_left_to_lose():
    """None at 15 % of water, all of it from 50 % up."""

    def lost(food):
        (told,) = (
            a["value"]
            for a in answered(alone(food, 400, "roast"))["assumptions"]
            if a["id"].endswith("/yield")
        )
        return 1 - told

    assert lost(FATTY_RIB) == pytest.approx(lost(RIB))
    assert lost(dishes.SALT_COD) / lost(COD) == pytest.approx((16.14 - 15) / 35, rel=1e-3)


def test_a_dish_simmered_in_its_own_juice_loses_water_alone():
    document = recipe(
        [part("stew", item("23596", 900), item(dishes.WINE, 200), item(dishes.SALT, 8))],
        [step("simmer", "stew", duration_h=2)],
    )
    outcome = cooked(document)
    assert outcome.sodium_per_serving_mg == pytest.approx(outcome.sodium_as_listed_mg)
    assert outcome.eaten[ROW["FAT"], 0] == pytest.approx(outcome.state.pools.brought[ROW["FAT"], 0])
    assert outcome.eaten[WEIGHT, 0] < 1108


@pytest.mark.parametrize("kind", ["roast", "steam"])
def test_juice_drips_with_its_salt(kind):
    document = alone(CURED, 1000, kind)
    tray = likely(document, "left_on_tray")
    assert 0.03 < tray / sodium_mg(CURED, 1000) < 0.4
    assert likely(document) + tray == pytest.approx(sodium_mg(CURED, 1000))
    assert likely(document, "evaporated", WEIGHT) > 0
    assert likely(document, "evaporated") == 0


def test_fat_runs_out_of_meat_in_the_oven():
    outcome = cooked(alone(CURED, 1000, "roast"))
    for tag in ("FAT", "FASAT", "FAMS", "FAPU"):
        row = ROW[tag]
        assert 0.6 < outcome.eaten[row, 0] / outcome.state.pools.brought[row, 0] < 0.95
    tray = outcome.state.pools.amounts["left_on_tray"]
    assert tray[ROW["ENERC"], 0] == pytest.approx(9 * tray[ROW["FAT"], 0], rel=0.1)


@pytest.mark.parametrize("kind", ["roast", "steam", "fry"])
@pytest.mark.parametrize("mg_per_100g", [200, 1250])
def test_measured_sodium_stands_whichever_way_the_model_errs(kind, mg_per_100g):
    outcome = cooked(alone(CURED, 1000, kind, weight_after_g=750, sodium_after_mg_per_100g=mg_per_100g))
    assert outcome.sodium_per_serving_mg == pytest.approx(7.5 * mg_per_100g, rel=1e-6)


@pytest.mark.parametrize("mg_per_100g", [200, 900])
def test_measured_sodium_stands_after_a_pot(mg_per_100g):
    outcome = cooked(pot(CURED, 1000, weight_after_g=700, sodium_after_mg_per_100g=mg_per_100g))
    assert outcome.sodium_per_serving_mg == pytest.approx(7 * mg_per_100g, rel=0.02)


@pytest.mark.parametrize(
    ("measures", "grams"),
    [({"weight_after_g": 720}, 720), ({"weight_before_g": 500, "weight_after_g": 350}, 700),
     ({"yield_fraction": 0.8}, 800)],
)  # fmt: skip
@pytest.mark.parametrize("kind", ["simmer", "roast", "fry", "steam"])
def test_weights_of_the_kitchen_are_met(kind, measures, grams):
    document = pot(CURED, 1000, **measures) if kind == "simmer" else alone(CURED, 1000, kind, **measures)
    assert cooked(document).eaten[WEIGHT, 0] == pytest.approx(grams, rel=0.02)


def test_a_stated_factor_is_the_share_of_the_pots_salt():
    document = pot(dishes.CARROTS, 400, kind="boil", salt_g=20, absorption_factor=0.1)
    in_pot = sodium_mg(dishes.SALT, 20) + sodium_mg(dishes.WATER, 2000)
    assert moves(document)["pot", "piece"] == pytest.approx(0.1 * in_pot, rel=0.02)


def test_frying_takes_up_fat_and_leaves_the_rest_behind():
    document = recipe(
        [part("chips", item(dishes.POTATOES, 500)), part("oil", item(dishes.OIL, 1500))],
        [step("fry", "chips", "oil")],
    )
    fat_g = likely(document, row=ROW["FAT"])
    assert 500 * 0.06 < fat_g < 500 * 0.12
    assert likely(document, "poured_away", ROW["FAT"]) == pytest.approx(1500 + 0.5 - fat_g, rel=1e-3)


def test_all_that_is_fried_takes_no_more_oil_than_there_is():
    document = recipe(
        [part("chips", item(dishes.POTATOES, 5000)), part("oil", item(dishes.OIL, 10))],
        [step("fry", "chips", "oil")],
    )
    assert likely(document, row=ROW["FAT"]) <= 10 + 5000 * 0.001 + 1e-9


def test_free_shares_are_shares_and_salt_is_all_free():
    solutes, others = free_shares()
    assert (solutes[SODIUM] == 1).all()
    assert ((others > 0) & (others <= 1)).all()
    assert np.ptp(solutes[ROW["K"]]) > 0
    assert len(others) == FREE.stop - FREE.start


def test_what_bone_shuts_in_and_living_cells_hold_takes_no_part():
    solutes, others = closed_shares(0.8, None, "vegetable")
    assert solutes[SODIUM] == pytest.approx(0.2)
    assert solutes[ROW["SUGAR"], 0] == pytest.approx(1 - 0.8 * 0.9 * 0.2)
    assert (others[:, 0] > 0.8 - 1e-9).all()
    assert np.ptp(closed_shares(0.8)[0][SODIUM]) == 0


@pytest.mark.parametrize("dead", [0.3, 1.0])
def test_dead_cells_hold_back_what_is_bound_and_no_more(dead):
    alive, none = (closed_shares(0.8, None, cells)[0][ROW["K"]] for cells in ("vegetable", None))
    assert closed_shares(0.8, None, "vegetable", dead=dead)[0][ROW["K"]] == pytest.approx(
        alive + (none - alive) * dead
    )
