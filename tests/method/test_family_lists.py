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


@pytest.mark.parametrize(
    "fills",
    [
        "Add the leeks, water and apple juice; bring to the boil.",
        "Pour in the water and apple juice with the leeks and heat it.",
        "Add leeks and water, then the apple juice, and bring to the boil.",
    ],
)
def test_a_cured_joint_in_water_and_juice_is_a_pot(fills: str) -> None:
    lines = [
        "3 tbsp brown sugar",
        "2 tsp mustard",
        "1.5 kg gammon",
        "2 leeks",
        "2 l water",
        "250 ml apple juice",
    ]
    method = [
        "In a cup stir the sugar and mustard; set aside. Place the gammon in a large pot.",
        f"{fills} Simmer for 90 minutes.",
        "Take the gammon out of the liquid. Spread the sugar mixture over it and bake for 15 minutes.",
    ]
    found = reading(lines, *method)
    assert ("simmer", 1.5) in steps_of(found)
    assert [component(found, lines[n])[1] for n in (0, 4)] == [None, 0.0]


@pytest.mark.parametrize(
    ("section", "seasons"),
    [
        ("# Dumplings", "Salt and pepper the chicken"),
        ("# Pastry", "Season the chicken with salt"),
        ("# Batter", "Sprinkle the chicken with a little salt"),
    ],
)
def test_the_salt_of_a_dough_is_not_that_of_the_meat(section: str, seasons: str) -> None:
    dough = [section, "200 g flour", "1/2 tsp salt", "100 ml milk"]
    method = [
        f"{seasons} and brown it in the oil with the leeks.",
        "Mix the flour, salt and milk and drop it on top.",
    ]
    found = reading(["2 chicken breasts", "2 leeks", "1 tbsp oil", *dough], *method)
    assert component(found, "1/2 tsp salt")[1] is None
    assert [question.id.partition("-")[0] for question in found.questions] == ["seasoning"]
    listed = reading(["2 chicken breasts", "2 leeks", "1 tbsp oil", "pepper and salt", *dough], *method)
    assert "seasoning" not in [question.id.partition("-")[0] for question in listed.questions]


@pytest.mark.parametrize(
    "adds",
    [
        "add the cream, a cup of the reserved pasta water, and the remaining salt",
        "stir in half a cup of the saved water, the cream and the rest of the salt",
        "add 100 ml reserved cooking water, cream and remaining salt",
    ],
)
def test_salt_beside_reserved_water_salts_no_pot(adds: str) -> None:
    lines = ["400 g penne", "300 g mushrooms", "1/4 tsp salt", "1/4 tsp salt", "150 ml cream"]
    method = [
        "Cook the penne as the packet says, reserving a cup of the water.",
        "Fry the mushrooms in a pan with the salt.",
        f"Then {adds}. Boil down until thick and add the penne.",
    ]
    found = reading(lines, *method)
    assert {each["component"] for each in found.lines if each["text"] == lines[2]} == {"dish"}


def test_what_brings_water_down_from_the_boil_is_no_second_pot() -> None:
    method = [
        "Bring a pot of water to the boil.",
        "Boil the eggs for 7 minutes. Cold eggs bring the temperature of the water down.",
        "Put them into iced water and peel.",
    ]
    assert [kind for kind, _ in steps_of(reading(["6 eggs"], *method))] == ["boil"]


def test_a_dish_is_nothing_that_goes_into_it() -> None:
    """ "Mix the cabbage with the kimchi paste", of kimchi."""
    lines = ["2 kg napa cabbage", "60 g salt", "50 g chilli flakes"]
    method = ["Salt the cabbage for 2 hours and rinse. Mix in the chilli and allow kimchi to sour."]
    asked = [q.id for q in reading(lines, *method, title="Weekday kimchi").questions]
    assert not any(each.startswith("unlisted") for each in asked)
    assert any(q.id.startswith("unlisted") for q in reading(lines, *method, title="Rice bowl").questions)
