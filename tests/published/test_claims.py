"""Sodium claims against 21 CFR 101.61, 101.13, 89 FR 106064 and Regulation (EC) No 1924/2006, annex."""

import pytest
from saltledger.core.spread import Spread
from saltledger.nutrition.claims import sodium_claims

# Claim, class of dish, basis, the most that meets it, the least that does not (mg of sodium on that basis).
LIMITS = [
    ("sodium_free", "vegetable", "per_reference_amount", 4.99, 5.0),
    ("very_low_sodium", "vegetable", "per_reference_amount", 35.0, 35.01),
    ("low_sodium", "vegetable", "per_reference_amount", 140.0, 140.01),
    ("low_sodium", "cookie", "per_50g_if_small", 140.0, 140.01),
    ("very_low_sodium", "main_dish", "per_100g", 35.0, 35.01),
    ("low_sodium", "meal", "per_100g", 140.0, 140.01),
    ("disclosure_level", "vegetable", "per_reference_amount", 480.0, 480.01),
    ("disclosure_level", "main_dish", "per_serving", 720.0, 720.01),
    ("disclosure_level", "meal", "per_serving", 960.0, 960.01),
    ("healthy_sodium", "bread", "per_reference_amount", 230.0, 230.01),
    ("healthy_sodium", "mixed_dish", "per_reference_amount", 345.0, 345.01),
    ("healthy_sodium", "dressing", "per_reference_amount", 115.0, 115.01),
    ("healthy_sodium", "main_dish", "per_serving", 460.0, 460.01),
    ("healthy_sodium", "meal", "per_serving", 690.0, 690.01),
    ("eu_sodium_free", "mixed_dish", "per_100g", 5.0, 5.01),
    ("eu_very_low_sodium", "mixed_dish", "per_100g", 40.0, 40.01),
    ("eu_low_sodium", "mixed_dish", "per_100g", 120.0, 120.01),
]
REFERENCE_G = {"vegetable": 85.0, "bread": 50.0, "mixed_dish": 140.0, "dressing": 30.0, "cookie": 30.0}
SERVING_G = 50.0


def is_met(claim, dish_class, basis, sodium_mg):
    grams = {
        "per_reference_amount": REFERENCE_G.get(dish_class),
        "per_50g_if_small": 50.0,
        "per_100g": 100.0,
        "per_serving": SERVING_G,
    }[basis]
    per_100g = Spread.exact(sodium_mg * 100 / grams)
    per_serving = per_100g.scaled(SERVING_G / 100)
    found = sodium_claims(per_serving, per_100g, serving_weight_g=SERVING_G, dish_class=dish_class)
    return next(each["met_at_likely"] for each in found if each["id"] == claim)


@pytest.mark.parametrize(("claim", "dish_class", "basis", "most", "too_much"), LIMITS)
def test_a_limit_is_met_up_to_its_figure_and_no_further(claim, dish_class, basis, most, too_much):
    assert is_met(claim, dish_class, basis, most)
    assert not is_met(claim, dish_class, basis, too_much)
