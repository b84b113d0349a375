"""What the knife opens: cells that fill with brine at once, give juice under salt, are squeezed first."""

import numpy as np
import pytest
from saltledger.recipe.pool_rows import ROW, SODIUM, WEIGHT

from ..dishes import CARROTS, CHICKEN, SALT, WATER, cooked, item, likely, part, recipe, step

CABBAGE = "11109"
SLICED = {"thickness_cm": 0.4, "temperature_c": 15}


def in_brine(food=CARROTS, *more, **measures):
    """Slices in brine of 5 %, and what is done to them afterwards."""
    return recipe(
        [part("slices", item(food, 500)), part("brine", item(WATER, 950), item(SALT, 50), eaten_fraction=0)],
        [step("brine", "slices", "brine", **(SLICED | measures)), *more],
    )


def rubbed(salt_g=5, *more, food=CARROTS, **measures):
    return recipe(
        [part("slices", item(food, 500)), part("salt", item(SALT, salt_g), eaten_fraction=0)],
        [step("dry_cure", "slices", "salt", **(SLICED | measures)), *more],
    )


def opened(document):
    share = cooked(document).state.histories["slices"].solutes.opened
    return share if isinstance(share, float) else share[0]


def test_cut_faces_are_open_and_skins_leaves_and_flesh_are_not():
    assert opened(in_brine(duration_h=1)) > 0.05
    assert opened(in_brine(duration_h=1, shape="cylinder", thickness_cm=3)) == 0.0
    assert opened(in_brine(CABBAGE, duration_h=1)) == 0.0
    assert opened(in_brine(CHICKEN, duration_h=1)) == 0.0


def test_thin_slices_have_more_of_them_than_thick_ones():
    thin, thick = (opened(in_brine(duration_h=1, thickness_cm=size)) for size in (0.3, 1.5))
    assert thin == pytest.approx(5 * thick)


def test_they_fill_within_minutes_and_no_time_is_nothing():
    none, brief = (likely(in_brine(duration_h=hours)) for hours in (0, 0.1))
    assert none == pytest.approx(likely(in_brine(duration_h=0, shape="cylinder", thickness_cm=3)))
    share = 0.025 * 2 / 0.4
    full_mg = 500 * 0.883 * share * 0.05 / 0.95 * 393.4 * 1000 / 1000
    assert brief - none > 0.8 * full_mg * 0.9


def test_a_squeeze_takes_them_first():
    """The liquid that is squeezed out of slices that were in brine briefly is stronger than what stays."""
    document = in_brine(CARROTS, step("squeeze", "slices", discarded_g=30), duration_h=0.1)
    pools = cooked(document).state.pools.amounts
    before = likely(in_brine(duration_h=0.1))
    kept = pools["eaten"][SODIUM, 0]
    weight = pools["eaten"][WEIGHT, 0]
    assert (before - kept) / 30 > 1.5 * kept / weight


def test_two_squeezes_are_one():
    halves = [step("squeeze", "slices", yield_fraction=0.9), step("squeeze", "slices", yield_fraction=0.9)]
    once = [step("squeeze", "slices", yield_fraction=0.81)]
    two, one = (
        cooked(in_brine(CARROTS, *steps, duration_h=0.2)).state.pools.amounts for steps in (halves, once)
    )
    for tag in ("NA", "K", "SUGAR", "VITC", "WATER"):
        np.testing.assert_allclose(two["eaten"][ROW[tag]], one["eaten"][ROW[tag]], rtol=1e-6)


@pytest.mark.parametrize("make", [in_brine, rubbed])
def test_two_halves_are_the_whole_whatever_was_squeezed_before(make):
    """The cells that were squeezed out fill again, once."""

    def dish(*hours):
        document = make(duration_h=0.3)
        first, bath = document["steps"][0], document["steps"][0]["bath"]
        rest = [step("brine", "slices", bath, **SLICED, duration_h=each) for each in hours]
        document["steps"] = [first, step("squeeze", "slices", yield_fraction=0.9), *rest]
        return cooked(document).state.pools.amounts["eaten"]

    np.testing.assert_allclose(dish(0.25, 0.25), dish(0.5), rtol=1e-6)


def test_rubbed_slices_give_their_juice_at_once_and_chunks_less():
    chunks, slices = (rubbed(duration_h=0.1, thickness_cm=size) for size in (2, 0.3))
    weights = [cooked(each).state.pools.amounts["eaten"][WEIGHT, 0] for each in (chunks, slices)]
    assert weights[1] < weights[0] < 503
    assert weights[1] < 470


def test_salt_that_lies_is_taken_faster_than_from_the_brine_that_it_makes():
    """A rub of ten minutes is a saturated brine: thick pieces take a good half of it."""
    share = (likely(rubbed(duration_h=1 / 6, thickness_cm=2)) - likely(rubbed(0))) / (5000 * 0.3934)
    assert 0.4 < share < 0.8
