"""Fruit, eggs and nuts that were bought salted, and matjes, lie in water so that their salt goes."""

from __future__ import annotations

import pytest
from saltledger.foods.dataset import bundled
from saltledger.recipe.calculation import cook
from saltledger.recipe.request import RecipeRequest

from .test_method_reading import reading
from .test_plain_recipes import kinds, step


@pytest.mark.parametrize(
    ("line", "named"),
    [
        ("200 g salted plums", "plums"),
        ("4 salted duck eggs", "eggs"),
        ("200 g salted peanuts", "peanuts"),
        ("200 g salted jellyfish", "jellyfish"),
        ("8 matjes fillets", "matjes"),
    ],
)
@pytest.mark.parametrize(
    "said", ["Soak the {} in cold water for two hours.", "Soak the {} for 2 hours. Drain."]
)
def test_what_was_bought_salted_soaks(line: str, named: str, said: str) -> None:
    found = reading([line], said.format(named))
    assert kinds(found) == ["soak"]
    assert step(found, "soak")["duration_h"] == 2.0


@pytest.mark.parametrize(
    ("line", "named"), [("200 g plums", "plums"), ("4 duck eggs", "eggs"), ("200 g peanuts", "peanuts")]
)
def test_what_is_fresh_does_not(line: str, named: str) -> None:
    assert kinds(reading([line], f"Soak the {named} in cold water for an hour. Drain.")) == []


def test_corned_silverside_is_salt_beef() -> None:
    assert sodium_mg("1 corned silverside, 1.5 kg") > 500


def sodium_mg(text: str) -> float:
    found = reading([text], "Simmer the silverside in water for 3 hours. Drain.")
    return float(cook(RecipeRequest.from_document(found.recipe), bundled()).sodium_per_serving_mg[0])
