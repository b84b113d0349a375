"""Vegetables that are cut one after the other are worked on together where "them" or "both" follows."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import step


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        (
            ["500 g cabbage", "1 large carrot"],
            "Shred the cabbage and grate the carrot. Rub them with the salt and leave 1 hour. Squeeze.",
        ),
        (
            ["500 g cabbage", "1 large carrot"],
            "Shred the cabbage, grate the carrot and salt them. Leave 1 hour. Squeeze.",
        ),
        (
            ["2 aubergines", "2 courgettes"],
            "Slice the aubergines. Dice the courgettes. Put both in a colander with the salt for 1 h. Rinse.",
        ),
        (
            ["2 aubergines", "2 courgettes"],
            "Slice the aubergines, dice the courgettes. Put them in a colander with the salt for 1 h. Rinse.",
        ),
    ],
)
def test_all_that_was_cut_lies_under_the_salt(lines: list[str], said: str) -> None:
    found = reading([*lines, "1 tbsp salt"], said)
    cured = next(each for each in found.recipe["components"] if each["id"] == step(found, "dry_cure")["food"])
    assert cured["ingredients"] == lines


def test_all_that_was_peeled_is_boiled() -> None:
    found = reading(
        ["1 kg potatoes", "1 kg carrots", "1 tbsp salt"],
        "Peel the potatoes, scrape the carrots. Boil them in water with the salt, drain.",
    )
    assert step(found, "boil")["food"] == ["potatoes", "carrots"]


@pytest.mark.parametrize(
    ("said", "food"),
    [
        ("Shred the cabbage. Grate the carrot. Salt the cabbage and leave an hour. Squeeze.", "cabbage"),
        ("Grate the carrot. Shred the cabbage, salt it and leave for an hour. Squeeze.", "cabbage"),
        ("Shred the cabbage and grate the carrot. Salt the carrot and leave an hour. Squeeze.", "carrot"),
    ],
)
def test_what_is_named_is_salted_alone(said: str, food: str) -> None:
    found = reading(["500 g cabbage", "1 carrot", "1 tbsp salt"], said)
    assert step(found, "dry_cure")["food"] == food
    assert len(next(c for c in found.recipe["components"] if c["id"] == food)["ingredients"]) == 1
