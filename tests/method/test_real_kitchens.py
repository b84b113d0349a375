"""Ways of ordinary home cooks that real recipes share: what is taken out, washed, left in the bowl."""

from __future__ import annotations

import pytest
from saltledger.method.method_reading import Reading

from .test_method_reading import component, reading


def eaten(found: Reading, line: str) -> float:
    share = component(found, line)[1]
    return 1.0 if share is None else share


STEW = ["600 g shin of beef", "2 bay leaves", "3 sprigs thyme", "2 cloves garlic, bruised", "300 ml stock"]


@pytest.mark.parametrize(
    ("said", "gone"),
    [
        ("Fish out the bay leaves and the garlic and serve.", {1, 3}),
        ("Remove the herb sprigs, then taste.", {2}),
        ("Discard the bay leaves.", {1}),
        ("Once it is tender, the bay leaves and thyme stalks can be removed.", {1, 2}),
        ("Pick out the thyme, the garlic and the bay before you serve it.", {1, 2, 3}),
    ],
)
def test_what_gave_its_taste_and_is_taken_out_is_not_eaten(said: str, gone: set[int]) -> None:
    found = reading(STEW, "Put everything in a pot and simmer for two hours.", said)
    for at, line in enumerate(STEW):
        assert eaten(found, line) == (0.0 if at in gone else 1.0), line


@pytest.mark.parametrize(
    "said",
    [
        "Remove the garlic, mash it and stir it back in.",
        "Remove the garlic to a plate and keep it. Add the garlic again at the end.",
        "Remove the leaves from the thyme sprigs.",
        "Remove the pan from the heat.",
    ],
)
def test_what_is_taken_out_and_used_is_eaten(said: str) -> None:
    found = reading(STEW, "Put everything in a pot and simmer for two hours.", said)
    assert {eaten(found, line) for line in STEW} == {1.0}


def test_garlic_that_flavours_oil_and_is_thrown_away_is_not_eaten() -> None:
    lines = ["2 cloves garlic", "4 tbsp olive oil", "400 g passata"]
    found = reading(
        lines, "Warm the garlic in the oil. When it is golden, take it out.", "Add the passata and cook."
    )
    assert [eaten(found, line) for line in lines] == [0.0, 1.0, 1.0]


@pytest.mark.parametrize(
    "said",
    [
        "Wash the parsley and chop it.",
        "Wash and finely chop the parsley.",
        "Rinse and dice the two tomatoes.",
        "Wash the lettuce and tear it up.",
        "Wash and dry the salad leaves.",
        "Rinse the spinach.",
    ],
)
def test_washing_one_food_does_not_rinse_the_food_before_it(said: str) -> None:
    lines = ["90 g green olives", "1 bunch parsley", "2 tomatoes"]
    found = reading(lines, "Stone the olives and crush them.", said, "Mix.")
    assert not found.recipe.get("steps")


@pytest.mark.parametrize(
    "said",
    ["Rinse and chop the olives.", "Rinse the olives under the tap.", "Tip them in a sieve and rinse."],
)
def test_olives_that_are_rinsed_themselves_are_rinsed(said: str) -> None:
    found = reading(["90 g green olives", "2 tomatoes"], "Stone the olives.", said, "Slice the tomatoes.")
    assert [step["kind"] for step in found.recipe["steps"]] == ["rinse"]


@pytest.mark.parametrize(
    ("said", "part"),
    [
        ("Crack the eggs but use only the yolks. Whisk in the sugar.", "yolk"),
        ("Separate the eggs and whisk the yolks with the sugar.", "yolk"),
        ("Whisk the egg yolks with the sugar (save the whites for meringues).", "yolk"),
        ("Separate the eggs, discard the yolks, and whip the whites with the sugar.", "white"),
        (
            "Separate the eggs, keeping the yolks for another day. Whip the egg whites with the sugar.",
            "white",
        ),
    ],
)
def test_of_eggs_that_are_parted_one_part_is_left_behind(said: str, part: str) -> None:
    found = reading(["4 eggs", "100 g sugar"], said)
    where = {
        each["line"]: component.get("eaten_fraction", 1.0)
        for component in found.recipe["components"]
        for each in component["ingredients"]
        if isinstance(each, dict)
    }
    other = {"yolk": "white", "white": "yolk"}[part]
    assert where == {f"4 egg {part}s": 1.0, f"4 egg {other}s": 0.0}


@pytest.mark.parametrize(
    "said",
    [
        "Separate the eggs. Beat the yolks with the sugar, whip the whites and fold them in.",
        "Beat the eggs with the sugar and brush with the last of the yolk.",
        "Fry the eggs so that the yolks stay runny.",
        "Beat the eggs with white pepper and the whites of two leeks.",
        "Boil the eggs, scoop out the yolks, mash them and fill the halves.",
    ],
)
def test_eggs_of_which_both_parts_go_in_are_whole(said: str) -> None:
    assert eaten(reading(["4 eggs", "100 g sugar"], said), "4 eggs") == 1.0


@pytest.mark.parametrize(
    "said",
    [
        "Marinade the chicken in the soy sauce for 15 minutes.",
        "Let the chicken sit in the soy sauce for 20 minutes.",
        "Put the chicken in the soy sauce and leave it there for 15 minutes.",
        "Allow the chicken to soak in the soy sauce for a few minutes.",
        "Turn the chicken in the soy sauce and let it stand for an hour.",
    ],
)
def test_food_that_lies_in_a_sauce_is_marinated_however_short(said: str) -> None:
    found = reading(["500 g chicken strips", "4 tbsp soy sauce", "2 tbsp oil"], said, "Fry in the oil.")
    assert [step["kind"] for step in found.recipe["steps"]] == ["marinate"]
    assert eaten(found, "4 tbsp soy sauce") == 1.0


def test_a_marinade_that_food_is_drained_of_is_poured_away() -> None:
    found = reading(
        ["400 g prawns", "4 tbsp soy sauce", "1 lime", "2 tbsp oil"],
        "Mix the soy sauce with the lime juice. Toss the prawns in it, 30 minutes.",
        "Drain and fry in the oil.",
    )
    assert eaten(found, "4 tbsp soy sauce") == 0.0


def test_soda_that_only_the_method_names_is_counted_and_that_of_a_soak_is_not() -> None:
    beef = reading(
        ["500 g beef strips", "2 tbsp oil"],
        "Marinate the beef with 1 tsp baking soda for 15 minutes. Fry it.",
    )
    assert any("baking soda" in str(each) for each in beef.recipe["components"][0]["ingredients"])
    peas = reading(["300 g dried chickpeas"], "Soak the chickpeas overnight in water with 1 tsp baking soda.")
    assert "baking soda" not in str(peas.recipe["components"])


def test_soy_sauce_without_an_amount_is_as_much_as_the_method_measures() -> None:
    found = reading(
        ["500 g chicken strips", "soy sauce", "2 tbsp oil"],
        "Marinate the chicken in 3 tbsp of the soy sauce for 2 hours. Fry it, and serve with more soy sauce.",
    )
    assert "3 tbsp" in str(found.recipe["components"])


@pytest.mark.parametrize(
    ("said", "salt"),
    [
        ("Strew 2 tablespoons of salt and pepper on the chicken and fry.", "1 tablespoons of salt"),
        ("Season the chicken with 1 tsp salt and black pepper and fry.", "0.5 to 1 tsp salt"),
        ("Season the chicken with a teaspoon of salt and pepper.", "0.5 teaspoon of salt"),
        ("Season the chicken with 1 tsp salt and 1/2 tsp pepper.", "1 tsp salt"),
        ("Season the chicken with a pinch of salt and pepper.", "1 pinch of salt"),
        ("Season the chicken with salt and pepper, 1/2 tsp each.", "1/2 tsp salt"),
    ],
)
def test_an_amount_of_salt_and_pepper_is_not_all_salt(said: str, salt: str) -> None:
    found = reading(["500 g chicken", "2 potatoes"], said)
    lines = [each["line"] for each in found.recipe["components"][0]["ingredients"] if isinstance(each, dict)]
    assert lines == [salt]


@pytest.mark.parametrize(
    "said",
    [
        "Rub plenty of salt into the steak on all sides.",
        "Rub some salt into the steak.",
        "Rub the steak all over with salt.",
        "Rub plenty of salt on the steak.",
    ],
)
def test_salt_rubbed_on_what_goes_straight_on_the_grill_is_a_seasoning(said: str) -> None:
    found = reading(["1 sirloin steak", "salt", "mustard powder"], said, "Coat with the mustard. Grill it.")
    assert [step["kind"] for step in found.recipe["steps"]] == ["roast"]
    assert eaten(found, "salt") == 1.0


SOUP = ["1 kg fish bones", "2 onions", "2 carrots", "2 bay leaves", "2 l fish stock", "200 ml cream"]


@pytest.mark.parametrize(
    "said",
    [
        "Once the soup is done run it through a fine sieve.",
        "Strain the soup.",
        "Pour the soup through a strainer into a clean pan.",
        "Pass the broth through a sieve, discarding what stays behind.",
    ],
)
def test_what_stays_in_the_sieve_when_a_soup_is_strained_is_not_eaten(said: str) -> None:
    found = reading(
        SOUP,
        "Soften the onions and carrots in a large pot. Add the bones, the bay leaves and the stock.",
        "Bring to the boil and simmer the soup for 30 minutes.",
        said,
        "Bring it back to the boil and add the cream.",
    )
    assert [eaten(found, line) for line in SOUP] == [0.0, 0.0, 0.0, 0.0, 1.0, 1.0]
    assert [step["kind"] for step in found.recipe["steps"]] == ["simmer"]  # the vegetables keep some salt


@pytest.mark.parametrize(
    "said",
    ["Blend the soup and pass it through a sieve.", "Purée everything. Strain.", "Rub it through a sieve."],
)
def test_what_is_made_smooth_goes_through_the_sieve(said: str) -> None:
    lines = ["2 onions", "500 g mushrooms", "1 l vegetable stock", "100 ml cream"]
    found = reading(
        lines, "Simmer the onions and mushrooms in the stock for 20 minutes.", said, "Add the cream."
    )
    assert [eaten(found, line) for line in lines] == [1.0, 1.0, 1.0, 1.0]


@pytest.mark.parametrize(
    ("oil", "said"),
    [
        ("peanut, canola, or other neutral oil", "Heat the oil in a skillet to 190 °C. Fry the fish in it."),
        ("oil for frying", "Drop the fish into 180°C oil."),
        ("750 ml sunflower or rapeseed oil", "Heat the oil in a pot. Place the fish in the heated oil."),
        ("1 lemon", "Deep fry the fish until crisp."),
    ],
)
def test_food_that_swims_in_fat_is_fried_however_that_is_said(oil: str, said: str) -> None:
    found = reading(["4 pieces of cod", oil], said)
    assert [step["kind"] for step in found.recipe["steps"]] == ["fry"]
    fat = next(each for each in found.recipe["components"] if each["id"] == "fat")
    assert "oil" in str(fat["ingredients"])


FLOURED = ["4 chicken thighs", "1 cup flour", "1 tsp paprika", "1 tsp salt", "1 l vegetable oil"]


@pytest.mark.parametrize(
    "said",
    [
        "Mix the flour, paprika and salt. Heat the oil in a deep pot. Place the chicken in the dry mixture "
        "and coat thoroughly. Fry the chicken in the oil.",
        "Stir the flour with the paprika, the salt and enough water for a batter. Fold the chicken into the "
        "batter so that each piece is well coated. Fry in the oil.",
        "Combine flour, paprika and salt in a bowl. Heat the oil. Dredge the chicken in the flour and fry.",
    ],
)
def test_flour_waits_in_its_bowl_while_the_oil_is_heated(said: str) -> None:
    found = reading(FLOURED, said)
    assert [step["kind"] for step in found.recipe["steps"]] == ["dredge", "fry"]
    assert {component(found, line)[0] for line in FLOURED[1:4]} == {"coating"}


def test_water_put_in_a_pot_boils_nothing_that_was_only_chopped() -> None:
    found = reading(
        ["1 onion", "300 g spaghetti"],
        "Chop the onion finely.",
        "In a separate pot put water and bring it to the boil. Cook the spaghetti in it for 9 minutes.",
    )
    assert [step["food"] for step in found.recipe["steps"]] == ["spaghetti"]


def test_salt_beside_that_of_a_brine_is_a_seasoning() -> None:
    found = reading(
        ["2 chicken breasts", "2 l water", "80 g salt", "1 l oil"],
        "Whisk the water and salt in a bowl, add the chicken and brine it for 30 minutes.",
        "Take out the chicken, pat dry and fry in the oil for 4 minutes, adding salt at once.",
    )
    assert any("salt" in str(each) for each in found.recipe["components"][0]["ingredients"])


@pytest.mark.parametrize(
    ("said", "hours"),
    [
        ("Turn off the heat and leave the chicken in the water for another 30 minutes.", 1.0),
        ("Turn the heat off and let it sit in the hot water for 1 hour.", 1.5),
        ("Let it cool in the cold water for 1 hour.", 0.5),
    ],
)
def test_food_that_is_left_in_its_hot_water_cooks_on_there(said: str, hours: float) -> None:
    found = reading(
        ["1 chicken", "1 onion"],
        "Put the chicken in a pot, cover with water and simmer for 30 minutes.",
        said,
        "Drain.",
    )
    assert [(step["kind"], step["duration_h"]) for step in found.recipe["steps"]] == [
        ("boil", pytest.approx(hours))
    ]


@pytest.mark.parametrize(
    "said",
    [
        "Add two cups of the water that the fish was cooked in.",
        "Pour in some of the water in which the fish boiled.",
        "Add a cup of the water from cooking the fish.",
    ],
)
def test_water_that_something_cooked_in_is_no_new_pot(said: str) -> None:
    found = reading(
        ["400 g haddock", "200 g rice"],
        "Put the haddock in a pot, cover with boiling water and cook for 5 minutes.",
        "Lift out the fish and reserve the water. Fry the rice.",
        f"{said} Cook until the rice is done, then flake in the fish.",
    )
    assert [step["kind"] for step in found.recipe["steps"]] == ["boil"]


def test_a_large_pot_is_large_however_its_water_is_salted() -> None:
    for salted in ("salted", "well-salted", "boiling, salted"):
        found = reading(["300 g penne"], f"Bring a large pot of {salted} water to the boil. Cook the penne.")
        water = next(each for each in found.recipe["components"] if each["id"] == "water")
        assert water["ingredients"][0] == {"line": "2.5 to 4 l water"}


def test_tools_and_headings_of_a_list_are_no_food() -> None:
    lines = ["2 large mixing bowls", "1 chef's knife", "Ingredients for the batter", "200 g flour"]
    found = reading(lines, "Stir the flour with water.")
    told = {line["index"]: line["component"] for line in found.lines if line["index"] is not None}
    assert [told[i] for i in range(3)] == [None, None, None]
    assert told[3] is not None


def test_a_sauce_that_may_be_left_out_is_no_heading() -> None:
    found = reading(["Pepper sauce (optional)", "50 g butter", "1 onion"], "Fry the onion in the butter.")
    assert component(found, "Pepper sauce (optional)")[0] == "dish"


def test_rice_soaks_in_water_that_is_poured_away() -> None:
    found = reading(
        ["300 g basmati rice", "400 ml stock"], "Soak the rice for half an hour. Cook in the stock."
    )
    assert [(step["kind"], step["duration_h"]) for step in found.recipe["steps"]] == [("soak", 0.5)]
    drunk = reading(
        ["300 g basmati rice"],
        "Soak the rice in 600 ml water for half an hour, then boil until it is absorbed.",
    )
    assert not drunk.recipe.get("steps")


@pytest.mark.parametrize(
    "said",
    ["Add enough oil to gently fry the sausage.", "Add enough oil to fry the onion, then the sausage."],
)
def test_oil_enough_to_fry_gently_is_no_bath(said: str) -> None:
    found = reading(["400 g sausage", "1 onion", "olive oil"], said)
    assert not found.recipe.get("steps")


def test_broth_of_no_line_is_that_of_the_pot() -> None:
    found = reading(
        ["1 chicken", "300 g rice", "4 spring onions"],
        "Put the chicken in a pot with the spring onions, cover with water and add 20 g salt per litre.",
        "Bring to the boil and simmer for 40 minutes. Lift out the chicken.",
        "Fry the rice, add 2 cups of stock and cook until done. Serve the rice with the chicken.",
    )
    water = next(each for each in found.recipe["components"] if each["id"] == "water")
    assert 0.0 < water["eaten_fraction"] < 0.3


def test_what_is_turned_and_left_again_lies_there_for_all_its_times() -> None:
    found = reading(
        ["500 g napa cabbage", "30 g salt"],
        "Toss the cabbage with the salt, let sit for 30 minutes.",
        "Turn once again, let sit for 30 minutes.",
        "Turn one last time, let stand for 30 minutes. Rinse and drain.",
    )
    (cure,) = (step for step in found.recipe["steps"] if step["kind"] == "dry_cure")
    assert cure["duration_h"] == pytest.approx(1.5)


def test_the_food_is_no_part_of_the_batter_that_its_heading_names() -> None:
    found = reading(
        ["Ingredients for the battered cauliflower", "1 cauliflower", "200 g flour", "1 tsp salt", "1 l oil"],
        "Mix the flour and salt, and stir in water for a batter. Fold the cauliflower into the batter so "
        "that each piece is well coated. Fry in the oil.",
    )
    assert "dredge" in [step["kind"] for step in found.recipe["steps"]]
    assert component(found, "1 cauliflower")[0] == "cauliflower"


@pytest.mark.parametrize(
    "said",
    [
        "Leave the jars in the oven, with the light on, for 12 hours.",
        "Wrap it in a towel and let it stand in a warm place for 8 hours.",
        "Let it sit overnight.",
    ],
)
def test_milk_with_a_little_yoghurt_sours_where_it_stands(said: str) -> None:
    found = reading(["1 l milk", "100 g yoghurt"], "Warm the milk and stir in the yoghurt.", said)
    assert [step["kind"] for step in found.recipe["steps"]] == ["ferment"]
    assert not found.questions


def test_a_batter_of_milk_that_stands_sours_not() -> None:
    found = reading(
        ["300 ml milk", "100 g yoghurt", "200 g flour"], "Stir it all together. Let it stand for 4 hours."
    )
    assert not found.recipe.get("steps")
