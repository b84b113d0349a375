"""What salts a pot, where the method leaves that to the list or to the packet."""

from __future__ import annotations

import pytest

from .test_method_reading import component, reading
from .test_plain_recipes import eaten

LIST = ["300 g rigatoni", "60 g butter", "salt", "pepper"]


def bath_of(lines: list[str], method: str) -> list[str]:
    """The lines of the pot, as texts."""
    found = reading(lines, method)
    bath = found.recipe["steps"][0]["bath"]
    made = next(c for c in found.recipe["components"] if c["id"] == bath)
    return [each if isinstance(each, str) else each["line"] for each in made["ingredients"]]


def is_salted(lines: list[str], method: str) -> bool:
    return any("salt" in text for text in bath_of(lines, method))


@pytest.mark.parametrize(
    "said",
    [
        "Cook the rigatoni by the packet and drain.",
        "Boil the rigatoni until tender, then drain.",
        "Boil the rigatoni but leave out the salt. Drain.",
        "Cook the rigatoni as the box says, but do not add salt to the water. Drain.",
        "Boil the rigatoni, omitting salt. Drain.",
    ],
)
def test_water_is_plain_that_nobody_salts(said: str) -> None:
    assert not is_salted(["300 g rigatoni", "60 g butter"], f"{said} Melt the butter over it.")


@pytest.mark.parametrize(
    "said",
    [
        "Cook the rigatoni with a little salt and drain.",
        "Boil the rigatoni, and don't forget the salt. Drain.",
        "Boil the rigatoni in salted water and drain.",
    ],
)
def test_water_is_salted_where_somebody_says_so(said: str) -> None:
    assert is_salted(["300 g rigatoni", "60 g butter"], f"{said} Melt the butter over it.")


def test_measured_salt_stays_out_of_a_pot_that_goes_without() -> None:
    lines = ["300 g rigatoni", "1 tsp salt", "500 g sausage"]
    method = "Boil the rigatoni, never adding salt. Drain. Season the sausage with the salt."
    assert not is_salted(lines, method)


@pytest.mark.parametrize("pot", ["Cook the rigatoni in salted water and drain.", "Cook the rigatoni. Drain."])
def test_salt_that_no_clause_speaks_of_is_that_of_the_pot(pot: str) -> None:
    method = f"{pot} Melt the butter and season with pepper. Toss in the rigatoni."
    assert is_salted(LIST, method)
    assert {c["component"] for c in reading(LIST, method).lines if c["text"] == "salt"} <= {"water", None}


@pytest.mark.parametrize(
    "then", ["Season to taste.", "Season with salt and pepper.", "Salt the sauce.", "Adjust the seasoning."]
)
def test_salt_of_the_list_seasons_where_something_is_seasoned(then: str) -> None:
    method = f"Cook the rigatoni in salted water and drain. Melt the butter, add the rigatoni. {then}"
    assert "dish" in {line["component"] for line in reading(LIST, method).lines if line["text"] == "salt"}


def test_salt_to_taste_is_for_the_dish() -> None:
    lines = [*LIST[:2], "salt, to taste"]
    method = "Cook the rigatoni in salted water and drain. Melt the butter and toss."
    assert "dish" in {c["component"] for c in reading(lines, method).lines if c["text"] == lines[2]}


@pytest.mark.parametrize("seasoning", ["Salt and pepper, to taste", "salt & freshly ground black pepper"])
@pytest.mark.parametrize("salts", ["with plenty of salt", "and some salt", "with a handful of salt"])
def test_of_a_line_of_salt_and_one_of_salt_and_pepper_the_pot_gets_the_former(
    seasoning: str, salts: str
) -> None:
    method = (
        f"Put the potatoes in a pot of cold water {salts}. Boil 15 minutes. Drain. Toss with the oil, "
        "season with salt and pepper and roast."
    )
    found = reading(["1 kg potatoes", "salt", "60 ml olive oil", seasoning], method)
    texts = [line for part in found.recipe["components"] for line in part["ingredients"]]
    assert "salt" not in texts  # how much of it is what the pot takes
    assert eaten(found, 3) == 1.0


LISTED = [
    "2 onions",
    "1 tin tomatoes",
    "salt and pepper",
    "# Pasta",
    "400 g penne",
    "2 l water",
    "1 tbsp salt",
]


@pytest.mark.parametrize(
    "method",
    [
        "Bring a large pan of salted water to the boil. Cook the pasta, drain.",
        "Put a pot of water on. Add the salt and the penne.",
        "Cook the penne as the packet says.",
        "Set salted water to boil; I use 1 tbsp salt for 2 l water. Cook the penne and drain.",
    ],
)
@pytest.mark.parametrize(
    "sauce", ["Stew the onions with the tomatoes.", "Fry the onions, add a little water."]
)
def test_water_listed_beside_pasta_is_its_pot(method: str, sauce: str) -> None:
    found = reading(LISTED, sauce, method)
    assert component(found, "2 l water") == component(found, "1 tbsp salt")
    assert component(found, "2 l water")[1] == 0.0


@pytest.mark.parametrize(
    ("lines", "method"),
    [
        (["500 g potatoes", "1 l water", "1 tsp salt"], "Make a soup of the potatoes and the water, season."),
        (
            ["1 kg potatoes", "300 g flour", "200 ml water"],
            "Boil the potatoes. Make a dough of flour and water.",
        ),
        (["300 g penne", "500 g flour", "800 ml water"], "Boil the penne. Knead the flour with the water."),
    ],
)
def test_water_of_another_use_is_no_pot(lines: list[str], method: str) -> None:
    water = next(line for line in lines if "water" in line)
    assert component(reading(lines, method), water)[1] != 0.0


@pytest.mark.parametrize("heading", ["# Pasta", "# For the pasta"])
@pytest.mark.parametrize("salt", ["salt", "coarse salt"])
@pytest.mark.parametrize(
    "method",
    [
        "Cook the tagliatelle in salted water. Blend the anchovies with the oil and toss with the pasta.",
        "Boil the tagliatelle, drain, toss with the oil and the anchovies.",
    ],
)
def test_salt_in_the_part_of_the_pasta_salts_its_water(heading: str, salt: str, method: str) -> None:
    lines = ["# Sauce", "80 g anchovies", "50 ml oil", heading, "400 g tagliatelle", salt]
    assert any("salt" in text for text in bath_of(lines, method))
    assert eaten(reading(lines, method), 5) == 0.0


def test_salt_of_the_dressing_is_eaten() -> None:
    lines = ["# Salad", "400 g tagliatelle", "# Dressing", "50 ml oil", "salt"]
    method = "Cook the tagliatelle, drain and cool. Whisk the dressing and pour it over."
    assert eaten(reading(lines, method), 4) == 1.0
