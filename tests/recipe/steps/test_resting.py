"""Where salt comes to rest: no spread is counted twice, fat shuts water in, strong brine kills cells."""

from __future__ import annotations

import numpy as np
import pytest
from saltledger.recipe.pool_rows import SODIUM, WATER
from saltledger.transfer.usual import behind_fat, let_in

from tests.recipe import dishes
from tests.recipe.dishes import cooked, item, part, recipe, step

FAT_PORK, LEAN_PORK = "10008", "10010"
CUCUMBER = "11205"


def bathed(food, *, salt_g=200, **measures):
    """1 kg of a food in 10 kg of a brine."""
    brine = part("brine", item(dishes.WATER, 10000 - salt_g), item(dishes.SALT, salt_g), eaten_fraction=0)
    return cooked(
        recipe([part("food", item(food, 1000)), brine], [step("brine", "food", "brine", **measures)])
    )


def share_of_range(outcome, ending):
    """How much of the range of the dish's sodium an assumption carries."""
    shares = outcome.state.log.shares_of_range(outcome.sodium_per_serving_mg)
    return sum(share for assumption, share in shares if assumption.id.endswith(ending))


def test_the_first_hours_have_the_range_of_the_pace_and_the_last_that_of_the_rest():
    soon = bathed(LEAN_PORK, duration_h=2, thickness_cm=8)
    late = bathed(LEAN_PORK, duration_h=1e5, thickness_cm=8)
    assert share_of_range(soon, "/at-rest") < 0.05
    assert share_of_range(soon, "/salt-diffusivity") > 0.2
    assert share_of_range(late, "/at-rest") > 0.5
    assert share_of_range(late, "/salt-diffusivity") < 0.05


def test_a_fat_joint_takes_less_than_its_water_would_and_says_so():
    taken = {code: bathed(code, duration_h=1e5, thickness_cm=5) for code in (FAT_PORK, LEAN_PORK)}
    per_water = {
        code: outcome.sodium_per_serving_mg[0] / outcome.listed[0].ingredient.food.per_100g("WATER")
        for code, outcome in taken.items()
    }
    assert per_water[FAT_PORK] < per_water[LEAN_PORK]
    behind = [each.id for each in taken[FAT_PORK].state.log if each.id.endswith("/behind-fat")]
    assert len(behind) == 1
    assert share_of_range(taken[FAT_PORK], "/behind-fat") > 0.1


@pytest.mark.parametrize("food", [LEAN_PORK, "15236"])
def test_lean_meat_and_fish_keep_no_water_behind_fat(food):
    salmon_or_lean = bathed(food, duration_h=24, thickness_cm=3)
    assert not [each for each in salmon_or_lean.state.log if each.id.endswith("/behind-fat")]


def test_what_the_caller_says_is_out_of_reach_stands_for_the_fat():
    told = bathed(FAT_PORK, duration_h=24, thickness_cm=3, untaken_fraction=0.1)
    assert not [each for each in told.state.log if each.id.endswith("/behind-fat")]
    assert behind_fat("poultry") is None


def over_bath(outcome):
    """Salt in the food's water over that in its bath's, in the likely case."""
    food, bath = (outcome.state.pools.leading[place][:, 0] for place in ("eaten", "poured_away"))
    return (food[SODIUM] / food[WATER]) / (bath[SODIUM] / bath[WATER])


def test_strong_brine_kills_the_cells_that_keep_salt_out():
    weak, strong = (
        over_bath(bathed(CUCUMBER, salt_g=salt_g, duration_h=1e5, thickness_cm=2)) for salt_g in (300, 1200)
    )
    assert weak < 0.95 < strong < 1.02
    cells = let_in("vegetable")
    assert cells is not None
    assert np.all(np.diff([cells.dead(percent) for percent in range(0, 15)]) >= 0)
    assert (cells.dead(cells.die_from), cells.dead(cells.dead_at)) == (0.0, 1.0)
