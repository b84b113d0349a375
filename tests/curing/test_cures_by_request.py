"""Cures as they are asked for, by a bath and by a recipe's step: what stops, by whose weights, in whose
words."""

import pytest
from saltledger.curing.agents import curing_salt
from saltledger.curing.assessment import assess
from saltledger.recipe.single_bath import bath_answer
from saltledger.transfer.bath_requests import BathRequest

from ..recipe.dishes import CURING_SALT, PORK, SALT, WATER, answered, codes, item, part, recipe, step

LOIN_G, PICKLE_G = 2000, 2120


def bath(food=(), liquid=(), **asked):
    """Two kilos of pork in two litres of weak pickle."""
    food = {"class": "pork", "weight_g": LOIN_G, "shape": "sheet", "thickness_cm": 5} | dict(food)
    document = {"food": food, "bath": {"water_g": 2000, "salt_g": 120} | dict(liquid)}
    return bath_answer(BathRequest.from_document(document | {"temperature_c": 3, "duration_h": 72} | asked))


def message(answer, code):
    (found,) = [notice["message"] for notice in answer["notices"] if notice["code"] == code]
    return found


@pytest.mark.parametrize(
    ("nitrate_g", "severity"), [(0.7 * 2.8, None), (0.7 * 4.2, "stop")], ids=["within 700 ppm", "over it"]
)
def test_a_bath_of_nitrate_alone_is_held_to_its_limit(nitrate_g, severity):
    """9 CFR 424.21(c): 700 ppm; meat, water and salt weigh 4,120 g together."""
    found = codes(bath(liquid={"nitrate_g": nitrate_g}, product_class="immersion_cured"))
    assert found.get("cure-nitrate-over-limit") == severity
    assert found["cure-nitrate-alone"] == "check"
    assert found["nitrate-caution"] == "info"
    assert "nitrite-caution" not in found


def test_nitrate_in_bacon_stops_and_the_remedy_is_to_leave_it_out():
    answer = bath(liquid={"nitrate_g": 0.1}, product_class="bacon_immersion")
    assert codes(answer)["cure-nitrate-over-limit"] == "stop"
    assert "and none is allowed" in message(answer, "cure-nitrate-over-limit")
    assert "leave the nitrate out" in message(answer, "cure-nitrate-over-limit")


def test_a_weighed_gain_takes_the_place_of_the_usual_tenth():
    by_usual = bath(liquid={"nitrite_g": 0.8})["nitrite"]["pick_up_ppm"]
    weighed = bath(food={"weight_after_g": LOIN_G * 1.2}, liquid={"nitrite_g": 0.8})["nitrite"]["pick_up_ppm"]
    stated = bath(pick_up_percent=20, liquid={"nitrite_g": 0.8})["nitrite"]["pick_up_ppm"]
    pickle_ppm = 0.8 / (2000 + 120 + 0.8) * 1e6
    assert by_usual == pytest.approx(0.10 * pickle_ppm)
    assert weighed == pytest.approx(0.20 * pickle_ppm)
    assert stated == pytest.approx(0.20 * pickle_ppm)


@pytest.mark.parametrize("lost", [{"food": {"weight_after_g": LOIN_G * 0.9}}, {"pick_up_percent": -10}])
def test_food_that_lost_weight_picked_up_nothing_and_is_judged_at_rest(lost):
    nitrite = bath(**lost, liquid={"nitrite_g": 0.8})["nitrite"]
    assert nitrite["pick_up_ppm"] == 0
    assert nitrite["judged_ppm"] == nitrite["equilibrium_ppm"] > 150


def brined(curing_g, **measures):
    parts = [
        part("loin", item(PORK, LOIN_G)),
        part("pickle", item(WATER, 2000), item(SALT, 120), item(CURING_SALT, curing_g), eaten_fraction=0),
    ]
    usual = {"duration_h": 72, "temperature_c": 3, "thickness_cm": 5, "product_class": "immersion_cured"}
    return answered(recipe(parts, [step("brine", "loin", "pickle", **(usual | measures))]))


def test_a_recipe_is_judged_by_its_weighed_gain():
    """8 g of salt of 6.25 % are 235 ppm of the pickle: a gain of nine tenths is 211 ppm, over 200; the usual
    tenth and the rest of both together are not."""
    heavy = {"weight_before_g": LOIN_G, "weight_after_g": LOIN_G * 1.9}
    assert "cure-nitrite-over-limit" not in codes(brined(8))
    assert codes(brined(8, **heavy))["cure-nitrite-over-limit"] == "stop"


def test_a_recipe_whose_meat_lost_weight_is_judged_by_the_usual_tenth_and_at_rest():
    lighter = {"weight_before_g": LOIN_G, "weight_after_g": LOIN_G * 0.95}
    assert "cure-nitrite-over-limit" not in codes(brined(8, **lighter))
    assert codes(brined(20, **lighter))["cure-nitrite-over-limit"] == "stop"


def test_the_scheme_of_the_european_union_has_its_own_limit_and_words():
    """Regulation (EU) 2023/2108: 120 ppm as NaNO2; 10 g of 6.25 % in 4.1 kg are 151."""
    us, eu = codes(brined(10)), codes(brined(10, scheme="eu"))
    assert "cure-nitrite-over-limit" not in us
    assert "cure-scheme-eu" not in us
    assert eu["cure-nitrite-over-limit"] == "stop"
    assert eu["cure-scheme-eu"] == "check"


def test_a_dry_cure_is_told_of_the_finished_product_in_the_us_alone():
    def rubbed(**measures):
        parts = [part("loin", item(PORK, LOIN_G)), part("rub", item(SALT, 60), item(CURING_SALT, 10))]
        usual = {"duration_h": 168, "temperature_c": 3, "thickness_cm": 5, "product_class": "dry_cured"}
        return codes(answered(recipe(parts, [step("dry_cure", "loin", "rub", **(usual | measures))])))

    assert rubbed()["cure-dry-finished"] == "info"
    assert "cure-dry-finished" not in rubbed(scheme="eu")
    assert "cure-dry-finished" not in codes(brined(8))


def pumped(curing_g, product_class="pumped", pump_percent=10):
    parts = [
        part("loin", item(PORK, LOIN_G)),
        part("pickle", item(WATER, 1000), item(SALT, 110), item(CURING_SALT, curing_g), eaten_fraction=0),
    ]
    measures = {"pump_percent": pump_percent, "product_class": product_class}
    return answered(recipe(parts, [step("inject", "loin", "pickle", **measures)]))


def test_a_pump_over_its_limit_says_how_much_the_pickle_may_hold():
    """40 g of 6.25 % in 1,150 g, a tenth pumped: 217 ppm. At 200 the other 1,147.5 g may hold 2.29 g."""
    answer = pumped(40)
    assert codes(answer)["cure-nitrite-over-limit"] == "stop"
    assert "this pickle may hold at most 2.29 g of sodium nitrite" in message(
        answer, "cure-nitrite-over-limit"
    )
    assert "cure-nitrite-over-limit" not in codes(pumped(36))


@pytest.mark.parametrize(
    ("curing_g", "code"), [(17, "cure-nitrite-under-rule"), (23, "cure-nitrite-over-limit")]
)
def test_pumped_bacon_has_a_least_and_a_most(curing_g, code):
    """9 CFR 424.22(b)(1): 120 ppm, less a fifth at most; and ascorbate beside it."""
    found = codes(pumped(curing_g, "bacon_pumped"))
    assert code in found
    assert found["cure-bacon-ascorbate"] == "check"
    assert not {"cure-nitrite-under-rule", "cure-nitrite-over-limit"} & set(codes(pumped(20, "bacon_pumped")))


@pytest.mark.parametrize(
    ("ppm", "code"),
    [
        (0.5, "cure-not-useful"),
        (39.9, "cure-not-useful"),
        (40.0, "cure-weak"),
        (43.0, "cure-weak"),
        (119.9, "cure-weak"),
        (120.0, None),
        (125.0, None),
    ],
)
def test_how_weak_a_cure_is_called_by_its_ppm(ppm, code):
    """FSIS Directive 7620.3, page 12: of use from 40 ppm, 120 asked of what is kept cold."""
    cure = assess(nitrite_g=ppm / 1000, meat_g=1000, pickle_g=1000, product_class="comminuted")
    told = {notice.code for notice in cure.notices} & {"cure-not-useful", "cure-weak"}
    assert told == ({code} if code else set())


def test_shares_of_a_salt_with_nitrate():
    salt = curing_salt("type_2")
    assert (salt.nitrite_share, salt.nitrate_share) == pytest.approx((0.0625, 0.04))
