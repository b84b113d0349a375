"""Vegetables that are salted so that their water runs off."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_whole_ways import steps_of


@pytest.mark.parametrize(
    "said",
    [
        "Grate the courgettes, salt them lightly and leave on paper towels to draw out moisture.",
        "Salt the courgettes to get rid of excess water.",
        "Salt the courgettes and lay them on a rack so that they lose their juice.",
        "Slice the courgettes, salt the slices and keep them in a cloth to reduce moisture.",
    ],
)
def test_water_that_runs_off_is_left(said: str) -> None:
    found = reading(["3 courgettes", "salt", "250 g prawns"], f"{said} Fry the prawns. Add the courgettes.")
    assert [kind for kind, _ in steps_of(found)] == ["dry_cure"]


@pytest.mark.parametrize(
    "said",
    [
        "Salt the courgettes and fry them. Dry the prawns with paper to remove moisture.",
        "Salt the courgettes. Fry them until the water is gone.",
        "Mix the courgettes with the salt in a bowl; the salt draws water out. Add vinegar and chill.",
    ],
)
def test_water_that_stays_or_boils_off_is_eaten(said: str) -> None:
    assert not steps_of(reading(["3 courgettes", "salt", "250 g prawns", "vinegar"], said))
