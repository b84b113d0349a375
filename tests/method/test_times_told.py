"""How long something takes, and after how long it is lifted out."""

from __future__ import annotations

import pytest
from saltledger.method.prose_tokens import sentences
from saltledger.method.times_and_sizes import durations

from .test_method_reading import reading
from .test_plain_recipes import step

POT = ["400 g fusilli", "100 g pecorino"]


@pytest.mark.parametrize(
    "told",
    [
        "This takes around 9 minutes. Drain.",
        "Mine took 9 minutes. Drain.",
        "It should not take more than 9 minutes. Drain.",
        "Drain after 9 minutes.",
        "Lift it out after about 9 minutes.",
        "After 9 minutes fish it out with a spider.",
    ],
)
def test_a_pot_boils_as_long_as_it_is_told_to_take(told: str) -> None:
    found = reading(POT, f"Boil the fusilli in salted water. {told} Grate the cheese over it.")
    assert step(found, "boil")["duration_h"] == pytest.approx(0.15)


@pytest.mark.parametrize(
    "ended",
    [
        "Rinse them after 6 hours and dry.",
        "Take the trout out after 6 hours.",
        "Remove after roughly 6 hours. Smoke.",
    ],
)
def test_food_lies_in_a_brine_until_it_is_taken_out(ended: str) -> None:
    found = reading(
        ["4 trout", "90 g salt", "1 l water"], f"Lay the trout in the water and salt, stirred well. {ended}"
    )
    assert step(found, "brine")["duration_h"] == 6.0


def test_a_lid_that_comes_off_and_pieces_that_are_taken_end_nothing() -> None:
    found = reading(POT, "Boil the fusilli in salted water for 9 minutes. Take 2 pieces out to taste. Drain.")
    assert step(found, "boil")["duration_h"] == pytest.approx(0.15)


@pytest.mark.parametrize(
    ("said", "minutes"),
    [
        ("for an additional minute or two", 1.5),
        ("another hour or two", 90),
        ("for a further hour or three", 120),
        ("for 2 extra minutes", 2),
        ("an extra 3 minutes", 3),
        ("a further hour or so", 60),
    ],
)
def test_further_times_are_ranges_too(said: str, minutes: float) -> None:
    tokens = next(iter(sentences(f"Cook {said}.")))
    assert [round(60 * span.likely, 2) for span in durations(tokens)] == [minutes]


def test_what_is_weighed_combined_is_not_stirred_together() -> None:
    method = (
        "A brine for pork legs takes 4% salt, 2% sugar, by weight of the meat and water combined. Dissolve "
        "the salt and sugar in the water. Add the legs, chill 2 days. Rinse. Dry 6 hours in the fridge."
    )
    found = reading(["2 pork legs", "60 g salt", "30 g sugar", "1.5 l water"], method)
    assert [each["kind"] for each in found.recipe["steps"]][:3] == ["brine", "rinse", "dry"]
