"""Food that one clause lays in vinegar, and salted fish in sweet vinegar that has no salt."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import eaten, kinds, step

ONIONS = ["2 red onions", "200 ml vinegar", "1 tsp salt"]
EGGS = ["10 boiled eggs", "300 ml vinegar", "1 tbsp salt"]
HERRING = ["8 salted herring fillets", "200 ml vinegar", "100 g sugar", "1 red onion"]


@pytest.mark.parametrize(
    "said",
    [
        "Put the onions in the vinegar and salt for 30 minutes. Drain.",
        "Lay the onions in the salt and vinegar for 30 minutes, then drain.",
        "Leave the onions in the vinegar and salt for 30 minutes. Drain.",
        "Mix the vinegar and salt. Put the onions in the vinegar for 30 minutes. Drain.",
    ],
)
def test_onions_are_drained_of_the_vinegar_that_they_lay_in(said: str) -> None:
    found = reading(ONIONS, said)
    assert kinds(found) == ["marinate"]
    assert step(found, "marinate")["duration_h"] == 0.5
    assert (eaten(found, 1), eaten(found, 2)) == (0.0, 0.0)


@pytest.mark.parametrize(
    "said",
    [
        "Put the onions in the vinegar and salt for 30 minutes.",
        "Toss the onions with the vinegar and salt.",
        "Put the onions in a pan with the vinegar and salt for 30 minutes.",
    ],
)
def test_what_is_not_drained_is_eaten_with_its_vinegar(said: str) -> None:
    assert eaten(reading(ONIONS, said), 2) == 1.0


@pytest.mark.parametrize(
    "said",
    [
        "Put the eggs in a jar with the vinegar and salt for two weeks.",
        "Put the eggs in the vinegar and salt for two weeks.",
        "The eggs are covered with the vinegar and salt and left for two weeks.",
        "Cover the eggs with the vinegar and salt and leave for two weeks.",
        "Put the eggs in a jar. Pour over the vinegar and salt and leave for two weeks.",
        "Mix the vinegar and salt. Put the eggs in the vinegar for two weeks.",
    ],
)
def test_eggs_are_pickled_by_the_week(said: str) -> None:
    found = reading(EGGS, said)
    assert kinds(found) == ["brine"]
    assert step(found, "brine")["duration_h"] == 336.0
    assert eaten(found, 2) == 0.0


@pytest.mark.parametrize(
    "said",
    [
        "Mash the eggs with the vinegar and salt.",
        "Put the eggs in a bowl with the vinegar and salt.",
        "Quarter the eggs and serve with the vinegar and salt.",
    ],
)
def test_a_salad_of_eggs_is_no_pickle(said: str) -> None:
    found = reading(EGGS, said)
    assert kinds(found) == []
    assert eaten(found, 2) == 1.0


@pytest.mark.parametrize(
    "said",
    [
        "Boil the vinegar and sugar and cool. Layer the herring and onion in a jar, pour over the liquid and"
        " leave for 2 days.",
        "Mix the vinegar and sugar. Put the herring in it for 2 days.",
        "Mix the vinegar and sugar, pour the liquid over the herring and leave for 2 days.",
    ],
)
def test_salted_fish_gives_salt_to_the_vinegar_that_it_lies_in(said: str) -> None:
    found = reading(HERRING, said)
    assert len(kinds(found)) == 1
    assert step(found, kinds(found)[0])["duration_h"] == 48.0
    assert eaten(found, 1) == 0.0


def test_fish_that_lay_a_day_in_vinegar_and_salt_leaves_them() -> None:
    fish = ["8 herring fillets", "200 ml vinegar", "2 tsp salt"]
    found = reading(fish, "Lay the herring in the vinegar and salt for 24 hours.")
    assert (eaten(found, 1), eaten(found, 2)) == (0.0, 0.0)
    cooked = reading(fish, "Lay the herring in the vinegar and salt for 2 hours. Simmer it in the marinade.")
    assert eaten(cooked, 2) == 1.0
