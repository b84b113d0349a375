"""Plain things of home kitchens, each in several ways of saying it: stoves, coatings, lists, times."""

from __future__ import annotations

import pytest
from saltledger.method.listed import listed_of

from .test_method_reading import reading
from .test_plain_recipes import eaten, kinds, step


@pytest.mark.parametrize(
    "line",
    [
        "Leek (1, sliced)",
        "Stock (2 cups)",
        "Tomato sauce (12 oz can)",
        "Shallot (½, diced)",
        "Parsley (a bunch)",
    ],
)
def test_an_amount_in_brackets_behind_a_name_makes_no_heading(line: str) -> None:
    listed = listed_of([line, "Barley (200 g)", "Olive oil (3 tbsp)"])
    assert [each.text for each in listed] == [line, "Barley (200 g)", "Olive oil (3 tbsp)"]


@pytest.mark.parametrize("head", ["1st coating", "2nd dredge", "Coating (for 8)", "Dressing (makes double)"])
def test_headings_keep_heading(head: str) -> None:
    listed = listed_of(["2 lb turkey", head, "1 cup flour", "1 tsp salt"])
    assert [each.heading for each in listed][1:] == [head.partition(" (")[0]] * 2


@pytest.mark.parametrize(
    "heats",
    [
        "Lid on, high heat. Drain the moment it boils.",
        "Set over a high flame. When they boil, give them 2 minutes and drain.",
        "Turn the heat to high. After the water starts boiling, wait 2 minutes. Drain.",
        "Place over a medium-high heat until tender; drain.",
    ],
)
def test_what_is_put_on_the_heat_boils(heats: str) -> None:
    method = (
        f"Brown the onion in the butter. Tip the peas into an empty saucepan, cover with cold water. {heats}"
    )
    found = reading(["1 onion", "300 g peas", "20 g butter"], method)
    assert kinds(found) == ["boil"]
    assert step(found, "boil")["food"] == "peas"


@pytest.mark.parametrize(
    "waits", ["Put in a bowl of cold water until needed.", "Keep them under cold water till they are wanted."]
)
def test_cut_potatoes_only_wait_in_water(waits: str) -> None:
    assert (
        kinds(reading(["1 kg potatoes", "1 l stock"], f"Dice the potatoes. {waits} Add to the stock.")) == []
    )


@pytest.mark.parametrize(
    "coats",
    [
        "Batter the cutlets one at a time in the flour, egg and crumbs.",
        "Take each piece through the flour, the egg and the crumbs.",
        "Press the cutlets into the flour, douse them in the egg, then press into the crumbs.",
    ],
)
def test_food_that_goes_through_flour_egg_and_crumbs_is_coated(coats: str) -> None:
    lines = ["4 veal cutlets", "1 cup flour", "2 eggs", "2 cups breadcrumbs", "oil for frying"]
    found = reading(lines, f"{coats} Fry in hot oil for 4 minutes.")
    assert "dredge" in kinds(found)
    assert [eaten(found, n) for n in (1, 2, 3)] == [0.0, 0.0, 0.0]
    assert eaten(found, 0) == 1.0


@pytest.mark.parametrize(
    "coats",
    [
        "Dredge the chops in the flour, salt and pepper.",
        "Roll the chops in salt, pepper and flour.",
        "Coat the chops with the flour, the pepper and salt.",
    ],
)
def test_the_salt_that_is_named_beside_the_flour_lies_in_it(coats: str) -> None:
    lines = ["4 pork chops", "100 g flour", "1 tsp salt", "1 tsp pepper", "500 ml oil"]
    assert eaten(reading(lines, f"{coats} Fry in the hot oil."), 2) < 1.0


@pytest.mark.parametrize("salts", ["Salt the chops and roll in flour.", "Sprinkle with salt, dip in flour."])
def test_food_that_is_salted_before_the_flour_keeps_its_salt(salts: str) -> None:
    lines = ["4 pork chops", "100 g flour", "1 tsp salt", "500 ml oil"]
    assert eaten(reading(lines, f"Dry the chops. {salts} Fry in the hot oil."), 2) == 1.0


@pytest.mark.parametrize(
    ("heads", "coats"),
    [
        (("Flour mix:", "Egg mix:"), "Coat the cutlets in the flour mix, then the egg mix."),
        (("Dredge:", "Wash:"), "Turn the cutlets in the dredge, then in the wash."),
        (
            ("Breading:", "Egg wash:"),
            "Pass the cutlets through the egg wash, then roll in the breading.",
        ),
    ],
)
def test_what_food_is_turned_in_is_all_of_the_part_that_is_called_so(
    heads: tuple[str, str], coats: str
) -> None:
    lines = ["4 veal cutlets", heads[0], "100 g flour", "1 tsp ground ginger", "1 tsp celery salt"]
    lines += [heads[1], "2 eggs", "3 tbsp cream", "1 tbsp mustard"]
    found = reading(lines, f"{coats} Bake for 40 minutes.")
    assert all(eaten(found, n) < 1.0 for n in (2, 3, 4, 6, 7, 8))


def test_a_spoonful_of_starch_on_onions_thickens() -> None:
    lines = ["2 onions", "2 tsp cornflour", "20 g butter"]
    assert (
        kinds(reading(lines, "Fry the onions. Stir to coat them in the cornflour, add 200 ml water.")) == []
    )


def test_the_flour_that_is_seasoned_is_that_of_the_coating() -> None:
    lines = ["1 kg veal", "1 cup plain flour", "1 tbsp salt", "1 egg", "2 cups breadcrumbs", "1/4 cup flour"]
    method = (
        "In a bowl mix 3/4 cup flour with the salt. Dredge the veal in flour, then in egg, then in crumbs. "
        "Make the gravy: stir in 1/4 cup flour."
    )
    found = reading(lines, method)
    assert eaten(found, 1) == 0.0
    assert eaten(found, 2) == 0.0
    assert eaten(found, 5) == 1.0


@pytest.mark.parametrize(
    "often", ["Flip it every 12 hours.", "Turn the fish every 8 hours.", "Baste every hour."]
)
def test_how_often_is_not_how_long(often: str) -> None:
    method = (
        f"Rub the salt into the salmon and leave in the fridge. {often} Leave for 36 hours in all. Rinse."
    )
    found = reading(["2 kg salmon", "150 g salt"], method)
    assert step(found, "dry_cure")["duration_h"] == 36.0


@pytest.mark.parametrize("name", ["zucchinis", "broccolis", "kohlrabi"])
def test_plurals_in_i_are_the_food(name: str) -> None:
    method = f"Grate the {name.removesuffix('s')} and salt it. Leave 10 minutes, then squeeze out the juice."
    assert kinds(reading([f"2 {name}, grated", "1 tsp salt"], method)) == ["dry_cure", "squeeze"]


def test_how_fine_the_herbs_are_cut_is_not_how_thick_the_fish_is() -> None:
    method = "Chop the dill into 3 mm pieces. Rub the salmon with the salt and dill. Leave 2 days. Rinse."
    found = reading(["2 kg salmon", "150 g salt", "1 bunch dill"], method)
    assert step(found, "dry_cure").get("thickness_cm", 2.5) > 1.0


@pytest.mark.parametrize(
    "stirs",
    [
        "Mix it all in a bowl",
        "Stir the lot together",
        "Combine the first two ingredients",
        "Combine everything",
    ],
)
def test_all_that_was_not_spoken_of_yet_makes_the_cure(stirs: str) -> None:
    lines = ["100 g salt", "60 g maple syrup", "2 kg pork belly"]
    found = reading(lines, f"{stirs}, then rub it over the belly. Leave in the fridge for three days. Rinse.")
    assert step(found, "dry_cure")["duration_h"] == 72.0
    assert [eaten(found, n) for n in (0, 1)] == [0.0, 0.0]


@pytest.mark.parametrize(
    ("said", "used"),
    [
        ("Combine the first 2 ingredients", {0, 1}),
        ("Combine the first three ingredients", {0, 1, 2}),
        ("Mix the last three ingredients but the wings", {3, 4}),
    ],
)
def test_lines_are_counted_as_the_list_has_them(said: str, used: set[int]) -> None:
    lines = ["100 ml soy sauce", "2 tbsp rice wine", "1 tsp ginger", "50 ml fish sauce", "1 tbsp lime juice"]
    method = (
        f"{said} in a bag. Add the wings and marinate for 4 hours. Drain and discard the marinade. Grill."
    )
    found = reading([*lines, "1 kg chicken wings"], method)
    assert {n for n in range(5) if eaten(found, n) == 0.0} == used


@pytest.mark.parametrize(
    "why",
    [
        "(the salt will draw the water out)",
        "so the salt pulls the water out",
        "to release water",
    ],
)
def test_salted_cucumbers_that_get_a_liquid_lie_in_brine_of_both(why: str) -> None:
    lines = ["3 cucumbers", "200 ml vinegar", "100 ml water", "80 g sugar", "15 g salt"]
    method = (
        f"Put the cucumbers in a bowl with the salt. Leave for an hour {why}. In another bowl mix the water, "
        "vinegar and sugar. Add the liquid to the cucumbers. It won't cover them all. Chill for 4 hours."
    )
    found = reading(lines, method)
    assert kinds(found) == ["brine"]
    assert [eaten(found, n) for n in (1, 2, 3, 4)] == [0.0] * 4


def test_salt_of_two_parts_is_that_of_the_part_it_goes_with() -> None:
    lines = ["Brine", "1 l water", "60 g salt", "4 pork chops", "Salsa", "3 tomatoes", "salt/pepper to taste"]
    found = reading(lines, "## Pork\nStir salt into water for a brine. Lay the chops in it overnight. Drain.")
    assert eaten(found, 2) == 0.0
    assert eaten(found, 6) == 1.0


@pytest.mark.parametrize(
    "salts", ["Salt it well", "Salt well", "Season it generously with salt", "Season with a lot of salt"]
)
def test_what_stands_in_cold_water_is_not_salted_itself(salts: str) -> None:
    method = (
        f"In a large pot, combine the potatoes and cold water to cover by 3 cm. {salts} and bring to a boil. "
        "Cook for 10 minutes. Drain."
    )
    found = reading(["500 g potatoes", "1 egg"], method)
    assert kinds(found) == ["boil"]
    assert any("salt" in str(each) for c in found.recipe["components"] for each in c["ingredients"])


@pytest.mark.parametrize(
    "boils",
    [
        "Cook the zortini and broccoli in the boiling water for 7 minutes, then drain.",
        "Boil the zortini and broccoli for 7 minutes and drain.",
    ],
)
def test_unknown_food_boils_with_what_it_is_named_beside(boils: str) -> None:
    found = reading(["250 g zortini", "1 head broccoli"], f"Get a pot of salted water up to a boil. {boils}")
    assert step(found, "boil")["food"] == ["zortini", "broccoli"]


@pytest.mark.parametrize(
    "covers",
    [
        "pour in water till they are covered",
        "pour over water to cover",
        "pour over cold water until covered",
        "pour water over to cover",
    ],
)
def test_water_that_is_poured_over_covers(covers: str) -> None:
    method = (
        f"Put the potatoes in a saucepan and {covers}. Bring to the boil, then simmer until tender. Drain."
    )
    assert kinds(reading(["1 kg potatoes", "20 g butter"], method)) in (["boil"], ["simmer"])


@pytest.mark.parametrize(
    ("fries", "hours"),
    [
        ("Fry for 2 minutes, turn. Continue to fry for 8 minutes.", 10 / 60),
        ("Fry for 5 minutes. Return them to the oil and fry for another 2 minutes.", 7 / 60),
    ],
)
def test_frying_once_more_takes_its_time_too(fries: str, hours: float) -> None:
    found = reading(
        ["1 kg chicken wings", "1 l oil for deep frying"], f"Heat the oil. Lower in the wings. {fries}"
    )
    assert step(found, "fry")["duration_h"] == pytest.approx(hours, rel=0.01)


@pytest.mark.parametrize(
    "salts",
    [
        "Remove to a rack, adding salt at once.",
        "Sprinkle with salt to serve.",
        "Season the tomatoes with salt.",
    ],
)
def test_salt_after_a_brine_that_took_all_of_it_is_salt_of_its_own(salts: str) -> None:
    lines = ["2 l water", "80 g salt", "4 pork chops", "2 tomatoes"]
    method = f"Dissolve the salt in the water, add the chops and chill overnight. Drain. Grill. {salts}"
    found = reading(lines, method)
    assert any("seasoning" in question.id for question in found.questions)
    plain = reading(lines, method.removesuffix(salts))
    assert not any("seasoning" in question.id for question in plain.questions)


@pytest.mark.parametrize("place", ["on a baking sheet", "in the roasting tin", "on your cooling rack"])
def test_where_food_stands_is_not_what_is_done_with_it(place: str) -> None:
    assert kinds(reading(["4 pork chops"], f"Pound the chops. Let them sit {place} for 5 minutes.")) == []


def test_leaves_stay_thin_however_large_they_are_cut() -> None:
    lines = ["1 cabbage", "2 tsp salt"]
    said = "Tear the cabbage into 4 cm squares. Toss with the salt and leave 1 hour. Rinse."
    assert step(reading(lines, said), "dry_cure")["thickness_cm"] < 1.0
    shred = "Shred the cabbage 2 mm thick. Toss with the salt and leave 1 hour. Rinse."
    assert step(reading(lines, shred), "dry_cure")["thickness_cm"] == 0.2


def test_a_time_past_that_of_the_packet_is_not_the_time() -> None:
    method = "Bring salted water to a boil. Cook the macaroni a minute longer than the packet says. Drain."
    assert "duration_h" not in step(reading(["250 g macaroni"], method), "boil")


@pytest.mark.parametrize(
    ("made", "salty"),
    [
        ("Roast the chicken and carve it. Make chicken stock with the bones.", False),
        ("Roast the chicken and carve it. Boil the carcass for your homemade chicken stock.", False),
        ("Roast the chicken and carve it. Chop the onions.", True),
    ],
)
def test_a_stock_that_the_method_makes_is_not_bought(made: str, salty: bool) -> None:
    found = reading(
        ["1 whole chicken", "2 onions", "300 g rice", "1 tsp salt"],
        f"{made} Fry the onions and the rice, add chicken stock bit by bit.",
    )
    lines = [each for component in found.recipe["components"] for each in component["ingredients"]]
    assert any("stock" in str(each) for each in lines) == salty


@pytest.mark.parametrize(
    ("said", "salt"),
    [
        ("Add a couple of teaspoons of salt.", "couple of teaspoons of salt"),
        ("Stir in a couple teaspoons salt.", "couple teaspoons salt"),
        ("Salt to taste.", "A good deal of salt"),
    ],
)
def test_a_couple_of_spoons_is_how_much_salt_goes_in(said: str, salt: str) -> None:
    found = reading(
        ["1 kg potatoes", "1 l stock", "A good deal of salt"], f"Put the potatoes in the stock. {said}"
    )
    lines = [each for component in found.recipe["components"] for each in component["ingredients"]]
    assert salt in [each if isinstance(each, str) else each["line"] for each in lines]


FILLED = ["1 packet dumpling wrappers", "400 g cabbage", "1 bunch scallions, sliced", "1 tbsp salt"]


def test_the_slices_are_of_what_was_sliced_and_a_far_repeat_is_of_what_came_last() -> None:
    found = reading(
        [*FILLED, "300 g minced pork"],
        "Slice the cabbage finely. Toss the slices with the salt and leave for 10 minutes.",
        "Squeeze the juice from the cabbage.",
        "Mix it with the scallions and pork.",
        "Put a spoonful on a wrapper.",
        "Wet the edge and fold it over.",
        "Repeat with the other wrappers.",
    )
    assert step(found, "dry_cure")["food"] == "cabbage"
    assert eaten(found, 2) == 1.0


@pytest.mark.parametrize(
    "method",
    [
        "Peel and dice the potatoes. Boil them until they are tender and let them cool. Mix with the "
        "mayonnaise and salt.",
        "Peel the potatoes. Boil until soft, then let them cool and slice them. Stir in mayonnaise and salt.",
        "Dice the potatoes. Boil them for 20 minutes and let them cool. Mix with the salt and mayonnaise.",
    ],
)
def test_what_boils_until_it_is_tender_boils_in_water_that_is_poured_away(method: str) -> None:
    found = reading(["1 kg potatoes", "200 g mayonnaise", "1 tsp salt"], method)
    assert kinds(found) == ["boil"]
    assert eaten(found, 1) == eaten(found, 2) == 1.0


@pytest.mark.parametrize(
    "method",
    [
        "Fry the onion and tomatoes. Boil until soft and add the salt.",
        "Brown the lamb with the onion. Add the stock. Add the tomatoes and boil until they are soft. Salt.",
    ],
)
def test_a_sauce_that_boils_until_soft_is_eaten(method: str) -> None:
    lines = ["500 g tomatoes", "1 onion", "1 tsp salt", "400 g lamb", "500 ml stock"]
    assert not kinds(reading(lines, method))
