"""What a second look at a reading asks: water of which nothing was made, baths that may be skipped."""

from __future__ import annotations

import pytest
from saltledger.method.forms import written_of
from saltledger.method.method_reading import Reading, read

from .test_method_reading import reading

COLESLAW = ["600 g white cabbage", "1 1/2 tsp salt", "120 g mayonnaise"]


def asked(found: Reading, topic: str) -> list[str]:
    return [q.id for q in found.questions if q.id.startswith(topic)]


def answered(found: Reading, question: str, choice: str) -> Reading:
    return read(found.written, {question: choice})


def kinds(found: Reading) -> list[str]:
    return [step["kind"] for step in found.recipe.get("steps", ())]


@pytest.mark.parametrize(
    ("lines", "method", "kind"),
    [
        (
            ["900 g apples", "100 g flour", "1 pinch salt"],
            "Slice the apples into a bowl of lightly salted water. Rub the flour with salt and bake.",
            "brine",
        ),
        (
            ["400 g salt pork", "500 g beans"],
            "Pour scalding water over the salt pork and score the rind. Bake it with the beans for 5 hours.",
            "soak",
        ),
    ],
)
def test_water_of_which_nothing_was_made_is_asked_about(lines: list[str], method: str, kind: str) -> None:
    found = reading(lines, method)
    (question,) = asked(found, "unread")
    assert kind not in kinds(found)
    assert kind in kinds(answered(found, question, "done"))


@pytest.mark.parametrize(
    "method",
    [
        "Stir the flour with a splash of cold water. Bake the ham.",
        "Loosen the ham with 100 ml water and bake it.",
        "Melt the butter over simmering water. Bake the ham.",
        "Soak the skewers in water for 30 minutes. Bake the ham.",
    ],
)
def test_little_water_is_none_of_a_pot(method: str) -> None:
    found = reading(["500 g flour", "100 g butter", "300 g ham"], method)
    assert not asked(found, "unread")


@pytest.mark.parametrize(
    "skip",
    [
        "(No time? Skip this.)",
        "You can leave out the salting.",
        "This is optional.",
        "The salting is not essential.",
    ],
)
def test_a_bath_that_may_be_skipped_is_asked_about(skip: str) -> None:
    found = reading(
        COLESLAW,
        f"Toss the cabbage with the salt, leave for an hour and squeeze dry. {skip}",
        "Add mayonnaise.",
    )
    (question,) = asked(found, "optional")
    assert "dry_cure" in kinds(found)
    assert "dry_cure" not in kinds(answered(found, question, "left_out"))


def test_a_marinade_that_comes_back_is_asked_about() -> None:
    found = reading(
        ["600 g chicken", "100 ml soy sauce", "2 tbsp honey"],
        "Mix the soy and honey and marinate the chicken in it for 2 hours. Lift out, discard the marinade.",
        "Fry the chicken and serve with the marinade.",
    )
    assert asked(found, "fate")


def test_half_a_spoon_is_no_half_of_what_is_made() -> None:
    found = reading(COLESLAW, "Mix everything. In a hurry, use the half teaspoon.")
    assert not asked(found, "left-over")
    assert [c["id"] for c in found.recipe["components"]] == ["dish"]


@pytest.mark.parametrize(
    "method",
    [
        "Boil the apples in the syrup. Drain well and bake.",
        "Press out the lumps of the apples and bake.",
    ],
)
def test_what_holds_no_salt_is_not_asked_for_when_it_is_drained(method: str) -> None:
    found = reading(["900 g apples", "100 g sugar", "1 pinch salt"], method)
    assert not asked(found, "left-over")


def test_a_third_of_a_soup_is_no_food_lifted_out() -> None:
    found = reading(
        ["300 g lentils", "1.5 l water", "2 stock cubes", "1 tin tomatoes"],
        "Drain the lentils, add to the pan with the water, crumble in the cubes, add the tomatoes. Simmer 40"
        " minutes. Take out a third and blend it, return to the pan.",
    )
    assert [c.get("eaten_fraction") for c in found.recipe["components"]] == [None]


def test_bay_leaves_that_go_are_no_liquid_that_goes() -> None:
    found = read(
        written_of(
            {
                "title": "Split pea soup",
                "servings": 4,
                "ingredients": ["500 g split peas", "1 smoked ham hock", "2 litres water", "1 bay leaf"],
                "method": [
                    "Wash the peas. Put them in a big pot with the hock, bay and the water and cook 2 hours.",
                    "Take out the hock, shred the meat and put it back. Throw out the bay.",
                ],
            }
        )
    )
    dish, thrown = found.recipe["components"]
    assert "eaten_fraction" not in dish
    assert "2 litres water" in dish["ingredients"]
    assert (thrown["ingredients"], thrown["eaten_fraction"]) == (["1 bay leaf"], 0.0)


def test_a_line_may_be_called_by_its_kind() -> None:
    found = reading(["1 tsp Dijon", "100 ml oil"], "Beat the mustard with the oil.")
    assert not asked(found, "unlisted")


def test_a_pinch_for_the_sauce_salts_no_pot_that_waits() -> None:
    found = reading(
        ["400 g spaghetti", "2 tins tomatoes", "salt"],
        "Put a big pot of water on and salt it.",
        "Squash the tomatoes into a pan. Add a pinch of salt and let it bubble for 20 minutes.",
        "Meanwhile cook the spaghetti. Drain and tip into the sauce.",
    )
    dish = next(c for c in found.recipe["components"] if c["id"] == "dish")
    assert any("pinch" in str(each) for each in dish["ingredients"])
    assert asked(found, "pot-salt")


@pytest.mark.parametrize("said", ["No salt in the water.", "Don't salt the water, the noodles are salty."])
def test_water_stays_plain_where_the_method_says_so(said: str) -> None:
    found = reading(["200 g udon noodles", "2 tbsp soy sauce"], f"Boil the udon for 10 min. {said} Drain.")
    (question,) = [q for q in found.questions if q.id.startswith("pot-salt")]
    assert question.taken == "plain"


def test_what_the_sentence_named_boils_and_not_the_dough_that_rests() -> None:
    found = reading(
        ["400 g flour", "1 egg", "1/2 tsp salt", "600 g potatoes"],
        "Knead the flour, egg and salt and let it rest for half an hour.",
        "Peel the potatoes and boil them in salted water for 20 minutes. Drain and mash.",
    )
    (step,) = found.recipe["steps"]
    assert step["food"] == "potatoes"


def test_a_paste_of_pulses_is_asked_for_no_juice() -> None:
    found = reading(
        ["250 g dried chickpeas", "1 onion", "1 1/4 tsp salt", "2 tbsp sesame seeds"],
        "Put chickpeas and onion through the food processor. Mix in the salt and sesame. Chill for 1 hour.",
    )
    assert not found.questions


def test_dumplings_of_bread_are_turned_in_nothing() -> None:
    found = reading(
        ["2 kg pork shoulder", "1 tbsp salt", "1 tsp potato starch", "2 onions"],
        "Rub the pork with the salt and roast 2 hours with the onions. Thicken the juices with the starch."
        " Bread dumplings go well.",
    )
    assert "dredge" not in kinds(found)


@pytest.mark.parametrize(
    "said",
    [
        "Throw away what is left in the bowl, garlic too.",
        "Discard whatever is left.",
        "Bin the contents of the bowl.",
    ],
)
def test_what_is_left_in_the_bowl_is_the_marinade(said: str) -> None:
    found = reading(
        ["800 g pork neck", "100 ml oil", "2 tsp salt", "3 cloves garlic"],
        f"Whisk oil, salt and garlic, add the pork and leave 5 hours in the fridge. {said} Grill the pork.",
    )
    assert [c["eaten_fraction"] for c in found.recipe["components"] if c["id"] == "marinade"] == [0.0]


@pytest.mark.parametrize(
    ("lines", "method"),
    [
        (
            ["3 cucumbers", "2 tbsp salt", "100 ml sour cream"],
            "Slice the cucumbers into a dish, strewing the salt between. Turn into a cloth and wring them.",
        ),
        (
            ["600 g cabbage", "1 tbsp salt", "100 ml cream"],
            "Work the salt through the cabbage. Squeeze it hard with your hands. Stir in the cream.",
        ),
    ],
)
def test_what_is_wrung_out_is_asked_for_its_salt(lines: list[str], method: str) -> None:
    found = reading(lines, method)
    if kinds(found):
        return  # it was read whole
    (question,) = asked(found, "left-over")
    shares = [
        each
        for each in answered(found, question, "little").recipe["components"]
        if each.get("eaten_fraction") == 0
    ]
    assert shares


def test_salty_leaves_that_are_washed_are_asked_about() -> None:
    found = reading(
        ["250 g vine leaves in brine", "300 g minced lamb", "1 tsp salt"],
        "Leaves are very salty. I throw the water and wash them. Mix the lamb with salt, roll up, and cook.",
    )
    if "rinse" in kinds(found):
        return  # it was read whole
    (question,) = asked(found, "unread")
    assert "soak" in kinds(answered(found, question, "done"))


def test_a_salty_bath_of_which_nobody_was_seen_to_use_it_is_asked_about() -> None:
    found = reading(
        ["20 eggs", "600 ml stock", "300 ml dark soy sauce", "200 ml mirin", "1.4 kg cooked rice"],
        "Mix stock, soy sauce and mirin. Keep 12 hours in the fridge. Serve the eggs on the rice.",
    )
    assert asked(found, "left-over") or kinds(found)


@pytest.mark.parametrize(
    ("lines", "heads"),
    [
        (["Eggs", "20 eggs", "Soy bath", "600 ml dashi", "300 ml soy sauce"], {"Eggs", "Soy bath"}),
        (["Panada", "180 g butter", "220 g flour", "# Rest", "6 eggs"], {"Panada", "# Rest"}),
        (["PICKLED ONION (yield 600 g)", "500 g onions", "18 g salt"], {"PICKLED ONION (yield 600 g)"}),
        (
            ["Tomato sauce", "3 kg tomatoes", "35 g salt", "To build", "900 g Cheddar"],
            {"Tomato sauce", "To build"},
        ),
        (["500 g flour", "Salt", "300 ml water", "Soy sauce", "2 eggs"], set()),
        (["To serve", "500 g flour", "Salt", "300 ml water", "Soy sauce", "2 eggs"], {"To serve"}),
    ],
)
def test_bare_headings(lines: list[str], heads: set[str]) -> None:
    found = reading(lines, "Mix everything.")
    assert {line["text"] for line in found.lines if line.get("reason") == "a heading"} == heads


def test_salted_meat_salts_no_water() -> None:
    found = reading(
        ["500 g beans", "300 g salted pork ribs", "150 g bacon"],
        "Put the salted meats in a pot with water, boil 10 minutes, throw out the water.",
    )
    (question,) = asked(found, "pot-salt")
    assert next(q.taken for q in found.questions if q.id == question) == "plain"


def test_what_drinks_its_water_is_eaten_with_it() -> None:
    found = reading(
        ["200 g rice", "500 ml water", "1 tsp salt"],
        "Boil the water with the salt. Throw the rice in and let it cook until it drinks all the water.",
    )
    assert all(c.get("eaten_fraction", 1) == 1 for c in found.recipe["components"])


def test_a_pot_of_salty_food_of_which_nobody_says_that_it_is_drained_is_asked_about() -> None:
    found = reading(
        ["1 kg sauerkraut", "500 g pork", "1 onion"],
        "Put the sauerkraut in a big pot with 1 litre of water and cook 1 hour. Fry the pork and the onion.",
    )
    assert asked(found, "fate") or asked(found, "unsaid")


def test_a_pudding_in_a_cloth_gives_no_salt_to_its_water() -> None:
    found = reading(
        ["450 g flour", "200 g suet", "1 tsp salt", "300 ml milk"],
        "Mix the flour, suet and salt with the milk. Flour a cloth, lay in the duff and tie it up. Plunge it"
        " into a large pot of boiling water and boil for four hours.",
    )
    assert not kinds(found)


def test_a_hot_sauce_of_the_pan_is_none_of_a_bottle() -> None:
    found = reading(["1 kg chicken", "200 g sour cream"], "Mix the sour cream and put some hot sauce to it.")
    assert not asked(found, "unlisted")
    found = reading(["1 kg chicken", "200 g sour cream"], "Mix the sour cream with a dash of hot sauce.")
    assert "hot sauce" in str(found.recipe) or asked(found, "unlisted")


def test_of_two_soy_sauces_that_of_the_part_spoken_of_is_meant() -> None:
    lines = ["600 g chicken", "2 tbsp soy sauce", "1 tsp curry powder", "# Peanut sauce"]
    lines += ["100 g peanut butter", "1 tbsp light soy sauce"]
    found = reading(
        lines, "Marinate the chicken in the soy and curry powder overnight. Mix the peanut sauce."
    )
    marinade = next(c for c in found.recipe["components"] if c["id"] == "marinade")
    assert "1 tbsp light soy sauce" not in str(marinade)


@pytest.mark.parametrize(
    "said",
    [
        "Pour over as much nuoc cham as you like.",
        "Pour over the nuoc cham, half is usually left.",
        "Pour over the nuoc cham; some of it will be left.",
    ],
)
def test_a_sauce_of_which_some_is_left(said: str) -> None:
    lines = ["200 g noodles", "# Nuoc cham", "4 tbsp fish sauce", "3 tbsp sugar", "100 ml water"]
    found = reading(lines, f"Soak the noodles. Stir the fish sauce, sugar and water together. {said}")
    assert asked(found, "left-over") or "left-over" in [c["id"] for c in found.recipe["components"]]


def test_anchovies_that_are_drained_of_their_oil_are_not_asked_about() -> None:
    found = reading(["6 anchovy fillets in oil", "400 g beans"], "Drain the anchovies. Fry with the beans.")
    assert not found.questions


def test_what_comes_salty_is_laid_in_plain_water() -> None:
    found = reading(
        ["250 g salted mustard greens", "300 g pork"],
        "These come very salty, so begin with them: soak the mustard greens an hour in cold water. Squeeze.",
    )
    assert "brine" not in kinds(found)


def test_headings_that_say_their_food_once_more() -> None:
    lines = ["8 drumsticks", "Soak", "2 cups buttermilk", "1 Tbsp salt", "Flour", "2 cups plain flour"]
    found = reading(lines, "Mix everything.")
    assert {e["text"] for e in found.lines if e.get("reason") == "a heading"} == {"Soak", "Flour"}


def test_half_of_a_salt_may_be_left_behind() -> None:
    found = reading(["4 chicken breasts", "60 g salt"], "Fry the chicken with the salt.")
    (question,) = asked(found, "left")
    shares = [str(c) for c in answered(found, question, "half").recipe["components"]]
    assert any("0.5" in each for each in shares)


def test_everything_in_the_slow_cooker_is_a_stew() -> None:
    found = reading(
        ["1 lb dried pinto beans", "1 onion", "8 cups water", "1 Tbsp kosher salt", "4 slices bacon"],
        "Everything except the salt goes in the slow cooker. High, 6 hours. Stir in the salt.",
    )
    assert not kinds(found)


def test_salt_for_the_pasta_water_may_be_told_before_there_is_a_pot() -> None:
    found = reading(
        ["400 g spaghetti", "150 g guanciale"],
        "Note: I put only half the usual salt in the pasta water, about 5 g per litre.",
        "Cook the spaghetti in 3 litres of water. Drain and toss with the guanciale.",
    )
    assert "15 g salt" in str(found.recipe)
    assert not asked(found, "seasoning")


def test_water_that_another_pot_left_opens_none() -> None:
    found = reading(
        ["3 kg fusilli", "2 l cream", "6 stock cubes", "1.5 kg ham"],
        "Cook the fusilli in boiling salted water. Drain, reserving 1 l of the water.",
        "Heat the cream with the stock cubes and the reserved water. Add the ham.",
    )
    assert kinds(found) == ["boil"]


def test_eggs_boil_in_water_and_not_in_the_sauce_that_cools() -> None:
    found = reading(
        ["6 eggs", "120 ml soy sauce", "240 ml water"],
        "Simmer the soy and water for a minute, and cool completely. Boil the eggs 6 minutes, peel.",
    )
    boil = next(step for step in found.recipe["steps"] if step["kind"] == "boil")
    bath = next(c for c in found.recipe["components"] if c["id"] == boil["bath"])
    assert "soy sauce" not in str(bath)


def test_what_is_rinsed_only_if_it_is_too_salty_is_not_rinsed() -> None:
    found = reading(
        ["2 cucumbers", "1 tsp salt"],
        "Toss the cucumbers with the salt, leave in a sieve 15 minutes. Rinse if you find it too salty.",
    )
    assert kinds(found) == ["dry_cure"]


def test_kombu_that_is_heated_in_its_water_makes_a_stock() -> None:
    found = reading(
        ["900 ml water", "1 piece kombu", "200 g tofu"],
        "Soak the kombu in the water for half an hour, heat slowly, take it out. Add the tofu.",
    )
    assert not kinds(found)


def test_salt_for_the_water_of_carrots_is_the_pots() -> None:
    found = reading(
        ["600 g carrots", "1 tsp salt for the carrots' water", "1/2 tsp salt"],
        "Cook the carrots in water with its salt, 15 min. Drain. Dress with the other salt.",
    )
    water = next(c for c in found.recipe["components"] if c["id"] == "water")
    assert "carrots' water" in str(water)


@pytest.mark.parametrize(
    ("lines", "asks"),
    [
        (["1 kg small cucumbers", "1 litre water", "2 tablespoons coarse salt"], True),
        (["800 g beef", "150 ml soy sauce"], True),
        (["800 g beef", "1 tbsp soy sauce"], False),
        (["1 kg flour", "650 ml water", "20 g salt"], False),
        (["1 kg beans", "3 l water", "2 tsp salt"], False),
        (["800 g beef", "300 g passata"], False),
    ],
)
def test_what_would_be_saltier_than_people_eat_is_asked_about(lines: list[str], asks: bool) -> None:
    assert bool(asked(reading(lines, "Put everything together. Serve."), "left-")) == asks


@pytest.mark.parametrize(
    "said", ["Toss everything together and add no salt.", "Any longer and the fish keeps drinking salt."]
)
def test_salt_that_is_not_added_is_not_added(said: str) -> None:
    found = reading(["400 g beans", "100 g feta"], said)
    assert not asked(found, "seasoning")


def test_what_is_drained_and_dressed_is_not_asked_for_its_dressing() -> None:
    found = reading(
        ["400 g beans", "1 tsp mustard", "1 tsp salt", "3 tbsp oil"],
        "Mix mustard, salt and oil. Boil the beans. Drain the beans well and toss with the dressing.",
    )
    assert not asked(found, "left-over")


def test_a_flour_mix_is_a_heading() -> None:
    lines = ["3 lb chicken", "2 cups buttermilk", "Flour mix", "2 cups all-purpose flour", "1 1/2 tsp salt"]
    found = reading(lines, "Mix everything.")
    assert [e["text"] for e in found.lines if e.get("reason") == "a heading"] == ["Flour mix"]


def test_salt_that_is_denied_is_not_spoken_of() -> None:
    found = reading(
        ["300 g spaghetti", "Salt", "1 tbsp capers"],
        "Put a big pot of water on. Add salt when it boils, then cook the pasta. Drain. Add the capers.",
        "No extra salt, the capers do that.",
    )
    dish = next(c for c in found.recipe["components"] if c["id"] == "dish")
    assert "Salt" not in dish["ingredients"]


def test_broth_poured_over_them_with_an_onion_is_no_brine_of_the_onion() -> None:
    found = reading(
        ["1 kg potatoes", "1 onion", "250 ml beef broth", "3 tbsp vinegar"],
        "Boil the potatoes, slice them. Pour the hot broth with onion and vinegar over them and leave 30"
        " minutes.",
    )
    assert kinds(found) == ["boil"]


def test_cans_in_a_colander_are_not_the_feta_that_soaked() -> None:
    found = reading(
        ["3 oz feta", "1 can chickpeas"],
        "Crumble the feta into a bowl of cold water, leave it for 30 minutes. Drain and pat it dry.",
        "Empty the can into a colander and rinse.",
    )
    soak = next(step for step in found.recipe["steps"] if step["kind"] == "soak")
    food = next(c for c in found.recipe["components"] if c["id"] == soak["food"])
    assert food.get("eaten_fraction", 1) == 1


def test_of_two_salts_the_one_of_the_amount_is_meant() -> None:
    found = reading(
        ["4 veal escalopes", "Salt", "# Salad", "1 cucumber", "1 tsp salt"],
        "Slice the cucumber, mix with the teaspoon of salt, leave 20 minutes. Squeeze out the liquid.",
        "Salt the escalopes and fry.",
    )
    cure = next(c for c in found.recipe["components"] if c["id"] == "cure")
    assert len(cure["ingredients"]) == 1


def test_whatever_flour_is_left_is_asked_about_though_the_milk_goes_too() -> None:
    found = reading(
        ["3 lb chicken", "2 cups buttermilk", "2 cups flour", "2 tbsp salt"],
        "Lay the chicken in the buttermilk overnight. Mix the flour and salt. Turn the chicken in it.",
        "Throw out the buttermilk and whatever flour is left. Fry.",
    )
    assert asked(found, "left-over") or "dredge" in kinds(found)


@pytest.mark.parametrize(
    ("method", "asks"),
    [
        ("Toss the celeriac with the salt and lemon. Squeeze it lightly.", True),
        ("Toss the celeriac with the salt. Take it in your hands and squeeze hard. Bake.", True),
        ("Toss the celeriac with the salt. Squeeze the lemon over it.", False),
    ],
)
def test_vegetables_that_are_squeezed_and_lemons(method: str, asks: bool) -> None:
    found = reading(["700 g celeriac", "1 lemon", "2 tsp salt"], method)
    assert bool(asked(found, "left-over") or kinds(found)) == asks


def test_a_spoonful_in_the_water_is_the_pots_of_a_line_that_seasons_too() -> None:
    found = reading(
        ["1 kg potatoes", "salt and pepper"],
        "Boil the potatoes, with a spoonful of salt in the water, 25 minutes. Drain. Season with the salt.",
    )
    places = {c["id"]: str(c["ingredients"]) for c in found.recipe["components"]}
    assert "spoonful" in places["water"]
    assert "salt and pepper" in places["dish"]


def test_cabbage_that_is_scrunched_with_salt_is_cured() -> None:
    found = reading(
        ["600 g white cabbage", "2 tsp fine salt"],
        "Shave the cabbage. Scrunch with the salt until your hands are wet and leave it half an hour.",
        "Rinse under the tap, then wring it in a tea towel.",
    )
    assert "dry_cure" in kinds(found)


def test_tins_that_are_rinsed_with_a_little_water_keep_their_juice() -> None:
    found = reading(
        ["4 tins plum tomatoes", "2 tsp salt"],
        "Tip in the tomatoes, rinse the tins with a little water and add that too. Salt. Simmer for an hour.",
    )
    assert not kinds(found)
    assert not asked(found, "left-")


def test_milk_that_herrings_lay_in_and_is_poured_off_is_asked_about() -> None:
    found = reading(
        ["8 fillets salt herring", "300 ml milk", "1 kg potatoes"],
        "The herrings lie in the milk from lunchtime; at six pour it off and pat them dry.",
    )
    assert asked(found, "unread") or kinds(found)


def test_juices_of_the_pan_are_none_of_the_brine() -> None:
    found = reading(
        ["2 kg turkey breast", "2 litres cider", "120 g salt"],
        "Stir the salt into the cider, put in the turkey and leave overnight. Discard the brine, pat dry.",
        "Roast for 1 hour. Carve the turkey and spoon the pan juices over.",
    )
    assert not asked(found, "fate")


def test_vegetables_salted_in_a_soup_are_asked_for_no_juice() -> None:
    found = reading(
        ["2 lb green beans", "1 smoked turkey wing", "4 cups water", "2 tsp salt"],
        "Put the wing in the water and let it go for an hour. Then the beans and salt. Lid on, another hour.",
        "The pot liquor is for cornbread.",
    )
    assert not asked(found, "unsaid")


@pytest.mark.parametrize(("said", "steps"), [("Pour off the grease.", ["roast"]), ("Serve.", [])])
def test_a_loaf_whose_fat_is_poured_off_loses_it(said: str, steps: list[str]) -> None:
    found = reading(
        ["2 lbs. ground chuck", "1 c. quick oats", "2 eggs", "1 envelope onion soup mix"],
        f"Mix all the ingredients with your hands. Shape in a loaf. Bake 1 hour at 350. {said}",
    )
    assert kinds(found) == steps
