"""What stands beside the making of a dish moves nothing: notes, what a portion holds, how else it is done."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import kinds

BAKE = [
    "500 g chicken thighs",
    "800 g potatoes, sliced",
    "200 g feta",
    "400 g tin tomatoes",
    "1 tsp salt",
    "3 tbsp capers",
]
BAKED = (
    "Layer the potatoes and tomatoes with the salt, lay the chicken and capers on top and bake for an hour. "
    "Crumble the feta over it."
)


def told(lines: list[str], method: str, beside: str, *, apart: bool) -> None:
    alone, both = (
        reading(lines, method),
        reading(lines, *([method, beside] if apart else [f"{method} {beside}"])),
    )
    assert kinds(both) == kinds(alone)
    assert both.recipe["components"] == alone.recipe["components"]


@pytest.mark.parametrize("apart", [True, False])
@pytest.mark.parametrize(
    "beside",
    [
        "Per portion: 510 kcal, 22 g fat, 1.9 g salt.",
        "Salt: 1.9 g per portion.",
        "A teaspoon of salt weighs 6 g.",
        "1 tsp salt = 6 g.",
        "Store in an airtight box for 5 days.",
        "Cheese in brine works as well as dry feta.",
        "Halloumi will do just as well, soaked and dried.",
        "My aunt always soaked the potatoes in milk, never mind.",
        "In the old days the chicken was salted for a week and soaked for a night.",
        "I sometimes swap the feta for halloumi, soaked in water for an hour.",
        "For a smoky version, brine the chicken for two hours and grill it first.",
        "For a meatless version, leave out the chicken and use vegetable stock.",
        "If the sauce is a bit thin, drain off some of it and boil it down.",
        "You could add a handful of olives, drained and rinsed.",
        "You might also use some bacon, drained on paper.",
        "A splash of fish sauce is good in it.",
        "A dash of soy sauce never hurts.",
        "Good with rice, boiled in salted water and drained.",
        "It goes well with pasta boiled in salted water for 10 minutes.",
        "Eat with noodles cooked in salted water, drained.",
        "Rinse the board in hot water.",
        "Soak the dish in water overnight.",
        "Each portion has 1.9 g of salt.",
        "I like it with rice and a spoonful of soy sauce.",
        "Bacon can be added, fried and drained on paper.",
        "Try adding olives, drained.",
        "Make it up to two days ahead and chill.",
    ],
)
def test_what_is_told_beside_a_dish_moves_nothing(beside: str, apart: bool) -> None:
    told(BAKE, BAKED, beside, apart=apart)


@pytest.mark.parametrize("label", ["Note: ", "Tip - ", "NB. ", "Cook's tip – ", "Hint: "])
@pytest.mark.parametrize(
    "beside",
    [
        "if your feta is very salty, soak it in milk for an hour.",
        "you can brine the chicken first, 60 g salt to a litre of water, for 3 hours.",
        "don't throw away the liquid of the tin, it is good in soup.",
    ],
)
def test_a_note_is_known_by_its_label_however_that_ends(label: str, beside: str) -> None:
    for apart in (True, False):
        told(BAKE, BAKED, label + beside, apart=apart)


@pytest.mark.parametrize(
    "beside",
    [
        "Capers in salt should be rinsed and soaked for 20 minutes.",
        "Salt-packed capers must be soaked in water for 10 minutes.",
        "If you only have salted capers, soak them in water first.",
    ],
)
def test_what_is_done_with_food_in_another_state_is_not_done(beside: str) -> None:
    told(BAKE, BAKED, beside, apart=True)
    salted = [*BAKE[:-1], "3 tbsp capers in salt"]
    salted[-1] = "3 tbsp salted capers" if "salted" in beside else salted[-1]
    salted[-1] = "3 tbsp salt-packed capers" if "packed" in beside else salted[-1]
    assert "soak" in kinds(reading(salted, beside, BAKED))


def test_what_it_is_eaten_with_counts_where_the_list_has_it() -> None:
    lines = ["400 g prawns", "300 g rice", "2 tbsp oil"]
    said = "Fry the prawns in the oil. Good with the rice, boiled in salted water for 15 minutes and drained."
    assert "boil" in kinds(reading(lines, said))


def test_what_may_be_added_and_is_in_the_list_is_done() -> None:
    lines = ["400 g noodles", "1 tin sweetcorn", "2 tbsp oil"]
    said = "Fry the noodles in the oil. You can add the sweetcorn, drained."
    assert "drain" in kinds(reading(lines, said))
