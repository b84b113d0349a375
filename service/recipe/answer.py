"""The answer to a recipe: what the kitchen ended with, put in the words of the contract."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Collection, Iterator, Sequence
from functools import cached_property
from itertools import groupby
from typing import Any

from .. import __version__
from ..core.assumptions import rows_in_force
from ..core.documents import assumption_documents, figure, notice_document, range_document, rounded
from ..core.notices import STATED
from ..core.spread import Spread
from ..core.tables import tables_sha256
from ..nutrition.dietary_references import percent_of, sodium_references
from ..units.nutrient_amounts import in_own_unit
from .derived import added_share, energy_document
from .evidence_backing import evidence_document
from .explaining import explanation
from .ingredients import ingredient_document
from .measurement_advice import remedy
from .nutrient_entries import Entries, nutrient_entries
from .outcome import Outcome, ResolvedIngredient
from .plausibility import Plausible, plausible
from .recipe_ledgers import fates, ledger, recipes_document
from .sodium_origins import SodiumOrigins, sodium_origins
from .sodium_total import SodiumTotal, sodium_total
from .sub_recipes import portions
from .views import allergens, claims, label

ALWAYS = ("id", "title", "servings", "portion_g", "dataset", "sources", "tables", "notices")
"""What stands in every answer: which recipe it is of, what it rests on, and what its reader should know."""

PARTS = (
    "per_serving",
    "per_100g",
    "energy",
    "sodium",
    "label",
    "explanation",
    "allergens",
    "ingredients",
    "recipes",
    "assumptions",
    "mirror",
)
"""What may be asked for by itself."""


def answer_document(
    outcome: Outcome,
    *,
    scheme: str | None = None,
    explained: Sequence[str] = (),
    parts: Collection[str] = PARTS,
    open_mg: float = 0.0,
) -> dict[str, Any]:
    """The contract's answer, with the label view of a scheme ("fda", "eu", "uk") and the chains of nutrients
    (`explained`, by tag) where they are asked for. parts: what of PARTS is wanted; nothing else is made.
    open_mg: sodium a serving that open questions about the method may add, on which no claim is granted.
    """
    of, portion_g = _Parts(outcome), outcome.request.portion_g
    made: dict[str, Callable[[], Any]] = {
        "id": lambda: identity(outcome),
        "title": lambda: outcome.request.title,
        "servings": lambda: figure(outcome.request.servings),
        **({"portion_g": lambda: figure(portion_g)} if portion_g is not None else {}),
        "dataset": lambda: dict(outcome.sources[0]),
        "sources": lambda: [dict(source) for source in outcome.sources],
        "tables": lambda: {"sha256": tables_sha256()},
        "per_serving": lambda: {
            "weight_g": figure(outcome.serving_weight_g),
            "nutrients": of.nutrients[0],
        },
        "per_100g": lambda: {"nutrients": of.nutrients[1]},
        "energy": lambda: energy_document(outcome, of.likely),
        "sodium": lambda: _sodium(outcome, of.total, of.origins, open_mg),
        **({"label": lambda: rounded(label(outcome, scheme))} if scheme else {}),
        **({"explanation": lambda: explanation(outcome, explained)} if explained else {}),
        "allergens": lambda: allergens(outcome),
        "ingredients": lambda: [
            _line(list(foods), eaten_mg) for foods, eaten_mg in _by_line(outcome.listed, of.origins.eaten_mg)
        ],
        **({"recipes": lambda: recipes_document(outcome.listed)} if any(portions(outcome.listed)) else {}),
        "assumptions": lambda: assumption_documents(outcome.state.log),
        "mirror": lambda: of.plausible.mirror,
        "notices": lambda: [notice_document(each) for each in (*of.plausible.notices, *outcome.notices)],
    }
    return {name: make() for name, make in made.items() if name in ALWAYS or name in parts}


class _Parts:
    """What several parts of an answer rest on, each made once, when it is first asked for."""

    def __init__(self, outcome: Outcome) -> None:
        self._outcome = outcome

    @cached_property
    def total(self) -> SodiumTotal:
        return sodium_total(self._outcome)

    @cached_property
    def plausible(self) -> Plausible:
        return plausible(self._outcome)

    @cached_property
    def origins(self) -> SodiumOrigins:
        return sodium_origins(self._outcome)

    @cached_property
    def nutrients(self) -> tuple[Entries, Entries]:
        """Of a serving, and of 100 g."""
        return nutrient_entries(self._outcome, added_share(self._outcome), self.total)

    @property
    def likely(self) -> dict[str, float]:
        """Likely amounts in a serving, by tag."""
        return {tag: entry["amount"] for tag, entry in self.nutrients[0].items()}


def identity(outcome: Outcome) -> str:
    """A stable id: the same request to the same service, foods and tables always has the same."""
    asked = json.dumps(outcome.request.document, sort_keys=True, ensure_ascii=True, separators=(",", ":"))
    rests_on = (source["sha256"] for source in outcome.sources)
    local = rows_in_force()
    own = (local.identity,) if local is not None and local.identity else ()
    below = (identity(portion.outcome) for _, portion, _ in portions(outcome.listed))
    seed = "\n".join((__version__, *rests_on, tables_sha256(), asked, *own, *below))
    return "c" + hashlib.sha256(seed.encode()).hexdigest()[:31]


def _by_line(
    listed: Sequence[ResolvedIngredient], eaten_mg: Sequence[float]
) -> Iterator[tuple[list[ResolvedIngredient], float]]:
    """The foods of each line, and what of their sodium is eaten."""
    for _, pairs in groupby(zip(listed, eaten_mg, strict=True), lambda pair: pair[0].pointer):
        foods, eaten = zip(*pairs, strict=True)
        yield list(foods), sum(eaten)


def _line(foods: Sequence[ResolvedIngredient], eaten_mg: float) -> dict[str, Any]:
    """One line of the request: its first food, the sodium of all its foods, and the further ones as parts."""
    first = foods[0]
    known = [each.sodium_mg for each in foods if each.sodium_mg is not None]
    assumed = [each.assumed_mg.likely for each in foods if each.assumed_mg is not None]
    document = ingredient_document(first.ingredient)
    for part, listed in zip(document["parts"], foods[1:], strict=True):
        part["sodium_mg"] = None if listed.sodium_mg is None else figure(listed.sodium_mg)
    return {
        "component": first.component,
        **document,
        "eaten_fraction": first.ingredient.eaten_fraction,
        "sodium_mg": figure(sum(known)) if known else None,
        "assumed_mg": figure(sum(assumed)) if assumed else None,
        "eaten_mg": figure(eaten_mg) if known or assumed else None,
    }


def _sodium(outcome: Outcome, total: SodiumTotal, origins: SodiumOrigins, open_mg: float) -> dict[str, Any]:
    per_serving = total.per_serving_mg
    return {
        "per_serving_mg": range_document(per_serving),
        "complete": total.complete,
        "counted_per_serving_mg": figure(total.counted_mg),
        "uncounted": [gap.document() for gap in total.gaps],
        "as_listed_per_serving_mg": figure(outcome.sodium_as_listed_mg / outcome.request.servings),
        "references": _references(outcome, per_serving),
        "carried_by": _carried_by(outcome),
        "evidence": _evidence(outcome),
        "ledger": ledger(outcome),
        "fates": fates(outcome),
        "origins": [
            {"component": component, "place": place, "mg": figure(mg)}
            for component, place, mg in origins.by_component()
        ],
        "claims": claims(outcome, open_mg),
    }


def _references(outcome: Outcome, per_serving: Spread) -> list[dict[str, Any]]:
    return [
        {**reference, "percent": percent_of(per_serving.likely, reference["limit_mg"])}
        for reference in (*sodium_references(outcome.request.audience), *_own_limits(outcome))
    ]


def _own_limits(outcome: Outcome) -> list[dict[str, Any]]:
    return [
        {
            "id": limit["id"],
            "name": limit.get("label", limit["id"]),
            "kind": "own_limit",
            "limit_mg": in_own_unit("NA", limit["sodium_mg"]),
            "per": limit["per"],
            "source": STATED,
            "mark": "",
            "row": None,
            "checked_against": [],
            "note": "",
        }
        for limit in outcome.request.own_limits
    ]


def _carried_by(outcome: Outcome) -> list[dict[str, Any]]:
    """The assumptions that carry most of the range of sodium per serving, and what to measure instead."""
    return [
        {"assumption": assumption.id, "share": figure(share), "measure": remedy(assumption)}
        for assumption, share in outcome.shares_of_range[:3]
        if share >= 0.05
    ]


def _evidence(outcome: Outcome) -> dict[str, Any] | None:
    """How often measurements of the kind that carries the range lay inside theirs."""
    shares = outcome.shares_of_range
    return evidence_document(outcome.request, shares[0][0] if shares else None)
