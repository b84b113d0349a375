"""The nutrients of an answer, of a serving and of 100 g: amounts, ranges, coverage, and what follows."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import numpy as np

from ..core.documents import figures
from ..core.numbers import whole_percent
from ..core.spread import ends
from ..foods.nutrients import INDEX, NUTRIENTS
from ..nutrition.dietary_references import daily_values
from .derived import derived_entries
from .outcome import Outcome
from .pool_rows import CARBOHYDRATE, NUTRIENT_ROWS, ROW
from .pools import TRACE
from .sodium_total import SodiumTotal

Entries = dict[str, dict[str, Any]]

FIBRE = ROW["FIBTG"]


def nutrient_entries(outcome: Outcome, added: float | None, total: SodiumTotal) -> tuple[Entries, Entries]:
    """Amounts by tagname in a serving, with per cents of daily values, and in 100 g. A nutrient that no
    ingredient tells is left out.

    added: of the sugars, the share (0 to 1) that was added, None where not known. total: the sodium of a
    serving, whose range and coverage stand for NA where it is incomplete.
    """
    weight_g = outcome.serving_weight_g
    eaten = outcome.spread_eaten
    rows = np.empty((len(NUTRIENTS) + 1, eaten.shape[1]))
    rows[:-1] = eaten[NUTRIENT_ROWS]
    rows[-1] = np.maximum(eaten[CARBOHYDRATE] - eaten[FIBRE], 0.0)
    spans = ends(np.stack((rows / outcome.servings, rows * outcome.hundredths)))
    known, sodium = outcome.coverage(), INDEX["NA"]
    if known[sodium] > 0 and not total.complete:
        known[sodium] = total.coverage
        per_100g = total.per_serving_mg.scaled(100 / weight_g if weight_g > TRACE else 0.0)
        spans[:, sodium] = [[each.low, each.likely, each.high] for each in (total.per_serving_mg, per_100g)]
    coverage = figures(known).tolist()
    serving, hundred_g = (_entries(span, coverage, added) for span in figures(spans).tolist())
    for tag, value in daily_values(outcome.request.audience).items():
        if (entry := serving.get(tag)) is not None:
            entry["daily_value_percent"] = whole_percent(entry["amount"], value)
    return serving, hundred_g


def _entries(spans: Sequence[Sequence[float]], coverage: Sequence[float], added: float | None) -> Entries:
    """spans: low, likely and high of every nutrient in the order of NUTRIENTS, then of carbohydrate without
    fibre. coverage: of every nutrient, the share (0 to 1) of the listed weight that tells it."""
    entries = {
        nutrient.tag: {"amount": likely, "unit": nutrient.unit, "low": low, "high": high, "coverage": share}
        for nutrient, (low, likely, high), share in zip(NUTRIENTS, spans, coverage, strict=False)
        if share > 0
    }
    return entries | derived_entries(entries, spans[-1], added)
