"""Hand-kept foods and a caller's own."""

import pytest
from saltledger.core.errors import InvalidRequest
from saltledger.core.tables import rows
from saltledger.foods.hand_kept import cure_values, custom_food, extra_foods
from saltledger.foods.nutrients import INDEX


def test_hand_kept_foods_have_codes_of_their_own_and_a_source():
    foods = extra_foods()
    assert len({food.code for food in foods}) == len(foods)
    assert all(food.code.startswith("SL") and food.source for food in foods)


@pytest.mark.parametrize("kind", [row["kind"] for row in rows("curing_salts")])
def test_the_sodium_of_a_cure_is_that_of_its_salts(kind):
    values = cure_values(kind)
    pure_mg = {"NaCl": 39_337, "NaNO2": 33_321, "NaNO3": 27_049}
    nitrite, nitrate = values["NITRI"] / 100_000, values["NITRA"] / 100_000
    expected = (
        (1 - nitrite - nitrate) * pure_mg["NaCl"] + nitrite * pure_mg["NaNO2"] + nitrate * pure_mg["NaNO3"]
    )
    assert values["NA"] == pytest.approx(expected, abs=2)


def test_an_unknown_cure_is_a_key_error():
    with pytest.raises(KeyError):
        cure_values("type_9")


def test_a_custom_food_knows_what_it_was_told_and_no_more():
    food = custom_food("x", "House stock", {"NA": 210.0}, [{"label": "1 cup", "grams": 240}])
    assert food.per_100g("NA") == 210.0
    assert food.per_100g("K") is None
    assert food.per_100g("NITRI") == 0.0
    assert [(measure.label, measure.grams) for measure in food.household] == [("1 cup", 240.0)]


def test_every_unknown_tag_is_named_with_its_place():
    with pytest.raises(InvalidRequest) as refused:
        custom_food("x", "X", {"NA": 1.0, "SALT": 2.0, "Na": 3.0}, pointer="/custom_foods/0")
    pointers = [fault.pointer for fault in refused.value.faults]
    assert pointers == ["/custom_foods/0/per_100g/SALT", "/custom_foods/0/per_100g/Na"]
    assert all(tag in refused.value.faults[0].message for tag in list(INDEX)[:3])
