"""What comes to food that stands under salt: the rest of the salt, water, ice, or what is put in its jar."""

from __future__ import annotations

from .clauses import Clause
from .happenings import DRY, PROTEINS, SALTING, WET, Happening, Water
from .left_to_the_cook import salty_paste
from .method_words import phrasing, small_words
from .quick_pickles import drowns
from .reading_state import ReadingState
from .salt_on_food import PLANTS, is_of
from .waters import is_hot, water_said

_LAYS = small_words("lays_salt")
_RESTS = small_words("rest")
_INTO_JARS = frozenset({"press", "pack", "cover", "top", "tuck"})
_FILLS = frozenset({"pack", "fill", "ladle", "spoon", "transfer", "divide", "put", "pour", "place"})
JARS = frozenset({"jar", "jars", "bottle", "bottles", "crock"})
_TOPS_UP = phrasing("tops_up")
_EATEN_WHOLE = ("relish", "chutney", "piccalilli", "salsa", "sauce")


def join_pending(state: ReadingState, clause: Clause, pending: Happening) -> bool:
    """ "Press into a jar with the cinnamon, cover with the juice": what comes to salted food in its jar."""
    if pending.kind != "dry_cure" and _goes_into_bath(state, clause, pending):
        return True
    if state.solids(clause, direct=True).keys() - pending.foods.keys():
        return False
    if _weighs_down(clause):
        return True
    if pending.kind != "dry_cure":
        return False
    if clause.base in _LAYS and not _RESTS.isdisjoint(clause.words) and not state.lines_of(clause):
        pending.liquid = dict.fromkeys(pending.liquid, 1.0)  # "cover with the rest"
        pending.take_time(clause)
        return True
    if (
        clause.base in ("fill", "cover", "top", "pour", "add")
        and state.water_of(clause) is not None
        and not clause.has("from", "off")
        and (not state.last_foods or not pending.foods.keys().isdisjoint(state.last_foods))
    ):
        return bool(_TOPS_UP.search(clause.sentence)) or _drowned(state, clause, pending)
    if _gets_liquid(state, clause, pending):
        return True
    in_jar = set(map(state.kind, pending.foods)) <= {"fruit", "vegetable"} and clause.base in _INTO_JARS
    if not in_jar and clause.base not in ("scatter", "strew", "top", "tuck"):
        return False
    more = state.lines_of(clause, ("acid", "spice", "herb", "aromatic", "salt"))
    pending.liquid |= {n: s for n, s in more.items() if n not in pending.foods and n not in pending.liquid}
    return bool(more)


def _goes_into_bath(state: ReadingState, clause: Clause, pending: Happening) -> bool:
    """ "Cover the meat with wine, add the salt and an onion": salt that joins what was poured over food."""
    if pending.hours is not None or clause.base not in _JOINS or clause.method != pending.clause.method:
        return False
    said = state.lines_of(clause)
    if clause.base == "salt" and not said and not clause.has("water"):
        said = dict.fromkeys(state.index.of_kinds("salt"), 1.0)  # "cover with the lime juice; salt it"
    more = {n: s for n, s in said.items() if n not in pending.foods}
    kinds = set(map(state.kind, more))
    if kinds.isdisjoint(SALTING) or not kinds <= _IN_BATHS or clause.vessel() == "pot":
        return False
    if not (is_of(state, pending, PROTEINS) or "acid" in map(state.kind, pending.liquid)):
        return False
    pending.liquid |= more
    pending.take_time(clause)
    return True


_JOINS = frozenset({"add", "stir", "scatter", "strew", "sprinkle", "mix", "salt"})
_IN_BATHS = WET | DRY | {"vegetable", "fruit"}
_LIQUIDS = ("acid", "savoury", "milk", "wine")


def _gets_liquid(state: ReadingState, clause: Clause, pending: Happening) -> bool:
    """ "Rub with salt and chilli, then add the lemon and the vinegar": what waits under salt is marinated."""
    if pending.hours is not None or clause.act not in ("put", "mix") or clause.vessel():
        return False
    if not pending.foods.keys() <= state.last_spoken.keys():
        return False  # flour and salt, of a list with fish
    wet = state.lines_of(clause, _LIQUIDS)
    if is_of(state, pending, PLANTS) and not drowns(state, clause):
        return False
    if not wet or not set(map(state.kind, pending.foods)) <= PROTEINS | PLANTS or state.latest(("dry_cure",)):
        return False
    more = state.lines_of(clause, (*_LIQUIDS, "oil", "spice", "herb", "aromatic", "fruit", "sweet"))
    pending.liquid |= {n: s for n, s in more.items() if n not in pending.foods}
    pending.kind = "dry_cure" if salty_paste(state, pending.liquid) else "marinate"
    return True


def _weighs_down(clause: Clause) -> bool:
    """ "Put a plate on top of the cabbage": nothing comes to the food that lies under it."""
    if clause.act != "put" or _WEIGHTS.isdisjoint(clause.words):
        return False
    words = [token.text for token in clause.tokens]
    upon = next((i for i, word in enumerate(words) if word in _UPON), len(words))
    return not _WEIGHTS.isdisjoint(words[:upon]) and all(m.i > upon for m in clause.mentions if m.lines)


_WEIGHTS = frozenset({"plate", "saucer", "weight", "weights", "lid", "board", "stone", "brick"})
_UPON = frozenset({"on", "onto", "over", "atop", "upon", "against"})


def packed_hot(state: ReadingState, clause: Clause) -> bool:
    """ "Add the drained cucumbers to the hot vinegar, pack in jars": they stand in it from then on."""
    pending = state.pending
    if (
        pending is None
        or pending.kind != "brine"
        or clause.base not in _FILLS
        or JARS.isdisjoint(clause.words)
    ):
        return False
    if not set(map(state.kind, pending.foods)) <= {"fruit", "vegetable"} or clause.has(*_EATEN_WHOLE):
        return False
    sour = "acid" in map(state.kind, pending.liquid)
    return sour and state.latest(("dry_cure", "brine"), pending.foods) is not None


def _drowned(state: ReadingState, clause: Clause, pending: Happening) -> bool:
    """ "Add the salt and fill up with water": what lay under salt lies in brine."""
    if clause.has("ice", "cubes"):
        state.thrown_out |= dict.fromkeys(state.lines_of(clause, ("water",)), state.turn)
        return True
    if clause.vessel() == "pot" or is_hot(clause):
        return False
    pending.kind = "brine"
    pending.liquid |= {n: s for n, s in state.lines_of(clause, ("water",)).items() if n not in pending.foods}
    if "water" not in map(state.kind, pending.liquid):
        pending.water = pending.water or Water(amount=water_said(clause))
    pending.take_time(clause)
    return True
