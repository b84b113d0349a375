"""Cabbage under its own brine: dry-salted leaves give water, and the brine is eaten or is not."""

from __future__ import annotations

import copy

import numpy as np
import pytest
from saltledger.core.errors import InvalidRequest
from saltledger.recipe.pool_rows import ROW, SODIUM, WATER, WEIGHT

from tests.recipe.dishes import SALT, answered, codes, cooked, item, part, recipe, step
from tests.recipe.dishes import WATER as TAP

CABBAGE, CUCUMBER = "11109", "11205"


def kraut(*hours, salt_g=45, cabbage_g=2000, brine=0, into="brine", food=CABBAGE, more=(), **measures):
    """Shredded cabbage with 2.25 % of its weight of salt; brine: the share of it that is eaten."""
    parts = [part("kraut", item(food, cabbage_g), item(SALT, salt_g)), part("brine", eaten_fraction=brine)]
    times = [{} if each is None else {"duration_h": each} for each in hours]
    fermented = [step("ferment", "kraut", into=into, temperature_c=19, **time, **measures) for time in times]
    return recipe([each for each in parts if into or each["id"] != "brine"], [*fermented, *more])


def held(document, place):
    return cooked(document).state.pools.amounts[place]


def test_salted_cabbage_stands_in_its_own_brine_and_both_are_equally_salty():
    pools = cooked(kraut(500)).state.pools.amounts
    drained, brine = pools["eaten"], pools["not_eaten"]
    share = brine[WEIGHT] / (drained + brine)[WEIGHT]
    assert 0.15 < share[0] < 0.35
    strength = drained[SODIUM] / drained[WATER], brine[SODIUM] / brine[WATER]
    np.testing.assert_allclose(*strength, rtol=1e-9)
    salt_percent = drained[SODIUM, 0] / 387.58 / drained[WEIGHT, 0] * 100
    assert 2.0 < salt_percent < 2.5


def test_eaten_with_its_brine_it_is_all_there():
    whole = cooked(recipe([part("kraut", item(CABBAGE, 2000), item(SALT, 45))], [])).eaten
    np.testing.assert_allclose(held(kraut(500, brine=1), "eaten"), whole, rtol=1e-9, atol=1e-9)
    pools = cooked(kraut(500, more=[step("press", "kraut", into="brine")])).state.pools
    np.testing.assert_allclose(sum(pools.amounts.values()), pools.brought, rtol=1e-9, atol=1e-9)


def test_the_brine_takes_sugar_potassium_and_vitamin_c_along():
    brine, all_g = held(kraut(500), "not_eaten"), held(kraut(500, brine=1), "eaten")
    for tag in ("SUGAR", "K", "VITC"):
        assert 0.1 < brine[ROW[tag], 0] / all_g[ROW[tag], 0] < 0.35
    assert brine[ROW["FIBTG"], 0] == 0


@pytest.mark.parametrize("share", [0.1, 0.5, 0.9])
def test_two_times_are_their_sum_and_none_is_none(share):
    whole, parts = held(kraut(30), "eaten"), held(kraut(30 * share, 30 * (1 - share)), "eaten")
    np.testing.assert_allclose(parts, whole, rtol=1e-7, atol=1e-9)
    np.testing.assert_allclose(held(kraut(0), "not_eaten"), 0.0, atol=1e-12)


def test_more_salt_draws_more_and_hours_count():
    drawn = [held(kraut(48, salt_g=grams), "not_eaten")[WATER, 0] for grams in (0, 20, 45, 90)]
    assert drawn == sorted(drawn)
    assert drawn[0] < 0.02 * drawn[2]  # by the little salt of its own
    over_time = [held(kraut(hours), "not_eaten")[WATER, 0] for hours in (1, 6, 24, 200)]
    assert over_time == sorted(over_time)
    assert held(kraut(None), "not_eaten")[WATER, 0] > over_time[-1]


def test_ten_times_as_much_gives_ten_times_the_brine_in_any_order():
    once, tenfold = held(kraut(48), "not_eaten"), held(kraut(48, salt_g=450, cabbage_g=20_000), "not_eaten")
    np.testing.assert_allclose(tenfold, 10 * once, rtol=1e-9, atol=1e-9)
    turned = copy.deepcopy(kraut(48))
    turned["components"].reverse()
    turned["components"][1]["ingredients"].reverse()
    np.testing.assert_allclose(held(turned, "not_eaten"), once, rtol=1e-9, atol=1e-9)


def test_leaves_give_more_than_whole_pieces():
    assert held(kraut(48), "not_eaten")[WATER, 0] > held(kraut(48, food=CUCUMBER), "not_eaten")[WATER, 0]


def test_pressed_at_once_and_fermented_after_it_shrinks_once():
    """Dry-salted leaves that gave their brine have no second one to give."""
    again = kraut(300, 300)
    once = kraut(600)
    np.testing.assert_allclose(held(again, "eaten")[WEIGHT], held(once, "eaten")[WEIGHT], rtol=1e-7)


def test_without_a_place_for_it_the_brine_stays_and_is_told():
    plain = kraut(500, into=None)
    assert codes(answered(plain))["ferment-juice-kept"] == "info"
    raw = {**plain, "steps": []}
    np.testing.assert_allclose(cooked(plain).eaten[SODIUM], cooked(raw).eaten[SODIUM])


def test_in_a_brine_no_other_is_made():
    document = recipe(
        [part("kraut", item(CABBAGE, 900)), part("bath", item(TAP, 900), item(SALT, 40)), part("jar")],
        [step("ferment", "kraut", "bath", into="jar", duration_h=100)],
    )
    with pytest.raises(InvalidRequest) as refused:
        cooked(document)
    assert [fault.pointer for fault in refused.value.faults] == ["/steps/0/into"]
