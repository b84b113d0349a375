"""What a serving is wanted to hold: mg of sodium, a percentage of a reference, or the limits of a claim.

Every goal measures an outcome by one number, at the likely figure or at the high one, and has the value
wanted of it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal, Protocol

from ..core.documents import rounded
from ..core.errors import Fault, InvalidRequest
from ..core.numbers import shown
from ..core.spread import summarise
from ..nutrition.claims import conditions
from ..nutrition.dietary_references import sodium_references
from ..units.nutrient_amounts import in_own_unit
from .outcome import Outcome
from .sodium_total import is_complete
from .views import claims

Where = Literal["likely", "high"]

TOLERANCE = 1e-5
"""How near to the wanted value a solution comes, as a share of it."""


class Goal(Protocol):
    """What is wanted of a serving."""

    @property
    def wanted(self) -> float:
        """The value wanted of `measure`."""

    @property
    def wanted_mg(self) -> float | None:
        """mg of sodium per serving that are wanted; None where the goal is not one of those."""

    @property
    def words(self) -> str:
        """The goal, in words."""

    def measure(self, outcome: Outcome, where: Where) -> float:
        """The number that is to come to `wanted`."""

    def judged(self, outcome: Outcome) -> dict[str, Any]:
        """What an answer says of how the goal is met: {met_at_likely, met_at_high} and more; both are
        None where not all sodium was counted."""


@dataclass(frozen=True, slots=True)
class Milligrams:
    """So many mg of sodium per serving."""

    wanted: float

    @property
    def wanted_mg(self) -> float | None:
        return self.wanted

    @property
    def words(self) -> str:
        return f"the {shown(self.wanted, 4)} mg that are wanted"

    def measure(self, outcome: Outcome, where: Where) -> float:
        return _sodium_mg(outcome, where)

    def judged(self, outcome: Outcome) -> dict[str, Any]:
        if not is_complete(outcome):
            return {"met_at_likely": None, "met_at_high": None}
        most = self.wanted * (1 + 10 * TOLERANCE)
        return {
            "met_at_likely": _sodium_mg(outcome, "likely") <= most,
            "met_at_high": _sodium_mg(outcome, "high") <= most,
        }


@dataclass(frozen=True, slots=True)
class Claim:
    """All limits of a claim of claims.csv, as shares of them; a hair inside, since some must be undercut."""

    id: str
    wanted: float = 1 - 2 * TOLERANCE
    wanted_mg: float | None = None

    @property
    def words(self) -> str:
        return f"what the claim {self.id!r} allows"

    def measure(self, outcome: Outcome, where: Where) -> float:
        if outcome.serving_weight_g <= 0:
            return 0.0
        limits = self._document(outcome)["conditions"]
        return max(float(each["amount_mg"][where] / each["limit_mg"]) for each in limits)

    def judged(self, outcome: Outcome) -> dict[str, Any]:
        document = self._document(outcome)
        return {
            "met_at_likely": document["met_at_likely"],
            "met_at_high": document["met_at_high"],
            "claim": rounded(document),
        }

    def _document(self, outcome: Outcome) -> dict[str, Any]:
        found = next((each for each in claims(outcome) if each["id"] == self.id), None)
        if found is None:
            raise InvalidRequest(
                [Fault("/target/claim", f"The claim {self.id!r} has no limit for this class of dish.")]
            )
        return found


def goal_of(target: Mapping[str, Any], audience: str | None) -> Goal:
    """The goal that a target states. Raises InvalidRequest for a reference or claim that is not known."""
    if "sodium_mg_per_serving" in target:
        return Milligrams(in_own_unit("NA", target["sodium_mg_per_serving"]))
    if "claim" in target:
        return Claim(_known("claim", target["claim"], {each.id for each in conditions()}))
    limits = {each["id"]: each["limit_mg"] for each in sodium_references(audience)}
    name = _known("reference", target["reference"], limits)
    return Milligrams(float(limits[name] * target["percent"] / 100))


def _known(what: str, name: str, known: Any) -> str:
    if name not in known:
        listed = ", ".join(sorted(known))
        raise InvalidRequest([Fault(f"/target/{what}", f"There is no {what} {name!r}; known: {listed}.")])
    return name


def _sodium_mg(outcome: Outcome, where: Where) -> float:
    draws = outcome.spread_sodium_per_serving_mg
    return float(draws[0]) if where == "likely" else summarise(draws).high
