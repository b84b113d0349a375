"""Pots of home cooks: doughs in their own bath, water that is heated, braises, and salt of another part."""

from __future__ import annotations

import pytest
from saltledger.method.listed import listed_of

from .test_method_reading import component, reading
from .test_whole_ways import steps_of


@pytest.mark.parametrize(
    "dips",
    [
        "Set the bagels into the boiling water for a minute.",
        "Drop the pretzels into the simmering water and poach for 30 seconds each side.",
        "Lower the bagels into the boiling water, 2 minutes.",
    ],
)
def test_a_bath_of_soda_is_poured_away(dips: str) -> None:
    lines = ["500 g flour", "2 tsp salt", "300 ml warm water", "10 g yeast", "2 l water", "60 g baking soda"]
    method = [
        "Combine the warm water and yeast. Add the flour and salt and knead.",
        "Bring the 2 l water with the baking soda to a boil in a large pot.",
        f"Shape the dough. {dips}",
        "Lay them on the baking sheets and bake for 20 minutes.",
    ]
    found = reading(lines, *method)
    assert component(found, lines[5])[1] == 0.0
    assert component(found, lines[1])[1] is None
    assert [kind for kind, _ in steps_of(found)] == ["boil"]


@pytest.mark.parametrize(
    "into",
    [
        "Slip the rolls in the water and cook for 12 minutes.",
        "Add the pieces of dough to the boiling water for 12 minutes.",
        "Put them into the boiling water and cook 12 minutes.",
    ],
)
def test_what_was_shaped_of_a_dough_boils_whole(into: str) -> None:
    lines = ["400 g flour", "2 egg yolks", "150 ml milk", "1/2 tsp salt"]
    method = [
        "Set a large pot of water to boil.",
        "Whisk the flour and salt, pour in the eggs and milk and knead.",
        "Shape the dough in rolls on the worktop.",
        into,
    ]
    found = reading(lines, *method)
    boiled = [step for step in found.recipe["steps"] if step["kind"] == "boil"]
    assert [step["duration_h"] for step in boiled] == [0.2]
    assert {component(found, line)[0] for line in lines} == {boiled[0]["food"]}


@pytest.mark.parametrize("heading", ["# Dressing", "# Sauce", "# Topping"])
def test_the_salt_of_another_part_salts_no_pasta_water(heading: str) -> None:
    lines = ["400 g fusilli", "1 courgette", heading, "100 ml olive oil", "2 tsp salt", "50 ml vinegar"]
    method = ["Cook the fusilli as the packet says, drain.", "Whisk together and pour over the pasta."]
    found = reading(lines, *method)
    assert component(found, "2 tsp salt") == ("dish", None)


@pytest.mark.parametrize(
    "heats",
    [
        "Bring the water to a boil, then simmer for 10 minutes.",
        "Bring its water to the boil; simmer 10 minutes.",
    ],
)
def test_water_in_which_food_lies_is_heated(heats: str) -> None:
    lines = ["200 g brown lentils", "1 l water", "1 tsp salt"]
    found = reading(
        lines, f"Place the lentils in a saucepan with half of the water. {heats} Drain the lentils."
    )
    assert [kind for kind, _ in steps_of(found)] in (["boil"], ["simmer"])


@pytest.mark.parametrize(
    "uses",
    [
        "Toss it with 2 tablespoons of the cooking liquid.",
        "Toss in some of the juices left in the pot.",
        "Moisten with a ladleful of the braising liquid.",
    ],
)
def test_a_braise_of_which_little_is_eaten_is_asked_about(uses: str) -> None:
    lines = ["1 kg pork shoulder", "2 tsp salt", "400 ml evaporated milk", "1 orange"]
    method = [
        "Season the pork with the salt and brown it. Add the milk and orange and simmer for 2 hours.",
        "Transfer the pork to a baking dish and shred it.",
        f"{uses} Bake until crisp.",
    ]
    assert [q.id.partition("-")[0] for q in reading(lines, *method).questions] == ["left"]
    assert component(reading(lines, *method[:2]), lines[1])[1] is None


@pytest.mark.parametrize(
    "drains",
    [
        "Drain, rinse, and add the beans.",
        "Drain, rinse and add the chickpeas.",
        "Rinse, drain and add all the beans.",
    ],
)
def test_verbs_in_a_row_share_their_food(drains: str) -> None:
    food = "chickpeas" if "chickpeas" in drains else "red beans"
    lines = ["200 g chorizo", "1 onion", f"4 cans {food}"]
    found = reading(lines, "Fry the chorizo and onion.", f"{drains} Simmer.")
    assert [(step["kind"], step.get("rinsed")) for step in found.recipe["steps"]] == [("drain", True)]


@pytest.mark.parametrize(
    ("lines", "foods"),
    [
        (["Wings", "1 kg chicken wings", "1 tsp salt", "Sauce", "2 tbsp butter", "Celery"], [1, 2, 4, 5]),
        (
            ["Lamb chops", "lamb chops, 2 each", "oil, 2 tbsp", "1 lemon", "Garnish", "mint"],
            [1, 2, 3, 5],
        ),
        (["500 g cod", "2 eggs", "Oil for frying", "100 g flour"], [0, 1, 2, 3]),
        (["500 g plums", "Note: damsons do as well.", "honey can replace the sugar", "200 g sugar"], [0, 3]),
        (["Cook the rice by boiling.", "200 g rice", "Simmered stock", "1 onion"], [1, 2, 3]),
    ],
)
def test_bare_words_and_notes_of_a_list(lines: list[str], foods: list[int]) -> None:
    assert [line.index for line in listed_of(lines)] == foods


@pytest.mark.parametrize(
    "waits",
    [
        "Refrigerate overnight and warm it up the next day.",
        "Keep in the fridge for a day.",
        "Chill overnight.",
    ],
)
def test_meat_seasoned_ahead_of_a_stew_is_not_cured_by_how_long_the_stew_keeps(waits: str) -> None:
    lines = ["500 g pork shoulder", "1 kg cabbage", "2 onions", "salt and pepper"]
    method = [
        "Season the pork with salt and pepper 30 minutes in advance.",
        "In a large pot put the cabbage, then the pork and the onions. Cover until tender, 2 hours.",
        waits,
    ]
    assert steps_of(reading(lines, *method)) == []


@pytest.mark.parametrize(
    "cooks",
    [
        "Prepare the udon according to the package.",
        "Make udon as the packet tells.",
        "Prepare udon, see box.",
    ],
)
def test_noodles_made_as_the_packet_says_boil(cooks: str) -> None:
    found = reading(["400 g udon", "2 tbsp soy sauce"], f"{cooks} Toss with the soy sauce.")
    assert [kind for kind, _ in steps_of(found)] == ["boil"]


def test_a_leaven_coats_nothing() -> None:
    lines = ["1 kg chicken wings", "2 tsp baking powder", "2 tsp salt"]
    found = reading(lines, "Toss the wings with the baking powder and salt until coated. Bake 40 minutes.")
    assert "dredge" not in [kind for kind, _ in steps_of(found)]


@pytest.mark.parametrize("heading", ["Water for boiling:", "Boiling solution", "# Soda bath"])
def test_lines_under_the_heading_of_a_pot_are_poured_away(heading: str) -> None:
    lines = [
        "500 g bread flour",
        "8 g salt",
        "10 g yeast",
        "300 ml water",
        heading,
        "2 l water",
        "1 tbsp soda",
    ]
    method = [
        "Mix warm water and yeast",
        "Add the flour and salt and knead",
        "Form into eight balls and rest for an hour",
        "Boil water with other ingredients",
        "Drop a batch of bagels, 2 minutes each side",
        "Pull out and bake for 20 minutes",
    ]
    found = reading(lines, *method)
    assert component(found, "1 tbsp soda")[1] == 0.0
    assert component(found, "8 g salt")[1] is None


@pytest.mark.parametrize(
    "steps",
    [
        ["Rinse the beans and put them in a wide pot with the onion", "add the salt", "Bake it", "stir"],
        ["Fry the onion until it is soft and brown", "mash the beans", "Mix", "leave"],
    ],
)
def test_steps_that_are_jotted_down_are_not_run_together(steps: list[str]) -> None:
    written = [*steps, "Wash the pot", "Dry it", "Set the table"]
    assert reading(["400 g beans", "1 onion", "1 tsp salt"], *written).written.paragraphs == tuple(written)


def test_a_list_that_gives_few_amounts_has_its_doughs() -> None:
    lines = ["Potatoes", "Cheese", "Butter", "Salt", "Dumpling dough", "300 g flour", "2 eggs", "1 tsp salt"]
    lines += ["(Optional) For the topping (for half of it)", "100 g bacon"]
    headings = {line.text: line.heading for line in listed_of(lines)}
    assert headings["300 g flour"] == "Dumpling dough"
    assert headings["100 g bacon"] == "For the topping"
    assert headings["Salt"] == ""


@pytest.mark.parametrize(
    ("heading", "flour", "said"),
    [
        ("Pasta Dough", "3 cups flour", "Cook the pasta in batches in boiling salted water"),
        ("Noodle dough", "250 g flour", "Cook the noodles for 2 minutes in boiling salted water"),
        ("For the pasta", "400 g fine flour", "Boil the pasta in a large pot of salted water"),
    ],
)
def test_the_pasta_is_the_dough_that_the_list_makes(heading: str, flour: str, said: str) -> None:
    lines = [heading, flour, "3 large eggs", "2 tsp salt", "Sauce", "2 cups cream", "1 tsp salt"]
    lines += ["2 tsp chicken powder"]
    method = ["Stir all to a stiff dough and roll it out", said, "Heat the cream with the chicken powder"]
    found = reading(lines, *method)
    assert component(found, "2 tsp salt")[1] is None
    assert component(found, "2 tsp chicken powder")[1] is None
    boiled = next(step for step in found.recipe["steps"] if step["kind"] == "boil")
    assert {component(found, line)[0] for line in (flour, "3 large eggs", "2 tsp salt")} == {boiled["food"]}
    assert any(question.id.startswith("pot-salt") for question in found.questions)


@pytest.mark.parametrize("line", ["1 tsp meat tenderizer", "2 tsp chicken powder", "1/2 teaspoon beef base"])
def test_a_teaspoon_of_meat_is_a_seasoning(line: str) -> None:
    assert listed_of([line])[0].kind == "spice"


@pytest.mark.parametrize(
    "method",
    [
        "Get the water boiling, salt it, in goes the rice for 12 min. Drain.",
        "Cook the rice like pasta, in lots of salted boiling water, for 10 minutes. Drain.",
        "Cook the rice, in plenty of salted water, for ten minutes. Drain in a sieve.",
    ],
)
def test_rice_goes_in_a_pot_of_water(method: str) -> None:
    found = reading(["300 g long grain rice", "1 tbsp butter"], method)
    assert [kind for kind, _ in steps_of(found)] == ["boil"]


@pytest.mark.parametrize("pot", ["boiling salted water", "salted boiling water", "boiling water"])
def test_where_food_is_blanched_boils_nothing_else(pot: str) -> None:
    lines = ["400 g tofu", "1 bunch kale"]
    found = reading(lines, f"In a large pot of {pot}, blanch the kale 2 minutes. Drain.", "Fry the tofu.")
    assert [(s["kind"], s["food"]) for s in found.recipe["steps"]] == [("boil", "kale")]


def test_pasta_that_is_made_is_boiled_and_that_of_flour_is_not() -> None:
    assert steps_of(reading(["400 g fusilli", "1 jar pesto"], "Make the pasta.", "Stir in the pesto."))
    dough = ["400 g flour", "4 eggs", "200 g lasagne sheets"]
    assert not steps_of(reading(dough, "Make the pasta.", "Let it rest."))


@pytest.mark.parametrize(
    "cooks", ["Simmer it for 10 min. Drain.", "Poach the cod for 10 minutes and drain it."]
)
def test_salt_fish_that_was_soaked_is_simmered_in_water(cooks: str) -> None:
    found = reading(["500 g salt cod"], f"Soak the cod in cold water for a day. {cooks}")
    assert [kind for kind, _ in steps_of(found)] == ["soak", "boil"]


def test_what_is_drained_and_warmed_has_left_its_can() -> None:
    found = reading(["2 cans black beans", "1 onion"], "Fry the onion.", "Drain and warm the beans.")
    assert [kind for kind, _ in steps_of(found)] == ["drain"]


@pytest.mark.parametrize("turns", ["Coat the fish in each in turn.", "Dip each fillet of fish in all three."])
def test_three_dishes_are_one_coating(turns: str) -> None:
    lines = ["4 fish fillets", "100 g flour", "2 eggs", "150 g breadcrumbs", "500 ml oil for deep-frying"]
    found = reading(
        lines, f"Put the flour, the beaten eggs and the crumbs in three dishes. {turns}", "Deep-fry."
    )
    assert [kind for kind, _ in steps_of(found)] == ["dredge", "fry"]
    assert {component(found, line)[0] for line in lines[1:4]} == {"coating"}


@pytest.mark.parametrize(
    "said",
    [
        "Put the lentils in a pot. Add water. Cook for 10 minutes and drain.",
        "Tip the lentils into a large saucepan, pour in water and boil for 10 minutes. Drain off the water.",
        "Place lentils in a pan and add cold water. Boil for 10 minutes, then pour off the water.",
    ],
)
def test_water_that_is_added_to_a_pot_of_food_boils_it(said: str) -> None:
    found = reading(["400 g lentils", "2 carrots", "1 tsp salt"], said, "Fry the carrots, add all with salt.")
    assert steps_of(found) == [("boil", 0.1667)]


@pytest.mark.parametrize(
    "said",
    [
        "Put the lentils and carrots in a pot. Add water. Cook for 40 minutes. Season with the salt.",
        "Cover the lentils and the carrots with water in a pot. Boil for 40 minutes. Season with the salt.",
        "Put the carrots in a pan, add water and the salt, cook for 20 minutes and blend with the lentils.",
    ],
)
def test_what_cooks_in_added_water_is_a_stew_unless_it_is_drained(said: str) -> None:
    assert steps_of(reading(["400 g lentils", "2 carrots", "1 tsp salt"], said)) == []


@pytest.mark.parametrize(
    "otherwise",
    [
        "This can also be made in a slow cooker. After soaking and draining the beans, cook them on low.",
        "You can also cook it in the pressure cooker: soak the beans, drain them, then 40 minutes.",
        "To do this in a crockpot, soak the beans overnight, drain and leave all in it for 8 hours.",
        "Slow cooker version: Soak the beans overnight and drain. Cook for 8 hours.",
        "For the pressure cooker: soak the beans, drain, cook 40 minutes.",
    ],
)
def test_another_way_to_cook_what_is_cooked_already_is_let_be(otherwise: str) -> None:
    lines = ["500 g beans", "600 g smoked ham hock", "1 onion"]
    method = "Cover beans, hock and onion with water and simmer for 2 hours. Shred the meat into the beans."
    assert steps_of(reading(lines, method, otherwise)) == []
    assert steps_of(reading(lines, f"{method} {otherwise}")) == []


def test_the_only_way_that_is_told_is_read() -> None:
    method = "For the slow cooker: soak the beans overnight, drain, and cook with the onion for 8 hours."
    assert ("soak", 12.0) in steps_of(reading(["500 g beans", "1 onion"], method))
