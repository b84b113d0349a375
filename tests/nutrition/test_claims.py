"""Sodium claims: the condition that binds, what is met still at the high figure, how far the rest miss."""

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from saltledger.core.errors import InvalidRequest
from saltledger.core.spread import Spread
from saltledger.nutrition.claims import conditions, sodium_claims

BASES = {"per_serving", "per_100g", "per_reference_amount", "per_50g_if_small"}


def claims(per_100g_mg, serving_g=100.0, dish_class=None):
    per_100g = per_100g_mg if isinstance(per_100g_mg, Spread) else Spread.exact(per_100g_mg)
    found = sodium_claims(
        per_100g.scaled(serving_g / 100), per_100g, serving_weight_g=serving_g, dish_class=dish_class
    )
    return {claim["id"]: claim for claim in found}


def test_the_rows_of_one_claim_stand_together():
    ids = [condition.id for condition in conditions()]
    changes = sum(a != b for a, b in pairwise(ids))
    assert changes + 1 == len(set(ids))
    assert {condition.basis for condition in conditions()} <= BASES


def test_a_claim_may_be_met_at_the_likely_figure_and_not_at_the_high_one():
    low = claims(Spread(90.0, 130.0, 150.0), dish_class="meat_entree", serving_g=85)["low_sodium"]
    assert low["amount_mg"]["likely"] == pytest.approx(110.5)
    assert (low["met_at_likely"], low["met_at_high"]) == (True, True)
    low = claims(Spread(90.0, 130.0, 180.0), dish_class="meat_entree", serving_g=85)["low_sodium"]
    assert (low["met_at_likely"], low["met_at_high"]) == (True, False)
    assert low["misses_by_mg"] == 0
    assert low["misses_by_mg_at_high"] == pytest.approx(13)


def test_the_condition_that_is_missed_by_most_is_the_one_shown():
    """A pickle: 30 g hold 120 mg, which is low; but 50 g hold 200 mg."""
    low = claims(400.0, serving_g=30, dish_class="pickles")["low_sodium"]
    assert (low["basis"], low["met_at_likely"]) == ("per_50g_if_small", False)
    assert low["misses_by_mg"] == pytest.approx(60)
    assert [each["basis"] for each in low["conditions"]] == ["per_reference_amount", "per_50g_if_small"]


def test_the_serving_counts_beside_the_reference_amount():
    """140 g hold 420 mg, below the disclosure level of 480 mg; a serving of 300 g holds 900 mg."""
    found = claims(300.0, serving_g=300, dish_class="mixed_dish")["disclosure_level"]
    assert (found["basis"], found["met_at_likely"], found["misses_by_mg"]) == ("per_serving", False, 420)


def test_a_meal_has_its_own_limits():
    assert claims(300.0, serving_g=300, dish_class="meal")["disclosure_level"]["met_at_likely"]
    assert not claims(300.0, serving_g=300, dish_class="main_dish")["disclosure_level"]["met_at_likely"]
    assert claims(140.0, serving_g=300, dish_class="main_dish")["low_sodium"]["basis"] == "per_100g"


def test_without_a_dish_class_the_serving_stands_in_and_that_is_said():
    found = claims(100.0, serving_g=250)
    assert found["low_sodium"]["amount_mg"]["likely"] == 250
    assert "Name dish_class" in found["low_sodium"]["note"]
    assert found["eu_low_sodium"]["note"] == ""


def test_a_reference_amount_by_volume_is_said_to_need_weighing():
    found = claims(100.0, serving_g=250, dish_class="mixed_dish_cup")["low_sodium"]
    assert found["note"].startswith("The reference amount is 1 cup")


def test_free_is_strictly_below_its_limit():
    at_limit = claims(5.0, serving_g=100)["sodium_free"]
    assert (at_limit["met_at_likely"], at_limit["misses_by_mg"]) == (False, 0)
    assert claims(4.999, serving_g=100)["sodium_free"]["met_at_likely"]


def test_binary_noise_does_not_lose_a_claim():
    assert claims(140.00000000000003, serving_g=100)["low_sodium"]["met_at_likely"]


def test_an_unknown_dish_class_is_named():
    with pytest.raises(InvalidRequest, match="There is no class of dish 'stew'"):
        claims(100.0, dish_class="stew")


@given(
    st.floats(0, 2000), st.floats(0, 1), st.floats(10, 500), st.sampled_from([None, "cookie", "soup", "meal"])
)
@settings(max_examples=100)
def test_what_is_met_at_the_high_figure_is_met_at_the_likely_one(high, share, serving_g, dish_class):
    spread = Spread(0.0, high * share, high)
    for claim in claims(spread, serving_g, dish_class).values():
        assert claim["met_at_likely"] or not claim["met_at_high"]
        assert claim["misses_by_mg"] <= claim["misses_by_mg_at_high"]


def test_a_judgement_is_said_in_words_and_not_made_where_sodium_was_not_counted():
    assert claims(100.0)["low_sodium"]["judgement"] == "met"
    assert claims(150.0)["low_sodium"]["judgement"] == "not met"
    unsure = sodium_claims(Spread.exact(1), Spread.exact(1), serving_weight_g=100, complete=False)
    assert {claim["judgement"] for claim in unsure} == {"cannot be assessed"}
    assert {claim["met"] for claim in unsure} == {None}


def test_a_class_whose_reference_amount_has_a_weight_needs_no_note():
    assert {claim["note"] for claim in claims(100.0, dish_class="pickles").values()} == {""}


@pytest.mark.parametrize(("reference", "small"), [("pickles", True), ("meat_entree", False)])
def test_fifty_grams_count_for_small_reference_amounts_alone(reference, small):
    """21 CFR 101.61(b)(4): a reference amount of 30 g or less; pickles 30 g, entrees 85 g (101.12(b))."""
    low = claims(100.0, dish_class=reference)["low_sodium"]
    assert ("per_50g_if_small" in {each["basis"] for each in low["conditions"]}) is small


def test_a_claim_by_weight_misses_by_what_a_reference_amount_holds_too_much():
    low = claims(200.0, serving_g=500, dish_class="meat_entree")["low_sodium"]
    assert low["amount_mg"]["likely"] == pytest.approx(170)
    assert low["misses_by_mg"] == pytest.approx(30)


@pytest.mark.parametrize(
    ("open_mg", "judgement"), [(0.0, "met"), (30.0, "met"), (60.0, "cannot be assessed")]
)
def test_a_claim_that_hangs_on_an_open_question_is_not_granted(open_mg, judgement):
    """100 mg in a serving of 100 g; an open question may add so much, and the limit is 140 mg."""
    spread = Spread.exact(100.0)
    found = sodium_claims(spread, spread, serving_weight_g=100, open_mg=open_mg)
    low = next(claim for claim in found if claim["id"] == "low_sodium")
    assert low["judgement"] == judgement
    assert (low["met"] is None) is (judgement == "cannot be assessed")


def test_what_is_missed_already_is_missed_whatever_is_answered():
    spread = Spread.exact(150.0)
    found = sodium_claims(spread, spread, serving_weight_g=100, open_mg=500.0)
    assert {claim["judgement"] for claim in found if claim["id"] == "low_sodium"} == {"not met"}
