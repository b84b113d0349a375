"""What of an answer needs a person, and how soon: the order of the review queue.

Stop notices come first, then figures that are not complete, then how much sodium hangs on doubtful
readings, then what has changed since it was signed, then what is near the limit of a claim; most sodium
decides between equals.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from ..foods.matching.matcher import SURE

Answer = Mapping[str, Any]

HEAVY_MG, SOME_MG = 100.0, 20.0
"""Sodium per serving on doubtful readings that is much, and that is worth a look: a 20th and a 100th of what
a day should not exceed (2,000 mg; WHO 2012)."""

NEAR = 0.05
"""How near a limit a likely figure must be, as a share of the limit, to count as near it."""


@dataclass(frozen=True, slots=True)
class Urgency:
    """What needs a person.

    stops, checks: how many notices of these severities. doubtful_mg: sodium per serving that hangs on
    mappings below the confidence that needs no look, and on open questions of a reading.
    """

    stops: int
    checks: int
    incomplete: bool
    doubtful_mg: float
    changed_since_signing: bool
    near_limit: bool

    @property
    def rank(self) -> int:
        """Larger is sooner; 0 where nothing needs a person."""
        doubt = (self.doubtful_mg >= SOME_MG) + (self.doubtful_mg >= HEAVY_MG)
        marks = (self.stops > 0, self.incomplete, doubt, self.changed_since_signing, self.near_limit)
        rank = 0
        for mark, most in zip(marks, (1, 1, 2, 1, 1), strict=True):
            rank = rank * (most + 1) + int(mark)
        return rank


def urgency_of(answer: Answer, *, signed: Answer | None = None) -> Urgency:
    """What needs a person in an answer. signed: the answer that was signed last, None where none was."""
    severities = [each["severity"] for each in answer.get("notices", ())]
    sodium = answer["sodium"]
    return Urgency(
        stops=severities.count("stop"),
        checks=severities.count("check"),
        incomplete=sodium.get("complete") is False,
        doubtful_mg=_doubtful_mg(answer),
        changed_since_signing=signed is not None and figures_differ(signed, answer),
        near_limit=any(_is_near(each) for each in sodium.get("claims", ())),
    )


def figures_differ(older: Answer, newer: Answer) -> bool:
    """Whether two answers give a reader other figures: sodium and its range, completeness, nutrients, claims,
    allergens and stop notices.

    Titles, spacing and the order of lines change none of them.
    """
    return _figures(older) != _figures(newer)


def matters_above(older: Answer, newer: Answer) -> bool:
    """Whether a recipe that is made of this one may come out otherwise with the newer answer."""
    return _for_others(older) != _for_others(newer)


def _for_others(answer: Answer) -> list[Any]:
    allergens = answer.get("allergens", {}).get("allergens", ())
    return [
        *_figures(answer),
        answer["servings"],
        answer.get("per_serving", {}).get("weight_g"),
        [(each["allergen"], each["certainty"]) for each in allergens],
        [(each["severity"], each["message"]) for each in answer.get("notices", ())],
    ]


def _figures(answer: Answer) -> list[Any]:
    sodium = answer["sodium"]
    nutrients = answer.get("per_serving", {}).get("nutrients", {})
    return [
        [_cut(sodium["per_serving_mg"][end]) for end in ("low", "likely", "high")],
        sodium.get("complete"),
        {tag: _cut(each["amount"]) for tag, each in nutrients.items()},
        {each["id"]: each.get("met") for each in sodium.get("claims", ())},
        {each["allergen"]: each["certainty"] for each in answer.get("allergens", {}).get("allergens", ())},
        sorted(each["code"] for each in answer.get("notices", ()) if each["severity"] == "stop"),
    ]


def _cut(value: float) -> float:
    """A figure to the digits that anybody reads, so that another order of addition is no change."""
    return float(f"{value:.6g}")


def _doubtful_mg(answer: Answer) -> float:
    servings = answer["servings"] or 1
    lines = sum(mg for confidence, mg in _sodium_by_food(answer) if confidence < SURE)
    questions: Iterable[Mapping[str, Any]] = (answer.get("reading") or {}).get("questions", ())
    return lines / servings + sum(each.get("swing_mg_per_serving") or 0.0 for each in questions)


def _sodium_by_food(answer: Answer) -> Iterator[tuple[float, float]]:
    """Confidence and mg of each food of each line; a line's own `sodium_mg` has its further foods in it."""
    for each in answer.get("ingredients", ()):
        parts = [(part["confidence"], part.get("sodium_mg") or 0.0) for part in each.get("parts", ())]
        yield each["confidence"], (each.get("sodium_mg") or 0.0) - sum(mg for _, mg in parts)
        yield from parts


def _is_near(claim: Mapping[str, Any]) -> bool:
    """Whether a claim is all but met or all but missed: its figure at the limit, or its range across it."""
    amount, limit = claim.get("amount_mg"), claim.get("limit_mg")
    if not amount or not limit or claim.get("sort") != "claim":
        return False
    return abs(amount["likely"] - limit) <= NEAR * limit or claim.get("met_at_likely") != claim.get(
        "met_at_high"
    )
