"""Times that belong to a step, that go on with it, or that only tell what is left of it."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import kinds, step


@pytest.mark.parametrize(
    "rests",
    [
        "Leave to stand for 15 minutes before carving.",
        "Wrap it and let it rest for a quarter of an hour.",
        "Cool for 20 minutes on a board.",
        "Allow 10 minutes resting time.",
    ],
)
def test_what_rests_after_the_grill_is_not_grilled_so_long(rests: str) -> None:
    found = reading(
        ["1 beef steak", "2 tsp salt"], f"Salt the steak, leave 2 hours. Grill the steak. {rests}"
    )
    assert "duration_h" not in step(found, "roast")


@pytest.mark.parametrize(
    ("goes_on", "minutes"),
    [
        ("Lower the heat, cover and cook 30 minutes.", 40),
        ("Turn the heat down, put the lid on and simmer until done (about 30 minutes).", 40),
        ("Flip and cook another 10 minutes.", 20),
        ("Turn the pieces and fry 8 minutes on the other side.", 18),
        ("Keep warm in the oven for 30 minutes.", 10),
        ("Uncover for the last 5 minutes.", 10),
        ("Pour off the fat, add a cup of water, cover and simmer for 30 minutes.", 10),
    ],
)
def test_frying_goes_on_under_a_lid(goes_on: str, minutes: float) -> None:
    lines = ["1 kg chicken pieces", "100 g flour", "500 ml oil"]
    found = reading(lines, f"Roll the chicken in the flour. Fry in the hot oil for 10 minutes. {goes_on}")
    assert step(found, "fry")["duration_h"] == pytest.approx(minutes / 60, rel=0.01)


@pytest.mark.parametrize(
    "late",
    [
        "With 5 minutes to go, add the beans.",
        "When there are 5 minutes left throw in the beans.",
        "Five minutes before they are done, add the beans.",
        "Add the beans with 5 minutes remaining.",
    ],
)
def test_what_is_left_of_a_time_is_that_of_the_late_comer(late: str) -> None:
    found = reading(
        ["1 kg potatoes", "300 g green beans"], f"Boil the potatoes in salted water. {late} Drain."
    )
    first, last = found.recipe["steps"]
    assert (first["food"], "duration_h" in first) == ("potatoes", False)
    assert (last["food"], last["duration_h"]) == ("green-beans", pytest.approx(1 / 12, rel=0.01))


def test_what_is_left_of_a_time_is_none_of_the_pots() -> None:
    method = "Boil the pasta in salted water. About 5 minutes before it is ready, warm the ham. Drain."
    found = reading(["400 g spaghetti", "100 g ham"], method)
    assert kinds(found) == ["boil"]
    assert "duration_h" not in step(found, "boil")


@pytest.mark.parametrize("more", ["an additional 2 minutes", "an extra 2 minutes", "another 2 minutes"])
def test_further_minutes_are_added_to_those_before(more: str) -> None:
    method = f"Boil the cabbage in salted water for 3 minutes. Turn it over, cook for {more}. Drain."
    assert step(reading(["1 cabbage"], method), "boil")["duration_h"] == pytest.approx(5 / 60, abs=1e-3)


@pytest.mark.parametrize("foods", ["stuffed peppers", "filled peppers"])
def test_what_is_stuffed_cooks_in_its_sauce(foods: str) -> None:
    method = f"Stuff the peppers. Put the {foods} in a pot, water just covering them. Simmer 1 hour."
    assert kinds(reading(["6 peppers", "200 g rice", "1 tsp salt"], method)) == []
