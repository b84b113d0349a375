"""Whether the water of a pot is poured away, as the method says or as nobody needs to say."""

from __future__ import annotations

from .happenings import POURED_WITHOUT_WORD, PROTEINS, SOLIDS, Happening
from .kitchen import Kitchen


def _cured_before(pot: Happening, kitchen: Kitchen) -> bool:
    """Whether the food of a pot was salted before: what draws its salt is poured away, but in a soup."""
    salted = {
        n for each in kitchen.happened if each.kind in ("brine", "dry_cure", "soak") for n in each.foods
    }
    meats = {n for n in pot.foods if kitchen.kind(n) in PROTEINS}
    return bool(meats & salted) and not kitchen.is_soup


def pot_is_poured(pot: Happening, kitchen: Kitchen) -> bool:
    """Whether a pot's water is poured away, as the method says or as nobody needs to say."""
    if pot.drained:
        return True
    if pot.extra or pot.absorbed:
        return False
    if pot.water is not None and _cured_before(pot, kitchen):
        return True
    kinds = {kitchen.kind(line) for line in pot.foods}
    if pot.eaten is not None and pot.eaten > 0.5:
        return False
    if pot.water is None:
        # Water that the list counts out is meant to stay, but for pasta and eggs.
        return bool(kinds & {"pasta", "egg"}) and len(pot.foods) == 1
    return bool(kinds & POURED_WITHOUT_WORD) and kinds <= (
        POURED_WITHOUT_WORD | {"salty"} | SOLIDS - PROTEINS - {"grain"}
    )
