"""Salty food that is called soaked where it is used, and that no sentence soaks."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import kinds


@pytest.mark.parametrize(
    "said", ["the soaked and drained {}", "the soaked, rinsed {}", "the soaked {}", "soaked and squeezed {}"]
)
@pytest.mark.parametrize(
    ("line", "name"),
    [
        ("60 g salted capers", "capers"),
        ("10 salted anchovies", "anchovies"),
        ("400 g salt cod", "salt cod"),
        ("20 g salted wakame", "wakame"),
    ],
)
def test_it_lay_in_water(line: str, name: str, said: str) -> None:
    found = reading([line, "3 tomatoes", "2 tbsp oil"], f"Mix the tomatoes and oil with {said.format(name)}.")
    assert kinds(found)[0] == "soak"
    assert kinds(found).count("soak") == 1


def test_what_a_sentence_soaked_is_not_soaked_again() -> None:
    found = reading(
        ["60 g salted capers", "3 tomatoes"],
        "Soak the capers for 20 minutes. Drain. Mix the tomatoes with the soaked capers.",
    )
    assert kinds(found).count("soak") == 1


def test_bread_that_is_called_soaked_is_no_salty_food() -> None:
    found = reading(
        ["100 g bread", "300 g minced pork"], "Squeeze the soaked bread and mix it with the pork."
    )
    assert "soak" not in kinds(found)


def test_meats_that_are_called_soaked_are_those_that_were() -> None:
    found = reading(
        ["500 g salt beef", "300 g salted pork ribs", "300 g smoked bacon"],
        "Put the beef and the ribs in a bowl of cold water for 24 hours. Drain. Cover the soaked meats "
        "with fresh water, boil for 20 minutes and drain. Add the bacon.",
    )
    assert kinds(found).count("soak") == 1
