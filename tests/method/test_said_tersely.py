"""Terse and easy-going kitchen talk: what is left unsaid, put up, kept for another day."""

from __future__ import annotations

import pytest
from saltledger.method.listed import listed_of

from .test_method_reading import reading
from .test_plain_recipes import eaten, kinds, step


@pytest.mark.parametrize(
    ("said", "hours"),
    [
        ("30 minutes or overnight", 0.5),
        ("2 hours or overnight", 7.0),
        ("2 hours, preferably overnight", 12.0),
    ],
)
def test_a_time_or_overnight_is_between_the_two_unless_one_is_better(said: str, hours: float) -> None:
    method = f"Put the beef in the soy sauce and marinate for {said}. Discard the marinade. Grill."
    found = reading(["800 g beef skirt", "100 ml soy sauce"], method)
    assert step(found, "marinate")["duration_h"] == hours


@pytest.mark.parametrize(
    "keeps", ["Reserve a mug of the water", "Keep a cup of the cooking water", "Save some water"]
)
def test_pasta_is_eaten_though_its_water_is_strained_and_kept(keeps: str) -> None:
    method = f"Pasta goes in boiling salted water for 9 minutes. {keeps}. Strain. Combine with the sauce."
    found = reading(["500 g penne", "300 g tomato sauce"], method)
    assert eaten(found, 0) == 1.0
    assert kinds(found) == ["boil"]


@pytest.mark.parametrize("water", ["salt water", "salted water", "a salt-water brine"])
def test_salt_water_is_that_of_the_list(water: str) -> None:
    found = reading(
        ["1 kg pork chops", "50 g salt", "1 l water"],
        f"Brine the chops in {water} for 2 hours. Drain. Grill.",
    )
    assert [eaten(found, n) for n in (1, 2)] == [0.0, 0.0]
    assert step(found, "brine")["duration_h"] == 2.0


@pytest.mark.parametrize(
    "pours",
    [
        "Pack the cucumbers in jars, pour the hot liquid over, seal.",
        "Pour over the cucumbers in the jars and close.",
    ],
)
def test_what_is_put_up_in_jars_stays_there(pours: str) -> None:
    lines = ["1.5 kg cucumbers", "80 g salt", "700 ml vinegar", "700 ml water"]
    method = f"Layer the cucumbers with the salt. Stand 3 hours. Rinse. Boil the vinegar and water. {pours}"
    found = reading(lines, method)
    assert kinds(found) == ["dry_cure", "rinse", "brine"]
    assert [eaten(found, n) for n in (1, 2, 3)] == [0.0] * 3


@pytest.mark.parametrize(
    ("lines", "method"),
    [
        (
            ["4 cod fillets", "1 cup flour", "1 tsp salt", "1 cup beer"],
            "Mix flour, salt and beer to a batter. Dip fish.",
        ),
        (
            ["4 cod fillets", "Batter:", "1 cup flour", "1 tsp salt", "1 cup beer"],
            "Whisk up the batter. Dunk the fish in batter.",
        ),
    ],
)
def test_fish_is_dipped_in_the_batter_that_was_made(lines: list[str], method: str) -> None:
    found = reading(lines, f"{method} Let the excess drip off. Fry until golden.")
    assert "dredge" in kinds(found)
    assert eaten(found, lines.index("1 tsp salt")) == 0.0


@pytest.mark.parametrize(
    "keeps",
    [
        "take it out and save the stock for another day.",
        "take it out and freeze the stock.",
        "lift it out and reserve the broth for soup.",
    ],
)
def test_stock_that_is_kept_for_another_dish_is_not_eaten_with_this_one(keeps: str) -> None:
    method = (
        f"Poach the chicken in water with the salt for 1 hour. Cool, then {keeps} Shred, mix with mayonnaise."
    )
    found = reading(["1 chicken", "15 g salt", "200 g mayonnaise"], method)
    assert eaten(found, 1) == 0.0
    assert eaten(found, 0) == 1.0


def test_the_meat_of_a_strained_broth_is_eaten_where_it_goes_on() -> None:
    method = (
        "Put the chicken, carrots and salt in a pot, cover with water and simmer for 90 minutes. Strain and "
        "reserve the broth. Discard the vegetables. Shred the meat and return it to the broth."
    )
    found = reading(["1 chicken", "2 carrots", "15 g salt"], method)
    assert [eaten(found, n) for n in (0, 1, 2)] == [1.0, 0.0, 1.0]


@pytest.mark.parametrize(
    "soaks",
    [
        "Put the noodles in a bowl and pour over boiling water from the kettle.",
        "Pour boiling water over the noodles.",
    ],
)
def test_noodles_under_the_kettle_lie_in_plain_water(soaks: str) -> None:
    found = reading(["200 g rice noodles", "1 tbsp lime juice"], f"{soaks} Leave 10 minutes, drain.")
    assert kinds(found) in (["soak"], ["boil"])
    assert not any("salt" in str(c["ingredients"]) for c in found.recipe["components"])


def test_pasta_in_salted_water_boils() -> None:
    method = (
        "Get the spaghetti on in plenty of salted water. When it is ready lift it into the pan with tongs."
    )
    assert kinds(reading(["500 g spaghetti", "3 eggs"], method)) == ["boil"]


def test_water_and_an_onion_go_to_what_soaked() -> None:
    method = (
        "Cover the beans with hot water and let sit one hour; pour off the water. Add fresh water to cover "
        "and the onion and simmer 1 hour."
    )
    found = reading(["500 g dried beans", "1 onion"], method)
    assert all(each["food"] != "onion" for each in found.recipe["steps"])


@pytest.mark.parametrize(
    ("line", "salt"),
    [
        ("500 g macaroni, cooked with 1 tbsp salt", "1 tbsp salt"),
        ("1 kg potatoes, boiled in salted water and mashed", " g salt"),
        ("400 g green beans (cooked in salted water for 5 minutes)", " g salt"),
    ],
)
def test_what_its_line_says_was_cooked_in_salted_water_was(line: str, salt: str) -> None:
    found = reading([line, "200 g cheese"], "Mix with the cheese and bake.")
    assert "boil" in kinds(found)
    assert any(salt in str(c["ingredients"]) for c in found.recipe["components"])


def test_what_was_cooked_without_salt_moves_none() -> None:
    assert kinds(reading(["2 cups rice, cooked without salt", "1 egg"], "Mix and fry.")) == []


@pytest.mark.parametrize(
    "line", ["1 kg peppers", "4 poblano peppers", "1 pepper, sliced", "300 g padron peppers"]
)
def test_whole_peppers_lie_in_brine(line: str) -> None:
    found = reading([line, "60 g salt", "2 l water"], "Submerge the peppers in the salt water for 10 days.")
    assert kinds(found) == ["brine"]


@pytest.mark.parametrize("line", ["1 tsp red pepper", "8 peppercorns", "1 tsp pepper"])
def test_ground_pepper_is_a_spice(line: str) -> None:
    assert listed_of([line])[0].kind == "spice"


@pytest.mark.parametrize(
    "puts",
    [
        "Put everything in a zip bag and leave in the fridge for the day.",
        "Combine everything in a bag and refrigerate for the day.",
    ],
)
def test_a_day_in_the_bag_is_a_marinade(puts: str) -> None:
    found = reading(["4 chicken thighs", "3 tbsp soy sauce", "1 tbsp sugar"], f"{puts} Drain and fry.")
    assert step(found, "marinate")["duration_h"] == 10.0


def test_everything_in_a_pot_is_a_stew() -> None:
    method = "Put everything in a pot. Bring to a boil, simmer for 2 hours. Remove the bone, return the meat."
    found = reading(["1 ham bone", "500 g split peas", "2 l water", "10 g salt"], method)
    assert [eaten(found, n) for n in range(1, 4)] == [1.0] * 3


@pytest.mark.parametrize(
    "says", ["put by, discarding the garlic", "lift out the bacon discarding the garlic clove"]
)
def test_what_is_discarded_in_passing_is_not_eaten(says: str) -> None:
    found = reading(["100 g bacon", "1 clove garlic", "2 eggs"], f"Fry the bacon with the garlic and {says}.")
    assert eaten(found, 1) == 0.0
    assert eaten(found, 0) == 1.0


@pytest.mark.parametrize("adds", ["Add 2 tbsp salt and the penne.", "Add the penne and 2 tbsp of the salt."])
def test_salt_of_a_pot_that_a_line_weighs_is_in_no_dish(adds: str) -> None:
    found = reading(
        ["500 g penne", "2 tbsp salt", "200 ml cream"], f"Bring 6 l of water to boil. {adds} Drain. Mix."
    )
    assert eaten(found, 1) == 0.0
    assert str(found.recipe).count("salt") == 1


def test_salted_water_of_a_list_with_one_salt_is_made_with_it() -> None:
    method = (
        "Put the aubergine cubes in a bowl of salted water for 30 minutes, drain and dry. Fry in the oil."
    )
    found = reading(["2 aubergines", "2 tbsp salt", "100 ml olive oil"], method)
    assert kinds(found) == ["brine"]
    assert eaten(found, 1) == 0.0


@pytest.mark.parametrize("said", ["flour seasoned with the salt", "flour mixed with the salt and pepper"])
def test_what_the_flour_is_seasoned_with_stays_with_it(said: str) -> None:
    found = reading(
        ["500 g liver", "60 g flour", "1 tsp salt", "1 tsp pepper"], f"Dredge the liver in {said}. Fry."
    )
    assert eaten(found, 2) == 0.0


@pytest.mark.parametrize(
    "serves", ["Serve with the pot likker.", "Serve in the broth.", "Ladle over the broth."]
)
def test_what_is_served_in_its_liquor_loses_nothing(serves: str) -> None:
    method = f"Boil the hocks in 3 l of water for 1 hour. Add the greens, cook 45 minutes. {serves}"
    assert kinds(reading(["500 g smoked ham hocks", "1 kg collard greens"], method)) == []


@pytest.mark.parametrize(
    "lays",
    [
        "Make slits in the lamb. Blend yoghurt and salt; smear over.",
        "Score the lamb. Mix the yoghurt with the salt, spoon over the top.",
        "Slash the lamb. Stir the yoghurt and salt together and spread it on.",
        "Mix the yoghurt and salt. Make 3 cuts in the lamb and put it in the mixture.",
    ],
)
def test_meat_that_was_slashed_lies_in_what_goes_over_it(lays: str) -> None:
    found = reading(
        ["1 kg leg of lamb", "10 g salt", "400 g yoghurt"], f"{lays} Chill for 24 hours. Wipe off. Roast."
    )
    assert step(found, "marinate")["duration_h"] == 24.0
    assert [eaten(found, n) for n in range(3)] == [1.0, 0.0, 0.0]


@pytest.mark.parametrize(
    "ties",
    [
        "Put the thyme and peppercorns in a cheesecloth bag.",
        "Tie the thyme and peppercorns in a piece of muslin.",
        "Make a bouquet garni of the thyme and peppercorns.",
    ],
)
def test_what_is_tied_in_a_cloth_is_not_eaten(ties: str) -> None:
    lines = ["1 kg beef shin", "3 sprigs thyme", "1 tsp peppercorns", "1 l stock", "1 bunch parsley"]
    found = reading(lines, f"{ties} Simmer it with the beef in the stock for 2 hours. Stir in the parsley.")
    assert [eaten(found, n) for n in range(5)] == [1.0, 0.0, 0.0, 1.0, 1.0]


@pytest.mark.parametrize(
    ("said", "hours"),
    [
        ("2+ days", 48.0),
        ("6 or more hours", 6.0),
        ("8-plus hours", 8.0),
        ("3 plus hours", 3.0),
        ("the best part of an afternoon", 4.0),
        ("most of the day", 8.0),
    ],
)
def test_a_time_and_more_is_that_time(said: str, hours: float) -> None:
    method = f"Put the beef in the soy sauce and marinate for {said}. Discard the marinade. Grill."
    found = reading(["800 g beef skirt", "100 ml soy sauce"], method)
    assert step(found, "marinate")["duration_h"] == hours


@pytest.mark.parametrize(
    "said", ["salt ~8g", "salt (8 g)", "salt, roughly 8 g,", "salt about 8 g", "salt - 8 g or so -"]
)
def test_an_amount_behind_salt_is_its_own(said: str) -> None:
    found = reading(["1 kg marrow"], f"Fry the marrow in oil. Add {said} and serve.")
    texts = [i["line"] for c in found.recipe["components"] for i in c["ingredients"] if isinstance(i, dict)]
    assert [text.replace(" ", "") for text in texts] == ["8gsalt"]


def test_a_time_behind_salt_is_no_amount() -> None:
    found = reading(["1 kg marrow"], "Fry the marrow in oil. Add salt 8 minutes before the end.")
    texts = [i["line"] for c in found.recipe["components"] for i in c["ingredients"] if isinstance(i, dict)]
    assert texts == ["salt, to taste"]


@pytest.mark.parametrize(
    "said",
    [
        "Salt the aubergine and let it sit for 30 minutes before patting it dry.",
        "Sprinkle the aubergine with the salt and rest for 30 minutes before wiping off the moisture.",
        "Toss the aubergine with the salt, and leave for 30 minutes before squeezing out its juice.",
        "Rub the salt into the aubergine and stand it aside for 30 minutes before rinsing.",
    ],
)
def test_what_is_done_to_salted_vegetables_after_a_wait_may_stand_behind_before(said: str) -> None:
    found = reading(["1 aubergine, sliced", "2 tsp salt"], f"{said} Bake for 20 minutes.")
    assert step(found, "dry_cure")["duration_h"] == 0.5
    assert eaten(found, 1) == 0.0


@pytest.mark.parametrize("said", ["before serving", "before baking", "before adding the oil"])
def test_salted_vegetables_that_wait_for_the_oven_keep_their_salt(said: str) -> None:
    found = reading(
        ["1 aubergine, sliced", "2 tsp salt", "1 tbsp oil"],
        f"Salt the aubergine and let it sit for 30 minutes {said}.",
    )
    assert eaten(found, 1) == 1.0


@pytest.mark.parametrize(
    ("said", "is_salted"),
    [
        ("Adjust with additional salt and some pepper.", True),
        ("Adjust the seasoning with more salt.", True),
        ("Season to taste with extra salt and serve.", True),
        ("Taste, and add more salt if needed.", False),
        ("Taste it before you think of more salt.", False),
        ("Adjust the seasoning.", False),
    ],
)
def test_more_salt_than_that_of_the_list_goes_in_where_it_is_said(said: str, is_salted: bool) -> None:
    lines = ["500 ml cream", "1/2 tsp salt", "400 g mushrooms"]
    found = reading(lines, "Fry the mushrooms.", "Add the cream and the salt and reduce.", said)
    added = [i for c in found.recipe["components"] for i in c["ingredients"] if isinstance(i, dict)]
    assert bool(added) is is_salted


def test_dried_onion_and_garlic_are_spices_of_a_brine() -> None:
    lines = [
        "2 cucumbers",
        "1 cup vinegar",
        "1/2 cup water",
        "1 tbsp salt",
        "1 tsp dried onion",
        "1 tsp mace",
    ]
    method = "Mix vinegar, water, salt and spices. Pour over the cucumbers and chill for 12 hours. Drain."
    found = reading(lines, method)
    assert [eaten(found, n) for n in range(1, 6)] == [0.0] * 5


@pytest.mark.parametrize(
    ("line", "said", "kind"),
    [
        ("500 g runner beans", "Prepare the beans by blanching them in salted water for 3 minutes.", "boil"),
        ("1 jar sauerkraut", "Prepare the sauerkraut by thoroughly draining it.", "drain"),
        ("800 g salt cod", "Get the salt out of the cod by soaking it in water for 24 hours.", "soak"),
        ("500 g salt pork", "Ready the salt pork by boiling gently for an hour.", "boil"),
        ("300 g macaroni", "Start by boiling the macaroni in salted water. Drain.", "boil"),
    ],
)
def test_what_is_done_may_stand_behind_by(line: str, said: str, kind: str) -> None:
    assert kinds(reading([line, "1 onion"], f"{said} Fry the onion and mix.")) == [kind]


@pytest.mark.parametrize(
    "said", ["Thicken the soup by simmering it.", "Brown the onion by frying.", "Test it by tasting."]
)
def test_by_tells_only_how_where_the_verb_says_what(said: str) -> None:
    assert kinds(reading(["1 l stock", "1 onion"], f"Put the onion in the stock. {said}")) == []


@pytest.mark.parametrize(
    ("more", "left"),
    [("tarragon sprigs to serve", 0.0), ("tarragon sprigs for garnish", 0.0), ("1 lemon", 1.0)],
)
def test_herbs_for_the_plate_are_not_those_that_were_thrown_away(more: str, left: float) -> None:
    method = (
        "Rub the salt into the trout and cover it with the tarragon. Chill for 24 hours. Discard the "
        "tarragon, rinse the trout and serve it with fresh tarragon."
    )
    assert eaten(reading(["1 kg trout", "80 g salt", "1 bunch tarragon", more], method), 2) == left
