"""What rides along goes the same way, moved by patterns or row by row."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from saltledger.foods.dataset import bundled
from saltledger.recipe.calculation import cook, laid_out, read_all
from saltledger.recipe.request import RecipeRequest
from saltledger.recipe.steps import followers
from saltledger.recipe.steps.dispatch import do

from ..dishes import CARROTS, PORK, SALT, WATER, item, part, recipe, step
from ..kitchens import recipes


@settings(max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(recipes())
def test_patterns_give_what_rows_give(monkeypatch: pytest.MonkeyPatch, document: dict[str, Any]) -> None:
    def amounts(most: int) -> dict[str, np.ndarray]:
        monkeypatch.setattr(followers, "MOST_PATTERNS", most)
        pools = cook(RecipeRequest.from_document(document), bundled()).state.pools
        return {place: held.copy() for place, held in pools.amounts.items()}

    assert_alike(amounts(0), amounts(12))


RESTED = recipe(
    [
        part("meat", item(PORK, 1000)),
        part("brine", item(WATER, 2000), item(SALT, 120)),
        part("pot", item(WATER, 2500), item(CARROTS, 300)),
    ],
    [
        step("brine", "meat", "brine", duration_h=20, thickness_cm=5),
        step("rinse", "meat", duration_h=0.1, thickness_cm=5),
        step("rest", "meat", duration_h=10, thickness_cm=5),
        step("simmer", "meat", "pot", duration_h=1),
        step("rest", "meat", duration_h=0.5, thickness_cm=5),
        step("roast", "meat", duration_h=0.5),
    ],
)


def amounts_of(document: dict[str, Any], *, asked_early: bool) -> dict[str, np.ndarray]:
    """What is where when the steps are done; asked_early: what rides along follows after every step."""
    request = RecipeRequest.from_document(document)
    state = laid_out(request, read_all(request, bundled()))
    for each in request.steps:
        do(each, state)
        if asked_early:
            state.pools.catch_up()
    return {place: held.copy() for place, held in state.pools.amounts.items()}


def assert_alike(one: dict[str, np.ndarray], other: dict[str, np.ndarray]) -> None:
    whole = 1e-9 + np.sum(list(one.values()), axis=0)
    for place, held in other.items():
        assert np.max(np.abs(held - one[place]) / whole) < 1e-8, place


@settings(max_examples=25)
@given(recipes())
def test_it_makes_no_difference_when_others_are_asked_for(document: dict[str, Any]) -> None:
    assert_alike(amounts_of(document, asked_early=True), amounts_of(document, asked_early=False))


def test_nor_where_a_piece_rests_between_baths() -> None:
    assert_alike(amounts_of(RESTED, asked_early=True), amounts_of(RESTED, asked_early=False))


def test_rests_and_rinses_go_by_patterns_as_by_rows(monkeypatch: pytest.MonkeyPatch) -> None:
    by_patterns = amounts_of(RESTED, asked_early=True)
    monkeypatch.setattr(followers, "MOST_PATTERNS", 0)
    assert_alike(amounts_of(RESTED, asked_early=True), by_patterns)
