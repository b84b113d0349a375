"""What a paragraph's label tells ahead, salt that goes on food spoken of before, tops of a bake, and eggs."""

from __future__ import annotations

import pytest

from .test_method_reading import component, reading
from .test_plain_recipes import kinds, step
from .test_whole_ways import fate_of, steps_of


@pytest.mark.parametrize(
    ("method", "hours"),
    [
        (
            "Cook the penne: Bring a big pot of salted water to the boil. Add the penne, 9 minutes. Drain.",
            0.15,
        ),
        (
            "Boil the penne. In a large pot of boiling salted water, cook the penne for 9 minutes. Drain.",
            0.15,
        ),
        ("Boil penne 9 minutes: Tip the penne into boiling salted water. Drain when al dente.", 0.15),
        ("Cooking the pasta: Put the penne into a pot of boiling salted water for 9 minutes. Drain.", 0.15),
    ],
)
def test_a_pot_that_its_label_tells_is_one_pot(method: str, hours: float) -> None:
    found = reading(["400 g penne", "50 g butter"], method, "Toss in the butter.")
    assert steps_of(found) == [("boil", hours)]
    assert any("salt" in line["text"] for line in found.lines if line.get("assumed"))


def test_two_waters_are_two_pots() -> None:
    found = reading(
        ["1 salted ox tongue (1.4 kg)"],
        "Boil the tongue for 30 minutes. Pour that water off. Boil the tongue in fresh water for 2 hours."
        " Drain.",
    )
    assert kinds(found) == ["boil", "boil"]


@pytest.mark.parametrize(
    "method",
    [
        "Stir the water gently into a whirl and cook for 3 minutes.",
        "Lower a spoon to the surface of the water now and then. Cook for 3 minutes.",
        "Swirl the water round them with a spoon. Cook 3 minutes.",
    ],
)
def test_the_water_that_eggs_cook_in_is_theirs(method: str) -> None:
    lines = ["2 egg yolks", "4 eggs", "100 g butter"]
    begins = "Bring a pot of water to a simmer. Slide the eggs into the water one at a time. "
    found = reading(lines, "Whisk the yolks with the butter.", begins + method + " Lift the eggs out.")
    assert len(kinds(found)) == 1
    assert component(found, "2 egg yolks")[0] == component(found, "100 g butter")[0]


@pytest.mark.parametrize(
    "method",
    [
        "Quarter the cucumbers. Toss in plenty of salt and leave for 20 minutes. Rinse off the salt.",
        "Slice the cucumbers. Mix with lots of salt and let stand 20 minutes. Wash the salt off.",
        "Crush the cucumbers. Scoop out the seeds. Rub with excess salt and leave 20 minutes. Rinse well.",
        "Cut the cucumbers in batons. Toss them with salt, let sit for 20 minutes and rinse.",
    ],
)
def test_salt_goes_on_vegetables_spoken_of_before(method: str) -> None:
    found = reading(["500 g cucumbers", "2 tbsp soy sauce"], method, "Dress with the soy sauce.")
    assert steps_of(found)[0] == ("dry_cure", pytest.approx(1 / 3, abs=0.01))
    assert kinds(found)[1] == "rinse"


@pytest.mark.parametrize(
    "method",
    [
        "Slice the courgettes. Toss with salt and oil and leave 5 minutes. Roast for 20 minutes at 200 C.",
        "Grate the courgettes. Mix with the yoghurt and salt. Leave for an hour, then eat.",
        "Shake the courgettes in a sieve to get rid of excess salt. Fry in the oil.",
    ],
)
def test_salt_that_stays_is_no_cure(method: str) -> None:
    assert "dry_cure" not in kinds(reading(["4 courgettes", "200 g yoghurt", "2 tbsp oil"], method))


@pytest.mark.parametrize(
    "method",
    [
        "Mix the tomatoes with the mozzarella in a dish. Top with the crumbs for an even coat. Bake.",
        "Lay the mozzarella on the tomatoes. Scatter over the crumbs to coat the dish. Bake 20 minutes.",
        "Put tomatoes and mozzarella in a dish, finish with the crumbs as a coat. Bake 20 minutes.",
    ],
)
def test_crumbs_on_top_are_eaten(method: str) -> None:
    assert "dredge" not in kinds(reading(["450 g tomatoes", "250 g mozzarella", "40 g bread crumbs"], method))


@pytest.mark.parametrize(
    ("line", "rinsed"),
    [
        ("Butter beans (tinned), 2 tins: Rinsed, drained.", True),
        ("Kidney beans, 1 tin; rinsed.", True),
        ("1 tin black beans: Drained", False),
        ("1 tin black beans. Drain.", False),
    ],
)
def test_what_a_line_bids_stands_between_any_signs(line: str, rinsed: bool) -> None:
    found = reading([line, "1 onion"], "Fry the onion, add the rest and warm through.")
    assert step(found, "drain").get("rinsed", False) is rinsed


def test_a_stone_is_no_food_and_a_stoned_fruit_is() -> None:
    found = reading(["1 washed stone", "6 prunes without stone", "1 l water"], "Simmer all for an hour.")
    assert [line["component"] is None for line in found.lines] == [True, False, False]


@pytest.mark.parametrize(
    "method",
    [
        "Put the macaroni, the ham and the cheese in a casserole. Bake for 25 minutes.",
        "Add the ham and the macaroni into a casserole dish. Top with the cheese and bake.",
        "Put the ham in a Dutch oven, add the macaroni and the cheese. Bake for 25 minutes.",
    ],
)
def test_what_is_put_in_a_casserole_has_left_its_water(method: str) -> None:
    found = reading(["450 g macaroni", "300 g ham", "250 g cheddar"], "Cook the macaroni 7 minutes.", method)
    assert steps_of(found) == [("boil", pytest.approx(7 / 60, abs=0.01))]
    assert component(found, "300 g ham")[0] == component(found, "250 g cheddar")[0]


def test_what_goes_to_the_pot_stays_in_its_water() -> None:
    found = reading(
        ["400 g macaroni", "1 l stock", "400 g white beans"],
        "Bring the stock to a boil in a casserole. Add the macaroni to the pot and cook for 8 minutes.",
        "Add the beans to the pot and serve the soup.",
    )
    assert kinds(found) == []


@pytest.mark.parametrize(
    "method",
    [
        "Toss all the ingredients in a big bowl. Leave the sauce to marinate overnight.",
        "Mix everything in a bowl, cover and let it marinate overnight.",
        "Combine all ingredients. Let the tuna marinate overnight.",
    ],
)
def test_pasta_that_is_boiled_later_is_in_no_bowl_before(method: str) -> None:
    lines = ["400 g linguine", "2 cans tuna", "1 lemon", "5 tbsp olive oil"]
    found = reading(lines, method, "Boil the linguine, drain and mix with the sauce.")
    assert kinds(found)[-1] == "boil"
    assert fate_of(found, "1 lemon") in (None, 1.0)


@pytest.mark.parametrize(
    "method",
    [
        "Open the tuna and pour out all the oil.",
        "Open 2 cans of tuna and tip off the water.",
        "Open the tuna and discard the oil.",
    ],
)
def test_the_oil_that_fish_came_in_is_its_cans(method: str) -> None:
    found = reading(["2 cans tuna", "10 olives", "5 tbsp olive oil"], method, "Mix with the rest.")
    assert kinds(found) == ["drain"]
    assert component(found, "5 tbsp olive oil")[0] == component(found, "10 olives")[0]


@pytest.mark.parametrize("other", ["Wash and chop the dill.", "Rinse the tomatoes.", "Wash the dill well."])
def test_what_is_washed_beside_a_bath_is_not_what_lies_in_it(other: str) -> None:
    lines = ["2 cucumbers", "1 bunch dill", "4 tomatoes", "1 tsp salt"]
    salted = "Slice the cucumbers, sprinkle with the salt and leave for 30 minutes."
    assert "rinse" not in kinds(reading(lines, salted, other, "Squeeze the cucumbers and mix."))
    assert "rinse" in kinds(reading(lines, salted, "Rinse the cucumbers.", "Mix."))


def test_capers_are_not_rinsed_with_the_parsley() -> None:
    found = reading(["1 jar capers", "1 bunch parsley"], "Drain the capers.", "Wash the parsley.", "Mix.")
    assert "rinsed" not in step(found, "drain")


@pytest.mark.parametrize(
    "method",
    [
        "Cook the pasta. / Boil water. / Put the pasta into the water. / Wait 9 minutes. / Get it out.",
        "Boil the pasta. / Bring salted water to the boil. / Drop in the pasta. / Drain after 9 minutes.",
        "Meanwhile, cook the pasta. / Boil plenty of water. / Pasta in, 9 minutes. / Drain.",
    ],
)
def test_a_paragraph_that_only_announces_a_pot_is_none_of_its_own(method: str) -> None:
    found = reading(["200 g pasta", "2 onions", "400 g tomato sauce"], *method.split(" / "))
    (boil,) = (each for each in found.recipe["steps"] if each["kind"] == "boil")
    assert boil["duration_h"] == pytest.approx(0.15)


@pytest.mark.parametrize(
    "method",
    [
        "Boil water. / Put the pasta into the water. / Wait 9 minutes. / Drain.",
        "Bring water to a boil. Put the pasta in the water. Leave it for 9 minutes. Drain.",
        "Heat water in a pot until it boils. Drop the pasta into the water, 9 minutes. Drain.",
    ],
)
def test_what_is_put_into_the_water_that_boils_is_boiled(method: str) -> None:
    found = reading(["200 g pasta", "2 onions"], *method.split(" / "))
    assert steps_of(found) == [("boil", 0.15)]


def test_what_is_put_into_cold_water_while_a_pot_heats_is_soaked() -> None:
    method = "Boil water for the pasta. Put the potatoes into cold water for 30 minutes. Drain them."
    found = reading(["200 g pasta", "500 g potatoes"], method)
    assert not any(
        each["kind"] == "boil" and each["food"] == "potatoes" for each in found.recipe.get("steps", ())
    )


@pytest.mark.parametrize(
    "method",
    [
        "Boil the potatoes. / Fry the leeks. / Boil the potatoes again in fresh water. / Drain.",
        "Boil the potatoes, 10 minutes. / Drain. / Boil water. / Put the potatoes in for 5 minutes. / Drain.",
    ],
)
def test_a_second_pot_is_one_of_its_own(method: str) -> None:
    found = reading(["500 g potatoes", "2 leeks", "salt"], *method.split(" / "))
    assert [each["kind"] for each in found.recipe["steps"]] == ["boil", "boil"]


@pytest.mark.parametrize(
    "last",
    [
        "Freezes well for up to 3 months.",
        "Otherwise freeze in portions for 3 months.",
        "Will be fine in the freezer for two months.",
        "Store in the fridge for up to 4 days.",
    ],
)
def test_how_long_a_dish_is_stored_cures_nothing_in_it(last: str) -> None:
    lines = ["500 g chicken thighs", "2 onions", "800 g tinned tomatoes", "salt"]
    first = "Fry the onions. Add the chicken and a pinch of salt. Stir."
    found = reading(lines, first, "Add the tomatoes and simmer for 2 hours.", last)
    assert not {"dry_cure", "brine", "marinate"} & set(kinds(found))


def test_meat_that_is_rubbed_with_salt_and_chilled_is_cured() -> None:
    found = reading(
        ["500 g beef", "10 g salt"], "Rub the beef with the salt. Chill for 24 hours. Slice it raw."
    )
    assert kinds(found) == ["dry_cure"]
