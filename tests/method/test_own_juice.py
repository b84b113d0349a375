"""Vegetables that sour in their own juice (own_juice.py), and what only looks like it."""

import pytest

from .test_method_reading import reading

CABBAGE = ["1.5 kg white cabbage", "30 g salt", "5 g caraway"]


def steps(lines, *method):
    told = reading(lines, *method)
    return told.recipe.get("steps", []), told.recipe["components"]


@pytest.mark.parametrize(
    ("method", "hours"),
    [
        ("Toss the cabbage with the salt, press it into a jar, seal and ferment for 3 weeks.", 504),
        (
            "Strew the salt over the cabbage and squeeze it hard. Let sit 15 minutes. Put it in a jar, pour "
            "the brine from the bowl over to cover and leave to ferment until sour (about 2 weeks).",
            336,
        ),
        (
            "Cover the cabbage with the salt, then rub it in with your hands. Mix in the caraway, put the "
            "cabbage and its brine in the jar. Leave at room temperature for a week.",
            168,
        ),
        ("Pound the cabbage with the salt in a crock till juicy. Weigh down, keep cool for 3 weeks.", 504),
    ],
)
def test_kraut_is_eaten_with_all_its_salt(method, hours):
    found, components = steps(CABBAGE, method)
    assert [each["kind"] for each in found] == ["ferment"]
    assert found[0]["duration_h"] == hours
    own = next(each for each in components if each["id"] == found[0]["food"])
    assert "30 g salt" in own["ingredients"]


@pytest.mark.parametrize(
    "method",
    [
        "Salt the cabbage for 2 hours, rinse it three times and drain. Mix with the caraway, pack it in jars "
        "and leave for 5 days.",
        "Toss the cabbage with the salt and press into a crock for 3 weeks. Lift it out, pressing "
        "the juice back.",
    ],
)
def test_salt_that_is_rinsed_or_pressed_off_is_not_eaten(method):
    found, _ = steps(CABBAGE, method)
    assert found[0]["kind"] == "dry_cure"


def test_washing_a_jar_with_boiling_water_boils_nothing():
    found, _ = steps(
        CABBAGE,
        "Scald the jar with boiling water. Rub the cabbage with the salt, pack it in, ferment for a week.",
    )
    assert [each["kind"] for each in found] == ["ferment"]


@pytest.mark.parametrize(
    "leaves",
    [
        "Let ferment for 3 days at room temperature.",
        "Pack into a jar and leave at room temperature for 3 days, then refrigerate.",
        "Pack in jars. Store on the counter for 3 days until it bubbles.",
        "Press into a crock. Leave to ferment 3 days.",
    ],
)
def test_what_was_salted_and_rinsed_sours_in_its_paste(leaves):
    lines = ["1 kg napa cabbage", "60 g salt", "30 g chilli flakes", "20 g fish sauce"]
    method = f"Toss the cabbage with the salt, leave 2 hours. Rinse. Mix with chilli and fish sauce. {leaves}"
    told, parts = steps(lines, method)
    assert [each["kind"] for each in told] == ["dry_cure", "rinse", "ferment"]
    assert told[-1]["duration_h"] == 72.0
    assert [part["eaten_fraction"] for part in parts if part["id"] == "cure"] == [0.0]


@pytest.mark.parametrize(
    "goes_on",
    [
        "Mix with the chilli and fish sauce. Leave on the counter for 15 minutes.",
        "Fry with the chilli and fish sauce. Keep at room temperature for 5 hours.",
        "Mix with the chilli, fish sauce and 100 ml vinegar. Refrigerate for 3 days.",
    ],
)
def test_what_only_stands_does_not_sour(goes_on):
    lines = ["1 kg napa cabbage", "60 g salt", "30 g chilli flakes", "20 g fish sauce"]
    told, _ = steps(lines, f"Toss the cabbage with the salt, leave for 2 hours. Rinse. {goes_on}")
    assert "ferment" not in [each["kind"] for each in told]


@pytest.mark.parametrize(
    "drips",
    [
        "Set the sieve over a bowl for 30 minutes.",
        "Put the colander in the sink for 30 minutes.",
    ],
)
def test_what_drips_over_a_bowl_lies_in_its_salt_for_that_time(drips):
    found, _ = steps(["2 cucumbers", "1 tsp salt"], f"Toss the cucumbers with the salt. {drips} Rinse.")
    assert found[0]["kind"] == "dry_cure"
    assert found[0]["duration_h"] == 0.5
