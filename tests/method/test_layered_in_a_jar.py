"""Vegetables that lie in much salt in a jar or a crock, and soak before they are cooked."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import kinds


@pytest.mark.parametrize(
    "said",
    [
        "Layer the sliced beans with the salt in a jar. Soak for two hours in fresh water before cooking.",
        "Pack the beans with the salt in a crock. Soak in water overnight. Drain and fry.",
        "Layer the beans and salt in a jar. Soak the beans in cold water for 2 hours.",
    ],
)
def test_what_lies_in_much_salt_is_cured_and_soaked(said: str) -> None:
    found = reading(["1 kg runner beans", "300 g salt"], said)
    assert kinds(found) == ["dry_cure", "soak"]
    assert next(each for each in found.recipe["components"] if each["id"] == "cure")["eaten_fraction"] == 0


@pytest.mark.parametrize(
    "said",
    [
        "Soak the beans in water for 2 hours. Fry with the salt.",
        "Layer the beans with the salt in a dish and bake for an hour.",
    ],
)
def test_a_little_salt_is_eaten(said: str) -> None:
    assert "dry_cure" not in kinds(reading(["1 kg runner beans", "10 g salt"], said))
