"""Water whose litres stand behind it, as "water, 4 litres or so, to the boil"."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import step


@pytest.mark.parametrize(
    "said",
    [
        "Bring a big pot of water, 4 litres or so, to the boil with 30 g salt. Cook the pasta for 9 minutes.",
        "Cook the pasta for 9 minutes in plenty of water - 4 litres - with 30 g salt.",
        "Cook the pasta for 9 minutes in boiling water (about 4 litres) with 30 g salt.",
        "Put on a pot of water, roughly 4 litres, and 30 g salt. Boil the pasta in it for 9 minutes.",
        "Put the pasta in a pot with enough water to cover, 4 litres, and 30 g salt. Boil 9 minutes.",
    ],
)
def test_litres_are_those_of_the_pot(said: str) -> None:
    found = reading(["400 g pasta"], f"{said} Drain.")
    bath = next(c for c in found.recipe["components"] if c["id"] == step(found, "boil")["bath"])
    assert sorted(each["line"] for each in bath["ingredients"]) == ["30 g salt", "4 litres water"]


@pytest.mark.parametrize("beside", ["1 litre milk", "2 litres of stock", "3 tbsp vinegar"])
def test_what_stands_beside_water_is_none_of_it(beside: str) -> None:
    found = reading(
        ["1 kg potatoes", "20 g salt"],
        f"Put the potatoes in a pot. Add water, {beside} and the salt. Boil for 20 minutes and drain.",
    )
    bath = next(c for c in found.recipe["components"] if c["id"] == step(found, "boil")["bath"])
    assert any(" to " in str(each) for each in bath["ingredients"])  # as much water as is usual
