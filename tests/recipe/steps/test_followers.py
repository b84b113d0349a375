"""What rides along goes the same way, moved by patterns or row by row."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from saltledger.foods.dataset import bundled
from saltledger.recipe.calculation import cook
from saltledger.recipe.request import RecipeRequest
from saltledger.recipe.steps import followers

from ..kitchens import recipes


@settings(max_examples=25, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(recipes())
def test_patterns_give_what_rows_give(monkeypatch: pytest.MonkeyPatch, document: dict[str, Any]) -> None:
    def amounts(most: int) -> dict[str, np.ndarray]:
        monkeypatch.setattr(followers, "MOST_PATTERNS", most)
        pools = cook(RecipeRequest.from_document(document), bundled()).state.pools
        return {place: held.copy() for place, held in pools.amounts.items()}

    by_rows, by_patterns = amounts(0), amounts(12)
    whole = 1e-9 + np.sum(list(by_rows.values()), axis=0)
    for place, held in by_patterns.items():
        assert np.max(np.abs(held - by_rows[place]) / whole) < 1e-8, place
