"""How much of a thick marinade, of yogurt or a paste, goes along with food that is lifted out of it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from .clauses import Clause
from .happenings import WET, Happening
from .layout import Component, Step
from .left_to_the_cook import food_grams, grams_roughly
from .method_words import phrasing, small_words
from .reading_state import ReadingState

_THICK = small_words("thick")
_FLOWS = WET - {"oil"}
_SPOONFUL_G = 15.0
"""What a line weighs that does not say so, g."""
_MOSTLY = 0.5
"""Of what is wet in a marinade, the share by weight from which on what is thick makes it thick."""
_IN_PASTE = 0.2
"""Liquid, in weights of the food, above which what was blended runs off as a liquid does."""
_TO_A_PASTE = phrasing("to_a_paste")
_WORDS = (
    ("most", phrasing("left_on_food")),
    ("little", phrasing("mostly_off")),
    ("", phrasing("wiped_clean")),
)
"""Turns of phrase of how much is left on, and the choice of the question "clinging", in the order tried."""
_BEFORE, _BEHIND = 2, 3
"""Paragraphs from that of a marinade in which it may be made, and in which food leaves it."""


def clinging(state: ReadingState, marinade: Happening, clauses: Sequence[Clause]) -> str:
    """How much of a marinade that food has left clings to it: a choice of the question "clinging" of
    method_questions.csv. Empty where it is thin, or rinsed or wiped off clean."""
    if marinade.rinsed or not (_is_thick(state, marinade) or _is_paste(state, marinade, clauses)):
        return ""
    told = " ".join(_sentences(clauses, marinade.clause.method, marinade.clause.method + _BEHIND))
    return next((choice for choice, words in _WORDS if words.search(told)), "clings")


def _sentences(clauses: Sequence[Clause], first: int, last: int) -> Iterator[str]:
    return (c.sentence for c in clauses if first <= c.method <= last)


def _is_thick(state: ReadingState, marinade: Happening) -> bool:
    """Whether most of what is wet in it is yogurt, mustard, miso or the like."""
    wet = {
        n: share * (grams_roughly(state.lines[n]) or _SPOONFUL_G)
        for n, share in marinade.liquid.items()
        if state.kind(n) in _FLOWS
    }
    thick = sum(grams for n, grams in wet.items() if not _THICK.isdisjoint(state.lines[n].words))
    return thick > 0 and thick >= _MOSTLY * sum(wet.values())


def _is_paste(state: ReadingState, marinade: Happening, clauses: Sequence[Clause]) -> bool:
    """Whether it was ground or blended to a paste, with no more liquid than a paste holds."""
    at = marinade.clause.method
    if not any(map(_TO_A_PASTE.search, _sentences(clauses, at - _BEFORE, at))):
        return False
    wet = (n for n in marinade.liquid if state.kind(n) in _FLOWS)
    wet_g = sum(grams_roughly(state.lines[n]) or _SPOONFUL_G for n in wet)
    return wet_g <= _IN_PASTE * food_grams(marinade, state)


_DRY_HEAT = frozenset({"roast", "smoke"})


def roast_what_clings(clinging: Iterable[Component], steps: Sequence[Step]) -> None:
    """Let what clings of a thick marinade be roasted or grilled with its food: none of it is eaten raw."""
    for bath in (each for each in clinging if each.eaten):
        bodies = [step.body for step in steps]
        at = next(i for i, body in enumerate(bodies) if body.get("bath") == bath.id)
        lain = set(_foods(bodies[at]))
        later = (body for body in bodies[at + 1 :] if body["kind"] in _DRY_HEAT and lain & set(_foods(body)))
        if (body := next(later, None)) is not None:
            body["food"] = [*_foods(body), bath.id]


def _foods(body: Mapping[str, Any]) -> Sequence[str]:
    food: str | list[str] = body["food"]
    return [food] if isinstance(food, str) else food
