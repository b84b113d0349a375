"""Retention, yields and alcohol: the nearest factor there is, in bounds, and no loss counted twice."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from saltledger.core.tables import rows
from saltledger.foods.dataset import bundled
from saltledger.foods.nutrients import INDEX, NUTRIENTS
from saltledger.nutrition.retention import (
    alcohol_kept,
    factor,
    heat_labile,
    heat_retention,
    kinds,
    treatments,
)
from saltledger.seed_foods import derive_factors

any_kind = st.sampled_from([*kinds(), None, "unheard of"])
any_treatment = st.sampled_from([*treatments(), "none"])


@given(any_kind, any_treatment)
def test_factors_are_shares_in_order(kind, treatment):
    found = heat_retention(kind, treatment)
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


def test_not_heated_is_not_changed():
    assert (heat_retention("meat", "none").low == 1).all()


def test_a_near_treatment_stands_in_before_a_near_kind():
    assert factor("noodles", "steam", "THIA") == factor("noodles", "boil_drained", "THIA")
    assert factor("sausage", "roast", "THIA") == factor("meat", "roast", "THIA")


def test_what_no_factor_is_known_for_is_kept_and_that_is_said():
    found = factor("meat", "boil_with_liquid", "VITC")
    assert (found.kept.likely, found.mark) == (1.0, "assumed")


def test_an_unknown_treatment_is_named():
    with pytest.raises(ValueError, match="no heat treatment 'sun'; it is one of: boil_drained"):
        heat_retention("meat", "sun")


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
    assert alcohol_kept(45).likely == pytest.approx(0.30)
    kept = [alcohol_kept(minutes) for minutes in range(0, 200, 10)]
    assert all(0 <= each.low <= each.high <= 1 for each in kept)
    assert np.all(np.diff([each.likely for each in kept]) <= 0)
