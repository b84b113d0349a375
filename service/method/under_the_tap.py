"""Food under a running tap, or under a kettle: how that is said, and that what was boiled is rinsed so."""

from __future__ import annotations

import re

from .beforehand import BOILED_FOODS
from .clauses import Clause
from .reading_state import HOT, ReadingState

TAP = re.compile(
    r"\b(?:run|pour|tip)\b[^,.;]{0,30}\bwater (?:over|through)\b|\b(?:tap|water) runs? over\b"
    r"|\brun (?:the |a )?(?:cold )?tap over\b"
    r"|\b(?:dunk|dip|swish|plunge)\w*\b.{0,30}\bin (?:fresh|clean|cold|clear) water"
    r"|\b(?:under|through) (?:the )?(?:cold|fresh|clean) (?:water|tap)\b"
    r"|\b(?:under|beneath|in|through|with) (?:a |the |cold |running |gently |trickling |dripping )*"
    r"(?:running (?:cold )?(?:water|tap)|tap)\b"
    r"|\b(?:in|with) (?:\w+ )?(?:cold |fresh |clean )*water to (?:wash|rinse|remove|clean|take|get)\b"
    r"|\b(?:remove|take|clean|get)\b.{0,30}\b(?:salt|cure|rub|paste|mixture)\b.{0,15}\bwith "
    r"(?:\w+ )?(?:cold |fresh |clean )*water\b"
    r"|\b(?:clean|freshen)\b.{0,40}\bwith (?:cold |fresh |clean )*water\b",
    re.IGNORECASE,
)
THROUGH_IT = re.compile(r"\bwater (?:over|through) (?:it|them|this|all)\b", re.IGNORECASE)


def pot_under_the_tap(state: ReadingState, clause: Clause) -> bool:
    """ "Tip into a colander and run the cold tap over it", "pour a kettle of hot water through it": what was
    boiled last is rinsed."""
    pot = state.happened[-1] if state.happened else None
    if pot is None or pot.kind not in HOT or not pot.heated:
        return False
    if not (pot.drained or clause.has("tap", "running", "run", "through")):
        return False
    named = state.solids(clause).keys()
    if not {*map(state.kind, pot.foods)} <= BOILED_FOODS | {"salty"} or not named <= pot.foods.keys():
        return False
    state.pour_off(pot)
    pot.rinsing = pot.rinsing or clause
    return True
