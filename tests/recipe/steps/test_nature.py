"""What kind of food a component is, to the physics."""

from __future__ import annotations

from dataclasses import replace

import pytest
from saltledger.foods.dataset import bundled
from saltledger.recipe.request import StepRequest
from saltledger.recipe.state import Composition
from saltledger.recipe.steps.nature import (
    food_class,
    known_class,
    open_share,
    pot_kind,
    yield_kind,
)
from saltledger.recipe.steps.work import Work

from tests.recipe import dishes


@pytest.fixture
def work(state):
    def made(*foods, **measures):
        state.compositions["meat"] = Composition.of([(bundled().get(code), grams) for code, grams in foods])
        return Work(StepRequest(0, "brine", ("meat",), "pot", **measures), state, "meat")

    return made


@pytest.mark.parametrize(
    ("code", "cold", "hot"),
    [("13595", "beef", "meat"), (dishes.PORK, "pork", "meat"), (dishes.CHICKEN, "poultry", "poultry"),
     (dishes.SALT_COD, "fish_dried", "fish"), (dishes.CHEESE, "cheese", "cheese"),
     (dishes.CARROTS, "vegetable", "vegetable"), (dishes.SPINACH, "vegetable", "leaf"),
     (dishes.PASTA, None, "pasta"), (dishes.WATER, None, None), (dishes.OIL, None, None)],
)  # fmt: skip
def test_kinds_of_the_heaviest_food(work, code, cold, hot):
    made = work((code, 500), (dishes.SALT, 20))
    assert known_class(made) == cold
    assert pot_kind(made) == hot


def test_the_heaviest_food_decides(work):
    assert known_class(work((dishes.CARROTS, 100), (dishes.PORK, 900))) == "pork"


def test_a_stated_class_wins(work):
    made = work((dishes.CARROTS, 100), food_class="fish_fatty")
    assert known_class(made) == food_class(made) == "fish_fatty"
    assert pot_kind(made) == "fish"


@pytest.mark.parametrize(
    ("code", "hot"), [(dishes.SPINACH, "leaf"), ("11090", "florets"), (dishes.CARROTS, "vegetable")]
)
def test_a_stated_class_that_tells_less_than_the_name_changes_nothing_in_a_pot(work, code, hot):
    stated, plain = work((code, 100), food_class="vegetable"), work((code, 100))
    assert pot_kind(stated) == pot_kind(plain) == hot
    assert yield_kind(stated) == yield_kind(plain)


@pytest.mark.parametrize(
    ("name", "food_class", "hot"),
    [
        ("hand-made noodles", "dough", "noodles"),
        ("dough", "dough", "noodles"),
        ("mugwort leaves", "vegetable", "leaf"),
    ],
)
def test_a_kitchens_own_food_is_known_by_its_name_or_class(work, name, food_class, hot):
    made = work((dishes.SALT, 1), food_class=food_class)
    own = replace(bundled().get(dishes.CARROTS), code="own", name=name, group_code="")
    made.state.compositions["meat"] = Composition.of([(own, 100)])
    assert pot_kind(made) == hot


def test_an_unknown_class_has_a_stand_in_and_is_said(work):
    made = work()
    assert known_class(made) is None
    assert food_class(made) == "vegetable"
    assert [notice.code for notice in made.state.notices] == ["food-class-unknown"]


@pytest.mark.parametrize(("untaken", "share"), [(None, 1.0), (0.0, 1.0), (0.3, 0.7)])
def test_open_share(untaken, share):
    assert open_share(StepRequest(0, "brine", ("meat",), untaken_fraction=untaken)) == pytest.approx(share)


def test_the_heaviest_food_gives_a_component_its_nature():
    composition = Composition.of([(bundled().get(dishes.SALT), 10), (bundled().get(dishes.PORK), 1000)])
    assert composition.main.code == dishes.PORK
    assert Composition().main is None
