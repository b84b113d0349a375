"""What pasta "needs" is how long it boils, though something else was told since its water was put on."""

from __future__ import annotations

import pytest
from saltledger.method.forms import written_of
from saltledger.method.method_reading import read

LINES = ["400 g spaghetti", "1 tbsp capers in salt", "2 cloves garlic", "4 tbsp olive oil"]


def boiled(lines: list[str], method: list[str]) -> list[tuple[object, float]]:
    made = read(written_of({"title": "t", "servings": 4, "ingredients": lines, "method": method})).recipe
    return [
        (s["food"], round(60 * s.get("duration_h", 0.0), 1))
        for s in made.get("steps", ())
        if s["kind"] == "boil"
    ]


@pytest.mark.parametrize(
    "begins", ["Put a big pot of salted water on.", "Get a big pot of water going, salt it well."]
)
@pytest.mark.parametrize(
    "meanwhile",
    ["Leave the capers in a cup of water for a quarter of an hour.", "Fry the garlic gently in the oil."],
)
@pytest.mark.parametrize("needs", ["The spaghetti need about 9 minutes.", "The spaghetti takes 9 minutes."])
def test_pasta_boils_as_long_as_it_needs(begins: str, meanwhile: str, needs: str) -> None:
    assert boiled(LINES, [begins, meanwhile, needs, "Drain and mix."]) == [("spaghetti", 9)]


@pytest.mark.parametrize(
    "bakes", ["The lasagne needs 40 minutes in the oven.", "The lasagne wants 40 minutes to rest."]
)
def test_what_bakes_or_rests_boils_in_no_water(bakes: str) -> None:
    assert (
        boiled(["250 g lasagne", "1 kg mince", "1 tin tomatoes"], ["Layer the lasagne and mince.", bakes])
        == []
    )
