"""Water that food lies or boils in once more, salt of two lines, and vegetables that sweat with salt."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import eaten, kinds, step


@pytest.mark.parametrize(
    "method",
    [
        "Cover the leaves with boiling water and leave 15 minutes. Drain and do the same again with cold "
        "water.",
        "Soak the leaves in warm water for 15 minutes, pour off and repeat.",
        "Lay the leaves in hot water for 15 minutes, drain, then do it again with cold water.",
    ],
)
def test_leaves_lie_in_water_once_more(method: str) -> None:
    found = reading(["200 g vine leaves in brine", "150 g rice"], f"{method} Fill with the rice and roll up.")
    assert [each for each in kinds(found) if each not in ("drain", "rinse")] == ["soak", "soak"]


def test_salt_fish_boils_in_fresh_water_once_more() -> None:
    found = reading(
        ["450 g saltfish", "1 onion"],
        "Put the saltfish in a pot of cold water, bring to the boil and boil 8 minutes. Drain. Repeat with "
        "fresh water. Flake into the onion.",
    )
    assert kinds(found) == ["boil", "boil"]


def test_rolls_that_are_made_again_are_not_soaked_again() -> None:
    found = reading(
        ["200 g vine leaves in brine", "150 g rice"],
        "Soak the leaves in warm water for 15 minutes and drain. Put rice on a leaf and roll it up. Repeat.",
    )
    assert kinds(found).count("soak") == 1


@pytest.mark.parametrize(
    "method",
    [
        "Lay the slices of aubergine in a colander with salt for 40 minutes. Rinse and dry.",
        "Let the aubergines sweat with salt for 40 minutes, then rinse and dry.",
        "Draw out the juices of the aubergines with salt for 40 minutes, then wipe dry.",
    ],
)
def test_aubergines_sweat_with_salt(method: str) -> None:
    found = reading(["2 aubergines", "salt", "80 ml oil"], f"{method} Fry in the oil.")
    assert kinds(found)[0] == "dry_cure"


@pytest.mark.parametrize("end", ["Salt to taste.", "Taste and season with salt.", "Add salt to taste."])
@pytest.mark.parametrize(
    "start",
    [
        "Rub the pork with the salt and thyme",
        "Mix salt and thyme and rub into the pork",
        "Rub in the salt and thyme",
    ],
)
def test_salt_to_taste_is_eaten_though_another_salt_cures(start: str, end: str) -> None:
    found = reading(
        ["1 kg pork shoulder", "35 g salt", "2 tsp thyme", "2 onions", "salt to taste"],
        f"{start} and chill for 24 hours. Rinse and dry. Roast with the onions for 3 hours. {end}",
    )
    assert kinds(found)[0] == "dry_cure"
    assert eaten(found, 1) == 0.0
    assert eaten(found, 4) == 1.0


def test_pour_off_alone_is_said_of_the_water() -> None:
    found = reading(
        ["200 g vine leaves in brine", "150 g rice"],
        "Put the leaves in a bowl and pour over boiling water. Leave 15 minutes, pour off. Fill with the "
        "rice.",
    )
    assert step(found, "soak")["duration_h"] == 0.25
