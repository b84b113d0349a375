"""Pools and movements: moved, never made, and never more than there is."""

from __future__ import annotations

import numpy as np
import pytest
from saltledger.core.spread import DRAWS
from saltledger.recipe.pool_rows import (
    ALCOHOL,
    ENERGY,
    FAT,
    LABILE,
    LEAD,
    ROW,
    SODIUM,
    SOLUTION,
    WATER,
    WEIGHT,
)
from saltledger.recipe.pools import SALT_PER_SODIUM, Pools, nothing, ratio, share_of

EVERY = np.ones(DRAWS + 1)


@pytest.fixture
def pools(amounts):
    made = Pools(["jar", "bowl"])
    made.bring("jar", amounts(WATER=100, NA=400, FAT=10, FASAT=4, ALC=5, ENERC=125, VITC=8, WEIGHT=120))
    return made


def total(pools):
    return sum(pools.amounts.values(), nothing())


def test_a_share_moves_everything_alike(pools):
    pools.move_share("jar", "bowl", 0.25, 3)
    assert pools.amounts["bowl"][WATER] == pytest.approx(25)
    assert pools.amounts["bowl"][ROW["VITC"]] == pytest.approx(2)
    assert pools.amounts["jar"][SODIUM] == pytest.approx(300)
    (movement,) = pools.ledger
    assert (movement.source, movement.target, movement.step) == ("jar", "bowl", 3)
    assert movement.sodium_mg == pytest.approx(100)


def test_leading_rows_move_at_once_and_the_others_in_the_same_order(pools):
    pools.move_share("jar", "bowl", 0.5, 0)
    pools.move_share("bowl", "jar", 1.0, 1)
    pools.move_share("jar", "bowl", 0.1, 2)
    assert pools.leading["bowl"][WATER] == pytest.approx(10)
    assert pools.amounts["bowl"][ROW["VITC"]] == pytest.approx(0.8)
    assert np.shares_memory(pools.leading["bowl"], pools.amounts["bowl"])
    assert pools.leading["bowl"].shape == (LEAD, DRAWS + 1)


@pytest.mark.parametrize(("asked", "moved"), [(30.0, 30.0), (1e9, 100.0), (-5.0, -5.0), (-1e9, -20.0)])
def test_water_moves_either_way_as_far_as_there_is_any(pools, amounts, asked, moved):
    pools.bring("bowl", amounts(WATER=20, WEIGHT=20))
    pools.pass_water("jar", "bowl", asked * EVERY, 0)
    assert pools.amounts["bowl"][[WATER, WEIGHT]] == pytest.approx(20 + moved)
    assert pools.ledger == []
    np.testing.assert_allclose(total(pools), pools.brought)


@pytest.mark.parametrize(("asked_mg", "moved_mg"), [(50.0, 50.0), (1e6, 400.0), (-1e6, -90.0)])
def test_solution_passes_either_way_and_no_further_than_is_held(pools, amounts, asked_mg, moved_mg):
    pools.bring("bowl", amounts(NA=90, ASH=1, WEIGHT=1))
    moved = pools.pass_solution("jar", "bowl", amounts(NA=asked_mg)[SOLUTION], 0)
    assert moved[SODIUM] == pytest.approx(moved_mg)
    assert pools.amounts["bowl"][SODIUM] == pytest.approx(90 + moved_mg)
    assert pools.amounts["bowl"][WEIGHT] == pytest.approx(1 + moved_mg * SALT_PER_SODIUM / 1000)
    (movement,) = pools.ledger
    assert movement.source == ("jar" if asked_mg > 0 else "bowl")
    assert movement.sodium_mg == pytest.approx(abs(moved_mg))
    np.testing.assert_allclose(total(pools), pools.brought)


def test_what_moves_both_ways_is_told_both_ways(pools, amounts):
    pools.bring("bowl", amounts(NA=90, WEIGHT=1))
    both = amounts(NA=1)[SOLUTION]
    both[:, 1] = -both[:, 0]
    pools.pass_solution("jar", "bowl", both, 0)
    back, forth = pools.ledger
    assert (back.source, forth.source) == ("bowl", "jar")
    assert (back.sodium_mg.tolist()[:2], forth.sodium_mg.tolist()[:2]) == ([0, 1], [1, 0])


def test_fat_takes_its_acids_and_energy_along(pools):
    pools.move_fat("jar", "bowl", 0.5 * EVERY, 0)
    bowl = pools.amounts["bowl"]
    assert (bowl[FAT, 0], bowl[ROW["FASAT"], 0], bowl[WEIGHT, 0]) == (5, 2, 5)
    assert bowl[ENERGY] == pytest.approx(45)
    np.testing.assert_allclose(total(pools), pools.brought)


def test_alcohol_takes_its_energy_along(pools):
    pools.move_alcohol("jar", "bowl", 0.4 * EVERY, 0)
    bowl = pools.amounts["bowl"]
    assert (bowl[ALCOHOL, 0], bowl[WEIGHT, 0], bowl[ENERGY, 0]) == pytest.approx((2, 2, 13.86), rel=0.02)


def test_other_rows_move_no_further_than_is_held(pools, amounts):
    pools.bring("bowl", amounts(VITC=1))
    for asked, held in ((1e6, 9), (-1e6, 0)):
        pools.pass_others("jar", "bowl", LABILE, amounts(VITC=asked)[LABILE], 0)
        assert pools.amounts["bowl"][ROW["VITC"]] == pytest.approx(held)


def test_poured_water_counts_as_brought(pools):
    pools.pour("bowl", 50.0 * EVERY)
    assert pools.brought[WATER] == pytest.approx(150)
    np.testing.assert_allclose(total(pools), pools.brought)


def test_a_movement_without_sodium_is_not_in_the_ledger(pools, amounts):
    pools.bring("bowl", amounts(WATER=10, WEIGHT=10))
    pools.move_share("bowl", "jar", 1.0, None)
    assert pools.ledger == []


def test_the_ledger_stays_as_it_was(pools):
    pools.move_share("jar", "bowl", 0.5, 0)
    pools.move_share("bowl", "jar", 1.0, 1)
    assert pools.ledger[0].sodium_mg == pytest.approx(200)


def test_the_trail_tells_every_row_and_what_was_held(pools):
    pools.follow()
    pools.move_share("jar", "bowl", 0.25, 0)
    pools.pour("bowl", 50.0 * EVERY)
    told = {row: (a, h) for p in pools.trail for row, a, h in zip(p.rows, p.amounts, p.held, strict=True)}
    assert told[SODIUM] == (100, 400)
    assert told[ROW["VITC"]] == (2, 8)
    assert told[WATER] == (50, 50)
    assert Pools(["jar"]).trail is None


def test_parts_of_nothing():
    none, some = np.array([0.0]), np.array([2.0])
    assert (ratio(some, none)[0], share_of(some, none)[0], share_of(none, none)[0]) == (0, 1, 0)
    assert (ratio(some, some * 4)[0], share_of(some * 4, some)[0]) == (0.25, 1)


def test_salt_is_two_and_a_half_times_its_sodium():
    assert pytest.approx(2.542, abs=0.001) == SALT_PER_SODIUM
