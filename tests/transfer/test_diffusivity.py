import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from saltledger.core.errors import NotFound
from saltledger.core.spread import Spread, product
from saltledger.core.tables import rows
from saltledger.transfer.diffusivity import effective_diffusivity, food_classes, solutes

FREE_WATER_25C = 16e-10


@pytest.mark.parametrize("food_class", food_classes())
@pytest.mark.parametrize("solute", solutes())
def test_every_pair_has_a_plausible_figure(food_class, solute):
    cold, warm = (effective_diffusivity(food_class, solute, at).spread for at in (3.0, 25.0))
    assert 0 < cold.low < cold.likely < cold.high < FREE_WATER_25C
    assert cold.likely < warm.likely < FREE_WATER_25C


@given(st.sampled_from(food_classes()), st.floats(-2, 99), st.floats(0.1, 50))
@settings(max_examples=50)
def test_warmth_speeds_it(food_class, temperature_c, more):
    cold = effective_diffusivity(food_class, "salt", temperature_c).spread.likely
    warm = effective_diffusivity(food_class, "salt", min(temperature_c + more, 100)).spread.likely
    assert warm > cold


def test_the_table_itself_at_its_temperature():
    for row in rows("diffusivities"):
        water = float(row["water_percent"]) if row["water_percent"] else None
        name = row["of_class"] or row["food_class"]
        spread = effective_diffusivity(name, "salt", float(row["temperature_c"]), water).spread
        expected = [1e-10 * float(row[part]) for part in ("low", "likely", "high")]
        assert [spread.low, spread.likely, spread.high] == pytest.approx(expected)


def test_a_moist_cheese_takes_salt_faster_and_a_known_one_is_less_uncertain():
    hard, moist = (effective_diffusivity("cheese", "salt", 12.5, water).spread for water in (36.0, 55.0))
    unknown = effective_diffusivity("cheese", "salt", 12.5).spread
    assert hard.likely < unknown.likely < moist.likely
    assert all(known.high / known.low < unknown.high / unknown.low for known in (hard, moist))


def test_between_two_waters_a_straight_line_and_other_foods_do_not_ask():
    at = [effective_diffusivity("cheese", "salt", 12.5, water).spread.likely for water in (41.0, 46.0, 51.0)]
    assert at[1] == pytest.approx((at[0] + at[2]) / 2)
    assert effective_diffusivity("pork", "salt", 5.0, 70.0) == effective_diffusivity("pork", "salt", 5.0)


def test_far_from_its_temperature_the_range_is_wider():
    near, far = (effective_diffusivity("pork", "salt", at).spread for at in (5.0, 60.0))
    assert far.high / far.low > near.high / near.low


def test_temperatures_beyond_liquid_water_are_held_at_the_edge():
    assert effective_diffusivity("pork", "salt", 180.0) == effective_diffusivity("pork", "salt", 100.0)
    assert effective_diffusivity("pork", "salt", -18.0) == effective_diffusivity("pork", "salt", -2.0)


def test_every_figure_says_where_it_is_from():
    for food_class in food_classes():
        for solute in solutes():
            assert len(effective_diffusivity(food_class, solute, 4.0).source) > 10
    assert "on the way" in effective_diffusivity("beef", "nitrite", 4.0).source


def test_unknown_names_are_refused():
    with pytest.raises(NotFound, match="food class 'granite'"):
        effective_diffusivity("granite", "salt", 4.0)
    with pytest.raises(NotFound, match="solute 'gold'"):
        effective_diffusivity("beef", "gold", 4.0)


def test_product_of_spreads():
    doubled = product(Spread(1.0, 2.0, 4.0), Spread.exact(2.0))
    assert (doubled.low, doubled.likely, doubled.high) == pytest.approx((2.0, 4.0, 8.0))
