"""What cures: curing salts by kind, and how much nitrite or nitrate goes in, after FSIS Directive 7620.3.

Ingoing amounts are parts per million of the green (raw) meat weight. A pickle is weighed whole: its water and
everything dissolved in it.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache
from typing import TypeVar

from ..core.errors import NotFound
from ..core.spread import Draws
from ..core.tables import Row, load

Amount = TypeVar("Amount", float, Draws)

PPM = 1e6


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


def permitted_in_pumped_g(limit_ppm: float, other_weight_g: float, pump_share: float) -> float:
    """The most nitrite in a pickle of `other_weight_g` without it, pumped (or picked up) at `pump_share`.

    inf where any amount will do.
    """
    ratio = limit_ppm / PPM
    return ratio * other_weight_g / (pump_share - ratio) if pump_share > ratio else math.inf


def smallest_meat_g(limit_ppm: float, agent_g: float, pickle_g: float) -> float:
    """The smallest meat block that a pickle may hold by method two; 0 where any will do."""
    return max(0.0, agent_g * PPM / limit_ppm - pickle_g)


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
