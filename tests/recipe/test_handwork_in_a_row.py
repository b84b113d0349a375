"""Chains of handwork: nothing is nothing, halves are the whole, order and size change nothing, no jumps."""

from __future__ import annotations

import copy
from typing import Any

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from saltledger.recipe.pool_rows import SODIUM, WATER, WEIGHT

from .dishes import CARROTS, PORK, SALT, cooked, item, part, recipe, step
from .dishes import WATER as TAP

SETTINGS = settings(
    max_examples=20, deadline=None, derandomize=True, suppress_health_check=[HealthCheck.too_slow]
)

STEPS: dict[str, Any] = {
    "inject": lambda size: step("inject", "meat", "pickle", pump_percent=30 * size),
    "combine": lambda size: step("combine", "pickle", into="pot", share=size),
    "divide": lambda size: step("divide", "roots", into="pot", share=size),
    "press": lambda size: step("press", "roots", yield_fraction=1 - size / 2),
    "squeeze": lambda size: step("squeeze", "roots", yield_fraction=1 - size / 2, into="pot"),
    "skim": lambda size: step("skim", "meat", share=size),
    "dry": lambda size: step("dry", "meat", duration_h=300 * size, thickness_cm=3, temperature_c=14),
    "smoke": lambda size: step("smoke", "meat", duration_h=12 * size, temperature_c=25),
    "rinse": lambda size: step("rinse", "meat", duration_h=0.2 * size),
    "rest": lambda size: step("rest", "meat", duration_h=48 * size, temperature_c=4),
    "ferment": lambda size: step("ferment", "roots", "pickle", duration_h=200 * size, temperature_c=20),
    "sous_vide": lambda size: step("sous_vide", "meat", duration_h=4 * size, temperature_c=63, into="pot"),
    "roast": lambda size: step("roast", "meat", duration_h=1.2 * size, temperature_c=180, into="pot"),
}
"""A step of each kind, by how far it goes: 0 to 1."""

IN_TWO: dict[str, Any] = {
    "inject": lambda size: (size / 2, size / 2),
    "combine": lambda size: (size / 2, size / 2 / (1 - size / 2)),
    "divide": lambda size: (size / 2, size / 2 / (1 - size / 2)),
    "press": lambda size: (2 - 2 * np.sqrt(1 - size / 2),) * 2,
    "squeeze": lambda size: (2 - 2 * np.sqrt(1 - size / 2),) * 2,
    "skim": lambda size: (size / 2, size / 2 / (1 - size / 2)),
    "dry": lambda size: (size / 2, size / 2),
    "smoke": lambda size: (size / 2, size / 2),
    "rinse": lambda size: (size / 2, size / 2),
    "rest": lambda size: (size / 2, size / 2),
    "ferment": lambda size: (size / 2, size / 2),
    "sous_vide": lambda size: (size / 2, size / 2),
    "roast": lambda size: (size / 2, size / 2),
}
"""The sizes of two steps that together go as far as one."""


def dish(*steps: dict[str, Any], times: float = 1.0) -> dict[str, Any]:
    return recipe(
        [
            part("meat", item(PORK, 1000 * times), item(SALT, 12 * times)),
            part("pickle", item(TAP, 1500 * times), item(SALT, 120 * times), eaten_fraction=0.0),
            part("roots", item(CARROTS, 700 * times), item(SALT, 9 * times)),
            part("pot", item(TAP, 300 * times)),
        ],
        list(steps),
    )


def ended(document: dict[str, Any]) -> np.ndarray:
    """All that is eaten, in every draw."""
    return cooked(document).eaten


@pytest.mark.parametrize("kind", STEPS)
def test_a_step_that_goes_nowhere_moves_nothing(kind):
    np.testing.assert_allclose(ended(dish(STEPS[kind](0.0))), ended(dish()), rtol=1e-12, atol=1e-9)


@pytest.mark.parametrize("kind", IN_TWO)
@SETTINGS
@given(size=st.floats(0.01, 0.99))
def test_two_halves_are_the_whole(kind, size):
    once = ended(dish(STEPS[kind](size)))
    twice = ended(dish(*(STEPS[kind](half) for half in IN_TWO[kind](size))))
    # In the heat vitamins are destroyed and carried off by turns, a hair apart; salt and weight are exact.
    np.testing.assert_allclose(twice[[SODIUM, WEIGHT], 0], once[[SODIUM, WEIGHT], 0], rtol=1e-6)
    np.testing.assert_allclose(
        twice[:, 0], once[:, 0], rtol=5e-3 if kind in ("sous_vide", "roast") else 1e-6, atol=1e-6
    )


@pytest.mark.parametrize("kind", STEPS)
def test_ten_times_everything_gives_ten_times_everything(kind):
    np.testing.assert_allclose(
        ended(dish(STEPS[kind](0.4), times=10)), 10 * ended(dish(STEPS[kind](0.4))), rtol=1e-9, atol=1e-6
    )


@pytest.mark.parametrize("kind", STEPS)
def test_the_order_of_the_list_changes_nothing(kind):
    document = dish(STEPS[kind](0.4))
    turned = copy.deepcopy(document)
    turned["components"].reverse()
    for component in turned["components"]:
        component["ingredients"].reverse()
    for row in (SODIUM, WATER, WEIGHT):
        np.testing.assert_allclose(ended(turned)[row, 0], ended(document)[row, 0], rtol=1e-9)


@pytest.mark.parametrize("kind", STEPS)
@SETTINGS
@given(size=st.floats(0.01, 0.98))
def test_a_little_more_changes_a_little(kind, size):
    before, after = ended(dish(STEPS[kind](size))), ended(dish(STEPS[kind](size + 1e-4)))
    for row in (SODIUM, WATER, WEIGHT):
        np.testing.assert_allclose(after[row, 0], before[row, 0], rtol=2e-3)


@pytest.mark.parametrize("kind", STEPS)
def test_nothing_is_made_or_lost(kind):
    pools = cooked(dish(STEPS[kind](0.7))).state.pools
    np.testing.assert_allclose(sum(pools.amounts.values()), pools.brought, rtol=1e-9, atol=1e-9)
