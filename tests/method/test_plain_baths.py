"""Baths and pots of plain recipes that no sentence makes in so many words, each in three forms."""

from __future__ import annotations

import pytest
from saltledger.method.method_reading import Reading

from .test_method_reading import reading
from .test_plain_recipes import eaten, kinds, step


@pytest.mark.parametrize(
    ("method", "kind"),
    [
        (
            "Place the beef strips in the marinade and let soak for 24 hours. Remove and dry in the oven.",
            "marinate",
        ),
        (
            "Cut the beef in strips. Marinate for at least 2 hours. Drain, then dry at 65 °C for 8 hours.",
            "marinate",
        ),
        ("Put the beef into the marinade and chill overnight. Lift it out and grill.", "marinate"),
    ],
)
def test_a_bath_that_no_sentence_makes_is_of_the_lines_that_can_be_it(method: str, kind: str) -> None:
    found = reading(["1 kg beef", "100 ml soy sauce", "1 tsp pepper", "1 tsp salt", "30 ml honey"], method)
    assert kinds(found)[0] == kind
    assert eaten(found, 1) == eaten(found, 3) == 0.0 or component_of(found, 1) == component_of(found, 3)


def component_of(found: Reading, index: int) -> str:
    return next(line["component"] for line in found.lines if line["index"] == index)


@pytest.mark.parametrize(
    "method",
    [
        "In a pot combine the water, salt and lemon. Bring to a boil. Add the potatoes and shrimp. "
        "Cook for 15 "
        "minutes. Drain.",
        "Stir salt into the water in a large pot, bring to a boil and add the potatoes to the pot. "
        "Cook 12 minutes, "
        "add the shrimp, cook 3 minutes and drain.",
        "Combine water, lemon and salt in a big pot and bring it to the boil. Put the shrimp and "
        "potatoes in the "
        "pot, cook 15 minutes, drain.",
    ],
)
def test_a_seasoned_liquid_that_boils_is_the_pot_of_what_goes_in(method: str) -> None:
    found = reading(["1 kg potatoes", "500 g shrimp", "4 l water", "60 g salt", "1 lemon, quartered"], method)
    assert "boil" in kinds(found)
    assert eaten(found, 3) == 0.0


@pytest.mark.parametrize(
    "method",
    [
        "Shred the cabbage. Salt generously. Let sit for 2 hours. Rinse and squeeze. Stir in the mayonnaise.",
        "Slice the cabbage and salt it well. Leave for 2 hours, then squeeze it dry. Mix with the "
        "mayonnaise.",
        "Salt the shredded cabbage. Let stand 2 hours. Drain, squeeze and dress with the mayonnaise.",
    ],
)
def test_vegetables_may_be_salted_though_no_line_is_salt(method: str) -> None:
    found = reading(["1 cabbage, 1 kg", "60 g mayonnaise"], method)
    assert kinds(found)[0] == "dry_cure"
    assert step(found, "dry_cure")["duration_h"] == 2.0


@pytest.mark.parametrize(
    "method",
    [
        "Toss the cabbage with the salt. Let stand 2 hours. Pour off the liquid; rinse the bowl "
        "and dry. Add the oil.",
        "Toss cabbage and salt in a bowl, stand 2 hours. Drain off the juice, rinse the bowl, "
        "return the cabbage.",
        "Sprinkle the cabbage with the salt, leave for 2 hours and drain. Rinse the bowl and put "
        "the cabbage back.",
    ],
)
def test_a_bowl_that_is_rinsed_is_no_food(method: str) -> None:
    assert "rinse" not in kinds(reading(["1 kg white cabbage, shredded", "2 tsp salt", "30 ml oil"], method))


@pytest.mark.parametrize(
    "method",
    [
        "Place the beans in a pot. Cover with water by 4 inches and soak overnight. Drain.",
        "Cover the beans with cold water to 10 cm above them. Soak for 12 hours. Drain.",
        "Put the beans in a bowl, cover with water by 3 inches, soak 12 hours and drain.",
    ],
)
def test_the_depth_of_water_is_no_thickness(method: str) -> None:
    assert step(reading(["500 g dried beans", "200 g salt pork"], method), "soak")["thickness_cm"] < 2.0


@pytest.mark.parametrize(
    "method",
    [
        "Bring the water and salt to a boil. When the water boils, put in the beans and cook 5 "
        "minutes. Drain.",
        "Boil the water with the salt in a pot. Once the water is boiling add the beans, cook 5 "
        "minutes, drain.",
        "In a pot bring salt and water to the boil. When it is boiling, drop in the beans for 5 "
        "minutes. Drain.",
    ],
)
def test_water_that_is_waited_for_is_that_of_the_pot(method: str) -> None:
    found = reading(["600 g green beans", "4 l water", "60 g salt", "salt and pepper to taste"], method)
    assert eaten(found, 2) == 0.0
    assert eaten(found, 3) == 1.0


@pytest.mark.parametrize(
    "method",
    [
        "Soak for 4 hours. Wash in cold water. Smoke for 5 hours.",
        "Soak the salmon 4 hours, rinse, and smoke it for 5 hours.",
        "Let the fish soak for 4 hours. Pat dry and smoke for 5 hours.",
    ],
)
def test_what_soaks_where_the_list_makes_a_brine_lies_in_it(method: str) -> None:
    found = reading(["1.5 kg salmon fillet", "# Brine", "1 l water", "120 g salt", "100 g sugar"], method)
    assert [each for each in kinds(found) if each in ("brine", "soak")] == ["brine"]
    assert step(found, "brine")["duration_h"] == 4.0


@pytest.mark.parametrize(
    "method",
    [
        "Toss cucumbers and salt in a bowl, let stand 3 hours. Drain and rinse. Boil the vinegar and the "
        "spices in a pot. Add the cucumbers, simmer 2 minutes. Pack the pickles in hot jars and seal.",
        "Mix the cucumbers with the salt and let sit 2 hours. Drain well and rinse. Bring vinegar and "
        "mustard seed to a boil, add the cucumbers and heat through. Ladle into hot jars.",
        "Combine cucumbers and salt. Let stand 2 hours; drain, rinse. In a saucepot bring the vinegar and "
        "the mustard seed to a boil. Add the cucumbers to the vinegar mixture. Pack hot pickles and "
        "liquid into "
        "hot jars. Process 10 minutes.",
    ],
)
def test_pickles_that_are_packed_hot_stand_in_their_vinegar(method: str) -> None:
    lines = ["2 kg cucumbers, sliced", "100 g salt", "1 l cider vinegar", "2 tbsp mustard seed"]
    found = reading(lines, method)
    assert kinds(found)[-1] == "brine"
    assert eaten(found, 1) == eaten(found, 2) == 0.0


@pytest.mark.parametrize(
    "method",
    [
        "Toss cucumbers and salt in a bowl, let stand 3 hours. Drain. Boil the vinegar and mustard seed. "
        "Add the cucumbers and simmer 20 minutes. Ladle the relish into hot jars.",
        "Salt the cucumbers for 2 hours, drain. Bring vinegar and mustard seed to a boil, add the cucumbers, "
        "cook until thick. Spoon the chutney into jars.",
        "Mix the cucumbers with the salt, let sit 2 hours and drain. Heat the vinegar and the mustard seed. "
        "Add the cucumbers, simmer 10 minutes and pour the piccalilli into jars.",
    ],
)
def test_a_relish_is_eaten_with_its_vinegar(method: str) -> None:
    lines = ["2 kg cucumbers, chopped", "100 g salt", "1 l cider vinegar", "2 tbsp mustard seed"]
    assert eaten(reading(lines, method), 2) == 1.0


@pytest.mark.parametrize(
    "method",
    [
        "Add the spinach to a large pot; add about 1/2 cup of water; cover and cook 2 minutes. Drain the "
        "spinach in a colander, then squeeze dry. Add the soy sauce.",
        "Put the spinach in a pan and pour in a cup of water. Cover, cook for 3 minutes and drain. "
        "Squeeze dry. "
        "Dress with the soy sauce.",
        "Place the spinach in a saucepan. Add 200 ml water, cover and steam until wilted. Drain and "
        "squeeze dry. "
        "Toss with the soy sauce.",
    ],
)
def test_vegetables_that_are_drained_of_the_water_in_their_pan_boiled(method: str) -> None:
    found = reading(["500 g spinach", "2 tbsp soy sauce"], method)
    assert kinds(found) == ["boil", "squeeze"]
    assert eaten(found, 0) == eaten(found, 1) == 1.0


@pytest.mark.parametrize(
    "method",
    [
        "Put the beans in the crock pot with 4 cups of water. Add the salt. Cook for 8 hours.",
        "Rinse the beans and put them in a crockpot with 2 l water. Cook on low 8 hours with the salt.",
        "Place the beans in your crock-pot with 6 cups water, add the salt and cook 10 hours.",
    ],
)
def test_a_crock_pot_is_a_pot(method: str) -> None:
    assert "soak" not in kinds(reading(["500 g dried beans", "10 g salt"], method))


@pytest.mark.parametrize(
    "opens",
    [
        "Drain the oil from the tuna and flake it.",
        "Open the tuna and drain off the oil.",
        "Open the tuna. Pour off the oil. Heat the olive oil and fry the onion.",
        "Tip the oil off the tuna, then fork it apart.",
    ],
)
def test_oil_of_a_tin_is_the_tins_own(opens: str) -> None:
    found = reading(["1 tin tuna in oil", "1 onion", "2 tbsp olive oil"], opens)
    assert [(s["kind"], s["food"]) for s in found.recipe["steps"]] == [("drain", "tuna")]


@pytest.mark.parametrize(
    "keeps",
    ["Open the tuna, keep the oil and fry the onion in it.", "Fry the onion in the oil, drain on paper."],
)
def test_oil_that_is_used_drains_no_tin(keeps: str) -> None:
    assert not reading(["1 tin tuna in oil", "1 onion", "2 tbsp olive oil"], keeps).recipe.get("steps")


@pytest.mark.parametrize(
    "tips", ["Tip it in a sieve and shake it.", "Pour it onto a colander.", "Dump in a colander."]
)
def test_grain_tipped_in_a_sieve_has_left_its_water(tips: str) -> None:
    found = reading(["150 g barley"], f"Boil the barley in salted water for half an hour. {tips}")
    assert [s["kind"] for s in found.recipe["steps"]] == ["boil"]


@pytest.mark.parametrize(
    "lines",
    [
        ["4 turkey steaks", "a slug of soy sauce", "1 tsp brown sugar", "salt and pepper"],
        ["4 turkey steaks", "soy sauce", "2 tbsp brown sugar", "salt"],
        ["4 turkey steaks", "lime juice", "soy sauce", "1 tbsp sugar", "1 tsp salt"],
    ],
)
def test_a_marinade_of_unmeasured_sauces_is_no_dry_cure(lines: list[str]) -> None:
    method = "Throw everything in a bowl and stir. Turn the steaks in the marinade. Leave for 3 hours. Grill."
    assert "marinate" in kinds(reading(lines, method))
    assert "dry_cure" not in kinds(reading(lines, method))


def test_salt_with_a_splash_of_vodka_is_a_dry_cure() -> None:
    lines = ["1 kg salmon", "80 g salt", "80 g sugar", "a splash of vodka"]
    method = "Mix salt, sugar and vodka. Rub the mixture into the salmon and leave for 24 hours. Rinse."
    assert kinds(reading(lines, method))[0] == "dry_cure"


@pytest.mark.parametrize(
    ("rather", "hours"),
    [
        ("Overnight is best.", 12.0),
        ("24 hours is even better.", 24.0),
        ("If you can, leave it overnight.", 12.0),
        ("Grill. It tastes better the next day.", 1.0),
    ],
)
def test_a_longer_wait_that_is_better_is_the_one_meant(rather: str, hours: float) -> None:
    method = f"Mix soy sauce and sugar. Marinate the chicken in it for at least an hour. {rather} Grill."
    found = reading(["1 kg chicken legs", "200 ml soy sauce", "50 g sugar"], method)
    assert step(found, "marinate")["duration_h"] == hours


@pytest.mark.parametrize(
    "rest", ["the rest of the pickling ingredients", "the remaining pickling ingredients"]
)
def test_the_rest_of_a_part_is_what_was_not_used_before(rest: str) -> None:
    lines = ["For the pickles:", "1 kg carrots", "20 g salt", "500 ml vinegar", "5 g salt", "50 g sugar"]
    method = (
        f"Mix the carrots with the 20 g of salt. Leave for an hour, drain and rinse. Combine {rest}. "
        "Jar the carrots with the pickling liquid."
    )
    steps = reading(lines, method).recipe["steps"]
    assert [each["kind"] for each in steps] == ["dry_cure", "rinse", "brine"]
    baths = {each["id"]: each["ingredients"] for each in reading(lines, method).recipe["components"]}
    assert baths[steps[0]["bath"]] == ["20 g salt"]
    assert set(baths[steps[2]["bath"]]) == {"500 ml vinegar", "5 g salt", "50 g sugar"}


def test_a_brine_to_which_its_ingredients_are_added_is_one_brine() -> None:
    lines = ["For the brine:", "1 l water", "60 g salt", "30 g sugar", "For the bird:", "1 chicken"]
    method = (
        "Heat the water with the salt. Add the remaining brine ingredients. Lay the chicken in it overnight. "
        "Roast."
    )
    found = reading(lines, method)
    assert kinds(found).count("brine") == 1
    assert step(found, "brine")["duration_h"] == 12.0


PULSES = ["400 g dried chickpeas", "1 tsp baking soda", "1 onion", "2 tsp salt"]


@pytest.mark.parametrize(
    "method",
    [
        "Put the chickpeas and the baking soda in a big pot, cover with plenty of water and leave until "
        "the morning. Simmer the chickpeas gently for an hour. Add the onion and salt and mash.",
        "Put the chickpeas and soda in a saucepan with water to cover and soak overnight. The next day "
        "cook the chickpeas over a low heat for 2 hours, adding water as needed. Stir in the onion and salt.",
        "Tip the chickpeas and the soda into a pan, cover with water, let them stand overnight. In the "
        "morning bring to the boil and simmer for 90 minutes, then add the onion and the salt.",
    ],
)
def test_what_soaks_in_the_pot_that_it_cooks_in_is_eaten_with_its_water(method: str) -> None:
    found = reading(PULSES, method)
    assert kinds(found)[0] == "soak"
    assert eaten(found, 1) == 1.0


@pytest.mark.parametrize(
    "method",
    [
        "Put the chickpeas and soda in a saucepan, cover with water and leave overnight. Next day drain "
        "and rinse, cover with fresh water and cook for 1 hour. Add the onion and the salt.",
        "Put the chickpeas and soda in a bowl with water to cover and soak overnight. Cook the chickpeas "
        "over a low heat for 2 hours. Stir in the onion and salt.",
        "Put the chickpeas and soda in a pan, cover with water and leave overnight. Cook the chickpeas in a "
        "pressure cooker for 30 minutes. Add the onion and the salt.",
    ],
)
def test_soaking_water_that_is_changed_or_left_in_its_bowl_is_poured_away(method: str) -> None:
    assert eaten(reading(PULSES, method), 1) == 0.0


RADISHES = ["# Radishes", "300 g radishes", "1 tbsp salt", "# {}", "4 tbsp rice vinegar"]
RADISHES += ["1 tbsp soy sauce", "2 tsp sesame oil", "1 tbsp sugar"]
LAID = [
    "Slice the radishes and put them in a bowl. Toss with the salt and let stand for 20 minutes. Rinse and "
    "pat dry. Stir all the ingredients together in a lidded box. Add the radishes to the box and close it. "
    "Chill overnight. Lift the radishes out onto a plate and serve.",
    "Slice the radishes. Salt them and leave for 20 minutes, then rinse and squeeze dry. Mix everything in a "
    "jar. Once the radishes are dry, add them to the jar, seal it and shake. Refrigerate for 8 hours, "
    "shaking sometimes. Drain and serve cold.",
]


@pytest.mark.parametrize("method", LAID)
def test_vegetables_that_lie_in_the_marinade_of_the_list_leave_it(method: str) -> None:
    found = reading([line.format("Marinade") for line in RADISHES], method)
    assert "marinate" in kinds(found)
    assert eaten(found, 4) == eaten(found, 5) == 0.0


@pytest.mark.parametrize("method", LAID)
def test_vegetables_in_a_dressing_are_eaten_with_it(method: str) -> None:
    served = method.partition("Lift")[0].partition("Drain")[0] + "Serve."
    assert eaten(reading([line.format("Dressing") for line in RADISHES], served), 5) == 1.0
