"""Ingoing nitrite against worked examples of the formulas of FSIS Directive 7620.3, and its limits.

Marks: seen second hand = the example was seen on a page that applies the directive's formula; computed = our
own arithmetic on stated inputs, done apart from the code. The directive's own examples were not seen.
"""

import pytest
from saltledger.curing.agents import (
    curing_salt,
    equilibrium_ppm,
    mixed_in_ppm,
    permitted_in_pumped_g,
    permitted_mix_g,
    pumped_ppm,
    smallest_meat_g,
)
from saltledger.curing.assessment import assess
from saltledger.curing.curing_limits import limit_for
from saltledger.recipe.single_bath import bath_answer
from saltledger.transfer.bath_requests import BathRequest

from ..recipe.dishes import CURING_SALT, PORK, SALT, SUGAR, WATER, answered, item, part, recipe, step

NO2_TO_NANO2 = (22.990 + 14.007 + 2 * 15.999) / (14.007 + 2 * 15.999)
"""Grams of sodium nitrite per gram of nitrite ion, by the standard atomic weights."""
OZ_G = 28.349523125
LB_G = 453.59237


def test_quarter_ounce_in_a_hundred_pounds_chopped():
    """9 CFR 424.21(c), quoted in four places: 156 ppm (seen second hand)."""
    assert mixed_in_ppm(0.25 * OZ_G, 100 * LB_G) == pytest.approx(156.25)
    assert limit_for("comminuted").limit_ppm == pytest.approx(156.25)


def test_an_ounce_on_a_hundred_pounds_dry():
    """9 CFR 424.21(c): 625 ppm (seen second hand)."""
    assert mixed_in_ppm(OZ_G, 100 * LB_G) == pytest.approx(625)
    assert limit_for("dry_cured").limit_ppm == 625


def test_curing_salt_at_two_and_a_half_grams_a_kilo():
    """2.5 g of 6.25 % per kg: 156.25 ppm (seen second hand)."""
    assert mixed_in_ppm(2.5 * curing_salt("type_1").nitrite_share, 1000) == pytest.approx(156.25)


def test_pickle_pumped_at_ten_percent():
    """1,266 g pickle with 32 g curing salt of 5.88 %: 148.6 ppm (seen second hand, recomputed 148.63)."""
    pickle_g = 1000 + 110 + 124 + 32
    assert pumped_ppm(32 * 0.0588, pickle_g, 0.10) == pytest.approx(148.63, abs=0.01)


def test_salt_that_the_same_pickle_carries_in():
    """120 g of it into 1,200 g meat: 13.28 g salt, 1.006 % of the pumped weight (computed by hand), by
    the engine."""
    pickle = [item(WATER, 1000), item(SALT, 110), item(SUGAR, 124), item(CURING_SALT, 32)]
    document = recipe(
        [part("meat", item(PORK, 1200)), part("pickle", *pickle, eaten_fraction=0)],
        [step("inject", "meat", "pickle", pump_percent=10, product_class="pumped")],
    )
    answer = answered(document)
    carried_mg = next(
        e["mg"] for e in answer["sodium"]["ledger"] if (e["from"], e["to"]) == ("pickle", "meat")
    )
    # Curing salt of 6.25 % nitrite in place of 5.88 %: 2.0 g of nitrite (a third of it sodium), 140.0 g
    # of salt.
    assert carried_mg == pytest.approx(13.27 * 393.37 + 0.19 * 333.2, rel=0.015)
    assert answer["per_serving"]["weight_g"] == pytest.approx(1320, rel=1e-6)


def test_complete_cure_pumped_at_twenty_percent():
    """50 lb cure of 0.75 % in 462.1875 lb pickle: 162 ppm (seen second hand, recomputed 162.27)."""
    pickle_lb = 400 + 50 + (9 + 6 / 16) + (1 + 5 / 16) + 1.5
    assert pickle_lb == 462.1875
    assert pumped_ppm(50 * curing_salt("cure_0_75").nitrite_share, pickle_lb, 0.20) == pytest.approx(
        162.27, abs=0.01
    )


def test_dry_rub_on_bellies():
    """5 lb cure of 0.40 % on 100 lb: 200 ppm, at the limit for dry-cured bacon (seen second hand)."""
    cure = assess(nitrite_g=5 * LB_G * 0.004, meat_g=100 * LB_G, pickle_g=5 * LB_G, product_class="bacon_dry")
    assert cure.judged_ppm == pytest.approx(200)
    assert not cure.is_refused


def test_ham_pumped():
    """5.67 kg ham, 2,066 g pickle with 400 g cure of 0.75 %, 10 %: 145 ppm (seen second hand)."""
    assert pumped_ppm(400 * 0.0075, 2066, 0.10) == pytest.approx(145, abs=0.5)


def test_ham_in_all_of_the_pickle_is_refused():
    """The same pickle, all of it, by equilibrium: 388 ppm, over 200 (seen second hand, recomputed 387.8)."""
    cure = assess(nitrite_g=3.0, meat_g=5670, pickle_g=2066, product_class="immersion_cured")
    assert cure.equilibrium_ppm == pytest.approx(387.8, abs=0.05)
    assert cure.judged_ppm == cure.equilibrium_ppm
    assert cure.is_refused
    assert "cure-nitrite-over-limit" in {notice.code for notice in cure.notices}


def test_dry_cure_of_a_pound():
    """0.70 g of 6.25 % on 454 g: 96 ppm (seen second hand)."""
    assert mixed_in_ppm(0.70 * 0.0625, 454) == pytest.approx(96, abs=0.5)


def test_pumped_bacon_turned_round():
    """100 lb pickle, 20 % pump, 120 ppm: 0.06 lb nitrite (seen second hand)."""
    assert permitted_in_pumped_g(120, 100, 0.20) == pytest.approx(0.06, rel=1e-3)


def test_meat_water_is_not_counted_twice():
    """8 lb brisket in 25 lb water for 150 ppm: a published answer counts the meat's water twice.

    Seen second hand: salt 0.91 lb, sugar 0.60 lb, nitrite 0.0059565 lb. Its system weight (39.71 lb) holds
    the 5.2 lb meat water in "brine" and again in the 8 lb meat; weighed once it is about 34.5 lb.
    """
    published_nitrite_lb = 0.0059565
    meat_lb, pickle_lb = 8.0, 25 + 0.91 + 0.60
    once = permitted_mix_g(150, meat_lb + pickle_lb)
    twice = permitted_mix_g(150, meat_lb + pickle_lb + 0.65 * meat_lb)
    assert meat_lb + pickle_lb == pytest.approx(34.5, abs=0.05)
    assert twice == pytest.approx(published_nitrite_lb, rel=1e-3)
    assert once == pytest.approx(0.00518, abs=1e-5)
    assert equilibrium_ppm(published_nitrite_lb, meat_lb, pickle_lb + published_nitrite_lb) > 170


@pytest.fixture
def kilo_brine():
    """2,000 g brisket, 2,000 g water, 120 g salt; the curing salt is still to come."""
    return {"meat_g": 2000.0, "other_g": 2120.0}


def test_equilibrium_of_twenty_grams_curing_salt(kilo_brine):
    """With 20 g of 6.25 %: 302 ppm, 3.35 % salt, 1,328 mg Na/100 g of the whole (computed)."""
    salt = curing_salt("type_1")
    nitrite_g, pickle_g = 20 * salt.nitrite_share, kilo_brine["other_g"] + 20
    system_g = kilo_brine["meat_g"] + pickle_g
    assert equilibrium_ppm(nitrite_g, kilo_brine["meat_g"], pickle_g) == pytest.approx(302, abs=0.5)
    # At rest in four kilos that are water alone: the 138.75 g of salt are shared by weight.
    bath = {
        "food": {
            "class": "beef",
            "weight_g": 2000,
            "shape": "sheet",
            "thickness_cm": 4,
            "water_fraction": 1.0,
        },
        "bath": {"water_g": 2000, "salt_g": 120 + 20 * salt.salt_share, "nitrite_g": nitrite_g},
        "temperature_c": 3,
        "duration_h": 72,
    }
    at_rest = bath_answer(BathRequest.from_document(bath))
    assert at_rest["nitrite"]["equilibrium_ppm"] == pytest.approx(302, abs=0.5)
    assert at_rest["equilibrium"]["salt_percent_in_food"] == pytest.approx(100 * 138.75 / system_g, rel=0.05)


@pytest.mark.parametrize(("limit_ppm", "mix_g"), [(200, 13.23), (150, 9.91), (120, 7.93)])
def test_curing_salt_for_a_wanted_figure(kilo_brine, limit_ppm, mix_g):
    """m = T W / (f - T), W all other weights (computed)."""
    found = permitted_mix_g(limit_ppm, kilo_brine["meat_g"] + kilo_brine["other_g"], 0.0625)
    assert found == pytest.approx(mix_g, abs=0.005)
    pickle_g = kilo_brine["other_g"] + found
    assert equilibrium_ppm(found * 0.0625, kilo_brine["meat_g"], pickle_g) == pytest.approx(limit_ppm)


def test_methods_differ_five_fold(kilo_brine):
    """The 20 g pickle at 10 % pick-up: 58.4 ppm by method one, 302 by method two (computed)."""
    cure = assess(nitrite_g=1.25, meat_g=2000, pickle_g=2140, product_class="immersion_cured")
    assert cure.pick_up_ppm == pytest.approx(58.4, abs=0.05)
    assert cure.equilibrium_ppm / cure.pick_up_ppm == pytest.approx(5.17, abs=0.01)
    assert cure.is_refused


@pytest.mark.parametrize(
    ("pounds_a_gallon", "ppm"), [(8.33, 240.1), (8.935, 223.8), (9.579, 208.8), (9.996, 200.1)]
)
def test_two_pounds_a_hundred_gallons_is_200_only_for_heavy_pickle(pounds_a_gallon, ppm):
    """9 CFR 424.21(c) by volume at 10 % pump, 0, 10, 20 and 26.4 % salt (computed from densities)."""
    assert pumped_ppm(2.0, 100 * pounds_a_gallon, 0.10) == pytest.approx(ppm, abs=0.15)


@pytest.mark.parametrize(
    ("product_class", "limit_ppm"),
    [
        ("immersion_cured", 200),
        ("pumped", 200),
        ("bacon_pumped", 120),
        ("bacon_immersion", 120),
        ("bacon_dry", 200),
        ("bacon_pumped_skin_on", 108),
        ("bacon_immersion_skin_on", 108),
        ("bacon_dry_skin_on", 180),
    ],
)
def test_us_limits(product_class, limit_ppm):
    """9 CFR 424.21(c), 424.22(b); skin on less a tenth, FSIS Directive 7620.3 ch. 3 (seen second hand)."""
    assert limit_for(product_class).limit_ppm == limit_ppm


@pytest.mark.parametrize(("ounces", "product_class"), [(2.75, "comminuted"), (3.5, "dry_cured")])
def test_us_nitrate_limits(ounces, product_class):
    """9 CFR 424.21(c): 2 3/4 oz comminuted, 3 1/2 oz dry, a hundred pounds (text seen second hand)."""
    assert limit_for(product_class, "nitrate").limit_ppm == pytest.approx(ounces / 16 / 100 * 1e6)


def test_no_nitrate_in_bacon():
    """9 CFR 424.21(c): cured products other than bacon (seen second hand)."""
    assert limit_for("bacon_dry", "nitrate").limit_ppm == 0


@pytest.mark.parametrize(("product_class", "ion_ppm"), [("immersion_cured", 80), ("sterilised", 55)])
def test_eu_limits_as_nitrite_ion(product_class, ion_ppm):
    """Regulation (EU) 2023/2108: 80 and 55 mg/kg as NO2, about 120 and 82 as NaNO2 (seen second hand)."""
    assert limit_for(product_class, scheme="eu").limit_ppm == pytest.approx(ion_ppm * NO2_TO_NANO2, rel=0.002)


def test_smallest_meat_block():
    """Method two solved for meat: the refused ham pickle needs 12,934 g (computed: 3e6/200 - 2,066)."""
    assert smallest_meat_g(200, 3.0, 2066) == pytest.approx(12934)
