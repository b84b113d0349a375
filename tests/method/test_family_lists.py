"""Lists as families keep them: sentences among the lines, bare headings, parts that the list makes itself."""

from __future__ import annotations

import pytest
from saltledger.method.listed import listed_of

from .test_method_reading import component, reading
from .test_whole_ways import steps_of


@pytest.mark.parametrize(
    ("lines", "foods"),
    [
        (["Whisk together for one minute:", "2 eggs", "1 cup milk"], [1, 2]),
        (["300 g flour", "Leave it to swell 20 minutes, then work in:", "50 g butter"], [0, 2]),
        (
            ["300 g flour", "[beat until smooth:]", "2 eggs", "Pour in the hot milk.", "1 cup hot milk"],
            [0, 2, 4],
        ),
        (["1 leg of lamb", "Rub (enough for 2 legs):", "2 tbsp salt", "1 tbsp oil"], [0, 2, 3]),
        (["1 cup dry white wine", "1 cup crushed tomatoes, drained.", "2 tbsp roast garlic"], [0, 1, 2]),
    ],
)
def test_a_sentence_among_the_lines_is_no_food(lines: list[str], foods: list[int]) -> None:
    assert [line.index for line in listed_of(lines)] == foods


@pytest.mark.parametrize(
    ("bare", "below"),
    [
        ("Noodle dough", ["400 g flour", "4 eggs", "1 tsp salt"]),
        ("Lamb marinade", ["200 ml yoghurt", "1 tsp salt", "2 cloves garlic"]),
        ("Brine ingredients", ["2 l water", "100 g salt", "1 bay leaf"]),
        ("Bechamel", ["40 g butter", "40 g flour", "500 ml milk"]),
        ("Pizza sauce", ["1 can chopped tomatoes", "1 tsp salt", "1 tsp oregano"]),
    ],
)
def test_bare_words_name_what_the_lines_below_make(bare: str, below: list[str]) -> None:
    lines = ["600 g minced lamb", "2 onions", bare, *below]
    found = listed_of(lines)
    assert bare not in [line.text for line in found]
    assert {line.heading for line in found[2:]} == {bare}


@pytest.mark.parametrize(
    "bare", ["Soy sauce", "Fish sauce", "Parmesan cheese", "Salt", "Olive oil", "Lime pickle"]
)
def test_bare_words_that_nothing_below_makes_are_food(bare: str) -> None:
    lines = ["600 g minced lamb", "2 onions", bare, "400 g flour", "1 can tomatoes", "1 tsp oregano"]
    assert bare in [line.text for line in listed_of(lines)]


@pytest.mark.parametrize(
    "lines",
    [
        ["1 recipe mushroom sauce", "500 g pasta", "Mushroom sauce", "300 g mushrooms", "1 tsp salt"],
        ["1 batch salsa", "8 tortillas", "Salsa:", "4 tomatoes", "1 tsp salt"],
        ["1 pie crust (recipe below)", "4 apples", "Pie crust", "200 g flour", "100 g butter"],
    ],
)
def test_what_a_part_of_the_list_makes_is_not_counted_twice(lines: list[str]) -> None:
    assert lines[0] not in [line.text for line in listed_of(lines)]
    assert lines[0] in [line.text for line in listed_of([*lines[:2], *lines[3:]])]  # made of nothing listed


def test_what_a_list_may_take_instead_joins_no_words_of_the_method() -> None:
    """ "(or 1 tsp each of mustard, coriander …)": no comma of it is a word of the list."""
    lines = [
        "500 ml vinegar",
        "60 g sugar",
        "30 g salt",
        "1 tbsp spice (or 1 tsp each mustard, dill, and mace)",
    ]
    lines += ["500 ml hot water", "1 kg cucumbers, sliced 1 cm thick"]
    method = [
        "Combine the vinegar, sugar, salt and spice in a bowl. Pour in the hot water and let it cool.",
        "Pack the cucumbers into jars and pour the brine over them. Keep in the fridge for 2 days.",
    ]
    assert steps_of(reading(lines, *method)) == [("brine", 48.0)]
    assert [component(reading(lines, *method), lines[n])[1] for n in (0, 2)] == [0.0, 0.0]


@pytest.mark.parametrize(
    "sentence",
    [
        "In a bowl mix yeast, honey, and warm water. Let sit for 10 minutes.",
        "In a jug stir together the honey, yeast and warm water until it froths.",
        "In a cup combine honey and warm water, then crumble in the yeast.",
    ],
)
def test_warm_water_in_a_list_of_things_is_no_pot(sentence: str) -> None:
    lines = ["10 g yeast", "50 g honey", "300 ml warm water", "500 g flour", "1 tsp salt"]
    method = [
        sentence,
        "Add flour and salt and knead.",
        "At this time you can add the chocolate chips.",
        "Cover with a towel and let rise for 90 minutes. Take the dough out and plait it. Bake 30 minutes.",
    ]
    found = reading([*lines, "150 g chocolate chips"], *method)
    assert steps_of(found) == []
    assert component(found, lines[4])[1] is None


@pytest.mark.parametrize(
    "scrapes",
    ["scraping up the brown bits", "and scrape the bottom of the pot", "scraping down the sides"],
)
def test_scraping_a_pot_takes_no_salt_away(scrapes: str) -> None:
    lines = [
        "1 kg chicken thighs",
        "2 carrots",
        "2 onions",
        "1 tsp salt",
        "3 tbsp flour",
        "1 l chicken stock",
    ]
    method = [
        "Season the chicken with salt and brown it in a pot. Take it out.",
        "Add carrots, onions and a pinch of salt. Cook until soft. Stir in the flour.",
        f"Pour in the stock, {scrapes}. Return the chicken and simmer for 40 minutes.",
    ]
    assert steps_of(reading(lines, *method)) == []
    assert component(reading(lines, *method), lines[3])[1] is None


@pytest.mark.parametrize(
    "layers",
    [
        "Fit a layer of the pasta on the bottom, spread with ricotta mixture. Cover with beef sauce.",
        "Lay in the pasta with some of the ricotta. Cover with the beef.",
        "Line a tin with the pasta and half of the mixture. Cover with the beef and the cheddar.",
    ],
)
def test_a_dish_in_layers_is_no_marinade(layers: str) -> None:
    lines = ["300 g lasagne sheets", "500 g beef, chopped", "150 ml red wine", "500 g ricotta", "1 cup milk"]
    method = [
        "Brown the beef, add the wine and simmer until it has gone.",
        "In a mixing bowl combine the ricotta, milk and cheddar. Boil the pasta.",
        layers,
        "Bake for 30 minutes and let stand for 20 minutes before serving.",
    ]
    found = reading([*lines, "200 g cheddar"], *method)
    assert "marinate" not in [kind for kind, _ in steps_of(found)]
