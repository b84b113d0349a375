"""What a kitchen's own measurements say of the figures behind its dishes.

Every open figure of an answer is a standard-normal cause (`core.spread`). A measurement of a dish is held
against the dish worked out in every draw: regression of the draws tells how far each cause moves it, and
Bayes' rule for normal causes says how they lie after it. So weighted, the draws of later answers of the same
kitchen follow what it measured, and figures that a measurement says nothing of stay as they were.
"""

from __future__ import annotations

import hashlib
import json
import math
from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, field, replace
from functools import lru_cache
from typing import Any, Literal

import numpy as np
from numpy.typing import NDArray

from ..core.assumptions import AssumptionLog, local_rows
from ..core.errors import InvalidRequest
from ..core.spread import DRAWS, NINETY_FIVE, Draws, Spread, standard_normal, summarise
from ..foods.dataset import FoodTable
from ..recipe.calculation import cook
from ..recipe.outcome import FROM_DAY_TO_DAY, Outcome
from ..recipe.pool_rows import WEIGHT
from ..recipe.request import RecipeRequest

What = Literal["sodium_mg_per_100g", "sodium_mg_per_serving", "weight_g"]
Matrix = NDArray[np.float64]

CONTRADICTS = 2.0
"""So many standard deviations off, a measurement contradicts the model: once in twenty by chance."""

ROUNDS = 3
"""How often a line is drawn anew before a measurement is followed."""

FLAT = 0.02
"""A line that moves less than this part of what the one before moved is no better than it."""

WORTH_LEARNING = 0.005
"""A cause learns from a measurement from this share of its variance on."""


@dataclass(frozen=True, slots=True)
class Measured:
    """A measurement. request: the recipe as calculated; component: of what, None for the dish as served.

    after_step: how far the recipe had come, None for all of it. amount: in the unit that `what` names.
    uncertainty: half the 90 % range over the amount (0.05 for five percent).
    """

    request: Mapping[str, Any]
    what: What
    amount: float
    uncertainty: float
    component: str | None = None
    after_step: int | None = None

    @property
    def dish(self) -> str:
        """What was measured, without how much came out."""
        told = [dict(self.request), self.what, self.component, self.after_step]
        return hashlib.sha256(json.dumps(told, sort_keys=True).encode()).hexdigest()


@dataclass(frozen=True, eq=False)
class Local:
    """How a kitchen's causes lie: mean (n,) and covariance (n, n), by key. A key not here is as published."""

    keys: tuple[str, ...] = ()
    mean: Matrix = field(default_factory=lambda: np.zeros(0))
    covariance: Matrix = field(default_factory=lambda: np.zeros((0, 0)))
    identity: str = ""

    def learned(self, key: str) -> bool:
        return key in self._normals

    def normal(self, key: str) -> Draws:
        """The draws of a cause, shape (DRAWS + 1,); column 0 is its likely case."""
        found = self._normals.get(key)
        return standard_normal(key) if found is None else found

    @property
    def _normals(self) -> Mapping[str, Draws]:
        return _normals(self)

    def extended(self, keys: Sequence[str]) -> Local:
        """The same with further keys, as published."""
        new = tuple(key for key in dict.fromkeys(keys) if key not in self.keys)
        size, more = len(self.keys), len(new)
        covariance = np.eye(size + more)
        covariance[:size, :size] = self.covariance
        mean = np.concatenate([self.mean, np.zeros(more)])
        return replace(self, keys=(*self.keys, *new), mean=mean, covariance=covariance)


@lru_cache(maxsize=64)
def _normals(local: Local) -> Mapping[str, Draws]:
    if not local.keys:
        return {}
    base = np.stack([standard_normal(key) for key in local.keys])
    root = np.linalg.cholesky(local.covariance + 1e-12 * np.eye(len(local.keys)))
    moved = local.mean[:, np.newaxis] + root @ base
    return dict(zip(local.keys, moved, strict=True))


@dataclass(frozen=True, slots=True)
class Learned:
    """What came of a measurement: the range before and after, how far off it was, and the figures it moved.

    off: standard deviations. used: whether later answers stand on it. figures: row or cause, and its spread
    in standard deviations of the published one (low, likely, high).
    """

    before: Spread
    after: Spread
    off: float
    used: bool
    figures: tuple[tuple[str, Spread], ...]

    @property
    def contradicts(self) -> bool:
        return self.off > CONTRADICTS


def learn(local: Local, measured: Measured, foods: FoodTable, *, confirmed: bool) -> tuple[Local, Learned]:
    """Hold a measurement against the kitchen's figures as they lie, and let them follow it.

    One that contradicts them changes nothing unless it is confirmed. Raises InvalidRequest where the recipe
    cannot stand any more, ValueError where it gives nothing of what was measured.
    """
    told, log = _predicted(measured, foods, local)
    if told[0] <= 0:
        raise ValueError("The recipe gives nothing of what was measured")
    keys, slopes = _slopes(log, told, local.keys)
    wider = local.extended(keys)
    noise = (measured.uncertainty / NINETY_FIVE) ** 2 + FROM_DAY_TO_DAY**2
    here = _Line(wider, _spelled(wider, keys, slopes), _middle(told))
    far = abs(here.off(wider, measured)) / math.sqrt(here.variance(wider) + noise)
    used = confirmed or far <= CONTRADICTS
    after = _settled(wider, here, measured, noise, foods) if used else local
    after_told = _predicted(measured, foods, after)[0] if used else told
    moved = tuple((key, summarise(after.normal(key))) for key in keys) if used else ()
    return after, Learned(summarise(told), summarise(after_told), far, used, moved)


@dataclass(frozen=True, slots=True, eq=False)
class _Line:
    """A dish, in the logarithm, as a straight line of its causes about where they lie at `at`."""

    at: Local
    towards: Matrix
    told: float

    def off(self, wider: Local, measured: Measured) -> float:
        """How far a measurement lies from what the line gives at the mean of `wider`."""
        return math.log(measured.amount / self.told) - float(self.towards @ (wider.mean - self.at.mean))

    def variance(self, wider: Local) -> float:
        return float(self.towards @ wider.covariance @ self.towards)


def _settled(wider: Local, line: _Line, measured: Measured, noise: float, foods: FoodTable) -> Local:
    """Bayes' rule along the line, drawn anew where it leads to until it stays there: dishes are curved."""
    keys = [key for key, slope in zip(wider.keys, line.towards.tolist(), strict=True) if slope]
    for _ in range(ROUNDS):
        after = _followed(wider, line, line.off(wider, measured), noise)
        told, log = _predicted(measured, foods, after)
        drawn = _Line(after, _spelled(after, *_slopes(log, told, keys, alone=True)), _middle(told))
        if drawn.variance(wider) < FLAT * line.variance(wider):
            break  # at the end of what the figures allow, where a line says nothing
        line = drawn
    return _followed(wider, line, line.off(wider, measured), noise)


def _middle(told: Draws) -> float:
    """Between the likely case of a dish and the middle of its draws, in the logarithm: where those lie apart,
    range and likely figure both follow measurements, each half."""
    return math.sqrt(float(told[0]) * float(np.median(told[1:])))


def _spelled(local: Local, keys: Sequence[str], slopes: Matrix) -> Matrix:
    """Slopes in the order of a kitchen's keys, 0 where there is none."""
    found = dict(zip(keys, slopes.tolist(), strict=True))
    return np.array([found.get(key, 0.0) for key in local.keys])


def _followed(wider: Local, line: _Line, off: float, noise: float) -> Local:
    """Bayes' rule for normal causes of which a dish is a straight line."""
    spread = wider.covariance @ line.towards
    variance = line.variance(wider) + noise
    mean = wider.mean + spread * off / variance
    covariance = wider.covariance - np.outer(spread, spread) / variance
    return replace(wider, mean=mean, covariance=covariance)


def _slopes(
    log: AssumptionLog, told: Draws, wanted: Sequence[str], *, alone: bool = False
) -> tuple[list[str], Matrix]:
    """The causes that move a dish, and by how much, in the logarithm, one standard deviation moves it.

    wanted: those to ask for at any rate; alone: and no others, else all that are worth learning.
    """
    causes = log.causes()
    keys = [key for key in causes if key in wanted] if alone else list(causes)
    if not keys or np.any(told <= 0):
        return [], np.zeros(0)
    moved = np.log(told[1:]) - np.log(told[1:]).mean()
    design = np.stack([causes[key][1:] - causes[key][1:].mean() for key in keys])
    size = np.sqrt((design**2).mean(axis=1))
    alike = (design / np.maximum(size, 1e-9)[:, np.newaxis]) @ moved / DRAWS
    is_worth = (alike**2 > WORTH_LEARNING * (moved**2).mean()) | np.isin(keys, list(wanted))
    keys, design = [key for key, worth in zip(keys, is_worth, strict=True) if worth], design[is_worth]
    slopes, *_ = np.linalg.lstsq(design.T, moved, rcond=None)
    return keys, np.asarray(slopes)


def _predicted(measured: Measured, foods: FoodTable, local: Local) -> tuple[Draws, AssumptionLog]:
    """What was measured, worked out in every draw, and the figures it stands on."""
    with local_rows(local):
        outcome = cook(RecipeRequest.from_document(measured_request(measured)), foods)
    return _amount(outcome, measured.what), outcome.state.log


def measured_request(measured: Measured) -> dict[str, Any]:
    """The recipe up to the step after which it was measured, only what was measured eaten."""
    request = dict(measured.request)
    if measured.component is None:
        return request
    steps = request.get("steps", [])
    kept = steps if measured.after_step is None else steps[: measured.after_step + 1]
    components = [
        {**each, "eaten_fraction": 1.0 if each["id"] == measured.component else 0.0}
        for each in request.get("components", [])
    ]
    return {**request, "steps": kept, "components": components, "servings": 1}


def _amount(outcome: Outcome, what: What) -> Draws:
    if what == "weight_g":
        eaten: Draws = outcome.state.pools.leading["eaten"][WEIGHT]
        return eaten
    return (
        outcome.sodium_per_100g_mg if what == "sodium_mg_per_100g" else outcome.spread_sodium_per_serving_mg
    )


def local_of(measurements: Sequence[tuple[Measured, bool]], foods: FoodTable) -> Local:
    """A kitchen's figures from its measurements in their order, each with whether it is confirmed.

    What does not stand any more (a food that a new dataset has not) is passed over.
    """
    local = Local()
    for measured, confirmed in measurements:
        with suppress(InvalidRequest, ValueError):
            local, _ = learn(local, measured, foods, confirmed=confirmed)
    told = json.dumps([[m.dish, m.amount, m.uncertainty, c] for m, c in measurements])
    return replace(local, identity=hashlib.sha256(told.encode()).hexdigest()[:16])
