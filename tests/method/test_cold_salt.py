"""Salt in the cold, and coatings: waters changed, jars emptied, joints in what is left, flour shaken off."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest
from saltledger.foods.dataset import bundled
from saltledger.method.clause_words import changes_of
from saltledger.method.method_reading import read

from ..bench.method_sodium import sodium_mg
from .test_method_reading import component, reading
from .test_plain_recipes import kinds, step
from .test_whole_ways import fate_of, steps_of


@pytest.mark.parametrize(
    ("said", "hours", "times"),
    [
        ("changing the water morning and evening", 48.0, 3),
        ("in plenty of cold water which you change twice a day", 72.0, 5),
        ("change the water every 8 hours", 48.0, 5),
        ("changing it every other day", 144.0, 2),
        ("the water is renewed three times", 24.0, 3),
        ("with three changes", 40.0, 3),
        ("in several changes of cold water", 24.0, 3),
        ("with the onion and lots of cold water", 12.0, 0),
        ("change the bowl", 3.0, 0),
    ],
)
def test_water_is_changed_as_often_as_it_says(said: str, hours: float, times: int) -> None:
    clause: Any = SimpleNamespace(text=said)
    assert changes_of(clause, hours) == times


@pytest.mark.parametrize(
    ("lines", "method", "steps"),
    [
        (  # what stands is not heated by the verb that says what it stands for
            ["1 white cabbage", "2 tsp salt"],
            "Toss the cabbage with the salt. Leave in a colander 1 hour to wilt. Rinse thoroughly, spin dry.",
            [("dry_cure", 1.0), ("rinse", 0.05)],
        ),
        (  # the cucumbers stand under their salt while the seaweed soaks
            ["2 cucumbers", "1/2 tsp salt", "10 g dried wakame"],
            "Slice the cucumbers. Mix with the salt in a bowl and wait 10 minutes. Soak the wakame in cold"
            " water for 5 minutes, drain. Take the cucumber in your hands and squeeze hard.",
            [("soak", 0.0833), ("dry_cure", 0.1667), ("squeeze", None)],
        ),
        (  # pulses lie in salt water as meat does
            ["500 g dried cannellini beans", "1 tbsp salt for the soak"],
            "Dissolve the soaking salt in 3 litres of water, add the beans and leave overnight. Drain.",
            [("brine", 12.0)],
        ),
        (  # a tenth of the pickle is pumped in, and the joint lies in what is left
            ["5 kg brisket", "4 l water", "320 g salt"],
            "Boil the salt in the water and cool. Pump the brisket with 10% of its weight of the pickle, then"
            " drop it in what's left for 5 days. Desalt 8 hours in cold water.",
            [("inject", None), ("brine", 120.0), ("soak", 8.0)],
        ),
        (  # hot salt water poured over and left does not boil
            ["300 g almonds", "30 g salt", "250 ml boiling water"],
            "Stir the salt into the boiling water, tip over the nuts, leave 30 minutes. Drain.",
            [("brine", 0.5)],
        ),
        (  # a rub that goes straight on the grill is a seasoning
            ["1 kg pork tenderloin", "# Rub", "1 tsp cumin", "1/2 tsp salt"],
            "Rub the pork with the spice rub. Grill 15 minutes.",
            [("roast", 0.25)],
        ),
        (  # the wait is what was said before it is eaten, and no time of storage
            ["8 small cucumbers", "2 cups water", "1 cup white vinegar", "1 1/2 tbsp salt"],
            "Bring the water, vinegar and salt to a boil. Put the cucumbers in jars and pour over the hot"
            " brine. Refrigerate at least 24 hours before eating. Keeps a month.",
            [("brine", 24.0)],
        ),
        (  # food goes into the one that is said, though "them" is all that names it
            ["2 mackerel, filleted", "300 ml rice vinegar", "1 tbsp sugar"],
            "Fillet the mackerel. Lay them in the vinegar and sugar for 30 minutes. Lift out and dry.",
            [("marinate", 0.5)],
        ),
        (  # one of two ways
            ["250 g saltfish"],
            "Soak the saltfish in water overnight. Or, if short on time, boil it for 20 minutes and throw off"
            " the water.",
            [("soak", 12.0)],
        ),
        (
            ["2 cans kidney beans", "1 can chickpeas"],
            "Empty all the cans into a colander, then rinse under cold running water.",
            [("drain", None)],
        ),
        (
            ["1 jar pickled herring (500 g)", "150 g sour cream"],
            "Lift the herring out of its pickle. Stir with the cream.",
            [("drain", None)],
        ),
    ],
)
def test_steps_in_the_cold(lines: list[str], method: str, steps: list[tuple[str, float | None]]) -> None:
    assert steps_of(reading(lines, method)) == steps


@pytest.mark.parametrize(
    ("lines", "method", "coats"),
    [
        (
            ["2 aubergines", "50 g flour", "1 egg", "100 g panko", "200 ml oil"],
            "Slice the aubergines. Flour, egg, panko - in that order. Fry in the hot oil 3 minutes a side.",
            ["50 g flour", "1 egg", "100 g panko"],
        ),
        (
            [
                "8 chicken thighs",
                "# For the coating",
                "2 cups flour",
                "2 tsp salt",
                "# For frying",
                "1 l oil",
            ],
            "Coat each piece of the chicken in the flour. Fry for 15 minutes.",
            ["2 cups flour", "2 tsp salt"],
        ),
        (
            ["2 kg squid rings", "500 g flour", "20 g salt", "4 l frying oil"],
            "Season the flour with the salt. Dredge the squid, sieve off the excess. Fry 2 min at 190C.",
            ["500 g flour", "20 g salt"],
        ),
        (
            ["20 chicken breasts", "600 g flour", "12 eggs", "1.5 kg panko", "3 l oil"],
            "Pané the chicken. Discard leftover flour and crumbs. Fry at 170 C for 5 minutes.",
            ["600 g flour", "12 eggs", "1.5 kg panko"],
        ),
    ],
)
def test_what_coats_stays_behind_in_part(lines: list[str], method: str, coats: list[str]) -> None:
    found = reading(lines, method)
    assert [step["kind"] for step in found.recipe["steps"]] == ["dredge", "fry"]
    assert {component(found, line)[0] for line in coats} == {"coating"}


@pytest.mark.parametrize(
    ("lines", "method", "line", "eaten"),
    [
        (  # what drips off is poured away
            ["1 chicken, cut up", "1 quart buttermilk", "1 tbsp salt", "2 cups flour", "1 l oil"],
            "Combine the buttermilk and salt, add the chicken and refrigerate overnight. Let the buttermilk"
            " drip off and dredge in the flour. Fry 12 minutes.",
            "1 tbsp salt",
            0.0,
        ),
        (  # flour is shaken off, and not the salt before it
            ["1 kg chicken wings", "1 tsp salt", "100 g potato starch", "1 litre oil"],
            "Season wings with the salt and leave 30 minutes. Toss in the starch and shake off any loose. Fry"
            " at 160 C for 10 minutes.",
            "1 tsp salt",
            None,
        ),
        (  # much salt goes into the vinegar that is poured over it, and is drained off with it
            ["500 g fresh anchovies", "40 g salt", "300 ml white wine vinegar"],
            "Fillet the anchovies. Lay in a dish, salt between the layers, and pour the vinegar over. Leave 4"
            " hours. Drain off the vinegar.",
            "40 g salt",
            0.0,
        ),
        (  # nobody eats a crust of salt dough
            ["1 large celeriac", "500 g coarse salt", "500 g plain flour", "300 ml water"],
            "Mix the salt and flour with the water to a dough. Wrap it round the celeriac. Bake at 190C for 2"
            " hours. Crack open the crust and throw it away.",
            "500 g plain flour",
            0.0,
        ),
    ],
)
def test_fates_in_the_cold(lines: list[str], method: str, line: str, eaten: float | None) -> None:
    assert fate_of(reading(lines, method), line) == eaten


@pytest.mark.parametrize(
    ("lines", "method", "grams"),
    [
        (
            ["3 aubergines", "coarse salt"],
            "Layer the aubergines with salt, leave 1 hour, rinse.",
            "15 to 45 g",
        ),
        (["1 kg cucumbers", "salt"], "Salt the cucumbers, leave 2 hours and drain well.", "10 to 30 g"),
        (
            ["500 g cod fillet", "sea salt"],
            "Cover the cod with sea salt and leave in the fridge for 3 hours. Rinse off the salt.",
            "5 to 15 g",
        ),
    ],
)
def test_salt_that_is_strewn_goes_by_the_food_and_is_asked_about(lines, method, grams):
    found = reading(lines, method)
    assert f"{grams} salt" in {
        line["line"]
        for c in found.recipe["components"]
        for line in c["ingredients"]
        if isinstance(line, dict)
    }
    (question,) = (q for q in found.questions if q.id.startswith("strewn"))
    said = [read(found.written, {question.id: each.choice}).recipe for each in question.choices]
    little, usual, well = (sodium_mg(each, bundled()) for each in said)
    assert little < usual < well


_FILLETS = ["600 g sole fillets", "120 g plain flour", "2 eggs"]


@pytest.mark.parametrize(
    ("method", "salt"),
    [
        ("Put the flour on a plate and stir in 1 tsp salt. Coat the sole in the flour.", "1 tsp salt"),
        ("Season the flour with 2 teaspoons of salt. Turn the sole in the flour.", "2 teaspoons of salt"),
        ("Tip the flour into a dish. Season well. Dip the sole in egg, then in the flour.", "salt, to taste"),
    ],
)
def test_salt_of_the_flour_lies_in_the_coating(method: str, salt: str) -> None:
    coating = next(c for c in reading(_FILLETS, method).recipe["components"] if c["id"] == "coating")
    assert {"line": salt} in coating["ingredients"]


@pytest.mark.parametrize(
    "method",
    ["Season the sole with 1 tsp salt and coat it in the flour.", "Coat the sole in flour. Add 1 tsp salt."],
)
def test_salt_of_the_food_does_not_lie_in_the_coating(method: str) -> None:
    coating = next(c for c in reading(_FILLETS, method).recipe["components"] if c["id"] == "coating")
    assert not [each for each in coating["ingredients"] if isinstance(each, dict)]


def test_salt_without_an_amount_seasons_the_fish_and_the_flour() -> None:
    found = reading(
        [*_FILLETS, "salt"], "Salt the sole. Mix the flour with salt. Coat the sole in the flour."
    )
    assert component(found, "salt")[0] == "dish"
    coating = next(c for c in found.recipe["components"] if c["id"] == "coating")
    assert {"line": "salt, to taste"} in coating["ingredients"]


@pytest.mark.parametrize(
    ("food", "said"),
    [
        ("300 g tofu", "Brine the tofu in the salted water for 1 hour, drain and fry."),
        ("500 g prawns", "Leave the prawns in the salted water for 30 minutes. Drain and grill."),
        ("1 kg pork ribs", "Brine the ribs in the heavily salted water overnight. Roast."),
    ],
)
def test_the_salt_of_the_list_is_in_the_salted_water(food: str, said: str) -> None:
    found = reading([food, "2 l water", "60 g salt"], said)
    (brine,) = (each for each in found.recipe["components"] if each["id"] == "brine")
    assert brine["ingredients"] == ["2 l water", "60 g salt"]


@pytest.mark.parametrize(
    ("lines", "left"),
    [
        (["# Stew", "1 kg beef", "60 g flour", "# Dumplings", "300 g self-raising flour", "1 tsp salt"], 4),
        (["800 g cod", "50 g flour, for dusting", "200 g plain flour", "300 ml milk"], 2),
    ],
)
def test_flour_of_another_part_is_no_coating(lines: list[str], left: int) -> None:
    food = lines[1].split()[-1] if lines[0].startswith("#") else "cod"
    found = reading(lines, f"Toss the {food} in the flour, shaking off the excess. Fry it. Make the rest.")
    assert component(found, lines[left])[0] == "dish"


def test_flour_and_crumbs_of_a_coating_lie_there_both() -> None:
    lines = ["800 g cod", "50 g flour, for dusting", "2 eggs", "150 g breadcrumbs", "1 l oil"]
    found = reading(
        lines, "Dip the cod in the flour, then the egg, then the breadcrumbs. Deep-fry in the oil."
    )
    assert {component(found, line)[0] for line in (lines[1], lines[3])} == {"coating"}


def test_cuts_for_a_marinade_make_none_of_what_is_listed() -> None:
    lines = ["750 g salmon", "60 g salt", "60 g sugar", "2 tbsp mustard", "2 tbsp vinegar"]
    found = reading(
        lines,
        "Make a few cuts in the skin so the marinade will penetrate. Mix the salt and sugar and sprinkle it "
        "over the salmon. Let it marinate in the fridge for 36 hours. Brush it off and slice.",
        "Stir the mustard and vinegar for a sauce and serve it with the fish.",
    )
    assert fate_of(found, "60 g salt") == 0
    assert fate_of(found, "2 tbsp mustard") != 0


def test_salt_in_the_food_processor_cures_nothing() -> None:
    lines = ["200 g dried chickpeas", "80 g onion", "1 tsp salt", "2 tbsp flour"]
    found = reading(
        lines,
        "Soak the chickpeas overnight and drain. Add the onion and salt to the food processor and pulse.",
        "Transfer to a bowl, stir in the flour and refrigerate for an hour. Form into balls and bake.",
    )
    assert [each["kind"] for each in found.recipe["steps"]] == ["soak"]
    assert fate_of(found, "1 tsp salt") != 0


@pytest.mark.parametrize(
    "said",
    [
        "Mix the cabbage with the salt. Add water to cover the cabbage. Put a plate on top of the cabbage "
        "and let it soak for 3 hours.",
        "Rub the salt into the cabbage, then cover with cold water. Set a weight on the cabbage and leave it "
        "for 3 hours.",
        "Hand toss the cabbage with the salt. Pour water over the cabbage. Place a plate atop the cabbage, "
        "let the cabbage soak for 3 hours.",
        "Toss the cabbage with the salt, add water to cover it, lay a board on it and leave for 3 hours.",
    ],
)
def test_what_was_salted_and_is_covered_with_water_lies_in_one_brine(said: str) -> None:
    found = reading(["1 kg cabbage", "60 g salt", "2 tbsp fish sauce"], said, "Rinse the cabbage.")
    assert [step["kind"] for step in found.recipe["steps"]] == ["brine", "rinse"]
    assert found.recipe["steps"][0]["duration_h"] == 3
    assert component(found, "60 g salt")[1] == 0.0


def test_a_little_water_added_to_kraut_makes_no_brine_of_it() -> None:
    found = reading(
        ["1 kg cabbage", "20 g salt"],
        "Knead the salt into the cabbage until it is wet, and pack it into a jar.",
        "If necessary, add a bit of water to cover the cabbage. Ferment for 3 weeks.",
    )
    assert component(found, "20 g salt")[1] in (None, 1.0)


@pytest.mark.parametrize(
    "waits",
    [
        "let them sweat for 45 minutes",
        "leave to sweat for 45 minutes",
        "let it do its thing for 45 minutes",
        "let the salt work its magic for 45 minutes",
        "let them purge 45 minutes",
    ],
)
def test_what_sweats_under_salt_stands_there(waits: str) -> None:
    found = reading(["2 marrows", "1 tbsp salt"], f"Toss the marrows with the salt and {waits}. Rinse.")
    assert steps_of(found)[0] == ("dry_cure", 0.75)


def test_onions_that_sweat_in_a_pan_lie_in_no_salt() -> None:
    lines = ["2 onions", "1 tsp salt", "2 tbsp oil", "1 l stock"]
    assert not steps_of(
        reading(lines, "Sweat the onions with the salt in the oil for 15 minutes. Add stock.")
    )


@pytest.mark.parametrize(
    "lays",
    [
        "Put the marrows in a bowl of water with the salt. Leave for 20 minutes.",
        "Place the marrows in a bowl of salted water. Let stand 20 minutes.",
        "Drop the marrows into a basin of well salted water and wait 20 minutes.",
    ],
)
def test_vegetables_in_a_bowl_of_salted_water_lie_in_a_brine(lays: str) -> None:
    found = reading(["2 marrows", "1 tbsp salt", "2 tbsp oil"], lays, "Take them out, dry and fry.")
    assert steps_of(found) == [("brine", 0.3333)]


def test_vegetables_in_a_bowl_of_plain_water_only_wait() -> None:
    assert not steps_of(reading(["2 marrows", "2 tbsp oil"], "Put the marrows in a bowl of water.", "Fry."))


def test_the_liquid_of_all_cans_is_poured_off() -> None:
    lines = ["1 can chickpeas", "2 cans sweetcorn", "2 tbsp oil"]
    found = reading(lines, "Pour off the liquid from the cans and mix all with the oil.")
    (drained,) = found.recipe["steps"]
    assert len(drained["food"]) == 2


@pytest.mark.parametrize(
    "method",
    [
        "The day before, season the pork with salt and leave it uncovered in the fridge. Roast it.",
        "Season the pork with salt a day in advance, keep it in the fridge. Roast it.",
        "Season the pork (if using) with salt and leave it in the fridge for 24 hours. Roast it.",
    ],
)
def test_meat_that_is_seasoned_a_day_ahead_lies_in_a_little_salt(method: str) -> None:
    found = reading(["1 kg pork loin", "2 onions"], method)
    assert step(found, "dry_cure")["duration_h"] == 24.0
    texts = [i["line"] for c in found.recipe["components"] for i in c["ingredients"] if isinstance(i, dict)]
    assert texts == ["5 to 12 g salt"]


def test_meat_that_is_seasoned_and_fried_at_once_lies_in_no_salt() -> None:
    found = reading(["1 kg pork loin", "2 onions"], "Season the pork with salt. Fry it with the onions.")
    assert kinds(found) == []
