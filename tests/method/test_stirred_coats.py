"""Food that is turned in a batter or in a breading: what does not cling to it is left."""

from __future__ import annotations

import pytest

from .test_method_reading import component, reading

_FISH = [
    "600 g haddock fillet",
    "40 g flour, for dusting",
    "150 g flour, for the batter",
    "2 tsp salt",
    "200 ml cold beer",
    "1 litre sunflower oil",
]


@pytest.mark.parametrize(
    "said",
    [
        "Sift the batter flour with the salt and whisk in the beer. Heat the oil to 180 °C. Dust the haddock "
        "with flour, dip in the batter and fry for 6 minutes.",
        "Put the flour for the batter into a bowl with the salt. Pour in the beer, whisking. Heat the oil. "
        "Roll the fish in the dusting flour, put it into the batter and lower it into the oil.",
        "Whisk the flour for the batter with the salt. Add the beer to the flour mixture. Draw the haddock "
        "through the batter and deep-fry it.",
        "Stir the batter flour, the salt and the beer. Heat the oil. Put the dusting flour in a bowl and "
        "toss the fish in the flour. Transfer the fish to the batter, then fry it in the hot oil.",
    ],
)
def test_what_was_stirred_to_a_batter_is_left_with_it(said: str) -> None:
    found = reading(_FISH, said)
    (step,) = (s for s in found.recipe["steps"] if s["kind"] == "dredge")
    for line in _FISH[2:5]:
        assert component(found, line) == (step["bath"], 0.0)


@pytest.mark.parametrize(
    "said",
    [
        "Whisk the flour, salt, eggs and milk to a batter. Pour the batter over the sausages and bake.",
        "Whisk the flour, salt, eggs and milk to a batter. Fold the sausages into the batter and bake.",
        "Make a batter of the flour, salt, eggs and milk. Bake it with the sausages.",
    ],
)
def test_a_batter_that_is_baked_with_its_food_is_eaten(said: str) -> None:
    found = reading(["8 sausages", "150 g flour", "2 tsp salt", "2 eggs", "300 ml milk"], said)
    assert not [s for s in found.recipe.get("steps", ()) if s["kind"] == "dredge"]


def test_a_pinch_of_the_same_salt_ties_no_sauce_to_a_batter() -> None:
    lines = ["500 g cod", "150 g flour", "2 tsp salt", "200 ml beer", "100 g yoghurt", "oil for deep frying"]
    found = reading(
        lines,
        "Whisk the flour, the salt and the beer.",
        "Stir a pinch of salt into the yoghurt.",
        "Dip the cod in the batter and deep-fry it.",
    )
    assert component(found, "100 g yoghurt")[0] == "dish"


@pytest.mark.parametrize(
    ("head", "said"), [("Bread", "breading"), ("To coat:", "coating"), ("Crumb", "crumb")]
)
def test_a_part_of_the_list_is_known_by_any_form_of_its_name(head: str, said: str) -> None:
    lines = ["Brine", "500 ml buttermilk", "2 tsp salt", "1 kg chicken", head]
    lines += ["120 g flour", "1 tsp paprika", "1/2 tsp celery salt", "Cooking", "1 litre oil"]
    found = reading(
        lines,
        "Stir the brine ingredients, add the chicken and leave it for 8 hours.",
        f"Mix the {said} ingredients in a bowl. Dredge the chicken in the {said} and deep-fry it.",
    )
    (step,) = (s for s in found.recipe["steps"] if s["kind"] == "dredge")
    assert component(found, "1/2 tsp celery salt") == (step["bath"], 0.0)
    assert component(found, "2 tsp salt")[0] != step["bath"]


_CHICKEN = ["800 g chicken thighs", "1 cup milk", "2 eggs", "1 cup flour", "2 tsp salt", "1 litre oil"]


@pytest.mark.parametrize(
    "said",
    [
        "Turn the chicken in the liquid mix, next in the dry mix, and lower it into the oil.",
        "Dunk each thigh in the egg mixture and toss in the flour mixture. Lower it into the oil.",
        "Put the chicken in the milk mixture, roll it in the dry ingredients and fry it in the hot oil.",
        "Dip in the egg wash, dredge the chicken in the flour mix and drop it into the fryer.",
    ],
)
def test_a_mix_is_what_was_stirred_last_of_its_kind(said: str) -> None:
    found = reading(
        _CHICKEN, "Whisk the milk and the eggs. In another bowl mix the flour and the salt.", said
    )
    dredge, fry = found.recipe["steps"]
    assert (dredge["kind"], fry["kind"]) == ("dredge", "fry")
    for line in _CHICKEN[1:5]:
        assert component(found, line) == (dredge["bath"], 0.0)


@pytest.mark.parametrize(
    "said",
    [
        "Lower the fritters into the oil, leaving a little space between them, and fry for 4 minutes.",
        "Lower the basket in the fryer for 4 minutes.",
        "Let the basket down into the fryer for 4 minutes.",
        "Slide the onions into the fat and let them fry for 4 minutes.",
    ],
)
def test_what_goes_into_deep_fat_fries_there(said: str) -> None:
    found = reading(
        ["600 g onions, in rings", "1.5 litres oil"],
        "Peel the onions. Fill a fryer with the oil and heat it.",
        said,
    )
    assert [step["kind"] for step in found.recipe["steps"]] == ["fry"]


@pytest.mark.parametrize(
    "film",
    [
        "Take enough oil to cover the base of the pan.",
        "Pour in oil so that the bottom of the pan is covered.",
    ],
)
def test_a_film_of_fat_is_no_bath_however_hot(film: str) -> None:
    found = reading(
        ["400 g chicken breast", "olive oil", "10 cloves garlic"],
        f"{film} Once the oil is hot (180 °C) fry the chicken.",
    )
    assert component(found, "olive oil") == ("dish", None)


def test_milk_that_onions_soaked_in_before_they_are_floured_is_left() -> None:
    found = reading(
        ["3 onions", "1 litre buttermilk", "1 cup flour", "1 tsp salt", "1.5 litres oil"],
        "Mix the flour and the salt. Soak the onions in the buttermilk.",
        "Lift them out and toss in the dry mix. Put them in the hot oil for 5 minutes.",
    )
    assert component(found, "1 litre buttermilk")[1] == 0.0


def test_filling_a_fryer_fries_nothing_yet() -> None:
    found = reading(
        ["600 g onions, in rings", "1.5 litres oil", "120 g flour"],
        "Peel the onions. Fill the fryer to the line with oil. Toss the onions in the flour.",
        "Lower the basket in the fryer. Cook for 6 minutes.",
    )
    assert [(step["kind"], step.get("duration_h")) for step in found.recipe["steps"]] == [
        ("dredge", None),
        ("fry", 0.1),
    ]


@pytest.mark.parametrize(
    "said",
    [
        "Lay each escalope in a plate of flour until it is white all over. Do the same with the egg and "
        "then the breadcrumbs.",
        "Place the escalopes in a dish of flour. Repeat in a bowl of beaten egg. Finish by placing them in "
        "the breadcrumbs.",
        "Drop an escalope into the flour. Cover in egg, then in breadcrumbs.",
        "Cover the escalopes in flour, then egg, then breadcrumbs.",
    ],
)
def test_pieces_that_lie_in_a_bowl_of_flour_are_coated(said: str) -> None:
    lines = ["600 g turkey escalopes", "80 g flour", "2 eggs", "120 g breadcrumbs", "1 l oil"]
    found = reading(lines, said, "Deep-fry them for 4 minutes.")
    (step,) = (s for s in found.recipe["steps"] if s["kind"] == "dredge")
    assert step["food"] == "turkey-escalopes"
    for line in lines[1:4]:
        assert component(found, line)[0] == step["bath"]


@pytest.mark.parametrize(
    "said",
    [
        "Put the mince in a bowl with the flour and the egg, shape into balls and fry.",
        "Brown the turkey. Place it in a casserole. Stir in the flour and the stock and simmer.",
    ],
)
def test_flour_beside_meat_in_a_bowl_is_no_coat(said: str) -> None:
    found = reading(["600 g turkey mince", "30 g flour", "1 egg", "500 ml stock"], said)
    assert not [s for s in found.recipe.get("steps", ()) if s["kind"] == "dredge"]


@pytest.mark.parametrize("flour", ["Flour", "plain flour, for coating"])
def test_flour_and_salt_without_amounts_go_by_the_food_that_is_turned_in_them(flour):
    lines = ["1 kg stewing beef", flour, "Salt", "2 kg potatoes"]
    recipe = reading(lines, "Mix the flour and salt. Dredge the beef in it and fry. Add the potatoes.").recipe
    coat = next(each for each in recipe["components"] if each["id"] == "coating")
    said = [each["line"] for each in coat["ingredients"]]
    assert said == [f"80 to 200 g {'flour' if flour == 'Flour' else 'plain flour'}", "4 to 9 g salt"]


def test_flour_that_is_measured_stays_as_it_is():
    lines = ["1 kg chicken legs", "100 g flour", "1 tsp salt"]
    recipe = reading(lines, "Mix the flour and salt. Dredge the chicken in it and fry.").recipe
    coat = next(each for each in recipe["components"] if each["id"] == "coating")
    assert coat["ingredients"] == ["100 g flour", "1 tsp salt"]


@pytest.mark.parametrize(
    "said",
    [
        "Flour the chops. Heat plenty of oil in a pan and fry them for 6 minutes.",
        "Cover the chops with the flour and shake them. Fry in an inch of hot oil for 6 minutes.",
        "Dredge the chops in the flour. Heat oil, 1 cm deep, and fry the chops 6 minutes.",
        "Roll the chops in the flour. Heat enough oil to come halfway up them and fry for 6 minutes.",
    ],
)
def test_coated_food_fries_in_fat_that_no_line_lists(said: str) -> None:
    found = reading(["4 veal chops", "1 cup flour", "1 tsp salt"], said)
    assert [s["kind"] for s in found.recipe["steps"]] == ["dredge", "fry"]
    assert component(found, "1 cup flour")[0] == "coating"


@pytest.mark.parametrize(
    "said",
    [
        "Fry the chops in a little oil.",
        "Heat enough oil in a pan. Fry the chops.",
        "Coat the pan with oil and fry the chops.",
        "Flour the board, pound the chops and grill them.",
    ],
)
def test_a_film_of_fat_that_no_line_lists_is_no_bath(said: str) -> None:
    found = reading(["4 veal chops", "1 cup flour", "1 tsp salt"], said)
    assert not {s["kind"] for s in found.recipe.get("steps", ())} & {"fry", "dredge"}
