"""A cure held against the limit of its class: what went in by both handbook methods, and what is to be said.

After the formulas of FSIS Directive 7620.3; the words are in `notices`. Physics and bath shapes are others'.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from ..core.notices import Notice
from ..core.numbers import shown
from .agents import (
    equilibrium_ppm,
    mixed_in_ppm,
    permitted_in_pumped_g,
    permitted_mix_g,
    permitted_rub_g,
    pumped_ppm,
    smallest_meat_g,
)
from .cure_notices import caution, class_notices, limit_notices, nitrate_notices, weakness_notices
from .curing_limits import CureLimit, limit_for, nitrate_limit

USUAL_PICK_UP = 0.10
"""Pickle taken up as a share of green weight where nobody weighed it: common practice, no source."""


@dataclass(frozen=True, slots=True)
class CureAssessment:
    """Ingoing nitrite (as NaNO2, ppm of green weight) by both handbook methods, and what is to be said.

    pick_up_ppm: method one, from the weight gained, or the whole where the cure is rubbed or mixed in.
    equilibrium_ppm: method two, meat and whole pickle come to rest. judged_ppm: the figure that is held
    against `limit_ppm`, by `method`.
    """

    pick_up_ppm: float
    equilibrium_ppm: float
    judged_ppm: float
    limit_ppm: float
    method: str
    scheme: str
    product_class: str
    notices: tuple[Notice, ...]

    @property
    def is_refused(self) -> bool:
        return any(notice.severity == "stop" for notice in self.notices)


@dataclass(frozen=True, slots=True)
class _Cure:
    """One agent of a cure: how much, in what pickle (the agent in it), on how much meat, taken up how far."""

    agent_g: float
    meat_g: float
    pickle_g: float
    pick_up_share: float

    def counted(self, method: str) -> tuple[float, float, float]:
        """Pick-up, equilibrium and judged ppm by the method of the class."""
        if method in {"comminuted", "dry"}:
            whole = mixed_in_ppm(self.agent_g, self.meat_g)
            return whole, whole, whole
        picked_up = pumped_ppm(self.agent_g, self.pickle_g, self.pick_up_share)
        at_rest = equilibrium_ppm(self.agent_g, self.meat_g, self.pickle_g)
        return picked_up, at_rest, picked_up if method == "pumped" else max(picked_up, at_rest)

    def remedy(self, limit: CureLimit) -> str:
        """What would bring the cure inside its limit, in words."""
        agent = f"sodium {limit.agent}"
        if limit.limit_ppm <= 0:
            return f"leave the {limit.agent} out"
        if limit.method in {"comminuted", "dry"}:
            most = permitted_rub_g(limit.limit_ppm, self.meat_g)
            return f"this meat may take at most {_floored(most)} g of {agent}"
        other_g = self.pickle_g - self.agent_g
        most = permitted_in_pumped_g(limit.limit_ppm, other_g, self.pick_up_share)
        if limit.method == "pumped":
            return f"this pickle may hold at most {_floored(most)} g of {agent}"
        most = min(most, permitted_mix_g(limit.limit_ppm, self.meat_g + other_g))
        return f"this pickle may hold at most {_floored(most)} g of {agent}{self._or_more_meat(limit)}"

    def _or_more_meat(self, limit: CureLimit) -> str:
        """More meat helps where the whole pickle counts, not where it is the pick-up that is too high."""
        meat_g = math.ceil(smallest_meat_g(limit.limit_ppm, self.agent_g, self.pickle_g))
        picked_up = pumped_ppm(self.agent_g, self.pickle_g, self.pick_up_share)
        return f", or put at least {meat_g} g of meat in it" if picked_up <= limit.limit_ppm else ""


def assess(
    *,
    nitrite_g: float,
    meat_g: float,
    pickle_g: float,
    product_class: str | None = None,
    usual_class: str = "immersion_cured",
    scheme: str = "us",
    pick_up_share: float = USUAL_PICK_UP,
    nitrate_g: float = 0.0,
    food_class: str = "pork",
) -> CureAssessment:
    """Hold a cure against the limit of its class.

    meat_g: green weight, bone, binder and added water left out. pickle_g: the whole pickle, or the dry cure.
    product_class: as in `curing_limits.csv`; None takes `usual_class` and says so. pick_up_share: pump or
    pick-up, 0 to 1.
    The judged figure for immersion is the higher of the two methods, so that neither can hide an excess:
    method one rests on a pick-up that is rarely weighed and counts no diffusion after it.
    Raises NotFound: the scheme has no such class.
    """
    limit = limit_for(product_class or usual_class, "nitrite", scheme)
    cure = _Cure(nitrite_g, meat_g, pickle_g, pick_up_share)
    picked_up, at_rest, judged = cure.counted(limit.method)
    notices = (
        *caution(nitrite_g, nitrate_g),
        *class_notices(product_class is not None, limit, food_class),
        *limit_notices(judged, limit, cure.remedy(limit)),
        *weakness_notices(judged, picked_up, limit),
        *_about_nitrate(_Cure(nitrate_g, meat_g, pickle_g, pick_up_share), nitrite_g, limit),
    )
    return CureAssessment(
        picked_up, at_rest, judged, limit.limit_ppm, limit.method, limit.scheme, limit.product_class, notices
    )


def _about_nitrate(cure: _Cure, nitrite_g: float, limit: CureLimit) -> Iterator[Notice]:
    if not cure.agent_g:
        return
    rule = nitrate_limit(limit)
    yield from nitrate_notices(nitrite_g, limit, has_rule=rule is not None)
    if rule is not None:
        *_, judged = cure.counted(rule.method)
        yield from limit_notices(judged, rule, cure.remedy(rule))


def _floored(grams: float) -> str:
    """Three significant digits, never rounded up: a stated maximum must itself be inside the limit."""
    if grams <= 0:
        return "0"
    if not math.isfinite(grams):
        return "any number of"
    step = 10.0 ** (math.floor(math.log10(grams)) - 2)
    return shown(math.floor(grams / step) * step)
