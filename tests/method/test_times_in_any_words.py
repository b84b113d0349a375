"""Times as people write them: of a brine, a soak or salt, in one sentence or in several."""

from __future__ import annotations

from itertools import product

import pytest

from .test_method_reading import reading
from .test_plain_recipes import step

TIMES = {
    "2 hrs": 2.0,
    "1h30": 1.5,
    "1:30 hours": 1.5,
    "3/4 of an hour": 0.75,
    "three quarters of an hour": 0.75,
    "no more than 2 hours": 2.0,
    "not less than 2 hours": 2.0,
    "up to 2 hours": 2.0,
    "2 hours or more": 2.0,
    "a further 2 hours": 2.0,
    "90 minutes": 1.5,
}
NIGHTS = {"overnight (8-12 hours)": 10.0, "overnight, about 10 hours": 10.0, "overnight (4 h will do)": 12.0}
CHOPS = ["1 kg pork chops", "80 g salt", "1 litre water", "1 onion"]
COD = ["500 g salt cod", "3 potatoes"]
SAYINGS = [
    ("brine", CHOPS, "Dissolve the salt in the water. Put the pork chops in it for {}. Drain and fry."),
    ("brine", CHOPS, "Dissolve the salt in the water, add the chops. After {}, take them out and fry."),
    (
        "brine",
        CHOPS,
        "Dissolve the salt in the water. Put the chops in the brine. They need {}. Drain and fry.",
    ),
    ("soak", COD, "Soak the cod in cold water for {}. Drain. Cook with the potatoes."),
    ("soak", COD, "Cover the cod with cold water and leave for {}. Drain and cook with the potatoes."),
    ("dry_cure", ["2 eggplants", "1 tbsp salt"], "Salt the eggplants, wait {}, rinse and fry."),
]
OVERNIGHT = [
    ("brine", CHOPS, "Make a brine of the salt and water. Brine the chops {}, then grill them."),
    ("soak", COD, "Soak the cod in cold water {}. Drain. Cook with the potatoes."),
]
CELLS = [*product(SAYINGS, TIMES.items()), *product(OVERNIGHT, NIGHTS.items())]


@pytest.mark.parametrize(("saying", "told"), CELLS)
def test_a_time_is_read_in_any_words(saying: tuple[str, list[str], str], told: tuple[str, float]) -> None:
    kind, lines, text = saying
    words, hours = told
    found = step(reading(lines, text.format(words)), kind)
    assert found["duration_h"] == pytest.approx(hours, abs=0.01)


def test_what_is_right_for_two_minutes_is_no_wait() -> None:
    found = reading(
        ["1 cabbage", "500 g minced pork", "2 tsp salt"], "Mix the pork with the salt. Two minutes is right."
    )
    assert found.recipe.get("steps", []) == []
