"""What tests of the engine's inside share: amounts by name, and a state with one piece in one pot."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
from saltledger.core.assumptions import AssumptionLog
from saltledger.recipe.pool_rows import ROW
from saltledger.recipe.pools import Pools, nothing
from saltledger.recipe.request import PLACES
from saltledger.recipe.state import CalculationState, Composition


@pytest.fixture
def amounts() -> Callable[..., np.ndarray]:
    """Amounts by tagname and WEIGHT, alike in every draw."""

    def made(**rows: float) -> np.ndarray:
        pool = nothing()
        for tag, value in rows.items():
            pool[ROW[tag]] = value
        return pool

    return made


@pytest.fixture
def state(amounts: Callable[..., np.ndarray]) -> CalculationState:
    """A state with a piece of meat (water 700 g, salt 1 g) and a pot of brine (water 2 kg, salt 50 g)."""
    pools = Pools(["meat", "pot", *PLACES])
    pools.bring("meat", amounts(WATER=700, PROCNT=220, NA=393.4, ASH=1, WEIGHT=1000))
    pools.bring("pot", amounts(WATER=2000, NA=19670, ASH=50, WEIGHT=2050))
    return CalculationState(pools, AssumptionLog(), {"meat": Composition(), "pot": Composition()})
