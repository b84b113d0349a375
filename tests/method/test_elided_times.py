"""Times that leave their unit to the time before them, and those of two sides."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import kinds, step

COD, SALMON = ["500 g salt cod"], ["4 salmon steaks", "2 tbsp salt"]


@pytest.mark.parametrize(
    ("said", "hours"),
    [
        ("Soak the tongue for two hours, and boil for three.", 3.0),
        ("Soak for 12 hours and boil for two.", 2.0),
        ("Soak the tongue for two hours. Boil it for 90 minutes, then simmer it for another 30.", 2.0),
        ("Soak the tongue for two hours, then simmer it for three.", 3.0),
    ],
)
def test_a_boil_takes_the_unit_of_the_time_before_it(said: str, hours: float) -> None:
    found = reading(["500 g ox tongue"], said)
    assert kinds(found)[0] == "soak"
    heated = [each for each in found.recipe["steps"] if each["kind"] in ("boil", "simmer")]
    assert [each["duration_h"] for each in heated] == [hours]


@pytest.mark.parametrize(
    ("said", "hours"),
    [
        ("leave 12 hours, turn it over and leave for another 12", 24.0),
        ("leave for 12 hours, turn it and leave another 12", 24.0),
        ("leave 2 days, turn it over and leave for a further two", 96.0),
        ("leave it one day on one side and one day on the other", 48.0),
        ("leave it 12 hours on each side", 24.0),
    ],
)
def test_the_time_of_both_sides_is_one(said: str, hours: float) -> None:
    found = reading(SALMON, f"Rub the salmon with the salt, {said}. Rinse.")
    assert step(found, "dry_cure")["duration_h"] == hours


@pytest.mark.parametrize(
    "said",
    [
        "Soak the cod for 12 hours, for two people. Serve with another 3 lemons.",
        "Soak the cod for 12 hours and serve for two.",
        "Soak the cod for 12 hours, then take another 2 bowls.",
        "Soak the cod for 12 hours. Enough for four.",
    ],
)
def test_what_counts_other_things_is_no_time(said: str) -> None:
    assert step(reading(COD, said), "soak")["duration_h"] == 12.0
