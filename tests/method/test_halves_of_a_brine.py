"""A brine of which each half goes over another food."""

from __future__ import annotations

import pytest
from saltledger.method.forms import written_of
from saltledger.method.method_reading import read

LINES = ["4 chicken breasts", "1 litre water", "60 g salt", "300 g cabbage", "3 tbsp mayonnaise"]


@pytest.mark.parametrize(
    "other",
    [
        "Pour the other half over the cabbage and leave for an hour.",
        "Pour the rest over the cabbage and leave for an hour.",
        "The other half goes over the cabbage for an hour.",
    ],
)
def test_each_food_lies_in_half_of_it(other: str) -> None:
    method = (
        "Bring the water and salt to the boil and let it cool. Pour half over the chicken and chill for 3 "
        f"hours. {other} Drain the cabbage, mix with the mayonnaise. Take the chicken out and fry it."
    )
    made = read(written_of({"title": "t", "servings": 4, "ingredients": LINES, "method": [method]}))
    shares = [each.get("share", 1.0) for each in made.lines if each["index"] == LINES.index("60 g salt")]
    assert shares == [0.5, 0.5]
