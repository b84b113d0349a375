"""Two lines of flour, of which one is for coating."""

from __future__ import annotations

import pytest
from saltledger.method.forms import written_of
from saltledger.method.method_reading import read

LINES = ["500 g cod", "60 g butter", "60 g plain flour", "500 ml milk", "2 eggs", "300 g breadcrumbs"]


@pytest.mark.parametrize("for_coating", ["200 g plain flour, for coating", "200 g plain flour for dredging"])
@pytest.mark.parametrize("sauce", ["add 60 g flour", "add the flour", "stir in 60 g of the flour"])
@pytest.mark.parametrize(
    "coat", ["Pass it through flour, egg and crumbs.", "Coat in flour, egg and breadcrumbs."]
)
def test_food_is_coated_in_the_flour_for_coating(coat: str, sauce: str, for_coating: str) -> None:
    lines = [*LINES, for_coating, "1 l oil for deep frying"]
    method = (
        f"Melt the butter, {sauce} and cook for 3 minutes. Add the milk, beat in the cod and chill. {coat} "
    )
    made = read(
        written_of(
            {
                "title": "t",
                "servings": 4,
                "ingredients": lines,
                "method": [method + "Deep-fry for 3 minutes."],
            }
        )
    )
    place = {each["index"]: each["component"] for each in made.lines}
    assert place[lines.index(for_coating)] == "coating"
    assert place[lines.index("60 g plain flour")] != "coating"
