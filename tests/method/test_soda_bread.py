"""Soda bread in a list is bread; the soda that is called after it is soda."""

from __future__ import annotations

import pytest
from saltledger.foods.dataset import bundled
from saltledger.method.forms import written_of
from saltledger.method.method_reading import read
from saltledger.recipe.calculation import cook
from saltledger.recipe.request import RecipeRequest


def sodium_mg(line):
    recipe = read(
        written_of({"title": "Tern Quay", "servings": 4, "ingredients": [line], "method": ["Serve."]})
    ).recipe
    return float(cook(RecipeRequest.from_document(recipe), bundled()).sodium_per_serving_mg[0])


@pytest.mark.parametrize(
    ("line", "least", "most"),
    [
        ("1 loaf soda bread", 350, 800),
        ("1 loaf soda bread:", 350, 800),
        ("1 loaf of brown soda bread", 350, 800),
        ("2 slices soda bread", 40, 140),
        ("2 slices Irish soda bread", 40, 140),
        ("1 tsp bread soda", 280, 360),
        ("1 tsp baking soda", 280, 360),
    ],
)
def test_soda_bread_is_bread(line, least, most):
    assert least <= sodium_mg(line) <= most
