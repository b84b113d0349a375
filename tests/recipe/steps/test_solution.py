"""Water with solutes in it: its companions go along, and energy goes with its own macronutrients."""

from __future__ import annotations

import numpy as np
import pytest
from saltledger.core.spread import DRAWS
from saltledger.recipe.pool_rows import ASH, CARBOHYDRATE, ENERGY, ROW, SODIUM, SOLUTION, SUGAR, WATER, WEIGHT
from saltledger.recipe.pools import SALT_PER_SODIUM, Pools
from saltledger.recipe.steps.solution import Way

EVERY = np.ones(DRAWS + 1)


@pytest.fixture
def pools(amounts):
    made = Pools(["stew", "cup"])
    made.bring(
        "stew",
        amounts(WATER=500, NA=1000, ASH=10, SUGAR=20, CHOCDF=40, ENERC=520, K=800, PROCNT=90, WEIGHT=700),
    )
    return made


@pytest.fixture
def way(pools):
    return Way(pools, "stew", "cup", 1)


def poured(pools, way, **grams):
    """So much of a solution goes from the stew to the cup, with its companions."""
    solution = np.zeros((SOLUTION.stop, DRAWS + 1))
    for tag, amount in grams.items():
        solution[ROW[tag]] = amount
    lent = way.energies()
    way.pass_companions(pools.pass_solution(way.source, way.target, solution, 1), lent)
    return pools.amounts["cup"]


def test_companions_go_along(pools, way):
    cup = poured(pools, way, WATER=50, NA=100, SUGAR=2)
    assert (cup[WATER, 0], cup[SODIUM, 0], cup[SUGAR, 0], cup[ROW["K"], 0]) == (50, 100, 2, 0)
    assert cup[ASH] == pytest.approx(0.1 * SALT_PER_SODIUM)
    assert cup[WEIGHT] == pytest.approx(52 + 0.1 * SALT_PER_SODIUM)


def test_sugar_takes_the_energy_of_sugar_and_not_that_of_the_meat(pools, way, amounts):
    cup = poured(pools, way, SUGAR=2)
    assert (cup[CARBOHYDRATE, 0], cup[ENERGY, 0]) == pytest.approx((2, 8))
    meat = Pools(["stew", "cup"])
    meat.bring("stew", amounts(WATER=700, SUGAR=0.1, CHOCDF=0.1, PROCNT=200, ENERC=800.4, WEIGHT=1000))
    cup = poured(meat, Way(meat, "stew", "cup", 1), SUGAR=0.1)
    assert cup[ENERGY, 0] == pytest.approx(0.4)


def test_energy_stays_in_proportion_to_the_macronutrients(pools, way, amounts):
    """Roots with a fifth more energy than by the general factors stay so without half their sugar."""
    roots = Pools(["stew", "cup"])
    roots.bring(
        "stew", amounts(WATER=880, SUGAR=50, CHOCDF=96, FIBTG=28, PROCNT=9, FAT=2, ENERC=390, WEIGHT=1000)
    )
    poured(roots, Way(roots, "stew", "cup", 1), SUGAR=25)
    by_factors = 4 * (96 - 28) + 4 * 9 + 9 * 2
    assert roots.amounts["stew"][ENERGY, 0] == pytest.approx(390 / by_factors * (by_factors - 100))


def test_syrup_has_no_more_energy_to_give_than_it_holds(amounts):
    pools = Pools(["stew", "cup"])
    pools.bring("stew", amounts(WATER=500, SUGAR=100, CHOCDF=100, ENERC=387, WEIGHT=600))
    cup = poured(pools, Way(pools, "stew", "cup", 1), SUGAR=50)
    assert cup[ENERGY, 0] == pytest.approx(193.5)


@pytest.mark.parametrize("wanted_mg", [0, 40, 900])
def test_sodium_is_settled_out_of_and_back_from_the_rest(pools, way, amounts, wanted_mg):
    pools.bring("cup", amounts(NA=100, ASH=1, WEIGHT=5))
    way.settle(wanted_mg * EVERY)
    pools = pools.amounts
    assert pools["cup"][SODIUM] == pytest.approx(wanted_mg)
    assert pools["cup"][SODIUM] + pools["stew"][SODIUM] == pytest.approx(1100)
    assert pools["cup"][WEIGHT] == pytest.approx(5 + (wanted_mg - 100) / 1000 * SALT_PER_SODIUM)


def test_carbohydrate_without_energy_takes_none(amounts):
    pools = Pools(["stew", "cup"])
    pools.bring("stew", amounts(SUGAR=5, WEIGHT=5))
    assert poured(pools, Way(pools, "stew", "cup", 0), SUGAR=5)[ENERGY, 0] == 0
