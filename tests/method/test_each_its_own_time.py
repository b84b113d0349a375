"""Times of several foods, or of several sides, in one sentence."""

from __future__ import annotations

import pytest
from saltledger.method.forms import written_of
from saltledger.method.method_reading import read

VEGETABLES = ["200 g green beans", "1/4 white cabbage", "150 g bean sprouts"]


def steps(lines: list[str], *method: str) -> list[tuple[str, object, float]]:
    recipe = read(
        written_of({"title": "t", "servings": 4, "ingredients": lines, "method": list(method)})
    ).recipe
    return [(s["kind"], s["food"], round(60 * s.get("duration_h", 0.0), 1)) for s in recipe.get("steps", ())]


@pytest.mark.parametrize("water", ["boiling water", "boiling salted water", "a pan of boiling water"])
@pytest.mark.parametrize("verb", ["Blanch", "Cook", "Boil"])
@pytest.mark.parametrize(
    "said",
    [
        "{verb} the beans for 3 minutes, the cabbage for 2 minutes and sprouts for 30 seconds in {water}.",
        "{verb} the beans for 3 minutes, cabbage for 2, sprouts only half a minute, in {water}.",
        "In {water} {verb} the beans 3 minutes, the cabbage 2 minutes and the sprouts 30 seconds.",
    ],
)
def test_each_food_boils_for_its_own_time(said: str, verb: str, water: str) -> None:
    found = steps(VEGETABLES, said.format(verb=verb, water=water) + " Drain.")
    assert found == [("boil", "green-beans", 3), ("boil", "white-cabbage", 2), ("boil", "bean-sprouts", 0.5)]


def test_foods_of_one_time_boil_together() -> None:
    found = steps(VEGETABLES, "Boil the beans and the cabbage for 4 minutes in salted water, then drain.")
    assert {minutes for _, _, minutes in found} == {4}


@pytest.mark.parametrize("behind", ["", ", serve for 4", ", enough for 6"])
def test_people_are_no_time(behind: str) -> None:
    found = steps(["400 g spaghetti", "salt"], f"Boil the spaghetti in salted water for 9 minutes{behind}.")
    assert found == [("boil", "spaghetti", 9)]


SCHNITZEL = ["4 pork escalopes", "80 g flour", "2 eggs", "150 g breadcrumbs", "1 l oil for deep frying"]


@pytest.mark.parametrize(
    "sides",
    [
        "3 minutes on the first side and 2 on the other",
        "3 minutes on one side, 2 on the other",
        "for 3 minutes on one side and 2 minutes on the second",
    ],
)
def test_times_of_two_sides_are_added(sides: str) -> None:
    method = f"Turn the meat in flour, egg and crumbs. Heat the oil and fry {sides}."
    assert ("fry", "pork-escalopes", 5) in steps(SCHNITZEL, method)


@pytest.mark.parametrize("whole", ["in all", "in total", "altogether", "all told"])
@pytest.mark.parametrize(
    "said",
    [
        "When they float give them one more minute, about 4 minutes {whole}",
        "They are done a minute after they come up - 4 minutes {whole}",
    ],
)
def test_the_whole_time_stands_for_its_parts(said: str, whole: str) -> None:
    method = f"Drop the gnocchi into boiling salted water. {said.format(whole=whole)}. Drain."
    assert steps(["500 g gnocchi", "salt"], method) == [("boil", "gnocchi", 4)]
