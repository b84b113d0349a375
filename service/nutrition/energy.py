"""What follows from other nutrients: energy by three sets of factors, salt, available carbohydrate.

Amounts come as a mapping from tag to amount, all for the same weight of food. A tag that is not there is not
known; what cannot be worked out without it is None, never 0.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from ..core.tables import Row, load

Amounts = Mapping[str, float]

KJ_PER_KCAL = 4.184
"""The thermochemical calorie (ISO 80000-5)."""

SALT_PER_SODIUM = 2.5
"""g of "salt" on an EU label per g of sodium: Regulation (EU) No 1169/2011, Annex I. Not the true ratio of
salt to its sodium (2.542), so it must not be turned round to find the sodium of a weight of salt."""


@dataclass(frozen=True, slots=True)
class EnergyFactor:
    """Energy of one gram of `tag` under a scheme, kcal and kJ; source and mark as in the table."""

    scheme: str
    tag: str
    kcal_per_g: float
    kj_per_g: float
    source: str
    mark: str


@dataclass(frozen=True, slots=True)
class Energy:
    """An amount of energy in both units."""

    kcal: float
    kj: float


@cache
def factors(scheme: str) -> tuple[EnergyFactor, ...]:
    """The factors of a scheme: "atwater_general" (carbohydrate by difference) or "eu" (without fibre)."""
    return tuple(factor for factor in load("energy_factors", _factor) if factor.scheme == scheme)


def _factor(row: Row) -> EnergyFactor:
    kcal, kj = float(row["kcal_per_g"]), float(row["kj_per_g"])
    if not 0.95 < kj / (kcal * KJ_PER_KCAL) < 1.05:
        raise ValueError(f"{kcal} kcal and {kj} kJ are not the same energy")
    return EnergyFactor(row["scheme"], row["tag"], kcal, kj, row["source"], row["mark"])


def energy_by(scheme: str, amounts: Amounts) -> Energy | None:
    """By the factors of a scheme of energy_factors.csv. None where an amount that it needs is not known.

    Alcohol alone may be left out: a dish for which nothing is said about it is taken to have none.
    """
    known = {"ALC": 0.0, **with_derived(amounts)}
    if any(factor.tag not in known for factor in factors(scheme)):
        return None
    kcal = sum(known[factor.tag] * factor.kcal_per_g for factor in factors(scheme))
    return Energy(kcal, sum(known[factor.tag] * factor.kj_per_g for factor in factors(scheme)))


def salt_g(sodium_mg: float) -> float:
    """The salt of an EU label in g: all sodium, whatever it came with, times 2.5."""
    return sodium_mg * SALT_PER_SODIUM / 1000


def available_carbohydrate(amounts: Amounts) -> float | None:
    """Carbohydrate without fibre in g, at least 0; None where either is not known."""
    if "CHOAVL" in amounts:
        return amounts["CHOAVL"]
    if "CHOCDF" not in amounts or "FIBTG" not in amounts:
        return None
    return max(amounts["CHOCDF"] - amounts["FIBTG"], 0.0)


def with_derived(amounts: Amounts) -> dict[str, float]:
    """The amounts, and CHOAVL and SALT (both g) where they can be worked out."""
    derived = dict(amounts)
    carbohydrate = available_carbohydrate(amounts)
    if carbohydrate is not None:
        derived["CHOAVL"] = carbohydrate
    if "NA" in amounts:
        derived["SALT"] = salt_g(amounts["NA"])
    return derived


@cache
def general_kcal_g(tag: str) -> float:
    """Energy of fat (FAT), alcohol (ALC) and so on in kcal per g, by the general Atwater factors."""
    return next(factor.kcal_per_g for factor in factors("atwater_general") if factor.tag == tag)
