"""What the rules allow of nitrite and nitrate, by scheme and class of product (`curing_limits.csv`)."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Literal

from ..core.errors import NotFound
from ..core.tables import Row, load

Agent = Literal["nitrite", "nitrate"]


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


def nitrate_limit(rule: CureLimit) -> CureLimit | None:
    """The limit on nitrate for the class that a limit on nitrite is of; None where the scheme sets none."""
    return _limits().get((rule.scheme, rule.product_class, "nitrate"))


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
