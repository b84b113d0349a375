"""Curing safety: how much nitrite or nitrate went in, against the limit for the class of product.

Ingoing amounts are parts per million of the green (raw) meat weight, after the formulas of FSIS Directive
7620.3. A pickle is weighed whole: its water and everything dissolved in it. The limits are in
`curing_limits.csv`; this module says what a figure breaks and leaves physics and bath shapes to others.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from typing import Literal, TypeVar

from ..errors import NotFound
from ..findings import Notice
from ..tables import Row, load
from ..units.spread import Draws
from .cure_warnings import caution, class_notices, limit_notices, weakness_notices

Amount = TypeVar("Amount", float, Draws)
Agent = Literal["nitrite", "nitrate"]

PPM = 1e6
NO2_TO_NANO2 = 68.995 / 46.005
"""Grams of sodium nitrite per gram of nitrite ion, by molar mass."""

USUAL_PICK_UP = 0.10
"""Pickle taken up as a share of green weight where nobody weighed it: common practice, no source."""


@dataclass(frozen=True, slots=True)
class CuringSalt:
    """A mix that carries nitrite: shares (0 to 1) of NaNO2 and NaNO3; the rest is NaCl."""

    kind: str
    name: str
    nitrite_share: float
    nitrate_share: float
    source: str

    @property
    def salt_share(self) -> float:
        return 1.0 - self.nitrite_share - self.nitrate_share


@dataclass(frozen=True, slots=True)
class CureLimit:
    """What a rule allows: `limit_ppm` on green weight, 0 where the agent is not allowed at all.

    lowest_ppm: what the rule asks for at least, or None. method: comminuted, dry, pumped or immersion.
    """

    scheme: str
    product_class: str
    agent: str
    method: str
    limit_ppm: float
    lowest_ppm: float | None
    mark: str
    source: str


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


def mixed_in_ppm(agent_g: Amount, meat_g: Amount) -> Amount:
    """Comminuted and dry cures: all of the agent is counted on the green weight."""
    return agent_g * PPM / meat_g


def pumped_ppm(agent_g: Amount, pickle_g: Amount, pump_share: Amount) -> Amount:
    """Pumped or massaged, and immersion by method one (`pump_share` is then the pick-up share, 0 to 1)."""
    return agent_g * PPM * pump_share / pickle_g


def equilibrium_ppm(agent_g: Amount, meat_g: Amount, pickle_g: Amount) -> Amount:
    """Immersion by method two: meat and whole pickle, weighed once each, share the agent evenly."""
    return agent_g * PPM / (meat_g + pickle_g)


def permitted_mix_g(limit_ppm: float, other_weight_g: float, nitrite_share: float = 1.0) -> float:
    """The most curing salt (of `nitrite_share`) for a system that weighs `other_weight_g` without it.

    Method two turned round. For a cure that is mixed or rubbed in use `permitted_rub_g`.
    """
    ratio = limit_ppm / PPM
    return ratio * other_weight_g / (nitrite_share - ratio)


def permitted_rub_g(limit_ppm: float, meat_g: float, nitrite_share: float = 1.0) -> float:
    """The most curing salt to mix into, or rub on, `meat_g` of green meat."""
    return limit_ppm * meat_g / PPM / nitrite_share


def permitted_pumped_nitrite_g(limit_ppm: float, pickle_g: float, pump_share: float) -> float:
    """The most nitrite in a pickle of `pickle_g` that is pumped (or picked up) at `pump_share`.

    inf where nothing is picked up.
    """
    return limit_ppm * pickle_g / PPM / pump_share if pump_share > 0 else math.inf


def smallest_meat_g(limit_ppm: float, agent_g: float, pickle_g: float) -> float:
    """The smallest meat block that a pickle may hold by method two; 0 where any will do."""
    return max(0.0, agent_g * PPM / limit_ppm - pickle_g)


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
    picked_up, at_rest, judged = _counted(nitrite_g, meat_g, pickle_g, pick_up_share, limit.method)
    notices = (
        *caution(nitrite_g),
        *class_notices(product_class is not None, limit, food_class),
        *limit_notices(judged, limit, _remedy(limit, meat_g, pickle_g - nitrite_g, nitrite_g, pick_up_share)),
        *weakness_notices(judged, picked_up, limit),
        *_nitrate_notices(nitrate_g, meat_g, pickle_g, pick_up_share, limit),
    )
    return CureAssessment(
        picked_up, at_rest, judged, limit.limit_ppm, limit.method, limit.scheme, limit.product_class, notices
    )


def limit_for(product_class: str, agent: Agent = "nitrite", scheme: str = "us") -> CureLimit:
    """The limit of a class. Raises NotFound: the scheme sets none for this class and agent."""
    try:
        return _limits()[scheme, product_class, agent]
    except KeyError:
        raise NotFound("product class", f"{product_class} ({agent}, scheme {scheme})") from None


def product_classes(scheme: str = "us") -> tuple[str, ...]:
    """The classes that a scheme sets a nitrite limit for, in the table's order."""
    return tuple(name for held, name, agent in _limits() if held == scheme and agent == "nitrite")


def schemes() -> tuple[str, ...]:
    return tuple(dict.fromkeys(scheme for scheme, _, _ in _limits()))


def curing_salt(kind: str) -> CuringSalt:
    """A curing salt by kind. Raises NotFound."""
    try:
        return curing_salts()[kind]
    except KeyError:
        raise NotFound("curing salt", kind) from None


@cache
def curing_salts() -> dict[str, CuringSalt]:
    return {salt.kind: salt for salt in load("curing_salts", _salt_of)}


def _salt_of(row: Row) -> CuringSalt:
    nitrite, nitrate = float(row["nitrite_percent"]) / 100, float(row["nitrate_percent"]) / 100
    if not 0 < nitrite <= 1 or nitrite + nitrate > 1:
        raise ValueError(f"shares of {row['kind']} must be above 0 and sum to 100 at most")
    return CuringSalt(row["kind"], row["name"], nitrite, nitrate, f"{row['source']} ({row['mark']})")


@cache
def _limits() -> dict[tuple[str, str, str], CureLimit]:
    return {
        (limit.scheme, limit.product_class, limit.agent): limit for limit in load("curing_limits", _limit_of)
    }


def _limit_of(row: Row) -> CureLimit:
    lowest = float(row["lowest_ppm"]) if row["lowest_ppm"] else None
    if row["method"] not in {"comminuted", "dry", "pumped", "immersion"}:
        raise ValueError(f"unknown method {row['method']!r}")
    return CureLimit(
        row["scheme"],
        row["product_class"],
        row["agent"],
        row["method"],
        float(row["limit_ppm"]),
        lowest,
        row["mark"],
        row["source"],
    )


def _counted(
    agent_g: float, meat_g: float, pickle_g: float, pick_up_share: float, method: str
) -> tuple[float, float, float]:
    """Pick-up, equilibrium and judged ppm by the method of the class."""
    if method in {"comminuted", "dry"}:
        whole = mixed_in_ppm(agent_g, meat_g)
        return whole, whole, whole
    picked_up = pumped_ppm(agent_g, pickle_g, pick_up_share)
    at_rest = equilibrium_ppm(agent_g, meat_g, pickle_g)
    return picked_up, at_rest, picked_up if method == "pumped" else max(picked_up, at_rest)


def _remedy(limit: CureLimit, meat_g: float, other_g: float, nitrite_g: float, pick_up_share: float) -> str:
    """What would bring the cure inside its limit, in words."""
    if limit.method in {"comminuted", "dry"}:
        most = permitted_rub_g(limit.limit_ppm, meat_g)
        return f"this meat may take at most {_floored(most)} g of sodium nitrite"
    pumped = permitted_pumped_nitrite_g(limit.limit_ppm, other_g, pick_up_share)
    if limit.method == "pumped":
        return f"this pickle may hold at most {_floored(pumped)} g of sodium nitrite"
    most = min(pumped, permitted_mix_g(limit.limit_ppm, meat_g + other_g))
    meat = math.ceil(smallest_meat_g(limit.limit_ppm, nitrite_g, other_g + nitrite_g))
    larger = f", or put at least {meat} g of meat in it" if meat > meat_g else ""
    return f"this pickle may hold at most {_floored(most)} g of sodium nitrite{larger}"


def _floored(grams: float) -> str:
    """Three significant digits, never rounded up: a stated maximum must itself be inside the limit."""
    if grams <= 0:
        return "0"
    step = 10.0 ** (math.floor(math.log10(grams)) - 2)
    return f"{math.floor(grams / step) * step:.3g}"


def _nitrate_notices(
    nitrate_g: float, meat_g: float, pickle_g: float, pick_up_share: float, limit: CureLimit
) -> Iterator[Notice]:
    if not nitrate_g:
        return
    rule = _limits().get((limit.scheme, limit.product_class, "nitrate"))
    if rule is None:
        yield Notice(
            "cure-nitrate-no-rule",
            "check",
            f"The cure holds nitrate; no limit for it is held here for {limit.product_class} in scheme "
            f"{limit.scheme}. Look up the rule that binds you.",
        )
        return
    *_, judged = _counted(nitrate_g, meat_g, pickle_g, pick_up_share, rule.method)
    yield from limit_notices(judged, rule, "leave it out or use less")
