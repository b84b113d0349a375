"""Steps with heat: pots, steam, ovens and frying. Juice runs out, water goes in, solutes pass, heat destroys.

Sodium, nitrite, sugar and water are moved by the juice and by exchange; every other nutrient loses what the
retention factors of its food and treatment say.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from ..foods.nutrients import NUTRIENTS
from ..nutrition.retention import retention
from ..salt.pots import cooking_yield, drip_share, fat_uptake, partition, pot_kind_of, pot_reached
from ..units.spread import Draws
from .bench import Bench
from .exchange import SOLUTES, Gain, Piece, exchange, solution
from .kitchen import SODIUM, WATER, WEIGHT, nothing, ratio, water
from .measured import STATED, enter, named, settle_sodium, sodium_after, weight_ratio
from .nature import open_share
from .request import StepRequest


def poach(step: StepRequest, bench: Bench) -> None:
    """Simmer or boil in a pot; without one, in the food's own juice."""
    if step.bath is None:
        heat(step, bench)
        return
    for name in step.food:
        _change_weight(step, bench, name, step.bath)
    pieces = [
        Piece(name, open_share(step), _partition(step, bench, name)) for name in step.food
    ]
    exchange(bench.kitchen, pieces, step.bath, _gain(step, bench, pieces), step.index)
    treatment = "boil_with_liquid" if step.bath in bench.served else "boil_drained"
    for name in step.food:
        _lose_to_heat(step, bench, name, treatment)


def heat(step: StepRequest, bench: Bench) -> None:
    """Steam, roast, or cook without liquid: water goes into the air, and part of the juice onto the tray."""
    for name in step.food:
        _change_weight(step, bench, name, None)
        settle_sodium(step, bench, name, "left_on_tray")
        _lose_to_heat(step, bench, name, step.kind)


def fry(step: StepRequest, bench: Bench) -> None:
    """Fry: water goes into the air, and where a pot of fat is named some of the fat goes into the food."""
    for name in step.food:
        _change_weight(step, bench, name, None)
        if step.bath is not None:
            _take_up_fat(step, bench, name)
        settle_sodium(step, bench, name, step.bath or "left_on_tray")
        _lose_to_heat(step, bench, name, "fry")
