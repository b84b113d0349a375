"""Retention, yields and alcohol: the nearest factor there is, in bounds, and no loss counted twice."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from saltledger.core.tables import rows
from saltledger.foods.dataset import bundled
from saltledger.foods.nutrients import INDEX, NUTRIENTS
from saltledger.nutrition.alcohol import alcohol_kept
from saltledger.nutrition.retention import factor, heat_labile, heat_retention, retention
from saltledger.nutrition.treatments import kinds, treatments
from saltledger.seed_foods import derive_factors

any_kind = st.sampled_from([*kinds(), None, "unheard of"])
any_treatment = st.sampled_from([*treatments()])


@given(any_kind, any_treatment)
def test_factors_are_shares_in_order(kind, treatment):
    for found in (retention(kind, treatment), heat_retention(kind, treatment)):
        assert found.likely.shape == (len(NUTRIENTS),)
        assert (found.low >= 0).all()
        assert (found.low <= found.likely).all()
        assert (found.likely <= found.high).all()
        assert (found.high <= 1).all()


@given(any_kind, any_treatment)
def test_heat_destroys_no_element_and_no_water(kind, treatment):
    found = heat_retention(kind, treatment)
    for tag in ("WATER", "NA", "K", "CA", "FE", "PROCNT", "FAT", "ENERC"):
        assert found.low[INDEX[tag]] == 1, tag


@given(any_kind, any_treatment)
def test_water_and_energy_follow_from_other_figures(kind, treatment):
    found = retention(kind, treatment)
    assert found.likely[INDEX["WATER"]] == found.likely[INDEX["ENERC"]] == 1


def test_braised_meat_leaves_sodium_in_the_pot():
    kept = factor("meat", "braise", "NA")
    assert kept.kept.likely == pytest.approx(0.6, abs=0.03)
    assert kept.pairs > 100
    assert kept.mark == "derived"


def test_what_heat_leaves_is_no_less_than_the_total():
    for treatment in ("boil_drained", "roast"):
        total, heat = retention("meat", treatment), heat_retention("meat", treatment)
        places = [INDEX[tag] for tag in heat_labile()]
        assert (heat.likely[places] >= total.likely[places] - 1e-9).all()


def test_what_is_eaten_with_its_liquid_keeps_all_that_heat_does_not_destroy():
    found = retention("vegetable", "boil_with_liquid")
    assert found.likely[INDEX["K"]] == 1
    assert found.likely[INDEX["VITC"]] == factor("vegetable", "boil_drained", "VITC", "heat").kept.likely


def test_not_heated_is_not_changed():
    assert (retention("meat", "none").low == 1).all()


def test_a_near_treatment_stands_in_before_a_near_kind():
    assert factor("leaf", "steam", "CA").kept == factor("leaf", "boil_little_drained", "CA").kept
    assert factor("sausage", "roast", "NA") == factor("meat", "roast", "NA")


def test_what_no_factor_is_known_for_is_kept_and_that_is_said():
    found = factor("dairy", "boil_with_liquid", "CA")
    assert (found.kept.likely, found.mark) == (1.0, "assumed")


@pytest.mark.parametrize("ask", [retention, heat_retention])
def test_an_unknown_treatment_is_named(ask):
    with pytest.raises(ValueError, match="no heat treatment 'sun'; it is one of: boil_drained"):
        ask("meat", "sun")


def test_the_derived_tables_are_those_that_the_dataset_gives(capsys):
    assert derive_factors.main(["--check"]) == 0


def test_pairs_are_one_food_raw_and_cooked():
    found = {(pair.raw.name, pair.cooked.name): pair for pair in derive_factors.pairs(bundled())}
    carrots = found["Carrots, raw", "Carrots, cooked, boiled, drained, without salt"]
    assert (carrots.kind, carrots.treatment) == ("vegetable", "boil_drained")
    assert carrots.gained == pytest.approx((100 - 88.29) / (100 - 90.17))
    assert not [name for _, name in found if "with salt" in name or "breaded" in name]
    assert len({cooked for _, cooked in found}) == len(found)


def test_every_treatment_that_stands_in_is_one():
    for row in rows("heat_treatments"):
        assert set(row["instead"].split()) <= set(treatments())
    assert set(kinds().values()) <= {*kinds(), ""}
    assert heat_labile() <= set(INDEX)


def test_alcohol_runs_straight_between_the_published_times():
    assert alcohol_kept("stirred_in", 45).likely == pytest.approx(0.30)
    kept = [alcohol_kept("stirred_in", minutes) for minutes in range(0, 200, 10)]
    assert all(0 <= each.low <= each.high <= 1 for each in kept)
    assert np.all(np.diff([each.likely for each in kept]) <= 0)


def test_an_unknown_method_for_alcohol_is_named():
    with pytest.raises(ValueError, match="no method 'frozen' for alcohol; it is one of: stirred_in"):
        alcohol_kept("frozen")
