"""What food can be, and the finished food that is nearest."""

import pytest
from saltledger.core.tables import rows as kept
from saltledger.foods.dataset import bundled
from saltledger.foods.nutrients import INDEX
from saltledger.nutrition.food_limits import LEAST, MIRRORED, limit, nearest
from saltledger.seed_foods.derive_mirror import finished, rows

FOODS = ("10058", "05064", "11365", "18064", "01009", "15077", "22247")


def amounts(code):
    food = bundled().get(code)
    return {tag: food.per_100g(tag) or 0.0 for tag in INDEX}


@pytest.mark.parametrize("code", FOODS)
def test_a_finished_food_is_its_own_nearest(code):
    assert finished(bundled().get(code))
    found = nearest(amounts(code), bundled().get(code).group_code[:2])
    assert not found.far_off()
    assert all(ratio is None or 0.5 < ratio < 2 for ratio in found.ratio.values())
    assert set(found.ratio) == set(MIRRORED)


def test_ten_times_the_sodium_is_far_off():
    dish = amounts("11365")
    assert nearest(dish | {"NA": 4000.0}).far_off() == ("NA",)


def test_of_a_trace_a_ratio_says_nothing():
    dish = amounts("11365") | {"NA": LEAST["NA"] / 2}
    assert nearest(dish).ratio["NA"] is None


def test_a_class_of_food_has_limits_of_its_own():
    assert limit("component", "salt", "vegetable").verdict(17) == "stop"
    assert limit("component", "salt", "fish").verdict(17) is None
    assert limit("component", "salt", "no such class").verdict(17) is None
    assert limit("component", "energy").verdict(902) is None
    assert limit("component", "energy").verdict(950) == "stop"
    assert limit("step", "fry").verdict(2) == "check"
    assert limit("step", "no such step") is None


def test_no_food_of_the_dataset_is_impossible():
    for code in bundled().codes:
        food = bundled().get(code)
        for tag, key in (("WATER", "water"), ("PROCNT", "protein"), ("ENERC", "energy")):
            amount = food.per_100g(tag)
            assert amount is None or limit("component", key).verdict(amount) is None, food.name


def test_the_table_of_finished_foods_is_that_of_the_dataset():
    assert [tuple(row) for row in rows()] == [tuple(row.values()) for row in kept("data/finished_foods")]
