"""Fritters and patties: all that was stirred together fries."""

from __future__ import annotations

import pytest
from saltledger.method.forms import written_of
from saltledger.method.method_reading import read

LINES = ["3 courgettes", "1 tsp salt", "100 g feta", "2 eggs", "60 g flour", "oil for deep frying"]
SALTED = "Grate the courgettes, mix with the salt and leave for 20 minutes. Squeeze them out. "


def fried(lines: list[str], method: str) -> list[str]:
    """What fries, in the order of its names."""
    made = read(written_of({"title": "t", "servings": 4, "ingredients": lines, "method": [method]})).recipe
    foods = next((s["food"] for s in made.get("steps", ()) if s["kind"] == "fry"), [])
    return sorted([foods] if isinstance(foods, str) else foods)


@pytest.mark.parametrize(
    "mixed",
    [
        "Crumble the feta. Mix with the courgettes, eggs and flour.",
        "Mix the courgettes with the crumbled feta, the eggs and the flour.",
        "Stir the feta, eggs and flour into the courgettes.",
    ],
)
@pytest.mark.parametrize(
    "fries", ["Fry spoonfuls in hot oil for 4 minutes.", "Deep-fry dollops for 4 minutes."]
)
def test_all_of_a_batter_fries(mixed: str, fries: str) -> None:
    assert {"courgettes", "feta"} <= {*fried(LINES, f"{SALTED}{mixed} {fries}")}


def test_what_is_served_with_it_does_not_fry() -> None:
    method = f"{SALTED}Deep-fry the courgettes for 4 minutes. Serve with the feta."
    assert fried(LINES, method) == ["courgettes"]
