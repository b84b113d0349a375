"""What a calculation ends with."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager
from weakref import ref

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from saltledger.foods.nutrients import INDEX

from . import dishes
from .dishes import brined, cooked, item, part, recipe, sodium_mg
from .kitchens import recipes


def plain(*ingredients, **more):
    return cooked({"servings": 2, "ingredients": list(ingredients), **more})


def test_as_listed_is_the_plain_sum():
    assert plain(item(dishes.SALT, 5), item(dishes.CARROTS, 200)).sodium_as_listed_mg == pytest.approx(
        sodium_mg(dishes.SALT, 5) + sodium_mg(dishes.CARROTS, 200)
    )


def test_a_serving_weighs_its_part():
    assert plain(item(dishes.CARROTS, 300)).serving_weight_g == pytest.approx(150)


def test_coverage_is_by_listed_weight():
    own = {"code": "own", "name": "Own", "per_100g": {"NA": 1}}
    outcome = plain(item("own", 100), item(dishes.CARROTS, 300), custom_foods=[own])
    assert outcome.coverage()[INDEX["NA"]] == 1
    assert outcome.coverage()[INDEX["K"]] == pytest.approx(0.75)


def test_coverage_of_nothing_is_nothing():
    assert plain(item(dishes.CARROTS, 0)).coverage().max() == 0


def test_per_100g_of_nothing_is_nothing():
    outcome = cooked(recipe([part("a", item(dishes.SALT, 5), eaten_fraction=0)], []))
    assert outcome.per_100g.max() == 0
    assert outcome.serving_weight_g == 0


def test_discarded_is_all_that_is_not_eaten():
    outcome = cooked(brined())
    assert outcome.sodium_discarded_mg() + outcome.sodium_per_serving_mg == pytest.approx(
        outcome.sodium_as_listed_mg
    )


@pytest.mark.parametrize(
    ("asked", "name"),
    [
        (item(dishes.SALT, 5), "Salt, table"),
        (item(dishes.SALT, 5, line="a pinch"), "a pinch"),
        ("xyzzyqwv", "xyzzyqwv"),
    ],
)
def test_an_ingredient_is_named_by_its_line_else_its_food(asked, name):
    assert plain(asked).listed[0].name == name


def test_sodium_of_an_unknown_line_is_not_known():
    (listed,) = plain("xyzzyqwv").listed
    assert listed.sodium_mg is None
    assert listed.grams == 0


@contextmanager
def no_collector() -> Iterator[None]:
    gc.disable()
    try:
        yield
    finally:
        gc.enable()


@settings(max_examples=60, deadline=None, derandomize=True, suppress_health_check=[HealthCheck.too_slow])
@given(recipes(), st.booleans())
def test_arrays_go_with_the_outcome_and_wait_for_no_collector(document, asks_for_all):
    with no_collector():
        outcome = cooked(document)
        pools, state = ref(outcome.state.pools), outcome.state
        if asks_for_all:
            assert outcome.eaten.size
            list(state.log)
        places = [ref(held) for held in state.pools.leading.values()]
        del outcome, state
        assert pools() is None
        assert not any(place() is not None for place in places)
