"""Changes of the water that no verb calls so, and asides of how fish lies."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import kinds, step

COD = ["500 g salt cod"]


@pytest.mark.parametrize(
    ("said", "hours", "changes"),
    [
        ("Soak the cod for two days with fresh water twice a day.", 48.0, 3),
        ("Soak the cod for two days in fresh water every 12 hours.", 48.0, 3),
        ("Soak the cod for 3 days with fresh water daily.", 72.0, 2),
        ("Twelve hours in cold water, then another twelve in fresh.", 24.0, 1),
        ("Twelve hours in cold water, skin side up, then another twelve in fresh.", 24.0, 1),
        ("Soak the cod for 12 hours, then another 12 hours in fresh water.", 24.0, 1),
    ],
)
def test_fresh_water_in_turn_is_changed_water(said: str, hours: float, changes: int) -> None:
    soak = step(reading(COD, said), "soak")
    assert (soak["duration_h"], soak.get("water_changes", 0)) == (hours, changes)


@pytest.mark.parametrize(
    "said",
    [
        "Soak the cod in fresh water for 12 hours.",
        "Soak the cod for 12 hours in clean water, covered.",
        "Soak the cod, skin side up, for 12 hours.",
        "Soak the cod for 12 hours. Simmer it in fresh water for 10 minutes.",
    ],
)
def test_fresh_water_by_itself_is_no_change(said: str) -> None:
    soak = step(reading(COD, said), "soak")
    assert (soak["duration_h"], soak.get("water_changes", 0)) == (12.0, 0)


def test_a_side_that_is_up_is_not_cut() -> None:
    assert kinds(reading(COD, "Lay the cod in cold water, skin side up, for 12 hours.")) == ["soak"]
