"""Amounts that follow from others in an answer: kJ, salt, available carbohydrate, added sugars; and energy.

Each says how it was derived. What cannot be worked out is left out, never 0.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from ..core.documents import figure
from ..foods.food import Food
from ..nutrition import energy
from ..nutrition.added_sugars import SOURCE, AddedSugars, Sweet, added_sugars
from .outcome import Outcome, ResolvedIngredient
from .sodium_origins import sugar_eaten_g

Entries = Mapping[str, Mapping[str, Any]]

_IN_KJ = "energy in kcal times 4.184"
_AS_SALT = "all sodium times 2.5: Regulation (EU) No 1169/2011, Annex I"
_WITHOUT_FIBRE = "carbohydrate by difference without fibre, at least 0"


def derived_entries(
    entries: Entries, available_g: Sequence[float], added_share: float | None
) -> dict[str, dict[str, Any]]:
    """What follows from the nutrients of an answer, by tag, each with `derived`: how.

    entries: nutrients as in the answer. available_g: low, likely and high of carbohydrate without fibre.
    added_share: of the sugars, the share (0 to 1) that was added, None where not known.
    """
    found = {}
    if "ENERC" in entries:
        found["ENERC_KJ"] = _times(entries["ENERC"], energy.KJ_PER_KCAL, "kJ", _IN_KJ)
    if "CHOCDF" in entries and "FIBTG" in entries:
        coverage = min(entries["CHOCDF"]["coverage"], entries["FIBTG"]["coverage"])
        found["CHOAVL"] = _entry(available_g, "g", coverage, _WITHOUT_FIBRE)
    if "NA" in entries:
        found["SALT"] = _times(entries["NA"], energy.salt_g(1.0), "g", _AS_SALT)
    if "SUGAR" in entries and added_share is not None:
        found["ADDED_SUGARS"] = _times(entries["SUGAR"], added_share, "g", SOURCE)
    return found


def _times(entry: Mapping[str, Any], factor: float, unit: str, how: str) -> dict[str, Any]:
    span = [entry[key] * factor for key in ("low", "amount", "high")]
    return _entry(span, unit, entry["coverage"], how)


def _entry(span: Sequence[float], unit: str, coverage: float, how: str) -> dict[str, Any]:
    low, likely, high = span
    return {
        "amount": figure(likely),
        "unit": unit,
        "low": figure(low),
        "high": figure(high),
        "coverage": coverage,
        "derived": how,
    }


def energy_document(outcome: Outcome, per_serving: Mapping[str, float]) -> dict[str, Any]:
    """The energy of a serving by three sets of factors, and which of them the nutrient ENERC rests on.

    per_serving: likely amounts by tag. A set is null where one of its nutrients is not known.
    """
    kcal = per_serving.get("ENERC")
    as_dataset = None if kcal is None else energy.Energy(kcal, kcal * energy.KJ_PER_KCAL)
    share = _specific_share(outcome.listed)
    return {
        "per_serving": {
            "as_dataset": _energy(as_dataset),
            "atwater_general": _energy(energy.energy_by("atwater_general", per_serving)),
            "eu": _energy(energy.energy_by("eu", per_serving)),
        },
        "specific_share": None if share is None else figure(share),
        "basis": _basis(share),
    }


def _energy(found: energy.Energy | None) -> dict[str, float] | None:
    return None if found is None else {"kcal": figure(found.kcal), "kj": figure(found.kj)}


def _specific_share(listed: Sequence[ResolvedIngredient]) -> float | None:
    """Share (0 to 1) of the listed energy that stands on factors of the food itself; None without energy."""
    whole = specific = 0.0
    for each in listed:
        food = each.ingredient.food
        if food is None:
            continue
        kcal = (food.per_100g("ENERC") or 0.0) * each.grams
        factors = (food.protein_kcal_g, food.fat_kcal_g, food.carbohydrate_kcal_g)
        whole += kcal
        specific += 0.0 if None in factors else kcal
    return specific / whole if whole > 0 else None


def _basis(share: float | None) -> str:
    if share is None:
        return "No line tells its energy."
    return (
        "The nutrient ENERC, and as_dataset, are the dataset's own energy, less what fat, juice and alcohol "
        f"carried off: by the specific factors of each food for {round(100 * share)} % of the energy listed, "
        "else as the dataset or the caller states it. atwater_general is by 4, 4, 9 and 7 kcal/g of protein, "
        "carbohydrate by difference, fat and alcohol; eu by the factors of Regulation (EU) No 1169/2011, "
        "Annex XIV, with carbohydrate without fibre and fibre by itself."
    )


def added_share(outcome: Outcome) -> float | None:
    """Of the sugars that are eaten, the share (0 to 1) that was added; None where the lines do not tell."""
    if not all(each.ingredient.food for each in outcome.listed):
        return None
    added = _added(outcome)
    return added.of_all if added.is_known else None


def _added(outcome: Outcome) -> AddedSugars:
    """By what is eaten of each line where added sugars and others go different ways, else by what it
    lists."""
    eaten_g = sugar_eaten_g(outcome) if _sugars_part_ways(outcome) else None
    sweets = []
    for i, each in enumerate(outcome.listed):
        food = each.ingredient.food
        if food is not None:
            known = food.per_100g("SUGAR")
            listed_g = None if known is None else known * each.grams / 100
            sugar_g = eaten_g[i] if eaten_g is not None and listed_g is not None else listed_g
            sweets.append(_sweet(food, sugar_g))
    return added_sugars(sweets)


def _sweet(food: Food, sugar_g: float | None) -> Sweet:
    if food.sugars is None:
        return Sweet(food.name, food.group_code, sugar_g)
    sugar, added = food.per_100g("SUGAR"), food.sugars.added_g
    share = 0.0 if sugar == 0 else None if sugar is None or added is None else min(added / sugar, 1.0)
    return Sweet(food.name, food.group_code, sugar_g, is_stated=True, added_share=share)


def _sugars_part_ways(outcome: Outcome) -> bool:
    """Whether added sugars and others may have different ways, so that only their movements tell them
    apart."""
    request, listed = outcome.request, outcome.listed
    is_parted = bool(request.steps) or any(each.eaten_fraction is not None for each in request.components)
    if not is_parted and all(each.ingredient.eaten_fraction is None for each in listed):
        return False
    foods = [food for each in listed if (food := each.ingredient.food)]
    return any(_sweet(food, None).added != "none" for food in foods)
