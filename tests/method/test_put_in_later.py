"""Food that goes into a pot of salted water after the first has a time of its own."""

from __future__ import annotations

from typing import Any

import pytest
from saltledger.method.forms import written_of
from saltledger.method.method_reading import read

LINES = ("600 g potatoes", "200 g green beans", "150 g frozen peas", "salt")


def boils(method: str, lines: tuple[str, ...] = LINES) -> list[tuple[Any, float | None]]:
    document = {"title": "Supper", "servings": 4, "ingredients": list(lines), "method": [method]}
    steps = read(written_of(document)).recipe.get("steps", ())
    hours = (None if s.get("duration_h") is None else round(s["duration_h"] * 60, 1) for s in steps)
    return [(s["food"], h) for s, h in zip(steps, hours, strict=True) if s["kind"] in ("boil", "simmer")]


@pytest.mark.parametrize("first", ["Boil", "Cook", "Simmer"])
@pytest.mark.parametrize(
    ("later", "minutes"),
    [
        ("After 10 minutes add the green beans.", 5.0),
        ("At 10 minutes put the green beans in too.", 5.0),
        ("At half time add the green beans.", 7.5),
        ("Halfway through add the green beans.", 7.5),
        ("For the last 4 minutes the green beans go in the same pot.", 4.0),
        ("Throw in the green beans for 4 minutes.", 4.0),
    ],
)
def test_what_comes_part_way_boils_for_the_rest(first: str, later: str, minutes: float) -> None:
    said = f"{first} the potatoes in salted water for 15 minutes. {later} Drain."
    assert boils(said) == [("potatoes", 15.0), ("green-beans", minutes)]


def test_what_comes_on_top_makes_the_first_boil_longer() -> None:
    said = (
        "Boil the potatoes in salted water for 12 minutes. Add the green beans and cook for 5 minutes. "
        "Add the peas and cook 3 minutes more. Drain."
    )
    assert boils(said) == [("potatoes", 20.0), ("green-beans", 8.0), ("frozen-peas", 3.0)]


def test_food_put_in_by_the_clock_has_its_place_in_the_whole() -> None:
    lines = ("350 g linguine", "200 g potatoes", "150 g green beans", "coarse salt for the water")
    said = (
        "Bring a pot of water to the boil and salt it. Potatoes first, after 5 minutes the beans, "
        "after another 2 minutes the pasta, 10 minutes. Drain everything."
    )
    assert [food for food, _ in boils(said, lines)] == ["potatoes", "green-beans", "linguine"]


def test_a_stew_that_gets_more_is_no_pot_that_is_poured_away() -> None:
    lines = ("1 kg stewing beef", "600 g potatoes", "1 tsp salt")
    said = "Put the beef in a pot with 2 l water and the salt and simmer for 2 hours."
    assert boils(said + " After 1 hour add the potatoes. Serve in bowls.", lines) == []


def test_aromatics_in_from_the_start_have_no_time_of_their_own() -> None:
    lines = ("500 g black beans", "1 onion, halved", "2 tsp salt")
    said = (
        "Put the beans in a pot with water to cover and the onion. Simmer 1 hour. "
        "Add the salt and simmer 15 minutes more. Drain."
    )
    assert [hours for _, hours in boils(said, lines)] == [75.0]
