"""What flesh loses by its core, and how soon a piece of stated size is there."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from saltledger.core.spread import Spread
from saltledger.diffusion.geometry import Body
from saltledger.transfer.core_heat import Heating, centre_course
from saltledger.transfer.warming import FLESH, cooked_through, core_weight, is_flesh, warming_half_h

BOIL, ROAST = Heating("boil", None, 0.0), Heating("roast", 180.0, 0.0)
CELSIUS = st.floats(min_value=0.0, max_value=100.0)


@given(kind=st.sampled_from(FLESH), cooler=CELSIUS, warmer=CELSIUS)
def test_the_warmer_the_core_the_less_is_left(kind, cooler, warmer):
    cooler, warmer = sorted((cooler, warmer))
    less, more = core_weight(kind, warmer).spread, core_weight(kind, cooler).spread
    assert less.likely <= more.likely <= 1
    assert less.low <= less.likely <= less.high


def test_what_is_cold_has_lost_nothing_and_what_is_hotter_than_the_table_no_more_than_its_end():
    assert core_weight("meat", 0.0).spread.likely == 1
    assert core_weight("meat", 130.0).spread == core_weight("meat", 100.0).spread


def test_finer_kinds_lose_as_their_kind_and_shellfish_as_fish():
    assert core_weight("meat/lamb", 70.0) == core_weight("meat", 70.0)
    assert core_weight("shellfish", 70.0) == core_weight("fish", 70.0)
    assert is_flesh("poultry/with_skin")
    assert not any(map(is_flesh, ("potato", "bone", "cooked_meat", None)))


@given(kind=st.sampled_from(("meat", "poultry")), celsius=st.floats(min_value=40, max_value=100))
def test_minced_flesh_keeps_more_of_its_juice(kind, celsius):
    minced, whole = (core_weight(of, celsius).spread for of in (f"{kind}/ground", kind))
    assert minced.likely >= whole.likely
    assert minced.high > whole.high


def test_a_breast_to_66_degrees_lies_where_a_kitchen_weighed_it():
    assert core_weight("poultry", 66.0).spread.low < 0.83 < core_weight("poultry", 66.0).spread.high


@given(thickness=st.floats(min_value=0.3, max_value=20.0))
def test_in_water_twice_as_thick_takes_three_to_four_times_as_long(thickness):
    once, twice = (warming_half_h(Body("sheet", size), BOIL) for size in (thickness, 2 * thickness))
    assert 3 < twice / once <= 4


@pytest.mark.parametrize("heating", [BOIL, ROAST])
def test_half_of_the_loss_has_come_before_the_centre_is_half_done_and_not_long_before(heating):
    """The centre by the whole series of core_heat, to 62 °C."""
    body = Body("sheet", 5.0)
    hours = warming_half_h(body, heating)
    long = Heating(heating.kind, heating.surroundings_c, 4 * hours)
    course = centre_course((long,), "beef", body, Spread.exact(5.0))
    reached = next(minute for minute, c in zip(course.minutes, course.likely_c, strict=True) if c >= 62)
    assert hours / 1.4 < reached / 60 < 1.8 * hours


def test_edges_hasten_and_a_bag_that_is_no_warmer_than_the_food_does_nothing():
    sheet, brick = Body("sheet", 3.0), Body("brick", 3.0, 3.0, 3.0)
    assert warming_half_h(brick, BOIL) < warming_half_h(sheet, BOIL)
    assert warming_half_h(sheet, Heating("steam", 5.0, 0.0)) == float("inf")


def test_what_nobody_sized_is_soonest_done_in_a_pot():
    likely = {way: cooked_through(way).spread.likely for way in ("pot", "steam", "roast", "fry")}
    assert min(likely, key=likely.get) == "pot"
    assert max(likely, key=likely.get) == "roast"
