"""What an answer tells of where sodium came from and went, as pages and differences read it."""

from __future__ import annotations

import pytest
from saltledger.review.tracing import eaten_shares, lines

from .kitchens import answer, ingredient, loin, movement


def test_the_share_of_a_component_that_is_eaten() -> None:
    assert eaten_shares(loin()) == {
        "brine": pytest.approx(0.175),
        "loin": pytest.approx(2100 / 2400),
        "pot": 0,
    }


def test_each_line_has_its_part_of_a_serving() -> None:
    found = {line.line: line for line in lines(loin())}
    assert found["salt"].listed_mg == 2500
    assert found["salt"].eaten_mg == pytest.approx(437.5)
    assert sum(line.eaten_mg for line in found.values()) == pytest.approx(2100 / 4)


def test_a_line_of_which_a_part_is_not_eaten() -> None:
    ingredients = [
        ingredient("recipe", "salt for the rim", 1000, "02047", eaten_fraction=0.1),
        ingredient("recipe", "stock", 500, "06000"),
    ]
    ledger = [movement("recipe", "not_eaten", None, 900), movement("recipe", "eaten", None, 600)]
    first, second = lines(answer(ingredients, ledger, servings=1))
    assert (first.listed_mg, first.eaten_mg, second.eaten_mg) == pytest.approx((100, 100, 500))


def test_an_unmapped_line_brings_nothing() -> None:
    ingredients = [ingredient("recipe", "moonshade leaf", None), ingredient("recipe", "salt", 800, "02047")]
    found = lines(answer(ingredients, [movement("recipe", "eaten", None, 800)]))
    assert [(line.food_code, line.eaten_mg) for line in found] == [(None, 0), ("02047", 200)]
