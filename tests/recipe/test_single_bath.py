import copy
import json
from itertools import pairwise

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from saltledger.core.errors import InvalidRequest
from saltledger.core.tables import rows
from saltledger.foods.hand_kept import SODIUM_IN_NACL
from saltledger.recipe.single_bath import bath_answer, bath_curve, bath_uptake
from saltledger.transfer.bath_requests import BathRequest
from saltledger.transfer.handwork import by_hand

from .dishes import answered, item, part
from .dishes import recipe as dish

SALT_MG_PER_G = 1000 * SODIUM_IN_NACL
BRINE = {
    "food": {
        "class": "pork",
        "weight_g": 1400,
        "shape": "sheet",
        "thickness_cm": 6,
        "water_fraction": 0.70,
    },
    "bath": {"water_g": 3000, "salt_g": 150, "nitrite_g": 0.6, "sugar_g": 40},
    "temperature_c": 3,
    "duration_h": 72,
    "product_class": "immersion_cured",
}


def asked(**changes):
    """BRINE with changes by dotted path, dots written as double underscores."""
    document = copy.deepcopy(BRINE)
    for path, value in changes.items():
        *parents, last = path.split("__")
        place = document
        for parent in parents:
            place = place[parent]
        place[last] = value
    return document


def answer(**changes):
    return bath_answer(BathRequest.from_document(asked(**changes)))


def uptake(**changes):
    return bath_uptake(BathRequest.from_document(asked(**changes)))


def codes(given_answer):
    return {notice["code"]: notice["severity"] for notice in given_answer["notices"]}


def test_the_answer_has_the_contracts_fields():
    given_answer = answer()
    assert list(given_answer) == [
        "absorption_factor",
        "salt_percent_in_food",
        "equilibrium",
        "reached",
        "ready_h",
        "ready_share",
        "curve",
        "profile",
        "solutes",
        "nitrite",
        "assumptions",
        "notices",
    ]
    assert set(given_answer["absorption_factor"]) == {"low", "likely", "high"}
    assert set(given_answer["equilibrium"]) == {"absorption_factor", "salt_percent_in_food"}
    assert set(given_answer["curve"][0]) == {"time_h", "mean_percent", "centre_percent"}
    assert {"pick_up_ppm", "equilibrium_ppm", "limit_ppm", "product_class"} <= set(given_answer["nitrite"])


def test_the_same_request_gives_the_same_bytes():
    assert json.dumps(answer()) == json.dumps(answer())


def test_equilibrium_is_water_over_water():
    at_rest = answer()["equilibrium"]
    assert at_rest["absorption_factor"] == pytest.approx(980 / 3980, rel=1e-5)


def test_long_time_comes_to_equilibrium_and_what_it_drew_in_comes_on_top():
    given_answer, at_rest = answer(duration_h=50_000), answer()["equilibrium"]
    assert given_answer["reached"] == pytest.approx({"mean_percent": 100, "centre_percent": 100}, abs=1e-3)
    for what in ("absorption_factor", "salt_percent_in_food"):
        assert at_rest[what] < given_answer[what]["likely"] < 1.1 * at_rest[what]


@settings(max_examples=25, deadline=None)
@given(
    water_g=st.just(0.0) | st.floats(100, 5000),
    salt_g=st.floats(1, 500),
    hours=st.floats(0, 500),
    thickness_cm=st.floats(1, 10),
)
def test_a_recipe_gives_the_same_figure(water_g, salt_g, hours, thickness_cm):
    """The same food, unsalted, in the same bath."""
    food = {"class": "pork", "weight_g": 1000, "thickness_cm": thickness_cm, "water_fraction": 0.7}
    bath = {"water_g": water_g, "salt_g": salt_g}
    alone = {"food": food, "bath": bath, "temperature_c": 3, "duration_h": hours}
    custom = [
        {"code": code, "name": code, "per_100g": per_100g}
        for code, per_100g in (
            ("meat", {"WATER": 70, "NA": 0}),
            ("salt", {"NA": SALT_MG_PER_G * 100}),
            ("water", {"WATER": 100, "NA": 0}),
        )
    ]
    step = {"kind": "brine" if water_g else "dry_cure", "food": "meat", "bath": "bath", "food_class": "pork"}
    step |= {"duration_h": hours, "thickness_cm": thickness_cm, "temperature_c": 3}
    lying = [item("salt", salt_g), *([item("water", water_g)] if water_g else [])]
    parts = [part("meat", item("meat", 1000)), part("bath", *lying, eaten_fraction=0)]
    sodium = answered(dish(parts, [step]) | {"servings": 1, "custom_foods": custom})["sodium"]
    found = bath_answer(BathRequest.from_document(alone))
    for end in ("low", "likely", "high"):
        in_recipe = sodium["per_serving_mg"][end] / (SALT_MG_PER_G * salt_g)
        assert found["absorption_factor"][end] == pytest.approx(in_recipe, rel=1e-3, abs=1e-9)


def test_no_time_takes_up_nothing():
    given_answer = answer(duration_h=0)
    assert given_answer["absorption_factor"] == {"low": 0, "likely": 0, "high": 0}
    assert given_answer["reached"] == {"mean_percent": 0, "centre_percent": 0}


def test_salt_percent_counts_the_food_with_what_it_took():
    given_answer = answer(food__weight_after_g=1540)
    salt_g = 150 * given_answer["absorption_factor"]["likely"]
    assert given_answer["salt_percent_in_food"]["likely"] == pytest.approx(100 * salt_g / 1540, rel=1e-4)


def test_a_weighed_food_gives_the_pick_up():
    nitrite = answer(food__weight_after_g=1540)["nitrite"]
    assert nitrite["pick_up_ppm"] == pytest.approx(0.6 * 0.1e6 / 3190.6, rel=1e-4)
    assert answer(pick_up_percent=20)["nitrite"]["pick_up_ppm"] == pytest.approx(
        0.6 * 0.2e6 / 3190.6, rel=1e-4
    )


def test_no_nitrite_no_cure():
    given_answer = answer(bath__nitrite_g=0)
    assert given_answer["nitrite"] is None
    assert not [code for code in codes(given_answer) if "cure" in code or "nitrite" in code]


def test_over_the_limit_stops():
    assert codes(answer(bath__nitrite_g=1.2))["cure-nitrite-over-limit"] == "stop"
    assert "cure-nitrite-over-limit" not in codes(answer())


def test_too_warm_stops():
    assert codes(answer(temperature_c=12))["held-too-warm"] == "stop"
    assert "held-too-warm" not in codes(answer())


@pytest.mark.parametrize("thickness_cm", [4.2, 4.5, 5, 5.5])
@pytest.mark.parametrize("temperature_c", [2, 3, 4])
def test_six_days_and_three(thickness_cm, temperature_c):
    """Common practice, no source: six days colour a cold flat cut to its centre, three leave it grey."""
    flat = {"food__class": "beef", "food__weight_g": 1800, "food__thickness_cm": thickness_cm}
    bath = {"bath__water_g": 3800, "bath__salt_g": 300, "temperature_c": temperature_c}
    three, six = codes(answer(**flat, **bath, duration_h=72)), codes(answer(**flat, **bath, duration_h=144))
    assert three["cure-short-of-centre"] == "check"
    assert "cure-short-of-centre" not in six


def test_a_cure_shows_when_nitrite_has_come_to_its_share_at_the_centre():
    """Nitrite goes the way that salt goes, at its pace over it."""
    (pace,) = (float(row["likely"]) for row in rows("solutes") if row["solute"] == "nitrite")
    found = uptake(ready_share=by_hand("colour_shows").spread.likely)
    assert found.ready_h[0] == pytest.approx(pace * found.coloured_h[0], rel=2e-3)


def test_a_time_is_never_given_as_safe():
    messages = {notice["code"]: notice["message"] for notice in answer()["notices"]}
    assert "not of safety" in messages["cure-centre-estimate"]
    assert "Neither a limit kept nor a time passed" in messages["cure-no-guarantee"]


def test_ready_is_when_the_centre_has_eighty_percent():
    ready_h = answer()["ready_h"]
    assert ready_h["low"] < ready_h["likely"] < ready_h["high"]
    at_ready = answer(duration_h=ready_h["likely"])
    assert at_ready["reached"]["centre_percent"] == pytest.approx(80, abs=0.01)


def test_the_curve_passes_the_stated_time():
    given_answer = answer()
    (point,) = [point for point in given_answer["curve"] if point["time_h"] == 72]
    assert {key: point[key] for key in ("mean_percent", "centre_percent")} == given_answer["reached"]


@pytest.mark.parametrize(
    ("shape", "lengths"),
    [
        ("cylinder", {}),
        ("sphere", {}),
        ("short_cylinder", {"food__length_cm": 12}),
        ("brick", {"food__length_cm": 20, "food__width_cm": 10}),
    ],
)
def test_other_shapes_are_faster_than_a_sheet(shape, lengths):
    other = answer(food__shape=shape, **lengths)
    assert other["reached"]["mean_percent"] > answer()["reached"]["mean_percent"]
    assert other["ready_h"]["likely"] < answer()["ready_h"]["likely"]


@pytest.mark.parametrize("shape", ["sheet", "cylinder", "sphere"])
@pytest.mark.parametrize("duration_h", [0.5, 20, 72])
def test_the_profile_has_the_centre_and_the_mean(shape, duration_h):
    given_answer = answer(food__shape=shape, duration_h=duration_h)
    profile, reached = given_answer["profile"], given_answer["reached"]
    places, likely = ([point[key] for point in profile] for key in ("position", "likely"))
    assert (places[0], places[-1], len(places)) == (0, 1, 11)
    assert all(inner <= outer + 1e-6 for inner, outer in pairwise(likely))
    assert likely[0] == pytest.approx(reached["centre_percent"], abs=0.01)
    assert all(point["low"] <= point["likely"] <= point["high"] for point in profile)
    if duration_h == 72:
        dimensions = {"sheet": 1, "cylinder": 2, "sphere": 3}[shape]
        whole = [percent * place ** (dimensions - 1) for place, percent in zip(places, likely, strict=True)]
        mean = dimensions * sum((a + b) / 20 for a, b in pairwise(whole))
        assert mean == pytest.approx(reached["mean_percent"], rel=0.02)


def test_a_body_with_edges_has_no_one_profile():
    assert answer(food__shape="short_cylinder", food__length_cm=12)["profile"] is None


def test_another_share_may_count_as_ready():
    half, usual = answer(ready_share=0.5), answer()
    assert (half["ready_share"], usual["ready_share"]) == (0.5, 0.8)
    assert half["ready_h"]["likely"] < usual["ready_h"]["likely"]
    at_half = answer(duration_h=half["ready_h"]["likely"])
    assert at_half["reached"]["centre_percent"] == pytest.approx(50, abs=0.01)
    short = answer(ready_share=0.5, duration_h=1)["notices"]
    assert any("short of 50 %" in notice["message"] for notice in short)


def test_a_bath_of_nothing_is_refused():
    with pytest.raises(InvalidRequest) as refused:
        answer(bath__water_g=0, bath__salt_g=0, bath__nitrite_g=0)
    assert [fault.pointer for fault in refused.value.faults] == ["/bath", "/product_class"]


def test_a_loss_of_weight_picks_up_no_pickle_by_weight():
    nitrite = answer(pick_up_percent=-3)["nitrite"]
    assert nitrite["pick_up_ppm"] == 0
    assert nitrite["judged_ppm"] == nitrite["equilibrium_ppm"] > 0


def test_what_takes_nothing_up_lowers_the_factor():
    assert answer(food__untaken_fraction=0.3)["equilibrium"]["absorption_factor"] == pytest.approx(
        686 / 3686, rel=1e-5
    )


def test_a_dry_cure_leaves_salt_in_no_more_than_the_brine_that_it_draws():
    dry = answer(
        bath__water_g=0,
        bath__salt_g=35,
        bath__nitrite_g=0.15,
        product_class="dry_cured",
        duration_h=400,
    )
    most = dry["equilibrium"]["absorption_factor"]
    assert 0.9 < most < 1
    # What runs off takes a little of it along.
    assert 0.9 * most < dry["absorption_factor"]["likely"] < most + 4e-3
    assert dry["nitrite"]["pick_up_ppm"] == pytest.approx(0.15e6 / 1400, rel=1e-4)
    assert dry["nitrite"]["limit_ppm"] == 625


def test_more_dry_salt_than_the_water_holds_stays_outside():
    dry = answer(bath__water_g=0, bath__salt_g=1000, bath__nitrite_g=0, product_class=None, duration_h=5000)
    assert 0.5 * 0.357 * 0.98 < dry["absorption_factor"]["likely"] < 0.357 * 0.98


@pytest.mark.parametrize(
    ("changes", "code"),
    [
        ({"bath__salt_g": 1500}, "brine-saturated"),
        ({"bath__salt_g": 30, "temperature_c": -4}, "brine-freezes"),
        ({"bath__salt_g": 0}, "bath-without-salt"),
        ({"bath__water_g": 0, "bath__salt_g": 30, "product_class": None}, "dry-cure-run-off"),
        ({"bath__water_g": 200, "bath__salt_g": 20}, "bath-does-not-cover"),
        ({"food__thickness_cm": 40}, "thickness-beyond-weight"),
        ({"food__shape": "sphere", "food__thickness_cm": 20}, "thickness-beyond-weight"),
        ({}, "centre-not-ready"),
        ({"product_class": None}, "cure-class-assumed"),
        ({"food__class": "vegetable"}, "cure-food-not-meat"),
    ],
)
def test_what_is_worth_saying_is_said(changes, code):
    assert code in codes(answer(**changes))


def test_every_assumption_has_a_source_and_a_range():
    for assumption in answer()["assumptions"]:
        assert assumption["source"]
        assert assumption["low"] <= assumption["value"] <= assumption["high"]


BATHS = st.fixed_dictionaries(
    {
        "food__weight_g": st.floats(50, 20_000),
        "bath__water_g": st.floats(100, 50_000),
        "bath__salt_g": st.floats(0, 5_000),
        "food__thickness_cm": st.floats(0.5, 15),
        "duration_h": st.floats(0, 2_000),
        "food__shape": st.sampled_from(["sheet", "cylinder", "sphere"]),
        "food__class": st.sampled_from(["beef", "poultry", "fish_fatty", "cheese", "vegetable"]),
    }
)


A_CUP = {"food__weight_g": 10970.0, "bath__water_g": 334.0, "bath__salt_g": 0.0, "food__thickness_cm": 1.0}
"""So little brine that the food takes nearly all of its salt; rates are found to some millionths of it."""


@settings(max_examples=30, deadline=None)
@given(BATHS)
@example({**A_CUP, "duration_h": 1000.0, "food__shape": "cylinder", "food__class": "poultry"})
@example({**A_CUP, "duration_h": 2000.0, "food__shape": "sphere", "food__class": "poultry"})
def test_no_salt_is_made(bath):
    done = uptake(**bath)
    rooms, duration_h = done.course.system.rooms.sum(axis=0), bath["duration_h"]
    assert (done.absorbed >= 0).all()
    assert (done.absorbed <= 1).all()
    assert (done.absorbed <= rooms / (rooms + done.course.system.bath_rooms[0]) + 2e-5).all()
    assert (done.course.most_absorbed < 1).all()
    assert (done.course.centre(duration_h) <= done.course.mean(duration_h) + 1e-6).all()


@settings(max_examples=20, deadline=None)
@given(st.floats(0, 2_000), st.floats(0, 2_000))
def test_longer_is_never_less(one_h, other_h):
    short, long = sorted((one_h, other_h))
    assert (uptake(duration_h=long).absorbed >= uptake(duration_h=short).absorbed - 1e-6).all()


def test_the_curve_rises():
    for before, after in pairwise(bath_curve(uptake())):
        assert before.time_h < after.time_h
        assert before.mean.likely <= after.mean.likely + 1e-6
        assert before.centre.low <= after.centre.low + 1e-6
