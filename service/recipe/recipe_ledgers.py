"""What an answer tells of the recipes that a recipe is made of: a ledger that goes down into each part."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from ..core.documents import figure, figures
from ..core.spread import Draws, ends, stacked
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
        "sodium": milligrams([outcome.eaten[SODIUM] * share])[0],
        "ledger": ledger(outcome, share),
        "fates": fates(outcome, share),
        "recipes": recipes_document(outcome.listed, share),
    }


def ledger(outcome: Outcome, share: Draws | float = 1.0) -> list[dict[str, Any]]:
    """Every movement of sodium, in mg."""
    movements = outcome.state.pools.ledger
    told = milligrams([each.sodium_mg * share for each in movements])
    return [
        {"from": each.source, "to": each.target, "step": each.step, **amounts}
        for each, amounts in zip(movements, told, strict=True)
    ]


def fates(outcome: Outcome, share: Draws | float = 1.0) -> dict[str, Any]:
    """Where all sodium ended, in mg."""
    held = outcome.state.pools.leading
    reached = [place for place in PLACES if held[place][SODIUM].any()]
    told = milligrams([held[place][SODIUM] * share for place in reached])
    return {
        "eaten_mg": figure((held["eaten"][SODIUM] * share).item(0)),
        "discarded_mg": figure((outcome.sodium_discarded_mg() * share).item(0)),
        "places": [{"place": place, **amounts} for place, amounts in zip(reached, told, strict=True)],
    }


def milligrams(amounts: Sequence[Draws]) -> list[dict[str, float]]:
    """{mg, low, high} of each of some amounts, every draw of which is given."""
    if not amounts:
        return []
    told = figures(ends(stacked(amounts))).tolist()
    return [{"mg": likely, "low": low, "high": high} for low, likely, high in told]
