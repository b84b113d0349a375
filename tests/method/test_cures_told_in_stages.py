"""Soaks, cures and brines that are told in stages: salted twice, turned to fresh water, put up for weeks."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import eaten, kinds, step


@pytest.mark.parametrize(
    "method",
    [
        "Mix the salt and the sugar. Rub half of it into the pork and leave in the fridge for 24 hours. "
        "Pour off the liquid, rub in the rest and leave for another 24 hours. Rinse and dry.",
        "Stir the salt with the sugar. Rub half over the pork and chill for 24 hours. Tip away the brine, "
        "rub with the remaining mixture and chill another 24 hours. Rinse.",
    ],
)
def test_a_second_salting_goes_on_with_the_cure(method: str) -> None:
    found = reading(["1 kg pork loin", "180 g salt", "60 g sugar"], method)
    assert kinds(found)[0] == "dry_cure"
    assert step(found, "dry_cure")["duration_h"] == 48.0
    assert kinds(found).count("dry_cure") == 1
    assert eaten(found, 1) == 0.0


@pytest.mark.parametrize(
    "end", ["so that the juice comes out", "until their juice rises", "till the juice covers them"]
)
def test_lemons_that_are_pressed_down_stay_in_their_salt(end: str) -> None:
    found = reading(
        ["7 lemons", "180 g coarse salt", "250 ml lemon juice"],
        f"Quarter the lemons, stuff with the salt and put in a jar. Leave overnight. Press them down {end}, "
        "top up with the lemon juice and keep for 5 weeks.",
    )
    assert step(found, kinds(found)[0])["duration_h"] == 840.0


def test_fresh_olives_lie_in_the_brine_that_is_poured_over() -> None:
    found = reading(
        ["900 g fresh green olives", "80 g salt", "1 l water"],
        "Cover the olives with water for 8 days, changing it daily. Drain. Make a brine of the salt and "
        "water and pour over the olives. Leave for 3 weeks.",
    )
    assert kinds(found) == ["soak", "brine"]
    assert step(found, "soak")["duration_h"] == 192.0
    assert step(found, "brine")["duration_h"] == 504.0
    assert eaten(found, 1) == 0.0


@pytest.mark.parametrize("end", ["It is best after 6 days.", "Best after 6 days.", "Ideally wait 6 days."])
def test_how_long_it_keeps_best_is_no_time_of_what_was_rinsed(end: str) -> None:
    found = reading(
        ["1 chinese cabbage, 1 kg", "70 g coarse salt", "2 tbsp chilli flakes", "4 garlic cloves"],
        "Toss the cabbage with the salt and leave for 2 hours. Rinse and drain. Mix with the chilli and "
        f"garlic, pack in a jar and put in the fridge. {end}",
    )
    assert step(found, "dry_cure")["duration_h"] == 2.0


@pytest.mark.parametrize(
    ("method", "hours"),
    [
        ("Soak the herring from one morning to the next. Drain.", 24.0),
        ("Soak the herring from evening to the next evening, changing the water. Drain.", 24.0),
        ("Start a day ahead: the herring into cold water, 20 hours. Drain.", 20.0),
        ("Begin the day before: the herring into cold water, 20 hours. Drain.", 20.0),
        ("In the evening put the herring in cold water. Next morning change the water and leave it until the "
         "evening. Drain.", 20.0),
        ("In the evening put the herring in cold water. Change it in the morning and again in the evening. "
         "In all it should have 26 hours. Drain.", 26.0),
        ("Soak the herring overnight. Change the water. A day is enough. Drain.", 24.0),
        ("Sunday night: put the herring in a basin of cold water. On Tuesday morning drain it.", 35.0),
    ],
)  # fmt: skip
def test_a_soak_told_by_parts_of_the_day(method: str, hours: float) -> None:
    found = reading(["6 salt herring", "1 onion"], method)
    assert kinds(found)[0] == "soak"
    assert step(found, "soak")["duration_h"] == hours


def test_salt_that_is_rubbed_on_for_the_oven_is_no_second_cure() -> None:
    found = reading(
        ["2 kg pork loin", "2 tbsp salt", "1 tbsp oil"],
        "The night before, rub half of the salt into the pork and leave in the fridge. In the morning "
        "brush it off, rub the pork with the oil and then with the remaining salt. Roast for 2 hours.",
    )
    assert 0.3 < eaten(found, 1) < 0.7
