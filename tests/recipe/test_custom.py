"""The caller's own foods."""

from __future__ import annotations

import pytest
from saltledger.core.errors import InvalidRequest
from saltledger.foods.dataset import bundled
from saltledger.recipe.packets import custom_foods

from .dishes import answered, item

STOCK = {"code": "stock", "name": "House stock", "per_100g": {"NA": 310, "WATER": 95}}


def test_a_food_of_the_callers_own_is_used():
    answer = answered({"servings": 2, "ingredients": [item("stock", 500)], "custom_foods": [STOCK]})
    assert answer["sodium"]["per_serving_mg"]["likely"] == pytest.approx(775)
    assert answer["ingredients"][0]["food"] == {"code": "stock", "name": "House stock"}


def test_it_is_of_one_request_alone():
    custom_foods([STOCK])
    assert "stock" not in bundled()


def test_faults_are_told_together_each_at_its_place():
    bad = {"code": "bad", "name": "Bad", "per_100g": {"UNOBTAINIUM": 1}}
    with pytest.raises(InvalidRequest) as refused:
        custom_foods([STOCK, bad, STOCK])
    pointers = [fault.pointer for fault in refused.value.faults]
    assert pointers[0].startswith("/custom_foods/1/per_100g")
    assert pointers[1] == "/custom_foods/2/code"
