"""What goes into the water that another food was lifted out of, and how much salted water that is."""

from __future__ import annotations

import pytest
from saltledger.foods.dataset import bundled
from saltledger.method.forms import written_of
from saltledger.method.method_reading import Reading, read

from tests.bench.method_sodium import sodium_mg

BOTH = ["300 g green beans", "300 g cabbage, in ribbons", "salt"]


def reading(lines: list[str], method: str) -> Reading:
    return read(written_of({"title": "t", "servings": 4, "ingredients": lines, "method": [method]}))


def boils(lines: list[str], method: str) -> list[tuple[object, object, float]]:
    steps = reading(lines, method).recipe.get("steps", ())
    return [
        (s["food"], s["bath"], round(60 * s.get("duration_h", 0.0), 1)) for s in steps if s["kind"] == "boil"
    ]


@pytest.mark.parametrize("begins", ["Bring a pan of salted water to the boil. Cook the beans for 4 minutes"])
@pytest.mark.parametrize(
    "lifts", [" and lift them out.", ". Fish them out with a slotted spoon and cool them."]
)
@pytest.mark.parametrize(
    "goes_in",
    [
        "Then the cabbage for 2 minutes.",
        "The cabbage goes in next, for 2 minutes.",
        "Do the same with the cabbage (2 minutes).",
        "The same for the cabbage, 2 minutes.",
        "Then the cabbage, which needs 2 minutes.",
        "Repeat with the cabbage for 2 minutes.",
    ],
)
def test_the_next_food_boils_in_the_same_water(begins: str, lifts: str, goes_in: str) -> None:
    found = boils(BOTH, f"{begins}{lifts} {goes_in}")
    assert found == [("green-beans", "water", 4), ("cabbage", "water", 2)]


@pytest.mark.parametrize(
    "goes_on",
    [
        "Then the cabbage goes into a hot pan with oil for 2 minutes.",
        "Fry the cabbage for 2 minutes.",
        "Next shred the cabbage and dress it raw.",
    ],
)
def test_what_goes_elsewhere_boils_in_no_water(goes_on: str) -> None:
    found = boils(BOTH, f"Boil the beans in salted water for 4 minutes and lift them out. {goes_on}")
    assert found == [("green-beans", "water", 4)]


@pytest.mark.parametrize(
    "kind", ["salted", "boiling salted", "lightly salted", "well-salted boiling", "salty"]
)
@pytest.mark.parametrize("amount", ["3 litres of", "3 l"])
def test_salt_of_salted_water_counts_once(kind: str, amount: str) -> None:
    def mg(water: str) -> float:
        made = reading(["400 g pasta", "salt"], f"Cook the pasta in {water} for 9 minutes. Drain.").recipe
        return sodium_mg(made, bundled())

    assert mg(f"{amount} {kind} water") == pytest.approx(mg("a large pan of salted water"), rel=0.1)
