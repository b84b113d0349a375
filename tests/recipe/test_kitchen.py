"""Pools and movements: moved, never made, and never more than there is."""

from __future__ import annotations

import numpy as np
import pytest
from saltledger.recipe.kitchen import (
    SALT_PER_SODIUM,
    SODIUM,
    WATER,
    WEIGHT,
    Flow,
    Kitchen,
    everything,
    nothing,
    ratio,
)  # fmt: skip
from saltledger.units.spread import DRAWS


@pytest.fixture
def kitchen(amounts):
    made = Kitchen(["jar", "bowl"])
    made.bring("jar", amounts(WATER=100, NA=400, WEIGHT=120))
    return made


def total(kitchen):
    return sum(kitchen.pools.values(), nothing())


def test_a_share_moves_everything_alike(kitchen):
    kitchen.move_share("jar", "bowl", 0.25, 3)
    assert kitchen.pools["bowl"][WATER] == pytest.approx(25)
    assert kitchen.pools["jar"][SODIUM] == pytest.approx(300)
    (movement,) = kitchen.ledger
    assert (movement.source, movement.target, movement.step) == ("jar", "bowl", 3)
    assert movement.sodium_mg == pytest.approx(100)


@pytest.mark.parametrize(("asked", "moved"), [(30.0, 30.0), (1e9, 100.0), (-5.0, 0.0)])
def test_water_moves_as_far_as_there_is_any(kitchen, asked, moved):
    kitchen.move_water("jar", "bowl", np.full(DRAWS + 1, asked), 0)
    assert kitchen.pools["bowl"][[WATER, WEIGHT]] == pytest.approx(moved)
    assert kitchen.ledger == []
    np.testing.assert_allclose(total(kitchen), kitchen.brought)


def test_a_flow_moves_no_more_than_is_held(kitchen, amounts):
    kitchen.move("jar", "bowl", everything(amounts(NA=1e6, WATER=10)), 0)
    assert kitchen.pools["bowl"][SODIUM] == pytest.approx(400)
    assert kitchen.pools["jar"].min() >= 0
    np.testing.assert_allclose(total(kitchen), kitchen.brought)


def test_poured_water_counts_as_brought(kitchen):
    kitchen.pour("bowl", np.full(DRAWS + 1, 50.0))
    assert kitchen.brought[WATER] == pytest.approx(150)
    np.testing.assert_allclose(total(kitchen), kitchen.brought)


def test_a_movement_without_sodium_is_not_in_the_ledger(kitchen, amounts):
    kitchen.bring("bowl", amounts(WATER=10, WEIGHT=10))
    kitchen.move_share("bowl", "jar", 1.0, None)
    assert kitchen.ledger == []


def test_the_ledger_is_a_copy(kitchen):
    kitchen.move_share("jar", "bowl", 0.5, 0)
    kitchen.move_share("bowl", "jar", 1.0, 1)
    assert kitchen.ledger[0].sodium_mg == pytest.approx(200)


def test_a_flow_of_some_rows_says_what_it_has():
    flow = Flow(np.array([SODIUM]), np.ones((1, DRAWS + 1)))
    assert flow.scaled(3)[SODIUM] == pytest.approx(3)
    with pytest.raises(KeyError):
        flow[WATER]


def test_ratio_of_nothing_is_nothing():
    assert ratio(np.array([1.0, 2.0]), np.array([0.0, 4.0])).tolist() == [0.0, 0.5]


def test_salt_is_two_and_a_half_times_its_sodium():
    assert pytest.approx(2.542, abs=0.001) == SALT_PER_SODIUM
