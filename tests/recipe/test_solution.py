"""Water with solutes in it: as strong as where it came from, and its companions with it."""

from __future__ import annotations

import numpy as np
import pytest
from saltledger.recipe.hot import free_solutes
from saltledger.recipe.kitchen import SALT_PER_SODIUM, Kitchen
from saltledger.recipe.rows import ASH, CARBOHYDRATE, ENERGY, ROW, SODIUM, SUGAR, WATER, WEIGHT
from saltledger.recipe.solution import DISSOLVED, Way
from saltledger.units.spread import DRAWS

EVERY = np.ones(DRAWS + 1)


@pytest.fixture
def kitchen(amounts):
    made = Kitchen(["stew", "cup"])
    made.bring(
        "stew",
        amounts(WATER=500, NA=1000, ASH=10, SUGAR=20, CHOCDF=40, ENERC=300, K=800, PROCNT=90, WEIGHT=700),
    )
    return made


@pytest.fixture
def way(kitchen):
    return Way(kitchen, "stew", "cup", 1)


def test_drained_water_is_as_strong_as_what_it_came_from(kitchen, way):
    way.drain(50 * EVERY, DISSOLVED)
    cup = kitchen.pools["cup"]
    assert (cup[WATER, 0], cup[SODIUM, 0], cup[SUGAR, 0], cup[ROW["K"], 0]) == (50, 100, 2, 0)
    assert cup[ASH] == pytest.approx(0.1 * SALT_PER_SODIUM)
    assert (cup[CARBOHYDRATE, 0], cup[ENERGY, 0]) == pytest.approx((2, 15))
    assert cup[WEIGHT] == pytest.approx(52 + 0.1 * SALT_PER_SODIUM)


@pytest.mark.parametrize(("asked_g", "moved_g"), [(50, 50), (1e9, 500 + 18 + SALT_PER_SODIUM)])
def test_juice_weighs_what_was_asked_as_far_as_there_is_any(kitchen, way, asked_g, moved_g):
    way.squeeze(asked_g * EVERY, free_solutes())
    cup = kitchen.pools["cup"]
    assert cup[WEIGHT] == pytest.approx(moved_g)
    assert cup[ROW["PROCNT"], 0] == 0
    share = cup[WATER, 0] / 500
    assert cup[SODIUM, 0] == pytest.approx(1000 * share)
    assert cup[ROW["K"], 0] == pytest.approx(800 * 0.95 * share)


def test_water_may_leave_by_another_share(kitchen, way):
    way.leave(0.5 * EVERY, DISSOLVED, of_water=0.1 * EVERY)
    assert (kitchen.pools["cup"][WATER, 0], kitchen.pools["cup"][SODIUM, 0]) == (50, 500)


@pytest.mark.parametrize("wanted_mg", [0, 40, 900])
def test_sodium_is_settled_out_of_and_back_from_the_rest(kitchen, way, amounts, wanted_mg):
    kitchen.bring("cup", amounts(NA=100, ASH=1, WEIGHT=5))
    way.settle(wanted_mg * EVERY)
    pools = kitchen.pools
    assert pools["cup"][SODIUM] == pytest.approx(wanted_mg)
    assert pools["cup"][SODIUM] + pools["stew"][SODIUM] == pytest.approx(1100)
    assert pools["cup"][WEIGHT] == pytest.approx(5 + (wanted_mg - 100) / 1000 * SALT_PER_SODIUM)


def test_carbohydrate_without_energy_takes_none(kitchen, amounts):
    kitchen.bring("cup", amounts(SUGAR=5, WEIGHT=5))
    Way(kitchen, "cup", "stew", 0).leave(EVERY, DISSOLVED)
    assert kitchen.pools["stew"][SUGAR, 0] == 25
    assert kitchen.pools["stew"][ENERGY, 0] == 300
