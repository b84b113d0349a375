"""Salted vegetables that stand upside-down or lie on paper: their juice runs off."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import kinds, step


@pytest.mark.parametrize(
    "said",
    [
        "Salt the insides of the tomatoes and stand upside-down for half an hour.",
        "Salt the insides of the tomatoes. Leave them upside down for half an hour.",
        "Sprinkle the tomatoes with the salt and leave cut side down for half an hour.",
        "Salt the tomato halves and turn them over on kitchen paper for half an hour.",
        "Salt the tomatoes and lay them on a rack for half an hour.",
    ],
)
def test_the_juice_of_what_is_turned_over_runs_off(said: str) -> None:
    found = reading(["1 kg tomatoes", "1 tbsp salt", "200 g rice"], f"{said} Fill with the rice.")
    assert kinds(found) == ["dry_cure"]
    assert step(found, "dry_cure")["duration_h"] == 0.5
    assert found.recipe["components"][-1]["eaten_fraction"] == 0


@pytest.mark.parametrize(
    "said",
    [
        "Salt the tomatoes and roast cut side down for half an hour.",
        "Salt the tomatoes and leave for half an hour. Eat with their juice.",
        "Salt the tomatoes and put cut side down in the oven for half an hour.",
    ],
)
def test_what_roasts_or_stands_as_it_is_keeps_its_juice(said: str) -> None:
    found = reading(["1 kg tomatoes", "1 tbsp salt"], said)
    assert all(each.get("eaten_fraction", 1) != 0 for each in found.recipe["components"])


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("4 salted herring", "The herring must be watered out for 12 hours."),
        ("4 salted herring", "Steep out the herring for 12 hours."),
        ("4 salted herring", "Steep the herring in milk overnight."),
        ("1 kg salted ribs", "The ribs are watered overnight."),
        ("1 kg salted ribs", "Steep the ribs overnight, then boil."),
    ],
)
def test_what_is_steeped_or_watered_soaks(line: str, said: str) -> None:
    found = reading([line], said)
    assert kinds(found) == ["soak"]
    assert step(found, "soak")["duration_h"] == 12.0


def test_in_spirits_it_does_not() -> None:
    assert kinds(reading(["4 salted herring"], "Steep the herring in brandy overnight.")) == []
