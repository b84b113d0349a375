"""Whether a clause of draining or taking out is about food and its liquid, and not about fat or a lid."""

from __future__ import annotations

from .clauses import Clause
from .happenings import Happening
from .reading_state import HOT, ReadingState

_FAT = frozenset({"fat", "oil", "grease", "drippings"})


def about_fat(clause: Clause) -> bool:
    """ "Drain off the fat"; not "drain, then dress with the oil"."""
    if not clause.has(*_FAT) or clause.has("water", "brine", "marinade", "pasta"):
        return False
    words = [token.text for token in clause.tokens]
    at = next(i for i, word in enumerate(words) if word in _FAT)
    return {"with", "dress", "toss"}.isdisjoint(words[:at])


def on_paper(clause: Clause) -> bool:
    """ "Drain on kitchen paper": fat drips off what was fried, and no liquid is poured away."""
    return clause.act == "drain" and clause.has("paper", "towel", "towels", "rack", "newspaper")


_SCOOPS = ("ladle", "ladleful", "ladlefuls", "cupful", "cupfuls", "cup", "cups")
_PARTS = ("half", "third", "quarter", "few", "some", "ladle", "ladleful", "ladlefuls", "cup", "cupful")


def takes_out(state: ReadingState, clause: Clause, found: Happening) -> bool:
    """ "Remove the pork from the brine", "lift out with a slotted spoon"; not "remove from the heat"."""
    if "line" not in clause.speaks and clause.has(*_PARTS) and not clause.has("water", "brine"):
        return False  # "take out a third and blend it", of a soup
    if clause.has(*_SCOOPS) and not clause.has("water", "brine", "out"):
        return False  # "take two ladlefuls of the beans"
    if clause.has(
        "heat",
        "oven",
        "grill",
        "stove",
        "hob",
        "lid",
        "foil",
        "bone",
        "bones",
        "skin",
        "seeds",
        "refrigerator",
        "fridge",
    ) and not clause.has("brine", "marinade", "water", "liquid", "cure", "slotted"):
        return False
    if found.kind in HOT and found.extra:
        return clause.has("water")
    solids = state.solids(clause)
    said = clause.has("brine", "marinade", "water", "liquid", "cure", "bag", "fridge")
    about = set(solids or state.last_foods)
    if not said and about and not about & set(found.foods):
        return False
    if found.kind in HOT and solids and set(found.foods) - set(solids) and not clause.has("water"):
        return False
    if found.kind in HOT:
        return clause.has("water", "slotted", "pot", "out", "ice", "skimmer", "tongs") or bool(solids)
    return True
