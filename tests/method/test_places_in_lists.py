"""Lines that a method means by their place, their part or by what a paragraph makes."""

import pytest
from saltledger.method.headings import is_heading

from .test_method_reading import reading

TURKEY = ["2 litres apple juice", "120 g salt", "80 g sugar", "6 cloves", "1 turkey, 5 kg", "6 cups ice"]
LAID = ["Lay the turkey in it for 14 hours.", "Take out, throw the brine away, rinse and roast for 3 hours."]


def bath_of(told, kind):
    step = next(each for each in told.recipe["steps"] if each["kind"] == kind)
    bath = next(each for each in told.recipe["components"] if each["id"] == step["bath"])
    return step, [each if isinstance(each, str) else each["line"] for each in bath["ingredients"]]


@pytest.mark.parametrize(
    "made",
    [
        "To make the brine, combine the first 4 ingredients in a large pan and bring to the boil; cool.",
        "Make the brine. Heat the juice through the cloves in a pan until the salt is gone. Cool.",
        "Start with the brine. In a big pot boil the first four ingredients together, then let it cool.",
    ],
)
def test_first_ingredients_make_the_brine(made):
    step, bath = bath_of(reading(TURKEY, made, *LAID), "brine")
    assert bath[:4] == TURKEY[:4]
    assert step["duration_h"] == 14


def test_ice_round_a_brine_is_no_soak():
    told = reading(
        TURKEY,
        "Combine the first four ingredients in a pot for the brine and boil; cool.",
        "Lay the turkey in the brine and fill up with the ice. Leave it in the brine for 14 hours.",
        LAID[1],
    )
    step, bath = bath_of(told, "brine")
    assert step["duration_h"] == 14
    assert "6 cups ice" in bath
    assert "soak" not in {each["kind"] for each in told.recipe["steps"]}


def test_all_ingredients_are_those_of_what_the_paragraph_makes():
    lines = ["For the brine:", "100 g salt", "2 bay leaves", "3 lemons", "For the chicken:", "8 chicken legs"]
    lines += ["300 g plain flour", "1 tbsp salt", "1 tbsp paprika", "oil for deep frying"]
    told = reading(
        lines,
        "Start by preparing the brine. Boil all of the ingredients in a pot with 3 litres of water.",
        "Once cold, put the chicken in for 12 hours. Rinse and pat dry.",
        "For the coating combine all the dry ingredients. Dredge the chicken in it and deep-fry it.",
    )
    _, brine = bath_of(told, "brine")
    _, coating = bath_of(told, "dredge")
    assert {"100 g salt", "2 bay leaves", "3 lemons"} <= set(brine)
    assert set(coating) == {"300 g plain flour", "1 tbsp salt", "1 tbsp paprika"}


@pytest.mark.parametrize(
    ("text", "heading"),
    [
        ("-- slaw --", "slaw"),
        ("[For the sauce]", "For the sauce"),
        ("== Filling ==", "Filling"),
        ("**Dressing**", "Dressing"),
        ("To prepare brine", "To prepare brine"),
        ("Cooking the goose", "Cooking the goose"),
        ("**salt**", None),
        ("- 2 eggs", None),
        ("cooking oil", None),
    ],
)
def test_headings_stand_between_signs_or_tell_what_is_done(text, heading):
    assert is_heading(text) == heading


@pytest.mark.parametrize("said", ["The butter is salt enough.", "The ham is far too salt as it is."])
def test_salt_may_tell_what_food_is_like(said):
    lines = ["500 g asparagus", "1 tbsp salt", "80 g salted butter", "1 slice ham"]
    told = reading(lines, "Boil 2 litres of water with the salt. Boil the asparagus for 12 minutes. " + said)
    _, bath = bath_of(told, "boil")
    assert "1 tbsp salt" in bath


def test_no_salt_needed_is_no_denial_of_the_boiling():
    told = reading(["4 potatoes"], "Boil the potatoes in their skins, about 20 minutes, no salt needed.")
    assert [each["kind"] for each in told.recipe["steps"]] == ["boil"]


@pytest.mark.parametrize(
    "said",
    [
        "Brown the mince. Flour into the fat, stir, and add the stock slowly.",
        "Brown the mince. Shake in the flour, stir until it colours and pour in the stock.",
        "Toss the mince in the flour, brown it and add the stock.",
    ],
)
def test_so_little_flour_sticks_whole(said):
    lines = ["500 g beef mince", "40 g butter", "2 tbsp flour", "400 ml stock"]
    assert "steps" not in reading(lines, said).recipe


def test_food_of_the_paragraph_goes_before_the_meat_of_the_list():
    lines = ["3 aubergines", "2 tbsp salt", "600 g minced lamb"]
    told = reading(
        lines,
        "Slice the aubergines. Layer in a colander with 1 1/2 tbsp of the salt and leave for an hour. Rinse.",
        "Brown the lamb.",
    )
    step = told.recipe["steps"][0]
    assert (step["kind"], step["food"]) == ("dry_cure", "aubergines")


@pytest.mark.parametrize("other", ["(Or use 20 g curing salt and 170 g salt)", "or 8 tbsp coarse salt"])
def test_another_way_to_do_the_line_above_is_not_counted(other):
    told = reading(
        ["1 kg beef brisket", "190 g salt", other, "2 litres water"],
        "Dissolve the salt in the water. Immerse the beef for 7 days. Throw the brine away.",
    )
    _, bath = bath_of(told, "brine")
    assert bath == ["190 g salt", "2 litres water"]
    assert [each["index"] for each in told.lines if each["component"] is None] == [2]


@pytest.mark.parametrize("away", ["Discard the water.", "Tip the water away.", "Drain."])
def test_water_of_the_list_boils_what_it_is_thrown_away_from(away):
    told = reading(
        ["400 g potatoes", "800 ml water", "2 tsp salt", "30 g butter"],
        f"Place the potatoes in a pot, add water and cook for 15 minutes. {away} Mash with the butter.",
    )
    step, bath = bath_of(told, "boil")
    assert bath == ["800 ml water", "2 tsp salt"]
    assert step["duration_h"] == 0.25


@pytest.mark.parametrize(
    "said",
    ["Slide the trout into the hot water for 5 minutes.", "Lower the trout into the same pot, cook 5 min."],
)
def test_next_food_boils_in_what_the_first_was_lifted_out_of(said):
    lines = ["500 g asparagus", "2 trout fillets", "1 tbsp salt"]
    told = reading(
        lines, "Boil 2 litres of water with the salt. Simmer the asparagus 12 minutes. Lift it out. " + said
    )
    assert [each["bath"] for each in told.recipe["steps"]] == ["water", "water"]
    assert told.recipe["steps"][1]["food"] == "trout"


def test_cans_that_the_list_drains_are_drained_in_one_step():
    lines = ["1 can kidney beans, drained", "1 can butter beans, drained", "500 g tomatoes"]
    told = reading(lines, "Mix everything and bake for an hour.")
    assert [each["kind"] for each in told.recipe["steps"]] == ["drain"]


@pytest.mark.parametrize(
    "method",
    [
        "Pass the liver through the flour. Fry two minutes a side.",
        "Draw the liver through the flour and fry it.",
        "Drag the slices of liver through the flour, shake, then fry.",
    ],
)
def test_food_that_goes_through_flour_is_no_run_of_lines(method):
    found = reading(["400 g lamb's liver", "150 g flour", "2 onions", "dripping"], method)
    step, coating = bath_of(found, "dredge")
    assert step["food"] == "lambs-liver"
    assert coating == ["150 g flour"]


def test_flour_through_salt_is_a_run_of_lines():
    lines = ["300 g flour", "2 tsp baking powder", "1 tsp salt", "600 g fish", "oil for deep-frying"]
    found = reading(lines, "Whisk the flour through the salt. Roll the fish in it and fry in the oil.")
    _, coating = bath_of(found, "dredge")
    assert set(coating) >= {"300 g flour", "1 tsp salt"}
