"""Food that is washed, swished or dipped in salted water: it leaves the water, and the salt with it."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import kinds, step


@pytest.mark.parametrize(
    "said",
    [
        "Wash the prawns in the water with the salt. Drain.",
        "Wash the prawns in the water with the salt.",
        "Swish the prawns in the salted water for a minute.",
        "Rinse the prawns in the salted water. Fry.",
        "Rinse the prawns in a bowl of the water with the salt, then fry.",
        "Dip the prawns in the salted water and fry them.",
    ],
)
def test_what_is_washed_in_salted_water_leaves_it(said: str) -> None:
    found = reading(["500 g prawns", "1 tbsp salt", "1 l water"], said)
    assert kinds(found) == ["brine"]
    assert step(found, "brine")["duration_h"] <= 0.1
    brine = next(each for each in found.recipe["components"] if each["id"] == "brine")
    assert sorted(brine["ingredients"]) == ["1 l water", "1 tbsp salt"]
    assert brine["eaten_fraction"] == 0


@pytest.mark.parametrize("said", ["in water with the salt", "in cold salted water", "in salt water"])
def test_so_are_leaves_in_the_tap_s_water(said: str) -> None:
    found = reading(["1 kg spinach", "2 tbsp salt"], f"Wash the spinach {said}. Steam for 3 minutes.")
    assert kinds(found)[:1] == ["brine"]


@pytest.mark.parametrize(
    ("lines", "said"),
    [
        (["500 g salt cod"], "Wash the salt off the cod with water."),
        (["500 g salted plums"], "Rinse the salted plums in cold water."),
        (["500 g ravioli", "1 tbsp salt"], "Dip the ravioli in boiling salted water for 2 minutes. Drain."),
        (["400 g beans", "1 tsp salt"], "Rinse the beans and simmer in water with the salt for an hour."),
        (["2 leeks", "1 tsp salt"], "Wash the leeks in cold water with care. Fry with the salt."),
        (
            ["2 aubergines", "1 tsp salt", "200 g flour"],
            "Dip the aubergines in salted water, then in the flour.",
        ),
    ],
)
def test_nothing_else_is_a_brine(lines: list[str], said: str) -> None:
    assert "brine" not in kinds(reading(lines, said))
