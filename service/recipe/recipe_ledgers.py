"""What an answer tells of the recipes that a recipe is made of: a ledger that goes down into each part."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from ..core.documents import figure
from ..core.spread import Draws, summarise
from .outcome import Outcome, ResolvedIngredient
from .pool_rows import SODIUM
from .request import PLACES
from .sodium_total import sodium_total
from .sub_recipes import Portion, portions


def recipes_document(
    listed: Sequence[ResolvedIngredient], share: Draws | float = 1.0
) -> list[dict[str, Any]]:
    """Every ingredient that is a portion of a recipe, with the sodium of that portion followed from its own
    list to what is brought, and the recipes that it is made of in turn. Amounts are of the portion.

    share: of what is listed, the share that counts, likely first.
    """
    return [
        _portion(each, portion, share * portion.share(grams)) for each, portion, grams in portions(listed)
    ]


def _portion(listed: ResolvedIngredient, portion: Portion, share: Draws | float) -> dict[str, Any]:
    outcome = portion.outcome
    likely = float(share if isinstance(share, float) else share[0])
    return {
        "pointer": listed.pointer,
        "key": portion.of.key,
        "title": portion.of.title,
        "version": portion.of.version,
        "save_id": portion.of.save_id,
        "fraction": figure(likely),
        "servings": figure(likely * outcome.request.servings),
        "complete": sodium_total(outcome).complete,
        "sodium": milligrams(outcome.eaten[SODIUM] * share),
        "ledger": ledger(outcome, share),
        "fates": fates(outcome, share),
        "recipes": recipes_document(outcome.listed, share),
    }


def ledger(outcome: Outcome, share: Draws | float = 1.0) -> list[dict[str, Any]]:
    """Every movement of sodium, in mg."""
    return [
        {
            "from": each.source,
            "to": each.target,
            "step": each.step,
            **milligrams(each.sodium_mg * share),
        }
        for each in outcome.state.pools.ledger
    ]


def fates(outcome: Outcome, share: Draws | float = 1.0) -> dict[str, Any]:
    """Where all sodium ended, in mg."""
    held = outcome.state.pools.leading
    discarded = summarise(outcome.sodium_discarded_mg() * share)
    return {
        "eaten_mg": milligrams(held["eaten"][SODIUM] * share)["mg"],
        "discarded_mg": figure(discarded.likely),
        "places": [
            {"place": place, **milligrams(held[place][SODIUM] * share)}
            for place in PLACES
            if held[place][SODIUM].any()
        ],
    }


def milligrams(draws: Draws) -> dict[str, float]:
    """{mg, low, high} of an amount in every draw."""
    spread = summarise(draws)
    return {"mg": figure(spread.likely), "low": figure(spread.low), "high": figure(spread.high)}
