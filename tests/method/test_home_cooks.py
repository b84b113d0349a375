"""What home cooks write: pans that are pots, strained broths, spoonfuls, water that is not the list's."""

from __future__ import annotations

import pytest

from .test_method_reading import component, reading
from .test_parts_eaten import shares
from .test_whole_ways import fate_of, steps_of


@pytest.mark.parametrize(
    ("lines", "method", "steps"),
    [
        (
            ["2 kg corned silverside", "1 onion"],
            "Put the joint in your largest pan with the onion and 4 litres of cold water. Bring to the "
            "boil and "
            "simmer for 3 hours. Drain.",
            [("boil", 3.0)],
        ),
        (
            ["450 g rump steak", "2 tbsp soy sauce", "2 tsp cornflour"],
            "Mix the beef with the soy and cornflour and leave for 30 minutes while you get on with the "
            "rest.",
            [("marinate", 0.5)],
        ),
        (
            ["6 eggs", "1/2 cup soy sauce", "1/2 cup mirin", "1/2 cup water"],
            "Lower the eggs into boiling water and cook 6 minutes. Cool and peel. Stir the rest together. "
            "Add the "
            "eggs and leave in the refrigerator overnight.",
            [("boil", 0.1), ("marinate", 12.0)],
        ),
        (
            ["2 kg cabbage", "50 g salt"],
            "Toss the cabbage with the salt and work it for 10 minutes. Pack into a crock and leave for 3 "
            "weeks.",
            [("ferment", 504.0)],
        ),
        (
            ["1 chicken, cut up", "2 cups flour", "1 tbsp seasoned salt"],
            "Combine flour and seasoned salt in a paper sack. Drop in the chicken and shake to coat.",
            [("dredge", None)],
        ),
        (
            [
                "5 lb potatoes",
                "1 cup mayonnaise",
                "1/4 cup juice from the pickles",
                "1 tsp salt",
                "1/2 cup pickles",
            ],
            "Boil the potatoes 25 minutes, drain. Mix mayonnaise, pickle juice and salt. Fold into the "
            "potatoes with "
            "the pickles. Chill at least 4 hours.",
            [("boil", 0.4167)],
        ),
        (
            ["500 g squid rings", "100 g cornflour", "2 tsp salt"],
            "Mix cornflour and salt in a bag, add the squid and shake. Knock off what doesn't stick.",
            [("dredge", None)],
        ),
        (
            ["3 lb shrimp", "1/4 cup salt", "2 lb potatoes", "1 lb smoked sausage"],
            "Fill a big pot with 2 gallons of water. Add the salt, bring to a boil. Potatoes in "
            "first, 10 minutes. "
            "Then the sausage, 5 minutes. Shrimp last. Drain it all.",
            [("boil", 0.1667)],
        ),
        (
            ["1 turkey", "8 l water", "500 g salt"],
            "Stir the salt into the water. Sink the turkey in it for 10 hours. Take it out and run "
            "cold water over it.",
            [("brine", 10.0), ("rinse", None)],
        ),
        (
            ["400 g feta in brine", "300 ml oil"],
            "Drain the feta and cube. Pack in a jar, cover with oil and keep in the fridge 3 days.",
            [("drain", None)],
        ),
        (
            ["400 g busiate", "500 g tomatoes"],
            "Blend the tomatoes. Boil the pasta in 4 litres of water with 40 g salt and drain. Mix "
            "with the sauce.",
            [("boil", None)],
        ),
        (
            ["1 kg corned beef", "500 g potatoes"],
            "Cover the beef with cold water and simmer 3 hours. Leave it to cool in its water. Boil "
            "the potatoes in "
            "fresh unsalted water, drain.",
            [("boil", 3.0), ("boil", None)],
        ),
        (
            ["2 lb peanuts", "1 cup salt"],
            "Put the peanuts in a large pot and cover with water. Stir in the salt. Bring to a boil "
            "and simmer 4 hours, "
            "adding water as needed. Drain.",
            [("boil", 4.0)],
        ),
        (
            ["8 chicken thighs", "500 ml pickle juice", "1 cup flour"],
            "Pour the pickle juice over the thighs and chill 6 hours. Drain. Shake in the flour.",
            [("marinate", 6.0), ("dredge", None)],
        ),
        (
            ["2 kg pork shoulder", "2 tbsp salt"],
            "Rub the salt into the pork. Pour a kettle of boiling water over the skin, pat dry. "
            "Roast at 160C for 3 "
            "hours.",
            [("roast", 3.0)],
        ),
    ],
)
def test_steps(lines: list[str], method: str, steps: list[tuple[str, float | None]]) -> None:
    assert steps_of(reading(lines, method)) == steps


def test_what_is_stirred_into_the_flour_stays_with_the_coating() -> None:
    found = reading(
        ["4 steaks", "1 cup flour", "2 tsp salt", "2 eggs", "1/2 cup milk", "Gravy", "3 tbsp flour"],
        "Mix flour and salt. Beat eggs and milk in another dish. Dip the steaks in flour, then egg, then "
        "flour.",
    )
    assert {
        component(found, line)[0] for line in ("1 cup flour", "2 tsp salt", "2 eggs", "1/2 cup milk")
    } == {"coating"}
    assert component(found, "3 tbsp flour")[0] == "dish"


@pytest.mark.parametrize(
    ("method", "in_pot"),
    [
        (
            "Blanch the spinach in boiling water with the tablespoon of salt. Drain. Add the half teaspoon "
            "of salt.",
            True,
        ),
        (
            "Blanch the spinach in unsalted boiling water. Drain. Add the tablespoon of salt and the half "
            "teaspoon.",
            False,
        ),
    ],
)
def test_salt_is_told_by_its_spoons(method: str, in_pot: bool) -> None:
    found = reading(["1 kg spinach", "1 tbsp salt", "1/2 tsp salt"], method)
    assert (component(found, "1 tbsp salt")[0] == "water") == in_pot


def test_more_for_the_water_is_no_salt_of_the_line() -> None:
    lines = ["1 lb macaroni", "1 tsp salt, plus more for the pasta water", "1 cup mayonnaise"]
    found = reading(lines, "Cook the macaroni in salted water and drain. Stir in salt and mayonnaise.")
    assert component(found, lines[1])[0] == "dish"


def test_rinsed_is_said_of_what_was_drained() -> None:
    found = reading(["2 jars olives in brine", "oil"], "Drain the olives and rinse them. Pour over the oil.")
    assert found.recipe["steps"] == [{"kind": "rinse", "food": "olives"}]


def test_a_measured_part_is_held_back() -> None:
    found = reading(
        ["4 salmon fillets", "120 ml soy sauce", "120 ml mirin"],
        "Whisk soy sauce and mirin. Measure out 60 ml and reserve. Pour the remainder over the salmon and "
        "marinate "
        "30 minutes. Discard the marinade. Grill. Thicken the reserved sauce and spoon over.",
    )
    assert shares(found, "soy sauce")["marinade"] == pytest.approx(0.75, abs=0.02)


def test_a_broth_is_eaten_and_what_gave_it_taste_is_not() -> None:
    found = reading(
        [
            "1 hen",
            "4 l water",
            "2 carrots, broken",
            "6 peppercorns",
            "1 tbsp salt",
            "For the soup",
            "3 carrots, sliced",
        ],
        "Place the hen in a kettle with the water, broken carrots, peppercorns and salt. Bring to a boil "
        "and simmer "
        "3 hours. Lift out the hen. Strain the broth and throw out the vegetables. Bring the broth to a "
        "boil, add the "
        "sliced carrots and cook 15 minutes.",
    )
    fates = [
        fate_of(found, line)
        for line in ("2 carrots, broken", "6 peppercorns", "1 tbsp salt", "3 carrots, sliced")
    ]
    assert fates == [0.0, 0.0, 1.0, None]


def test_seasoning_takes_nothing_of_what_went_into_the_pot() -> None:
    found = reading(
        ["500 g beans", "2 tbsp salt", "2 tbsp butter"],
        "Bring a pan of water to the boil and add the salt. Cook the beans 3 minutes, drain. Heat in "
        "butter and "
        "season with salt.",
    )
    assert component(found, "2 tbsp salt") == ("water", 0.0)


@pytest.mark.parametrize(
    "method",
    [
        "Start heating water for the pasta. Cook the anchovies. Add the tomatoes and start cooking pasta. "
        "Simmer the sauce until the pasta is ready.",
        "Put on a pot of water for the pasta. Melt the anchovies, add the tomatoes. Cook the pasta, drain.",
    ],
)
def test_water_for_pasta_waits_for_it(method: str) -> None:
    found = reading(["250 g penne", "8 anchovies", "400 g chopped tomatoes"], *method.split(". "))
    assert [(s["kind"], s["food"]) for s in found.recipe["steps"]] == [("boil", "penne")]


@pytest.mark.parametrize(
    "stands",
    [
        "Cut the courgettes small, lightly salt, then let them rest in a colander for half an hour.",
        "Salt the courgettes and let them stand in a sieve for half an hour.",
    ],
)
def test_salted_vegetables_in_a_colander_lose_their_juice(stands: str) -> None:
    found = reading(
        ["2 courgettes", "Salt", "400 ml oil for frying"], stands, "Fry the courgettes in the oil."
    )
    assert [s["kind"] for s in found.recipe["steps"]] == ["dry_cure", "fry"]


@pytest.mark.parametrize(
    "boils", ["set them on the boil for 20 minutes", "set them on to boil for 15 minutes"]
)
def test_potatoes_on_the_boil(boils: str) -> None:
    found = reading(["1 kg potatoes", "1 onion"], f"Peel the potatoes and {boils}.", "Mash the potatoes.")
    assert [s["kind"] for s in found.recipe["steps"]] == ["boil"]


@pytest.mark.parametrize(
    "adds",
    ["Then add the lemon juice and vinegar. Keep it overnight.", "Pour over the vinegar. Chill for 4 hours."],
)
def test_salted_meat_that_gets_vinegar_is_marinated(adds: str) -> None:
    lines = ["1 chicken breast", "2 tsp salt", "4 tbsp vinegar", "2 tbsp lemon juice"]
    found = reading(lines, f"Rub the chicken with the salt. {adds}", "Fry it.")
    assert [s["kind"] for s in found.recipe["steps"]] == ["marinate"]


@pytest.mark.parametrize(
    "cooks", ["Add the wine and simmer for an hour.", "Brown it, pour in the wine and braise for an hour."]
)
def test_salted_meat_that_cooks_in_wine_is_not(cooks: str) -> None:
    lines = ["1 kg chicken thighs", "1 tsp salt", "200 ml white wine"]
    assert not reading(lines, "Season the chicken with the salt.", cooks).recipe.get("steps")


def test_soy_marinade_is_left_where_food_goes_on_to_starch() -> None:
    lines = ["1 lb chicken thighs", "1/2 cup soy sauce", "1 cup potato starch", "3 cups neutral oil"]
    found = reading(
        lines,
        "Let the chicken marinate in the soy sauce for 2 hours.",
        "Add the chicken to the starch by handfuls, making sure every bit is coated in starch.",
        "Fry the chicken in the oil.",
    )
    assert [s["kind"] for s in found.recipe["steps"]] == ["marinate", "dredge", "fry"]
    assert component(found, lines[1])[1] == 0.0


@pytest.mark.parametrize(
    ("line", "kinds"),
    [
        ("1 can mixed vegetables, drain before they go in", ["drain"]),
        ("1 tin of tuna (drain well)", ["drain"]),
        ("1 can of peas (do not drain)", []),
    ],
)
def test_a_line_may_bid_to_drain(line: str, kinds: list[str]) -> None:
    found = reading([line, "2 chicken breasts"], "Mix all and bake.")
    assert [s["kind"] for s in found.recipe.get("steps", ())] == kinds


@pytest.mark.parametrize(
    "adds",
    [
        "Add the beans - after you drain them.",
        "Stir in the beans without their liquid.",
        "Tip the beans in, having drained them first.",
        "Add the beans after draining off the juice.",
    ],
)
def test_cans_that_are_drained_before_they_go_in(adds: str) -> None:
    found = reading(["500 g beef", "2 cans pinto beans", "1 tsp salt"], f"Brown the beef. {adds} Simmer.")
    assert [(each["kind"], each["food"]) for each in found.recipe["steps"]] == [("drain", "pinto-beans")]
    kept = reading(["500 g beef", "2 cans pinto beans"], "Brown the beef. Add the beans, juice and all.")
    assert not kept.recipe.get("steps")


def test_a_listed_pot_of_water_is_that_of_the_pasta() -> None:
    lines = ["200 g penne", "2 l water", "20 g salt", "1 tin tuna in brine"]
    found = reading(lines, "Salt the water, boil penne 10 min.", "Add the drained tuna.")
    assert {component(found, line)[1] for line in lines[1:3]} == {0.0}


@pytest.mark.parametrize("water", ["in unsalted water", "in plenty of water"])
def test_what_stands_before_a_colon_is_what_boils(water: str) -> None:
    lines = ["500 g peas", "200 g flour", "1/2 tsp salt", "280 ml beer", "4 cod fillets", "1 l oil"]
    found = reading(
        lines,
        "Whisk the beer into the flour and salt.",
        "Drag the fish through the batter and fry in the oil.",
        f"Peas: boil for 4 minutes {water}, drain.",
    )
    assert ("boil", "peas") in [(s["kind"], s["food"]) for s in found.recipe["steps"]]


def test_moisture_that_is_wiped_off_takes_no_salt_along() -> None:
    lines = ["1 chicken, 2 kg", "1 tablespoon coarse salt"]
    method = [
        "Rub the salt all over the bird and leave in the fridge overnight.",
        "Wipe off any wet and roast.",
    ]
    assert component(reading(lines, *method), lines[1])[1] == 1.0


@pytest.mark.parametrize("keeps", ["Do not squeeze it and do not pour anything off.", "Don't squeeze it."])
def test_cabbage_that_is_not_squeezed_keeps_its_salt(keeps: str) -> None:
    lines = ["2 kg white cabbage", "20 g salt", "500 ml stock"]
    found = reading(
        lines,
        f"Mix the cabbage with the salt and leave it half an hour. {keeps}",
        "Add the stock and stew it.",
    )
    assert fate_of(found, lines[1]) in (None, 1.0)


def test_flour_that_goes_in_thickens() -> None:
    lines = ["2 leeks", "60 g butter", "60 g plain flour", "600 ml milk"]
    method = "Sweat the leeks in the butter. Flour in, cook two minutes, then the milk."
    assert not reading(lines, method).recipe.get("steps")


def test_a_smoking_wok_smokes_nothing() -> None:
    found = reading(["350 g beef", "2 tbsp oil"], "Smoking wok, oil, beef in one layer, 1 minute.")
    assert "smoke" not in [s["kind"] for s in found.recipe.get("steps", ())]
