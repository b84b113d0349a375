"""Recipes of a brine or marinade alone: what lies in it stands in no line, but in the title or the method."""

from __future__ import annotations

import pytest
from saltledger.calculator import answer_recipe
from saltledger.method.forms import written_of
from saltledger.method.method_reading import Reading, read

BRINE = {
    "title": "Turkey brine with cider, Tern Quay",
    "servings": 10,
    "ingredients": ["2 l water", "250 g salt", "1 l cider", "1 onion, sliced", "2 bay leaves"],
    "method": [
        "Bring the water and salt to the boil and let it cool. Add the cider, the onion and the bay leaves.",
        "Submerge the turkey and refrigerate it for 24 hours. Rinse it, pat it dry and roast it.",
    ],
}
MARINADE = {
    "title": "Marinade for pork chops",
    "servings": 4,
    "ingredients": ["60 ml oil", "45 ml soy sauce", "2 tbsp mustard"],
    "method": ["Shake everything in a bag. Put the chops in and marinate for 6 hours. Grill them."],
}


def reading(document: dict, **changed: object) -> Reading:
    return read(written_of({**document, **changed}))


def components(found: Reading) -> dict[str, dict]:
    return {each["id"]: each for each in found.recipe["components"]}


def test_the_food_of_a_brine_gets_a_weight_by_the_servings_and_is_asked_about():
    found = reading(BRINE)
    assert components(found)["turkey"]["ingredients"] == [{"line": "3500 to 7000 g turkey"}]
    (asked,) = (each for each in found.questions if each.id.startswith("meant-food"))
    assert [each.choice for each in asked.choices] == ["little", "usual", "much"]
    answered = read(written_of({**BRINE, "answers": {asked.id: "little"}}))
    assert components(answered)["turkey"]["ingredients"] == [{"line": "3500 g turkey"}]
    assert [each.code for each in found.notices] == ["food-in-no-line"]


def test_all_of_the_list_is_its_brine_and_left_behind():
    found = reading(BRINE)
    assert components(found).keys() == {"turkey", "brine"}
    assert components(found)["brine"]["eaten_fraction"] == 0
    assert len(components(found)["brine"]["ingredients"]) == len(BRINE["ingredients"])
    first = found.recipe["steps"][0]
    assert (first["kind"], first["food"], first["duration_h"]) == ("brine", "turkey", 24)


def test_the_food_has_a_line_of_its_own_in_the_reading():
    (assumed,) = (each for each in reading(BRINE).lines if each["component"] == "turkey")
    assert assumed["index"] is None
    assert assumed["assumed"]


def test_a_marinade_is_left_behind_unless_somebody_says_otherwise():
    found = reading(MARINADE)
    assert found.recipe["steps"][0]["kind"] == "marinate"
    assert components(found)["marinade"]["eaten_fraction"] == 0


@pytest.mark.parametrize(
    ("said", "line"),
    [
        ("Lay a 3 lb pork shoulder in the brine overnight.", "3 lb pork shoulder"),
        ("Lay 1.5 kg chicken thighs in the brine overnight.", "1.5 kg chicken thighs"),
    ],
)
def test_an_amount_that_the_method_gives_is_taken(said, line):
    found = reading(BRINE, title="Cider brine", method=["Mix all of it to a brine.", said])
    assert line in [text for each in found.recipe["components"] for text in each["ingredients"]]
    assert not any(each.id.startswith("meant-food") for each in found.questions)


def test_without_servings_a_whole_one_is_meant():
    found = reading(BRINE, servings=None)
    assert components(found)["turkey"]["ingredients"] == [{"line": "4500 to 8000 g turkey"}]


@pytest.mark.parametrize(
    "document",
    [
        {  # a dressing that may also be a marinade
            "title": "Vinaigrette",
            "servings": 4,
            "ingredients": ["60 ml oil", "2 tbsp vinegar", "1 tsp salt"],
            "method": ["Shake in a jar. Serve over salad or with grilled chicken."],
        },
        {  # what lies in the brine is listed; the meat is what it is eaten with
            "title": "Quick pickles",
            "servings": 8,
            "ingredients": ["1 kg cucumbers", "1 l water", "50 g salt"],
            "method": ["Make a brine, pour it over the cucumbers and leave for a day. Good with cold beef."],
        },
        {**BRINE, "ingredients": [*BRINE["ingredients"], "5 kg turkey"]},
        {**MARINADE, "title": "Soy sauce with stock", "method": ["Stir into 1 l chicken stock and serve."]},
    ],
)
def test_no_food_is_made_up_elsewhere(document):
    found = reading(document)
    assert "food-in-no-line" not in [each.code for each in found.notices]
    assert not any(each.id.startswith("meant-food") for each in found.questions)


def test_a_serving_holds_what_the_turkey_took_up_and_no_more():
    answer = answer_recipe(reading(BRINE).recipe)["sodium"]
    assert answer["per_serving_mg"]["likely"] < 0.2 * answer["as_listed_per_serving_mg"]
