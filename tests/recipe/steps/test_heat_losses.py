"""What heat destroys: vitamins and alcohol, never an element and never water."""

from __future__ import annotations

import numpy as np
import pytest
from saltledger.foods.dataset import bundled
from saltledger.recipe.pool_rows import ROW, WEIGHT
from saltledger.recipe.steps.heat_losses import retention_kind

from tests.recipe import dishes
from tests.recipe.dishes import answered, cooked, item, likely, part, recipe, step

ELEMENTS = ("NA", "K", "CA", "MG", "P", "FE", "ZN", "CU", "MN", "SE", "WATER", "PROCNT", "FAT", "NITRI")


def heated(kind, food=dishes.SPINACH, **measures):
    return recipe(
        [part("piece", item(food, 400))], [step(kind, "piece", **({"duration_h": 0.15} | measures))]
    )


@pytest.mark.parametrize("kind", ["simmer", "boil", "steam", "roast", "fry", "sous_vide"])
def test_vitamin_c_is_lost_and_elements_are_not(kind):
    lost = cooked(heated(kind)).state.pools.amounts["lost_to_heat"]
    brought = cooked(heated(kind)).state.pools.brought
    assert 0.05 < lost[ROW["VITC"], 0] / brought[ROW["VITC"], 0] < 0.7
    assert all(lost[ROW[tag], 0] == 0 for tag in ELEMENTS)


def test_a_kitchens_own_figure_of_what_heat_leaves_is_taken_and_no_other_changed():
    own = {"row": "retention_trials:leaf/steam/VITC", "low": 0.5, "likely": 0.6, "high": 0.7}

    def lost_shares(document):
        """Of what did not drip."""
        pools = cooked(document).state.pools.amounts
        return pools["lost_to_heat"] / np.maximum(pools["lost_to_heat"] + pools["eaten"], 1e-9)

    plain, with_own = lost_shares(heated("steam")), lost_shares(heated("steam") | {"figures": [own]})
    lost = with_own[ROW["VITC"]]
    assert lost[0] == pytest.approx(0.4)
    assert 0.2 < lost.min() < 0.35
    assert 0.45 < lost.max() < 0.6
    others = [ROW[tag] for tag in ("THIA", "RIBF", "FOL", "NA")]
    assert with_own[others] == pytest.approx(plain[others])


def test_thirty_degrees_under_the_boil_take_ten_times_as_long():
    """In its own juice nothing else leaves; the table's time is that of a pot at 95 degrees and above."""
    vitamin = ROW["VITC"]
    boiling, warm, hour = (
        likely(heated("simmer", **measures), row=vitamin)
        for measures in (
            {"duration_h": 0.04},
            {"duration_h": 0.04, "temperature_c": 65},
            {"duration_h": 0.4, "temperature_c": 65},
        )
    )
    raw = likely(heated("simmer", duration_h=0), row=vitamin)
    assert np.log(warm / raw) == pytest.approx(np.log(boiling / raw) / 10, rel=1e-3)
    assert hour == pytest.approx(boiling, rel=1e-3)


def test_heat_goes_on_by_the_clock_once_the_usual_time_is_over_and_in_parts_as_in_one():
    """Leaves are usually done in 0.05 h; what follows destroys a sixth as much in the same time."""
    vitamin = ROW["VITC"]

    def logs_lost(*hours):
        steps = [step("simmer", "leaf", duration_h=each) for each in hours]
        leaf = part("leaf", item(dishes.SPINACH, 400))
        return np.log(likely(recipe([leaf], steps), row=vitamin) / likely(recipe([leaf], []), row=vitamin))

    usual, twice = logs_lost(0.05), logs_lost(0.1)
    assert (twice - usual) / usual == pytest.approx(0.05 / 0.3, rel=1e-3)
    assert logs_lost(0.03, 0.04, 0.03) == pytest.approx(twice, rel=1e-6)


def test_cold_destroys_nothing():
    assert not cooked(dishes.brined()).state.pools.amounts["lost_to_heat"].any()


def test_a_pot_takes_what_the_heat_leaves():
    with_pot = recipe(
        [part("leaf", item(dishes.SPINACH, 400)), part("pot", item(dishes.WATER, 2000))],
        [step("boil", "leaf", "pot", duration_h=0.1)],
    )
    vitamin = ROW["VITC"]
    assert likely(with_pot, row=vitamin) < likely(heated("steam", duration_h=0.1), row=vitamin)
    assert likely(with_pot, "poured_away", vitamin) > 0


@pytest.mark.parametrize("food", [dishes.SPINACH, "13346"])
def test_the_range_of_a_lost_vitamin_is_told(food):
    thiamin = answered(heated("roast", food))["per_serving"]["nutrients"]["THIA"]
    assert thiamin["low"] < thiamin["amount"] < thiamin["high"]


def test_alcohol_boils_off_with_time_and_takes_its_energy():
    whole = cooked(recipe([part("sauce", item(dishes.WINE, 500))], [])).eaten
    left = {hours: cooked(heated("simmer", dishes.WINE, duration_h=hours)) for hours in (0.25, 1, 2.5)}
    grams = [float(outcome.eaten[ROW["ALC"], 0]) for outcome in left.values()]
    assert grams == sorted(grams, reverse=True)
    assert grams[-1] == pytest.approx(0.05 * 0.8 * whole[ROW["ALC"], 0], rel=0.01)
    lost = left[1].state.pools.amounts["lost_to_heat"]
    assert lost[ROW["ENERC"], 0] == pytest.approx(6.93 * lost[ROW["ALC"], 0], rel=0.02)
    assert lost[WEIGHT, 0] == pytest.approx(lost[ROW["ALC"], 0])


def test_alcohol_of_the_pot_boils_off_too():
    document = recipe(
        [part("leaf", item(dishes.SPINACH, 400)), part("pot", item(dishes.WINE, 500), eaten_fraction=1)],
        [step("simmer", "leaf", "pot", duration_h=1)],
    )
    assert likely(document, row=ROW["ALC"]) < 0.4 * 0.01 * 500 * 10.6


@pytest.mark.parametrize(
    ("code", "kind"), [("01123", "egg"), ("01077", "dairy"), ("13346", "meat"), (dishes.SPINACH, "leaf")]
)
def test_kinds_as_retention_knows_them(code, kind):
    assert retention_kind(bundled().get(code)) == kind
