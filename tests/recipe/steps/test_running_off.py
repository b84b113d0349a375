"""The brine that a dry-salted food makes of its own water, and what runs off of it."""

import numpy as np
from saltledger.recipe.pool_rows import ROW, SODIUM

from ..dishes import CHICKEN, SALT, cooked, item, part, recipe, step

SALMON = "15236"


def salted(salt_g, food=SALMON, **measures):
    usual = {"duration_h": 20, "thickness_cm": 2, "temperature_c": 5} | measures
    parts = [part("side", item(food, 500)), part("salt", item(SALT, salt_g), eaten_fraction=0)]
    return cooked(recipe(parts, [step("dry_cure", "side", "salt", **usual)]))


def test_water_that_runs_off_takes_salt_along_and_water_that_dries_none():
    pools = salted(25).state.pools.amounts
    assert pools["poured_away"][SODIUM].min() > 0
    assert pools["evaporated"][SODIUM].max() == 0
    assert pools["evaporated"][ROW["WATER"], 1:].max() > 0


def test_where_more_of_it_runs_off_less_salt_is_eaten():
    outcome = salted(25)
    eaten = outcome.state.pools.amounts["eaten"][SODIUM]
    remembered = outcome.state.histories["side"].ran_off_salt
    assert np.corrcoef(remembered[1:], eaten[1:])[0, 1] < -0.5


def test_of_little_salt_a_larger_share_stays_in():
    own = salted(0).state.pools.amounts["eaten"][SODIUM, 0]
    shares = [(salted(g).state.pools.amounts["eaten"][SODIUM, 0] - own) / (g * 393.4) for g in (10, 25, 75)]
    assert shares[0] > shares[1] > shares[2] > 0.3


def test_poultry_in_the_cold_dries_more_than_it_drips():
    fish, bird = (
        np.mean(salted(10, food).state.histories["side"].ran_off_salt) for food in (SALMON, CHICKEN)
    )
    assert bird < 0.5 * fish
