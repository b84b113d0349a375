"""What is asked of a dish that is heated or fermented: by the food, the form, and what is not known."""

import pytest
from saltledger.safety.dish import DishPart, Item, Treatment
from saltledger.safety.hazards import ferment_notices
from saltledger.safety.heat import flesh_of, heat_notices
from saltledger.safety.safety_limits import Hold, hold

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


def cooked_by(*heats, words="Beef, roast", family="beef"):
    """What is said of a piece that steps heat: of each (temperature, hours)."""
    piece = Item(words, words, "1300", 1000, "/x", food_class=family)
    steps = tuple(
        Treatment(index, kind, f"/steps/{index}", temperature_c=celsius, duration_h=hours)
        for index, (kind, celsius, hours) in enumerate(heats)
    )
    return list(heat_notices(DishPart("main", "/components/0", (piece,), steps, 1.0)))


def told_by(*heats, **piece):
    told = {notice.code: notice.severity for notice in cooked_by(*heats, **piece)}
    return {code: severity for code, severity in told.items() if code != "cook-through"}


def test_a_step_that_lasts_as_long_as_is_asked_is_long_enough_and_a_second_less_is_not():
    asked = hold("whole", 55.0)
    hours = asked.minutes / 60
    assert told_by(("simmer", 55.0, hours)) == {"cooked-by-time": "check"}
    assert told_by(("simmer", 55.0, hours * 0.999)) == {"cooked-too-short": "stop"}


def test_of_several_cool_steps_the_one_nearest_to_its_time_is_judged():
    """The longer at a lower warmth may have less of the time that it needs than the shorter one."""
    long_cool, short_warm = ("simmer", 55.0, 1.0), ("roast", 62.0, 0.5)
    assert hold("whole", 55.0).minutes > 60
    assert hold("whole", 62.0).minutes < 30
    for heats in ((long_cool, short_warm), (short_warm, long_cool)):
        (told,) = [each for each in cooked_by(*heats) if each.code.startswith("cooked")]
        assert told.code == "cooked-by-time"
        assert "At 62 °C" in told.message


def test_a_step_without_its_time_is_asked_for_it():
    assert told_by(("simmer", 60.0, None)) == {"cooking-time-not-stated": "check"}


@pytest.mark.parametrize(
    ("heats", "is_too_long"),
    [
        ([("roast", 40.0, 6.0), ("roast", 80.0, 3.0)], False),
        ([("roast", 40.0, 6.1), ("roast", 80.0, 3.0)], True),
        ([("roast", 40.0, 3.0), ("roast", 45.0, 3.2), ("roast", 80.0, 3.0)], True),
        ([("roast", 40.0, None), ("roast", 40.0, 5.9), ("roast", 80.0, 3.0)], False),
        ([("roast", 54.4, 9.0)], False),
        ([("roast", 10.0, 9.0), ("roast", 80.0, 3.0)], False),
    ],
)
def test_six_hours_lukewarm_are_the_most_in_all_steps_together(heats, is_too_long):
    """FSIS Cooking Guideline for Meat and Poultry Products (2021): 50 to 130 F within 6 hours."""
    assert ("lukewarm-too-long" in told_by(*heats)) is is_too_long


@pytest.mark.parametrize(
    ("minutes", "words"),
    [(112.0, "112 min"), (1.0, "1 min"), (0.95, "57 s"), (0.5, "30 s"), (0.0, "no time")],
)
def test_a_time_to_hold_is_said_in_minutes_from_one_on(minutes, words):
    assert Hold("whole", 60.0, minutes, "here").words == words


def test_a_sear_alone_leaves_whole_beef_rare_and_stops_anything_else():
    sear, cool = ("fry", 200.0, 0.05), ("roast", 50.0, 1.0)
    assert told_by(sear, cool) == {"cooked-rare": "check"}
    assert told_by(cool) == {"cooked-too-cool": "stop"}
    assert told_by(sear, cool, family="pork", words="Pork, loin") == {"cooked-too-cool": "stop"}
    assert told_by(sear, cool, words="Beef, ground") == {"cooked-too-cool": "stop"}
    assert told_by(sear, cool, family="fish", words="Cod") == {"fish-undercooked": "check"}
    assert told_by(("fry", 200.0, 0.5), cool) == {}
