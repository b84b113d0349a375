"""Food that is kept in, or cut into, salted water that is warm, cool or clean: a brine, and no boil."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import kinds, step
from .test_salt_told import texts


@pytest.mark.parametrize("how", ["", "warm ", "cool ", "clean ", "warm, "])
@pytest.mark.parametrize("lays", ["Keep", "Leave", "Hold"])
def test_water_of_which_it_is_told_how_warm_it_is_is_water(how: str, lays: str) -> None:
    said = f"{lays} the cauliflower in {how}salted water for 10 minutes. Drain."
    found = reading(["1 cauliflower", "1 tbsp salt"], said)
    assert kinds(found) == ["brine"]
    assert step(found, "brine")["duration_h"] == pytest.approx(1 / 6, abs=0.01)
    assert texts(found, "brine") == ["1 tbsp salt"]


@pytest.mark.parametrize("said", ["Keep warm.", "Keep it warm.", "Leave in a warm place for 10 minutes."])
def test_what_is_kept_warm_lies_in_no_water(said: str) -> None:
    assert kinds(reading(["500 g chicken", "1 tsp salt"], f"Fry the chicken with the salt. {said}")) == []


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        (["4 potatoes"], "Grate the potatoes into salted water, leave ten minutes, drain and fry."),
        (
            ["4 potatoes"],
            "Slice the potatoes into a bowl of salted water and leave an hour. Drain, fry.",
        ),
        (["1 cabbage"], "Shred the cabbage into salted water and leave for an hour. Drain."),
        (["2 aubergines"], "Dice the aubergines into salted water. Drain after 20 minutes."),
        (
            ["2 aubergines"],
            "Cut the aubergines into water with the salt. Leave half an hour. Drain.",
        ),
    ],
)
def test_what_is_cut_into_salted_water_lies_in_it(lines: list[str], said: str) -> None:
    found = reading([*lines, "1 tbsp salt"], said)
    assert kinds(found) == ["brine"]
    assert texts(found, "brine") == ["1 tbsp salt"]


@pytest.mark.parametrize(
    "said",
    [
        "Chop the potatoes into a pot of salted water. Boil for 20 minutes. Drain.",
        "Slice the potatoes into a pan of salted water, bring to the boil and cook for 5 minutes. Drain.",
        "Cut the potatoes into boiling salted water. Cook for 15 minutes and drain.",
        "Cut the potatoes into chunks and boil in salted water for 15 minutes. Drain.",
    ],
)
def test_what_boils_in_it_next_boils(said: str) -> None:
    assert kinds(reading(["4 potatoes", "salt"], said)) == ["boil"]
