"""Prompts that hang on what is cured and how warm it is kept."""

from __future__ import annotations

import pytest
from saltledger.core.errors import InvalidRequest

from . import dishes
from .dishes import answered, brined, codes, item, part, recipe, step


def cured(grams, code=dishes.CURING_SALT, **measures):
    document = brined(**measures)
    document["components"][1]["ingredients"].append(item(code, grams))
    return document


def test_a_cure_within_the_limit_stops_nothing():
    found = codes(answered(cured(6, product_class="immersion_cured")))
    assert "stop" not in found.values()
    assert found["nitrite-caution"] == "info"
    assert found["cure-no-guarantee"] == "info"


@pytest.mark.parametrize(
    ("grams", "measures", "stops"),
    [(9, {"product_class": "immersion_cured"}, False), (14, {"product_class": "immersion_cured"}, True),
     (7, {"product_class": "bacon_immersion"}, True), (5, {"product_class": "bacon_immersion"}, False)],
)  # fmt: skip
def test_over_the_limit_of_its_class_a_cure_is_stopped(grams, measures, stops):
    """The loin and its brine weigh 3,120 g and the cure; 6.25 % of the cure is nitrite."""
    found = codes(answered(cured(grams, **measures)))
    assert (found.get("cure-nitrite-over-limit") == "stop") == stops
    assert (found.get("cure-weak") == "check") == (grams * 62_500 / (3120 + grams) < 120)


def test_the_class_of_a_cure_is_asked():
    assert codes(answered(cured(6)))["cure-class-assumed"] == "check"
    assert "cure-class-assumed" not in codes(answered(cured(6, product_class="immersion_cured")))


def test_a_dry_cure_counts_on_the_meat_alone():
    def rubbed(grams):
        return recipe(
            [part("loin", item(dishes.PORK, 1000)), part("rub", item(dishes.CURING_SALT, grams))],
            [step("dry_cure", "loin", "rub", product_class="dry_cured", temperature_c=3)],
        )

    assert "cure-nitrite-over-limit" not in codes(answered(rubbed(9.9)))
    assert codes(answered(rubbed(10.1)))["cure-nitrite-over-limit"] == "stop"


def test_two_pieces_share_the_nitrite():
    alone = cured(14, product_class="immersion_cured")
    both = cured(14, product_class="immersion_cured")
    both["components"].append(part("other", item(dishes.PORK, 2000)))
    both["steps"][0]["food"] = ["loin", "other"]
    assert "cure-nitrite-over-limit" in codes(answered(alone))
    assert "cure-nitrite-over-limit" not in codes(answered(both))


def test_nitrate_has_a_limit_of_its_own():
    assert codes(answered(cured(6, "SL0007")))["cure-nitrate-over-limit"] == "stop"
    assert "cure-nitrate-over-limit" not in codes(answered(cured(6, "SL0002")))


def test_plain_salt_is_no_cure():
    assert not [code for code in codes(answered(brined())) if "cure" in code or "nitrite" in code]


def test_a_cure_notice_points_at_its_step():
    (notice,) = [n for n in answered(cured(30))["notices"] if n["code"] == "cure-nitrite-over-limit"]
    assert notice["pointer"].startswith("/steps/0")


@pytest.mark.parametrize(
    ("temperature_c", "code", "severity"),
    [(12, "held-too-warm", "stop"), (4.8, "held-barely-cold", "check"), (-5, "food-may-freeze", "check"),
     (None, "temperature-not-stated", "check")],
)  # fmt: skip
def test_brines_are_kept_cold(temperature_c, code, severity):
    assert codes(answered(brined(temperature_c=temperature_c)))[code] == severity


def test_a_cold_brine_is_not_remarked_on():
    assert not {"held-too-warm", "held-barely-cold", "food-may-freeze"} & set(codes(answered(brined())))


def test_cooking_says_where_to_measure_and_stops_what_stays_raw():
    def roast(**measures):
        return recipe([part("loin", item(dishes.PORK, 900))], [step("roast", "loin", **measures)])

    assert codes(answered(roast(temperature_c=180)))["cook-through"] == "info"
    assert codes(answered(roast(temperature_c=50, duration_h=6)))["cooked-too-cool"] == "stop"
    assert codes(answered(roast(temperature_c=60, duration_h=5)))["cooked-by-time"] == "check"


def test_vegetables_need_no_warning():
    document = recipe([part("roots", item(dishes.CARROTS, 900))], [step("roast", "roots", temperature_c=50)])
    assert "cooked-too-cool" not in codes(answered(document))


def test_a_brine_that_cannot_be_is_told():
    strong = codes(answered(brined(salt_g=900)))
    assert strong["brine-saturated"] == "check"
    assert "brine-saturated" not in codes(answered(brined()))
    assert codes(answered(brined(salt_g=30, temperature_c=-4)))["brine-freezes"] == "check"


def test_a_cure_that_is_behind_is_told_for_cures_alone():
    behind = cured(6, product_class="immersion_cured", thickness_cm=8, duration_h=24)
    assert codes(answered(behind))["cure-short-of-centre"] == "check"
    assert "cure-short-of-centre" not in codes(
        answered(cured(6, product_class="immersion_cured", duration_h=500))
    )
    rubbed = recipe(
        [
            part("loin", item(dishes.PORK, 1000)),
            part("rub", item(dishes.CURING_SALT, 3), item(dishes.SALT, 25)),
        ],
        [
            step(
                "dry_cure",
                "loin",
                "rub",
                product_class="dry_cured",
                temperature_c=3,
                thickness_cm=7,
                duration_h=24,
            )
        ],
    )
    assert codes(answered(rubbed))["cure-short-of-centre"] == "check"


def test_desalting_is_no_cure():
    document = cured(6, product_class="immersion_cured", duration_h=500)
    document["components"].append(part("water", item(dishes.WATER, 3000)))
    document["steps"].append(step("soak", "loin", "water", duration_h=1, thickness_cm=5, temperature_c=3))
    assert "cure-short-of-centre" not in codes(answered(document))


def test_the_limits_of_another_scheme_are_asked_for_by_name():
    """At 132 ppm the cure is inside the US limit of 200 ppm, and over the EU's of 120 (as NaNO2)."""
    ours, theirs = (
        codes(answered(cured(6.6, product_class="immersion_cured", scheme=s))) for s in ("us", "eu")
    )
    assert "cure-nitrite-over-limit" not in ours
    assert theirs["cure-nitrite-over-limit"] == "stop"


def test_a_class_of_another_scheme_is_refused():
    with pytest.raises(InvalidRequest) as refused:
        answered(cured(6, product_class="sterilised"))
    assert [fault.pointer for fault in refused.value.faults] == ["/steps/0/product_class"]
    assert "immersion_cured" in refused.value.faults[0].message
    answered(cured(6, product_class="sterilised", scheme="eu"))
