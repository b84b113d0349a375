"""Pasta that cooks while a sentence is about its sauce, and sauces that lose nothing when it is strained."""

from __future__ import annotations

import pytest

from .test_method_reading import component, reading
from .test_whole_ways import steps_of

LINES = ["1 onion", "2 tbsp oil", "300 g fusilli", "2 courgettes", "150 ml cream"]
SAUCE = "Fry the onion and the courgettes in the oil, add the cream and let it bubble."


@pytest.mark.parametrize(
    "method",
    [
        f"While the pasta is cooking, make the sauce. {SAUCE}",
        f"{SAUCE} Stir it now and then while the fusilli boils.",
        f"Put the pasta on. {SAUCE}",
        f"Put on the fusilli first. {SAUCE}",
        f"Get your pasta going, then see to the sauce. {SAUCE}",
        f"Set the fusilli to cook. {SAUCE}",
        f"{SAUCE} Toss the drained pasta in it.",
        f"{SAUCE} Strain and serve the fusilli with the sauce.",
        f"Get all the ingredients ready. Start cooking the pasta. {SAUCE}",
        f"Prepare everything before you begin. Cook the pasta. {SAUCE} Strain and serve your fusilli.",
    ],
)
def test_pasta_boils_in_a_pot_of_its_own(method: str) -> None:
    found = reading(LINES, method)
    assert [kind for kind, _ in steps_of(found)] == ["boil"]
    assert {component(found, line)[1] for line in LINES} <= {None, 1.0}


@pytest.mark.parametrize(
    ("lines", "method"),
    [
        (LINES, f"{SAUCE} Add the pasta and the cream and cook until the pasta is done."),
        (
            ["12 lasagne sheets", "500 g ragù"],
            "Put the pasta on the bottom, top with ragù, bake.",
        ),
        (
            ["1 l stock", "200 g ditalini"],
            "Boil the stock. Add the pasta. While the pasta cooks, rest.",
        ),
        (["300 g cooked noodles", "2 eggs"], "Beat the eggs. Fry them with the cooked noodles."),
    ],
)
def test_pasta_that_cooks_in_what_is_eaten_has_no_pot(lines: list[str], method: str) -> None:
    assert "boil" not in [kind for kind, _ in steps_of(reading(lines, method))]


@pytest.mark.parametrize(
    "method",
    [
        "Heat a generous amount of oil and fry the onion until soft. Add the courgettes.",
        "Fry the onion in plenty of oil, then add the courgettes.",
        "Cook the onion in lots of oil for 10 minutes. Stir in the courgettes.",
    ],
)
def test_the_fat_that_a_sauce_begins_with_is_eaten(method: str) -> None:
    found = reading(["1 onion", "olive oil", "2 courgettes"], method)
    assert steps_of(found) == []
    assert component(found, "olive oil")[1] is None


@pytest.mark.parametrize(
    ("lines", "method"),
    [
        (["2 onions", "100 g flour", "oil"], "Toss the onions in flour and fry in plenty of oil, drain."),
        (["2 onions", "oil"], "Heat 4 cm of oil and fry the onions until crisp."),
        (["4 chicken thighs", "oil"], "Fry the chicken in plenty of oil."),
    ],
)
def test_fat_that_is_left_after_frying_in_depth(lines: list[str], method: str) -> None:
    assert "fry" in [kind for kind, _ in steps_of(reading(lines, method))]


def test_a_line_may_say_that_capers_are_washed() -> None:
    found = reading(["2 tbsp salted capers, washed", "1 lettuce"], "Toss the capers with the lettuce.")
    assert [step["kind"] for step in found.recipe["steps"]] == ["rinse"]
