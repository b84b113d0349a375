"""The sodium of a serving as an answer gives it: its range, what of it was counted, and what was not.

Lines that were not counted are in the likely figure by their priors; the low end has them at their low, the
high end at their high. A liquid of which nobody says whether it is eaten is counted as assumed, and both
ways in the range.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any

import numpy as np

from ..core.documents import figure
from ..core.spread import Draws, Spread, summarise
from ..core.step_kinds import kinds_that
from ..nutrition.usual_amounts import usual
from .completeness import WORDS, uncounted_of
from .may_hold import WORTH_COUNTING_MG
from .outcome import Liquid, Outcome, ResolvedIngredient
from .request import ComponentRequest, component_label, eaten_share

if TYPE_CHECKING:
    from .sub_recipes import Portion

_NOTHING = np.zeros(1)
LIQUID = "liquid"
"""The kind of a gap that is a liquid and no line."""


@dataclass(frozen=True, slots=True)
class Gap:
    """Something whose sodium is not counted: mg in the whole recipe. reason: a key of completeness.WORDS."""

    pointer: str
    line: str
    reason: str
    kind: str
    sodium_mg: Spread
    source: str

    def document(self) -> dict[str, Any]:
        """The gap as answers give it."""
        return {
            "pointer": self.pointer,
            "line": self.line,
            "reason": self.reason,
            "why": WORDS[self.reason],
            "kind": self.kind,
            "low_mg": figure(self.sodium_mg.low),
            "likely_mg": figure(self.sodium_mg.likely),
            "high_mg": figure(self.sodium_mg.high),
            "source": self.source,
        }


@dataclass(frozen=True, slots=True)
class SodiumTotal:
    """per_serving_mg: with what was not counted, by its priors. counted_mg: per serving, of what was
    counted."""

    per_serving_mg: Spread
    counted_mg: float
    gaps: tuple[Gap, ...]

    @property
    def complete(self) -> bool:
        return not self.gaps

    @property
    def coverage(self) -> float:
        """The share (0 to 1) of the sodium that could be in a serving that was counted."""
        return (
            self.counted_mg / self.per_serving_mg.high if self.gaps and self.per_serving_mg.high > 0 else 1.0
        )


def sodium_total(outcome: Outcome) -> SodiumTotal:
    """The sodium of a serving of an outcome, and what of it was not counted."""
    draws, servings = outcome.spread_sodium_per_serving_mg, outcome.request.servings
    lines, liquids = uncounted_of(outcome.listed), list(_open_liquids(outcome))
    unused = [_unused(each) for each in outcome.liquids]
    parts = list(_parts(outcome))
    within = [gap for part in parts for gap in part.gaps]
    gaps = (*(_gap(each) for each in lines), *(gap for gap, _ in liquids), *unused, *within)
    if not gaps:
        return SodiumTotal(outcome.sodium_spreads[0], float(draws[0]), ())
    eaten = sum((mg for _, mg in liquids if mg[0] < 0), np.zeros_like(draws)) / servings
    poured = sum((mg for _, mg in liquids if mg[0] > 0), np.zeros_like(draws)) / servings
    below, above = _reach(outcome)
    below += sum(part.below_mg for part in parts) / servings
    above += sum(part.above_mg for part in parts) / servings
    below += sum(gap.sodium_mg.likely for gap in unused) / servings
    above += sum(gap.sodium_mg.high - gap.sodium_mg.likely for gap in unused) / servings
    fates = sum(gap.sodium_mg.likely for gap in (*(gap for gap, _ in liquids), *unused))
    assumed = sum(part.assumed_mg for part in parts)
    counted = max(_counted_mg(outcome) - (fates + assumed) / servings, 0.0)
    likely = float(draws[0])
    low = min(summarise(draws + eaten).low, likely - below)
    high = max(summarise(draws + poured).high, likely + above)
    return SodiumTotal(Spread(max(low, 0.0), likely, high), counted, gaps)


def is_complete(outcome: Outcome) -> bool:
    """Whether every line that could carry sodium was counted, and every liquid's fate is known."""
    if uncounted_of(outcome.listed) or outcome.liquids:
        return False
    if not all(is_complete(portion.outcome) for _, portion, _ in portions_of(outcome)):
        return False
    return next(_open_liquids(outcome), None) is None


@dataclass(frozen=True, slots=True)
class _Part:
    """What a portion of an incomplete recipe brings into the dish, mg of sodium eaten in the whole dish.

    assumed_mg: of its likely sodium, what was not counted. below_mg, above_mg: how far the ends of its range
    reach from likely.
    """

    gaps: tuple[Gap, ...]
    assumed_mg: float
    below_mg: float
    above_mg: float


def portions_of(outcome: Outcome) -> Iterator[tuple[ResolvedIngredient, Portion, Spread]]:
    """The portions of recipes of which anything is eaten, each with its weight."""
    for each in outcome.listed:
        portion, grams = each.ingredient.portion, each.ingredient.grams
        if portion is not None and grams is not None and each.component in outcome.state.served:
            yield each, portion, grams


def _parts(outcome: Outcome) -> Iterator[_Part]:
    """The incomplete recipes that a dish is made of: their gaps are gaps of the line that they are in."""
    shares = {each.id: eaten_share(each, outcome.request) for each in outcome.request.components}
    for each, portion, grams in portions_of(outcome):
        total = sodium_total(portion.outcome)
        if total.gaps:
            share = portion.likely_share(grams) * each.eaten_share * shares[each.component]
            mg, whole = total.per_serving_mg, share * portion.outcome.request.servings
            yield _Part(
                tuple(_within(gap, each.pointer, portion.name, share) for gap in total.gaps),
                (mg.likely - total.counted_mg) * whole,
                (mg.likely - mg.low) * whole,
                (mg.high - mg.likely) * whole,
            )


def _within(gap: Gap, pointer: str, recipe: str, share: float) -> Gap:
    """A gap of a recipe as one of the line that the recipe is in."""
    return replace(gap, pointer=pointer, line=f"{recipe}: {gap.line}", sodium_mg=gap.sodium_mg.scaled(share))


def _gap(listed: ResolvedIngredient) -> Gap:
    found = listed.uncounted
    assert found is not None
    return Gap(listed.pointer, listed.name, found.reason, found.kind, found.sodium_mg, found.source)


def _unused(liquid: Liquid) -> Gap:
    held = Spread(0.0, liquid.eaten * liquid.sodium_mg, liquid.sodium_mg)
    source = (
        "as the step would leave it that such a liquid is for" if liquid.eaten else "taken to be poured away"
    )
    return Gap(liquid.pointer, liquid.name, "liquid_not_used", LIQUID, held, source)


def _open_liquids(outcome: Outcome) -> Iterator[tuple[Gap, Draws]]:
    """Liquids whose fate is only assumed, and what they would add to what is eaten, mg (below 0: take
    away)."""
    worth = WORTH_COUNTING_MG * outcome.request.servings
    for component in outcome.request.components:
        share = _open_share(outcome, component)
        left = _left_in(outcome, component.id) if share else _NOTHING
        if share and float(left.max()) >= worth:
            eaten = eaten_share(component, outcome.request) > 0
            most = share * max(summarise(left).high, float(left[0]))
            held = Spread(0.0, float(left[0]) if eaten else 0.0, most)
            source = "taken to be eaten" if eaten else "taken to be poured away"
            gap = Gap(component.pointer, _label(outcome, component), "fate_not_known", LIQUID, held, source)
            yield gap, left * (-1.0 if eaten else share)


def _label(outcome: Outcome, component: ComponentRequest) -> str:
    """A component's name for people, or its id."""
    return component_label(component, outcome.request) or component.id


def _open_share(outcome: Outcome, component: ComponentRequest) -> float:
    """Of a liquid whose fate nobody states, the share (0 to 1) that may be eaten against what is assumed.

    Nothing of brines, which are poured away; usual shares of pots and marinades.
    """
    kinds = {step.kind for step in outcome.request.steps if step.bath == component.id}
    if component.eaten_fraction is not None or not kinds:
        return 0.0
    if eaten_share(component, outcome.request) > 0:
        return 1.0
    served = kinds & kinds_that("served")
    return max((usual(f"eaten_of_{kind}").spread.high for kind in served), default=0.0)


def _left_in(outcome: Outcome, component: str) -> Draws:
    """mg of sodium in a component when the dish is served."""
    left = np.zeros_like(outcome.sodium_per_serving_mg)
    for movement in outcome.state.pools.ledger:
        if movement.step is None and movement.source == component and movement.target != "not_eaten":
            left = left + movement.sodium_mg
    return left


def _reach(outcome: Outcome) -> tuple[float, float]:
    """How far below and above likely, mg a serving, the lines that were not counted reach by themselves:
    those of components that no step touches, whose sodium stays in them."""
    below = above = 0.0
    for each, share in _untouched(outcome):
        spread = each.uncounted.sodium_mg if each.uncounted else Spread.exact(0.0)
        below += share * (spread.likely - spread.low)
        above += share * (spread.high - spread.likely)
    return below / outcome.request.servings, above / outcome.request.servings


def _untouched(outcome: Outcome) -> Iterator[tuple[ResolvedIngredient, float]]:
    """The lines that were not counted in components that no step touches, and the share eaten of each."""
    touched = {name for step in outcome.request.steps for name in (*step.food, step.bath)}
    shares = {each.id: eaten_share(each, outcome.request) for each in outcome.request.components}
    for each in uncounted_of(outcome.listed):
        if each.component not in touched:
            yield each, shares[each.component] * each.eaten_share


def _counted_mg(outcome: Outcome) -> float:
    """mg a serving that come of the lines that were counted: worked out without the others where steps mix
    them."""
    lines, untouched = uncounted_of(outcome.listed), list(_untouched(outcome))
    if len(untouched) < len(lines):
        bare = outcome.without_assumed()
        return float(bare.sodium_per_serving_mg[0]) * bare.request.servings / outcome.request.servings
    assumed = sum(share * each.uncounted.sodium_mg.likely for each, share in untouched if each.uncounted)
    return max(float(outcome.sodium_per_serving_mg[0]) - assumed / outcome.request.servings, 0.0)
