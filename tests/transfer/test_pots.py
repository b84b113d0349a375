import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from saltledger.core.tables import rows
from saltledger.transfer.pots import (
    cooking_course,
    cooking_yield,
    drip_share,
    mobile_share,
    partition,
    pot_fourier,
    pot_kinds,
    shrinkage,
)

from tests.diffusion.pieces import mean_reached

METHODS = ("simmer", "boil", "steam", "roast", "fry")
kinds = st.sampled_from(sorted(pot_kinds()))
hours = st.floats(0, 100)


def test_every_kind_of_the_sorting_table_is_known():
    sorted_to = {row["kind"] for row in rows("food_kinds") if row["purpose"] == "pot"} - {"-"}
    assert sorted_to <= set(pot_kinds())


@given(kinds, hours, st.floats(0.1, 20), st.floats(20, 120))
def test_time_in_the_pot_counts_in_proportion(kind, duration_h, thickness_cm, temperature_c):
    once = pot_fourier(kind, duration_h, thickness_cm, temperature_c).spread
    twice = pot_fourier(kind, 2 * duration_h, thickness_cm, temperature_c).spread
    assert 0 <= once.low <= once.likely <= once.high
    assert twice.likely == pytest.approx(2 * once.likely)


def test_thick_and_cool_is_slower():
    assert pot_fourier("meat", 3, 5).spread.likely > 3.9 * pot_fourier("meat", 3, 10).spread.likely
    warm, hot = (pot_fourier("meat", 3, 5, celsius).spread.likely for celsius in (70, 95))
    assert 0.5 < warm / hot < 0.75


def test_a_measured_thickness_narrows_the_range():
    guessed, measured = pot_fourier("meat", 3).spread, pot_fourier("meat", 3, 5).spread
    assert measured.high / measured.low < guessed.high / guessed.low
    assert measured.likely == pytest.approx(guessed.likely)


@pytest.mark.parametrize("kind", ["pasta", "rice", "noodles"])
def test_small_starches_are_all_but_at_rest_when_done(kind):
    fourier = pot_fourier(kind, 0.2).spread.likely
    assert mean_reached(fourier, math.inf, pot_kinds()[kind].shape) > 0.9


@pytest.mark.parametrize("method", METHODS)
@pytest.mark.parametrize("kind", [*sorted(pot_kinds()), None])
def test_every_kind_has_a_yield_by_every_method(kind, method):
    cooked = cooking_yield(kind, method)
    assert 0 < cooked.weight.low <= cooked.weight.high < 5
    assert 0 <= cooked.fat_kept.low <= cooked.fat_kept.high <= 1
    assert cooked.source


@given(st.sampled_from(["meat", "poultry", "fish"]), hours, hours)
def test_meat_only_shrinks_in_the_pot(kind, one_h, other_h):
    short, long = sorted((one_h, other_h))
    before, after = cooking_yield(kind, "simmer", short).weight, cooking_yield(kind, "simmer", long).weight
    assert after.likely <= before.likely + 1e-12


def test_no_time_in_the_pot_loses_nothing():
    assert cooking_yield("meat", "simmer", 0).weight.is_exact
    assert cooking_yield("pasta", "boil", 0).weight.likely == 1


def test_yields_come_to_an_end_by_halves():
    course = cooking_course("meat", "simmer")
    end = course.after(1e6).weight.likely
    gaps = [course.after(n * course.half_h).weight.likely - end for n in range(4)]
    assert gaps == pytest.approx([gaps[0] / 2**n for n in range(4)])
    assert course.after(course.usual_h) == course.usual


@given(st.floats(-20, 300), st.floats(-20, 300))
def test_meat_hardly_shrinks_below_60_degrees_and_never_less_when_hotter(one_c, other_c):
    cooler, hotter = sorted((one_c, other_c))
    assert shrinkage(cooler) <= shrinkage(hotter)
    assert shrinkage(20) == 0
    assert shrinkage(59) < 0.25
    assert shrinkage(100) == shrinkage(None) == 1


def test_unknown_method():
    with pytest.raises(KeyError):
        cooking_yield("meat", "sing")


def test_partition_is_near_one():
    for kind in pot_kinds():
        assert 0.8 <= partition(kind).spread.low <= 1 <= partition(kind).spread.high + 1e-12


def test_salts_are_all_mobile_and_fat_is_not():
    sodium = mobile_share("NA")
    assert sodium is not None
    assert sodium.spread.low == 1
    assert mobile_share("FAT") is None


def test_vegetables_drip_less_than_meat():
    assert drip_share("vegetable", "roast").spread.likely < drip_share("meat", "roast").spread.low
    assert drip_share(None, "steam").spread.high == 1


@pytest.mark.parametrize(
    "name", ["pot_exchange", "cooking_yields", "leaching", "fat_uptake", "coatings", "drained_cans", "drip"]
)
def test_every_row_has_a_source(name):
    assert all(row["source"].strip() for row in rows(name))


def test_diffusivities_stay_below_free_water():
    assert all(kind.diffusivity_m2_s.high < 5e-9 for kind in pot_kinds().values())


@pytest.mark.parametrize("kind", ["meat", "potato", "pasta"])
def test_the_time_in_a_pot_joins_the_ranges_of_speed_and_of_size(kind):
    """As independent ones, on logarithms; size counts by its square."""
    held = pot_kinds()[kind]
    speed, size = held.diffusivity_m2_s, held.thickness_cm
    known, usual = pot_fourier(kind, 1.0, size.likely).spread, pot_fourier(kind, 1.0).spread
    assert known.low / known.likely == pytest.approx(speed.low / speed.likely)
    assert known.high / known.likely == pytest.approx(speed.high / speed.likely)
    for end, other in (("low", "high"), ("high", "low")):
        by_speed = math.log(getattr(speed, end) / speed.likely)
        by_size = 2 * math.log(getattr(size, other) / size.likely)
        found = math.log(getattr(usual, end) / usual.likely)
        assert abs(found) == pytest.approx(math.hypot(by_speed, by_size))


def test_a_simmer_is_slower_than_a_boil_by_the_warmth_of_water():
    """18 kJ a mole, as for salt in water, by Arrhenius from 95 to 80 C."""
    ratio = (
        pot_fourier("meat", 1.0, temperature_c=80.0).spread.likely / pot_fourier("meat", 1.0).spread.likely
    )
    assert ratio == pytest.approx(math.exp(-18000 / 8.314 * (1 / 353.15 - 1 / 368.15)), rel=1e-3)
    assert pot_fourier("meat", 1.0, temperature_c=95.0) == pot_fourier("meat", 1.0)
