"""What is made and not all eaten, what is thrown away, and what only the method names."""

from __future__ import annotations

import pytest
from saltledger.method.method_reading import Reading

from .test_method_reading import component, reading
from .test_plain_recipes import eaten
from .test_whole_ways import fate_of


def shares(found: Reading, line: str) -> dict[str, float]:
    """By component, how much of a line lies there."""
    return {
        each["component"]: each.get("share", 1.0)
        for each in found.lines
        if line in each["text"] and each["component"] is not None
    }


def named(found: Reading) -> list[str]:
    return [each["text"] for each in found.lines if each["index"] is None and each["component"] == "dish"]


@pytest.mark.parametrize(
    ("method", "eaten"),
    [
        (
            "Whisk soy sauce with oil. You need only half of it; the rest keeps for a week. Toss the slaw.",
            0.5,
        ),
        (
            "Whisk soy sauce with oil. Dress the slaw with a third of the sauce. Freeze the rest.",
            1 / 3,
        ),
        ("Whisk soy sauce with oil. This makes twice as much as you need. Toss the slaw in it.", 0.5),
        ("Whisk soy sauce with oil. Dress the slaw; leftover dressing keeps for 5 days.", 0.7),
        ("Whisk soy sauce with oil. Use half for the slaw, the rest at the table.", 1.0),
        ("Whisk soy sauce with oil. Dress the slaw. Leftovers keep for 3 days in the fridge.", 1.0),
        ("Whisk soy sauce with oil. Dress the slaw and rest in the fridge for 2 days.", 1.0),
    ],
)
def test_a_sauce_that_is_left_over(method: str, eaten: float) -> None:
    lines = ["1 cabbage", "100 ml soy sauce", "50 ml oil", "50 ml vinegar"]
    found = shares(reading(lines, method), "soy sauce")
    assert 1 - found.get("left-over", 0.0) == pytest.approx(eaten, abs=0.01)


def test_who_does_not_say_how_much_is_left_is_asked() -> None:
    found = reading(
        ["1 cabbage", "100 ml soy sauce", "50 ml oil"],
        "Whisk soy sauce and oil. Dress the cabbage; leftover dressing keeps for 5 days.",
    )
    (question,) = [q for q in found.questions if q.id.startswith("left-over")]
    assert {choice.choice for choice in question.choices} == {"all", "most", "half", "third"}


@pytest.mark.parametrize(
    ("lines", "method", "told"),
    [
        (
            ["500 g beef", "1 broccoli"],
            "Fry the beef with 3 tablespoons of soy sauce.",
            ["3 tablespoons of soy sauce"],
        ),
        (["500 g lentils"], "Simmer the lentils and crumble in a stock cube.", ["a stock cube"]),
        (["500 g rice", "40 g parmesan"], "Stir in a handful of grated Parmesan.", []),
        (["500 g rice", "1 l stock"], "Dissolve 2 stock cubes in the water for the stock.", []),
        (["500 g potatoes", "1 tbsp oil"], "Fry in olive oil with mustard seeds and no stock cube.", []),
        (["500 g rice"], "Add 1 l of chicken stock made with 2 stock cubes.", ["2 stock cubes"]),
        (["300 g ham", "500 g peas"], "Fry the ham.", []),
    ],
)
def test_salty_food_that_only_the_method_names(lines: list[str], method: str, told: list[str]) -> None:
    assert named(reading(lines, method)) == told


def test_how_much_of_it_is_asked_where_nobody_says() -> None:
    found = reading(["500 g noodles", "1 pak choi"], "Fry the pak choi and season with soy sauce.")
    (question,) = [q for q in found.questions if q.id.startswith("unlisted")]
    assert (question.taken, [c.choice for c in question.choices]) == ("usual", ["none", "usual", "much"])


@pytest.mark.parametrize(
    ("method", "eaten"),
    [
        (
            "Simmer the chicken, carrots, salt and water for 1 hour. Strain and discard the carrots.",
            0.0,
        ),
        ("Simmer the chicken, carrots, salt and water for 1 hour. Discard the carrot tops.", 1.0),
        ("Simmer the chicken, carrots, salt and water for 1 hour and serve.", 1.0),
    ],
)
def test_vegetables_that_are_thrown_away(method: str, eaten: float) -> None:
    found = reading(["1 chicken", "2 carrots", "1 tsp salt", "2 l water"], method)
    assert fate_of(found, "2 carrots") in (eaten, None if eaten else 0.0)


def test_what_cooks_in_a_strained_broth_is_no_pot_of_its_own() -> None:
    found = reading(
        ["1 chicken", "2 tsp salt", "200 g noodles"],
        "Put the chicken in a pot with the salt and cover with 2 litres of water. Simmer for 1 hour. Take "
        "out the chicken and strain the broth. Cook the noodles in it for 5 minutes and return the chicken.",
    )
    assert "steps" not in found.recipe


@pytest.mark.parametrize(
    ("method", "eaten"),
    [
        (
            "Marinate the pork in the soy for 6 hours. Lift out. Boil half the marinade, pour over.",
            0.5,
        ),
        (
            "Marinate the pork in the soy for 6 hours. Drain it off. Boil the marinade, pour over.",
            1.0,
        ),
        (
            "Marinate the pork in the soy for 6 hours. Lift out. Boil 50 ml of the marinade; bin the rest.",
            0.5,
        ),
    ],
)
def test_a_marinade_that_becomes_a_sauce(method: str, eaten: float) -> None:
    found = reading(["800 g pork", "100 ml soy sauce"], method)
    (bath,) = [c for c in found.recipe["components"] if c["id"] == "marinade"]
    assert bath["eaten_fraction"] == pytest.approx(eaten, abs=0.02)


@pytest.mark.parametrize(
    "method",
    [
        "Sweat the onions. Add the hock, then the water, and simmer for 3 hours. Discard the hock. Blend.",
        "Brown the hock and onions. Pour in the water. Simmer for 3 hours. Throw away the hock and blend.",
    ],
)
def test_salt_meat_that_is_thrown_away_has_salted_the_broth(method: str) -> None:
    found = reading(["1 ham hock, 800 g", "2 onions", "2 l water"], method)
    (step,) = found.recipe["steps"]
    assert (step["kind"], step["duration_h"]) == ("simmer", 3)
    assert component(found, "1 ham hock, 800 g") == (step["food"], 0.0)
    assert component(found, "2 l water") == (step["bath"], 1.0)


@pytest.mark.parametrize(
    "method",
    [
        "Cook the beets for 40 minutes. Squeeze some lemon juice into the liquid the beets cooked in. Chill.",
        "Salt the beets, leave an hour and drain. Squeeze the lemon over the beets.",
        "Boil the beets and drain them. Press a little lemon juice over the beets.",
    ],
)
def test_a_lemon_that_is_squeezed_over_food_wrings_nothing_out_of_it(method: str) -> None:
    found = reading(["500 g beets", "1 lemon", "2 tsp salt"], method)
    assert not {"squeeze", "press"} & {step["kind"] for step in found.recipe.get("steps", ())}


@pytest.mark.parametrize(
    ("squeezes", "share"),
    [
        ("Squeeze the onion over the bowl it marinated in. Whisk in the oil.", 1.0),
        ("Squeeze the onion, keeping the liquid in the bowl. Whisk in the oil.", 1.0),
        ("Lift out the onion. Whisk the oil into what is left in the bowl.", 1.0),
        ("Take out the onion and drain it. Beat the oil into the vinegar left in the small bowl.", 1.0),
        ("Squeeze the onion and discard the liquid. Toss it in a bowl with the oil.", 0.0),
        ("Drain the onion well and put it into a bowl with the oil.", 0.0),
    ],
)
def test_vinegar_that_is_left_in_its_bowl_for_a_dressing_is_eaten(squeezes: str, share: float) -> None:
    lines = ["1 red onion", "30 ml red wine vinegar", "1 tsp salt", "300 g chickpeas", "60 ml olive oil"]
    method = f"Marinate the onion in the vinegar and salt for 10 minutes. {squeezes} Toss with the chickpeas."
    found = reading(lines, method)
    assert eaten(found, 1) == eaten(found, 2) == share


@pytest.mark.parametrize(
    ("serves", "share"),
    [
        ("Serve over the rice with some of the broth.", 0.3333),
        ("Lift them out and serve on the rice with a little of the hot broth.", 0.3333),
        ("Divide the rice among plates and top with the balls, with a ladle of the broth.", 0.3333),
        ("Serve over the rice with the broth.", 1.0),
        ("Ladle the soup over the rice.", 1.0),
        ("Serve with some of the rice.", 1.0),
    ],
)
def test_of_a_stock_that_is_served_in_part_a_third_is_eaten_and_a_person_asked(
    serves: str, share: float
) -> None:
    lines = ["500 g pork mince", "1.5 l chicken stock", "2 tbsp soy sauce", "200 g rice"]
    method = f"Shape the mince. Bring the stock and soy sauce to a boil, drop in the balls, simmer. {serves}"
    found = reading(lines, method)
    parts = [part for part in found.recipe["components"] if part["id"] == "left-over"]
    lost = {each["line"]: each["share"] for part in parts for each in part["ingredients"]}
    assert [round(1.0 - lost.get(line, 0.0), 4) for line in lines[1:3]] == [share, share]
