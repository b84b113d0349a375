"""What is asked of a dish that is heated or fermented: by the food, the form, and what is not known."""

import pytest
from saltledger.safety.dish import DishPart, Item
from saltledger.safety.hazards import ferment_notices
from saltledger.safety.heat import flesh_of
from saltledger.safety.safety_limits import hold

from ..recipe.dishes import answered, item, part, recipe, step

BEEF, GROUND_BEEF = "13023", "23567"


@pytest.mark.parametrize(
    ("salt_percent", "temperature_c", "told"),
    [
        (2.25, 20.0, {}),
        (2.25, None, {}),
        (1.5, 20.0, {}),
        (1.49, 20.0, {"ferment-weak-salt": "stop"}),
        (1.49, None, {"ferment-weak-salt": "stop"}),
        (2.25, 26.6, {}),
        (2.25, 27.0, {"ferment-too-warm": "check"}),
        (2.25, 15.6, {}),
        (2.25, 15.0, {"ferment-slow": "info"}),
    ],
)
def test_a_ferment_by_its_salt_and_its_warmth(salt_percent, temperature_c, told):
    """National Center for Home Food Preservation, extension services: 60 to 80 F. 1.5 %: our judgement."""
    found = list(ferment_notices(salt_percent, temperature_c, "/steps/0", is_flesh=False))
    assert {notice.code: notice.severity for notice in found} == told


def heated(food, **measures):
    document = recipe([part("main", item(food, 1000))], [step("roast", "main", **measures)])
    return answered(document)


def said(answer, code):
    return next(notice["message"] for notice in answer["notices"] if notice["code"] == code)


def test_whole_cuts_are_told_of_ground_ones_and_ground_ones_are_not():
    whole, ground = (said(heated(food, duration_h=1), "cook-through") for food in (BEEF, GROUND_BEEF))
    assert "ground, injected or tenderised" in whole
    assert "ground, injected or tenderised" not in ground
    assert "63 °C" in whole or "145" in whole
    assert "71 °C" in ground or "160" in ground


@pytest.mark.parametrize(
    ("words", "fat_percent", "table"),
    [
        ("Chicken, breast", 0.9, "chicken_lean"),
        ("Chicken, breast", 1.0, "chicken_lean"),
        ("Chicken, breast", 1.1, "poultry"),
        ("Chicken, breast", None, "poultry"),
        ("Turkey, breast", 0.9, "turkey_lean"),
        ("Chicken, ground", 0.9, "poultry"),
        ("Duck, breast", 0.9, "poultry"),
    ],
)
def test_poultry_is_held_by_the_lean_table_only_where_it_is_known_to_be_lean(words, fat_percent, table):
    """FSIS, tables of 1 and of 12 % of fat: the longer time where fat or bird are not known."""
    bird = Item(words, words, "0500", 1000, "/x", food_class="poultry", fat_percent=fat_percent)
    assert flesh_of(bird, DishPart("main", "/components/0", (bird,), (), 1.0)).table == table


@pytest.mark.parametrize(("celsius", "is_held"), [(54.4, True), (54.39, False), (54.0, False)])
def test_a_tenth_of_a_degree_below_a_whole_fahrenheit_counts_and_no_more(celsius, is_held):
    """130 F is 54.44 C, which a caller writes as 54.4."""
    assert (hold("whole", celsius) is not None) is is_held
