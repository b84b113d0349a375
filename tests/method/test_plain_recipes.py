"""Recipes as home cooks, papers and old books write them: each kind of sentence in three of its forms."""

from __future__ import annotations

import pytest
from saltledger.method.headings import is_heading
from saltledger.method.method_reading import Reading, read

from .test_method_reading import reading

CHICKEN = ["1 kg chicken pieces", "300 ml buttermilk", "200 g flour", "2 tsp salt", "1 tsp paprika"]


def kinds(found: Reading) -> list[str]:
    return [step["kind"] for step in found.recipe.get("steps", ())]


def step(found: Reading, kind: str) -> dict[str, object]:
    return next(each for each in found.recipe["steps"] if each["kind"] == kind)


def eaten(found: Reading, index: int) -> float:
    """The share of a line that is eaten."""
    shares = {c["id"]: c.get("eaten_fraction", 1.0) for c in found.recipe["components"]}
    return sum(
        shares[line["component"]] * line.get("share", 1.0) for line in found.lines if line["index"] == index
    )


@pytest.mark.parametrize(
    "method",
    [
        "Put the beef in a pot just large enough to hold the meat and cover with water. Simmer for 2 hours.",
        "Lay the brisket in a pan big enough to fit the meat, cover it with water and simmer for 2 hours.",
        "Place the beef in a pan large enough to contain it. Cover with water, simmer for 2 hours.",
    ],
)
def test_what_a_pot_is_large_enough_for_is_no_other_food(method: str) -> None:
    found = reading(["1.5 kg salt beef brisket", "1 carrot"], method)
    assert step(found, "simmer" if "simmer" in kinds(found) else "boil")["food"] == "beef-brisket"


@pytest.mark.parametrize(
    "line",
    [
        "For brine",
        "*For the rub*",
        "Marinade ingredients",
        "Dry rub ingredients:",
        "for dressing",
        "Bechamel",
    ],
)
def test_parts_of_a_list_are_known_by_other_words_of_their_names(line: str) -> None:
    assert is_heading(line) is not None


@pytest.mark.parametrize("line", ["Hing", "Seasoned flour", "For 4 people", "Fish sauce"])
def test_foods_and_notes_are_no_parts(line: str) -> None:
    assert is_heading(line) is None


@pytest.mark.parametrize(
    "method",
    [
        "Mix the flour, salt and paprika in a bag. Add the chicken, a few pieces at a time, "
        "covering them well.",
        "Stir the salt and the paprika into the flour in a wide dish. Add the chicken and turn until coated.",
        "Combine the coating ingredients in a shallow dish. Place the chicken in it and turn to coat.",
    ],
)
def test_food_is_turned_in_the_flour_that_it_is_added_to(method: str) -> None:
    found = reading(CHICKEN, method)
    assert kinds(found) == ["dredge"]
    assert eaten(found, 3) == 0.0


@pytest.mark.parametrize(
    "method",
    [
        "Pour the buttermilk over the chicken and soak for 3 hours. Dredge the chicken in the "
        "flour and salt.",
        "Pour buttermilk over the chicken and leave overnight. Dredge the chicken in the flour and salt.",
        "Lay the chicken in the buttermilk and refrigerate for 4 hours, then dredge it in the "
        "flour and salt.",
    ],
)
def test_milk_that_food_leaves_for_its_flour_stays_behind(method: str) -> None:
    found = reading(CHICKEN, method)
    assert kinds(found)[:2] == ["marinate", "dredge"]
    assert eaten(found, 1) == 0.0


@pytest.mark.parametrize(
    "method",
    [
        "Mix the water with the salt and sugar in a large pot. Place the turkey in the pot and "
        "refrigerate overnight.",
        "In a stock pot stir water, sugar and salt until dissolved. Put the turkey in the pot, "
        "chill for 12 hours.",
        "Dissolve salt and sugar in the water in a big pot. Place the turkey in the pot; "
        "refrigerate 12 hours.",
    ],
)
def test_a_brine_may_stand_in_a_pot(method: str) -> None:
    found = reading(["1 turkey, 6 kg", "8 l cold water", "250 g salt", "100 g sugar"], method)
    assert kinds(found) == ["brine"]
    assert step(found, "brine")["duration_h"] == 12.0
    assert eaten(found, 2) == 0.0


@pytest.mark.parametrize(
    "method",
    [
        "Combine the cucumbers, salt and water in a bowl. Let stand for 2 hours. Drain and rinse. "
        "Add the vinegar.",
        "Mix cucumbers with the salt and the water, cover and leave for 2 hours. Drain, then stir "
        "in the vinegar.",
        "Stir the salt, the water and the cucumbers together and let stand 2 hours. Drain. Dress "
        "with the vinegar.",
    ],
)
def test_vegetables_stand_in_the_water_and_salt_they_are_stirred_with(method: str) -> None:
    found = reading(["1 kg cucumbers", "60 g salt", "1.5 l water", "100 ml vinegar"], method)
    assert kinds(found)[0] == "brine"
    assert step(found, "brine")["duration_h"] == 2.0
    assert eaten(found, 1) == 0.0


@pytest.mark.parametrize(
    "method",
    [
        "Cook the pasta in boiling salted water and drain. Whisk oil, vinegar and salt. Toss with "
        "the pasta. Stir in "
        "the feta. Serve at once, or refrigerate for up to 1 day.",
        "Boil the pasta in a large pot of salted water; drain. Shake the oil with the vinegar and "
        "salt, add to the "
        "pasta along with the feta and chill for 4 hours.",
        "Cook the pasta in salted water, drain. Mix vinegar, oil and salt. Add the pasta and the "
        "feta, toss and "
        "leave in the fridge overnight.",
    ],
)
def test_a_salad_of_pasta_is_no_bath_of_its_cheese(method: str) -> None:
    found = reading(["400 g pasta", "60 ml oil", "30 ml vinegar", "1/2 tsp salt", "150 g feta"], method)
    assert kinds(found) == ["boil"]
    assert eaten(found, 3) == 1.0


@pytest.mark.parametrize(
    "method",
    [
        "Boil the potatoes in water for 10 minutes; add 1 tbsp salt to the water. Drain. Stir the "
        "mayonnaise "
        "with 1/2 tsp salt and fold in the potatoes.",
        "Put the potatoes in a saucepan, cover with water and bring to the boil; add 1 tbsp salt "
        "and simmer 10 "
        "minutes. Drain. Whisk the mayonnaise with 1/2 tsp salt and fold in.",
        "Cover the potatoes with water in a pot, add 1 tbsp salt, boil for 10 minutes and drain. Mix the "
        "mayonnaise and 1/2 tsp salt, toss together.",
    ],
)
def test_salt_of_a_pot_and_of_the_dish_come_of_one_line(method: str) -> None:
    found = reading(["1 kg potatoes", "salt", "150 g mayonnaise"], method)
    texts = {c["id"]: c["ingredients"] for c in found.recipe["components"]}
    assert any("1 tbsp" in str(each) for each in texts["water"])
    assert any("1/2 tsp" in str(each) for each in texts["dish"])


@pytest.mark.parametrize(
    "method",
    [
        "Cook the greens in a pot of salted water for 5 minutes. Lift out, keeping the water. "
        "Return the pot of "
        "water to a boil, add the pasta and cook 10 minutes. Drain.",
        "Boil the greens 5 minutes in a large pot of salted water; reserving the water, transfer "
        "to a colander. "
        "Return the water to a boil. Add the pasta, boil 10 minutes, drain.",
        "Blanch the greens in a large pot of boiling salted water and lift them out. Bring the "
        "water back to a "
        "boil, add the pasta and cook until done. Drain.",
    ],
)
def test_a_pot_comes_back_for_other_food(method: str) -> None:
    found = reading(["500 g kale", "400 g pasta", "30 ml oil"], method)
    pots = [each for each in found.recipe["steps"] if each["kind"] == "boil"]
    assert len(pots) == 2
    assert len({each["bath"] for each in pots}) == 1
    baths = {c["id"]: c.get("eaten_fraction") for c in found.recipe["components"]}
    assert baths[pots[0]["bath"]] == 0.0


@pytest.mark.parametrize(
    "method",
    [
        "Simmer the ham in a pot of water for 3 hours. During the last 45 minutes of cooking add "
        "all vegetables "
        "except the cabbage. For the last 20 minutes of cooking add the cabbage.",
        "Cover the ham with water in a pot and boil 3 hours. For the last 45 minutes add the carrots and "
        "potatoes. Add the cabbage for the last 20 minutes.",
        "Cook the ham in a large pot covered with water, about 3 hours. In the last 45 minutes of "
        "simmering add "
        "the potatoes and carrots, and during the last 20 minutes of it the cabbage.",
    ],
)
def test_vegetables_boil_in_the_pot_of_a_ham_for_the_last_of_its_time(method: str) -> None:
    found = reading(["1.5 kg smoked ham", "500 g potatoes", "4 carrots", "1 cabbage"], method)
    assert [each["duration_h"] for each in found.recipe["steps"]][:2] == [3.0, 0.75]


@pytest.mark.parametrize(
    "method",
    [
        [
            "Stir the oil, the lemon and salt, then add",
            "the chicken and marinate for 2 hours. Grill the chicken.",
        ],
        [
            "Combine the chicken with oil, lemon juice and the salt in a",
            "bowl; marinate for 2 hours.",
            "Grill it.",
        ],
        [
            "In a bowl mix the salt with oil and the lemon juice and",
            "add the chicken. Marinate 2 hours. Grill.",
        ],
    ],
)
def test_lines_that_were_broken_at_a_margin_are_whole_again(method: list[str]) -> None:
    found = reading(["800 g chicken breast", "60 ml oil", "60 ml lemon juice", "2 tsp salt"], *method)
    assert step(found, "marinate")["duration_h"] == 2.0


@pytest.mark.parametrize(
    ("method", "hours"),
    [
        ("Cover the chickpeas with water. Boil for 10 minutes, then simmer for 1 hour. Drain.", 1.1667),
        (
            "Boil the chickpeas in water for 15 minutes. Reduce the heat and simmer for 45 minutes. Drain.",
            1.0,
        ),
        ("Boil the chickpeas in plenty of water rapidly 10 minutes; simmer them 50 minutes. Drain.", 1.0),
    ],
)
def test_boiling_and_simmering_are_one_after_the_other(method: str, hours: float) -> None:
    assert step(reading(["300 g chickpeas", "1 tsp salt"], method), "boil")["duration_h"] == hours


@pytest.mark.parametrize(
    "method",
    [
        "Trim the thin edges off the salmon. Rub with the salt and sugar, chill for 48 hours and "
        "scrape it off.",
        "Cut away any thin bits of the salmon. Cover it with salt and sugar, leave 48 hours in the "
        "fridge. Rinse.",
        "Trim thin ends from the salmon, rub the salt and the sugar in, refrigerate 48 hours, then rinse.",
    ],
)
def test_thin_ends_that_are_cut_off_say_nothing_of_the_piece(method: str) -> None:
    found = reading(["1 kg salmon fillet", "80 g salt", "80 g sugar"], method)
    assert step(found, "dry_cure")["thickness_cm"] > 1.0


@pytest.mark.parametrize(
    "method",
    [
        "Brine the pork in the water and salt for 8 hours. Drain. Cover with water and simmer for 2 hours.",
        "Dissolve the salt in the water, add the pork and leave for 8 hours. Rinse the pork, put "
        "it in a pot, "
        "cover with water and simmer for 2 hours.",
        "Stir the salt into the water and soak the pork in it for 8 hours; drain. Put it in a pot, "
        "cover with "
        "water and boil gently for 2 hours.",
    ],
)
def test_water_after_the_brine_is_the_taps(method: str) -> None:
    found = reading(["1.5 kg pork belly", "2 l water", "120 g salt"], method)
    assert step(found, "brine")["duration_h"] == 8.0
    assert {"boil", "simmer"} & set(kinds(found))
    assert next(line for line in found.lines if line["index"] == 1).get("share", 1.0) == 1.0


@pytest.mark.parametrize(
    "method",
    [
        "Mix the flour with the salt and paprika. Dredge the chicken in it.",
        "Season the flour with the salt and the paprika, turn the chicken in it, shake off the rest.",
        "Stir salt and paprika into the flour on a plate. Roll the chicken in the flour.",
    ],
)
def test_what_becomes_of_salted_flour_is_asked(method: str) -> None:
    found = reading(CHICKEN, method)
    (question,) = (q for q in found.questions if q.id.startswith("coating"))
    answered = read(found.written, {question.id: "all"})
    assert (eaten(found, 3), eaten(answered, 3)) == (0.0, 1.0)


@pytest.mark.parametrize(
    "method",
    [
        "Marinate the pork in the soy sauce and water for 2 hours. Discard the marinade and grill the pork.",
        "Lay the pork in the soy sauce with the water for 2 hours. Lift it out, throw that away. Grill.",
        "Pour the water and soy sauce over the pork and marinate for 2 hours. Drain off the marinade. Grill.",
    ],
)
def test_how_thick_food_is_in_a_marinade_is_asked(method: str) -> None:
    found = reading(["800 g pork leg", "200 ml soy sauce", "200 ml water"], method)
    assert any(q.id.startswith("thickness") for q in found.questions)
