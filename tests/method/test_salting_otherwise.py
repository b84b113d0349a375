"""Vegetables that are salted and left to give off their juice, told in other words than "salt them"."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import eaten, kinds, step


@pytest.mark.parametrize(
    ("said", "last"),
    [
        ("Slice the cucumbers, apply salt and set aside for 30 minutes. Squeeze.", "squeeze"),
        ("Slice the cucumbers, apply the salt, wait 20 minutes and press out.", "press"),
        ("Cut the cucumbers, give them salt and wait one hour. Wash them.", "rinse"),
        ("Cut the cucumbers, give them the salt and wait one hour. Squeeze them.", "squeeze"),
        ("After slicing and salting the cucumbers, leave them half an hour, then squeeze.", "squeeze"),
        ("Having sliced and salted the cucumbers, leave them half an hour, then squeeze.", "squeeze"),
        ("After peeling and salting the cucumbers, leave for half an hour. Rinse.", "rinse"),
    ],
)
def test_salt_is_put_on_in_many_words(said: str, last: str) -> None:
    found = reading(["2 cucumbers", "1 tbsp salt"], said)
    assert kinds(found) == ["dry_cure", last]
    assert step(found, "dry_cure")["food"] == "cucumbers"
    assert eaten(found, 1) == 0.0


@pytest.mark.parametrize(
    "said",
    [
        "Cucumbers are cut, salted and left 30 minutes. The juice is poured out.",
        "Cucumbers are cut, salted and left 30 minutes. The juice must be poured out.",
        "Slice the cucumbers and salt them. Leave 30 minutes. The juice should be poured out.",
    ],
)
def test_juice_that_is_poured_out_takes_its_salt_along(said: str) -> None:
    found = reading(["2 cucumbers", "1 tbsp salt"], said)
    assert kinds(found) == ["dry_cure"]
    assert eaten(found, 1) == 0.0


@pytest.mark.parametrize(
    "said",
    [
        "Add the sliced and salted cucumbers to the yogurt.",
        "Slice the cucumbers thinly, stir in the yogurt and the salt.",
        "Slice the cucumbers. Give them a stir with the salt and the yogurt, and serve.",
        "Mix the cucumbers, the yogurt and the salt. The sauce is poured out over bread.",
    ],
)
def test_what_is_only_seasoned_keeps_its_salt(said: str) -> None:
    found = reading(["2 cucumbers", "300 g yogurt", "1 tsp salt"], said)
    assert "dry_cure" not in kinds(found)
    assert eaten(found, 2) == 1.0
