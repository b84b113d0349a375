"""Water of pots: how salty it is said to be, when it is salted, and whether it is a soup's."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import eaten, kinds, step

LIST = ["400 g rigatoni", "salt", "500 g tomatoes", "2 tbsp olive oil"]
MEASURED = ["400 g rigatoni", "1 tbsp salt", "500 g tomatoes", "2 tbsp olive oil"]


def water(lines: list[str], *method: str) -> list[str]:
    """The lines of the first pot."""
    found = reading(lines, *method)
    bath = next(s["bath"] for s in found.recipe["steps"] if s["kind"] in ("boil", "simmer"))
    (listed,) = (c["ingredients"] for c in found.recipe["components"] if c["id"] == bath)
    return [each if isinstance(each, str) else each["line"] for each in listed]


@pytest.mark.parametrize(
    "said",
    [
        "Allow 20 g salt to 2 litres of water. Boil the rigatoni in it for 12 minutes.",
        "Use 10 g salt per litre. Boil the rigatoni in plenty of water for 12 minutes.",
        "For each litre of water take 10 g salt. Boil the rigatoni for 12 minutes.",
        "10 g of salt to the litre. Boil the rigatoni in lots of water for 12 minutes.",
        "Boil the rigatoni for 12 minutes in water salted at 10 g a litre.",
    ],
)
def test_so_much_to_the_litre_is_in_the_pot_and_in_no_dish(said: str) -> None:
    lines = water(LIST, f"{said} Drain and toss with the tomatoes.")
    litres, salt = (line.split(" ") for line in sorted(lines, key=lambda line: "salt" in line))
    least, most = 10 * float(litres[0]), 10 * float(litres[2])
    assert least - 1.0 <= float(salt[0]) <= most + 1.0
    assert eaten(reading(LIST, f"{said} Drain and toss with the tomatoes."), 1) == 0.0


def test_a_strong_brine_is_told_so_too() -> None:
    found = reading(
        ["1 kg pork loin", "salt"], "Allow 60 g salt to each litre of water and brine it for a day."
    )
    assert kinds(found) == ["brine"]


@pytest.mark.parametrize(
    "said",
    [
        "Cook the rigatoni for 12 minutes in water that tastes like the sea. Drain.",
        "Have a pot of salted water at the boil, and cook the rigatoni in it for 12 minutes. Drain.",
        "Boil plenty of water with the salt and give the rigatoni 12 minutes in it. Drain.",
        "While the salted water comes to the boil, chop the tomatoes. Boil the rigatoni 12 minutes. Drain.",
        "When the water boils, salt it, add the rigatoni and let them go for 12 minutes. Drain.",
        "Put water on for the rigatoni. Salt it. When it boils, in they go for 12 minutes. Drain.",
    ],
)
def test_the_salt_of_the_list_is_in_the_water(said: str) -> None:
    found = reading(MEASURED, f"{said} Toss with the tomatoes and oil.")
    assert kinds(found) == ["boil"]
    assert step(found, "boil")["duration_h"] == pytest.approx(0.2)
    assert eaten(found, 1) == 0.0


@pytest.mark.parametrize(
    ("said", "hours"),
    [
        ("Salt a big pot of boiling water. In with the artichokes for 40 minutes.", 0.6667),
        ("Boil plenty of water with the salt and give the artichokes 40 minutes in it.", 0.6667),
        ("Pour boiling water over the artichokes in a pan, add the salt and simmer for 40 minutes.", 0.6667),
    ],
)
def test_what_goes_into_hot_water_boils_and_lies_in_no_brine(said: str, hours: float) -> None:
    found = reading(["4 artichokes", "1 tbsp salt"], f"{said} Drain.")
    assert kinds(found) == ["boil"]
    assert step(found, "boil")["duration_h"] == pytest.approx(hours, abs=1e-3)
    assert eaten(found, 1) == 0.0


def test_boiling_water_over_what_is_peeled_only_scalds() -> None:
    found = reading(
        ["1 kg tomatoes", "1 tsp salt"], "Pour boiling water over the tomatoes in a pan. Peel them."
    )
    assert kinds(found) == []


@pytest.mark.parametrize("sauce", ["Simmer the tomatoes in the oil", "Simmer the tomatoes with the oil"])
@pytest.mark.parametrize(
    "keeps",
    ["Drain, keeping a cup of the water.", "Drain (save a cup of the water).", "Keep a cup of the water."],
)
def test_a_sauce_that_simmers_in_oil_has_no_pot_of_water(sauce: str, keeps: str) -> None:
    found = reading(
        MEASURED, f"Cook the rigatoni in boiling salted water for 12 minutes. {sauce}. {keeps} Toss together."
    )
    assert [(s["kind"], s["food"]) for s in found.recipe["steps"]] == [("boil", "rigatoni")]


def test_salt_of_a_sauce_is_not_in_the_pot_meanwhile() -> None:
    lines = ["400 g rigatoni", "4 tsp salt, divided", "500 g tomatoes", "2 tbsp olive oil"]
    said = "Bring a pot of water and 1 tbsp salt to the boil. Add the rigatoni and cook 12 minutes. Meanwhile"
    found = reading(lines, f"{said} simmer the tomatoes with the oil and the remaining salt. Drain, toss.")
    assert eaten(found, 1) == pytest.approx(0.25, abs=0.01)


@pytest.mark.parametrize(
    ("says", "hours"),
    [
        ("They want 12 minutes, give them 10.", 10 / 60),
        ("The packet says 12 minutes, give them 10.", 10 / 60),
        ("The box says 12 minutes, give it about 10 minutes.", 10 / 60),
    ],
)
def test_the_time_that_is_given_is_taken_for_that_of_the_packet(says: str, hours: float) -> None:
    found = reading(MEASURED, f"Bring salted water to the boil. Drop in the rigatoni. {says} Drain.")
    assert step(found, "boil")["duration_h"] == pytest.approx(hours, abs=1e-3)


def test_a_time_before_is_none_of_the_packet() -> None:
    found = reading(
        ["500 g chickpeas", "1 tbsp salt"],
        "Soak for 12 hours, drain. Boil in salted water, give them 2 hours. Drain.",
    )
    assert [s.get("duration_h") for s in found.recipe["steps"]] == [12.0, 2.0]


@pytest.mark.parametrize("blend", ["blend with the cream", "liquidise and stir in the cream"])
def test_measured_water_that_is_blended_is_a_soup(blend: str) -> None:
    lines = ["500 g leeks", "400 g potatoes", "2 tsp salt", "1 l water", "100 ml cream"]
    found = reading(
        lines, f"Put the leeks and potatoes in a pot with the water and salt, simmer 20 minutes, {blend}."
    )
    assert eaten(found, 2) == 1.0


def test_potatoes_that_are_mashed_are_no_soup() -> None:
    lines = ["1 kg potatoes", "1 tbsp salt", "2 l water", "100 ml milk"]
    found = reading(lines, "Boil the potatoes in the water with the salt for 20 minutes. Mash with the milk.")
    assert eaten(found, 1) == 0.0


def test_what_is_added_later_in_the_same_water_boils_for_less() -> None:
    lines = ["400 g rigatoni", "1 tbsp salt", "500 g cauliflower", "200 g peas"]
    said = (
        "Bring a pot of salted water to the boil. Cook the cauliflower for 5 minutes, lift out. In the same "
    )
    found = reading(
        lines, f"{said}water cook the rigatoni for 12 minutes, adding the peas for the last 2. Drain."
    )
    steps = [(s["food"], s.get("duration_h")) for s in found.recipe["steps"]]
    assert steps == [("cauliflower", 0.0833), ("rigatoni", 0.2), ("peas", 0.0333)]


def test_the_same_water_cooks_and_is_drained_in_one_sentence() -> None:
    lines = ["300 g soba", "200 g spinach", "1 tbsp salt"]
    said = (
        "Boil the spinach for 1 minute in salted water. Squeeze. In the same water cook the soba 4 minutes, "
    )
    found = reading(lines, f"{said}drain.")
    boils = [s for s in found.recipe["steps"] if s["kind"] == "boil"]
    assert [s.get("duration_h") for s in boils] == [0.0167, 0.0667]
    assert len({s["bath"] for s in boils}) == 1


def test_what_is_dipped_in_first_boils_then() -> None:
    found = reading(
        ["1 kg octopus", "1 tbsp salt"],
        "Bring a pot of water with the salt to the boil. Dip the octopus in three times, then cook it"
        " for 50 minutes. Drain.",
    )
    assert step(found, "boil")["duration_h"] == pytest.approx(50 / 60, abs=1e-3)


@pytest.mark.parametrize(
    "pot", ["Put it in a stockpot, cover with water.", "Put it in a big pot with water to cover."]
)
def test_a_method_that_begins_with_it_means_the_first_food_of_the_list(pot: str) -> None:
    found = reading(["1 ham hock (1 kg)", "1 onion"], f"{pot} Simmer for 2 hours. Drain.")
    assert [s["food"] for s in found.recipe["steps"]] == ["ham-hock"]
