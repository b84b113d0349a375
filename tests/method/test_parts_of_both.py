"""Recipes of several parts, whose method goes by the headings of the list."""

from __future__ import annotations

import pytest
from saltledger.method.method_reading import Reading

from .test_method_reading import reading
from .test_plain_recipes import eaten, kinds, step

PARTS = ["Onion gravy", "2 tbsp rape oil", "2 onions", "30 g flour", "500 ml stock", "Cutlets"]
PARTS += [
    "4 veal cutlets",
    "500 ml sunflower oil",
    "120 g flour",
    "2 eggs",
    "100 g breadcrumbs",
    "1 tsp salt",
]
PARTS += ["Dumplings", "3 eggs", "100 ml milk", "1/2 tsp salt", "250 g flour"]
GRAVY = "Heat the rape oil. Fry the onions for 10 minutes. Stir in the flour, then the stock."
CUTLETS = (
    "Heat the sunflower oil in a deep pan. Put flour in one bowl, beaten eggs in the next, crumbs mixed with "
    "salt in the third. Turn each cutlet in the flour, then in egg, and press it into the crumb mixture. "
    "Fry 4 minutes."
)
DUMPLINGS = (
    "Whisk the eggs, milk and salt, add the flour and stir to a batter. Bring a large pot of salted water "
    "to the boil. Press the batter through a colander into the boiling water. Cook 2 minutes and drain."
)


def lies_in(found: Reading, index: int) -> str:
    return next((line["component"] or "" for line in found.lines if line["index"] == index), "")


@pytest.mark.parametrize(
    "heads", [("Onion gravy", "Cutlets", "Dumplings"), ("GRAVY:", "CUTLETS:", "DUMPLINGS:")]
)
def test_a_part_of_the_method_speaks_of_the_lines_of_its_own_part(heads: tuple[str, str, str]) -> None:
    method = [text for pair in zip(heads, (GRAVY, CUTLETS, DUMPLINGS), strict=True) for text in pair]
    found = reading(PARTS, "\n".join(method))
    assert kinds(found) == ["dredge", "fry", "boil"]
    assert step(found, "boil")["food"] == "dough"
    assert {n for n in range(len(PARTS)) if lies_in(found, n) == "coating"} == {8, 9, 10, 11}
    assert {n for n in range(len(PARTS)) if lies_in(found, n) == "dough"} == {13, 14, 15, 16}


def test_a_bare_line_that_is_a_paragraph_too_heads_what_is_below_it() -> None:
    lines = ["Gravy", "500 ml stock", "1 tsp salt", "Knöpfle", "3 eggs", "1/2 tsp salt", "300 g flour"]
    method = "Gravy\nReduce the stock with the salt.\nKnöpfle\nStir eggs, salt and flour together."
    assert {line["index"] for line in reading(lines, method).lines} >= {1, 2, 4, 5, 6}
    assert not [c for c in reading(lines, method).recipe["components"] if "Knöpfle" in c["ingredients"]]


@pytest.mark.parametrize(
    "seasons",
    [
        "Brown the beef. Season well. Simmer with water to cover for 2 hours.",
        "Simmer the beef with the onions until soft. Salt to taste.",
        "Stew the beef and the onions. Adjust the seasoning.",
    ],
)
def test_what_is_seasoned_gets_salt_beside_that_of_another_part(seasons: str) -> None:
    lines = ["800 g beef", "2 onions", "For the crust", "150 g flour", "75 g butter", "1/2 tsp salt"]
    found = reading(
        lines, f"{seasons}\nRub butter, flour and salt together, roll out and cover the pie. Bake."
    )
    assert [q for q in found.questions if q.id.startswith("seasoning")]
    crust = "Rub butter, flour and salt together. Season. Roll out, put the beef and onions on it. Bake."
    assert not [q for q in reading(lines, crust).questions if q.id.startswith("seasoning")]


def test_a_batter_pressed_through_a_sieve_strains_nothing() -> None:
    method = (
        "Simmer the carrots in the stock. Stir the eggs, flour and salt to a batter. Press the batter "
        "through a sieve into the soup. Cook 2 minutes."
    )
    found = reading(["1 l stock", "2 carrots", "2 eggs", "100 g flour", "1/2 tsp salt"], method)
    assert all(eaten(found, n) == 1.0 for n in range(5))
