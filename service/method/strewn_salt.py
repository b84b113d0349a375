"""Salt that is strewn on food to draw its juice or to cure it, where the recipe does not say how much."""

from __future__ import annotations

from .happenings import PROTEINS, Happening
from .layout import names_of
from .left_to_the_cook import food_grams, grams_roughly
from .questions import Doubts
from .reading_state import ReadingState

_SHARES = {"little": (0.01, 0.01), "usual": (0.01, 0.03), "well": (0.04, 0.04)}
"""Salt in weights of the food that it is strewn on, from and to; common practice, no source."""
_RESTS = {"little": (0.004, 0.004), "usual": (0.005, 0.012), "well": (0.02, 0.02)}
"""The same of meat and fish that is seasoned to lie so and is not rinsed; common practice, no source."""
_SEASONS = {True: (0.004, 0.009), False: (0.002, 0.005)}
"""The same of meat and fish, and of other food, that is only seasoned with it; common practice, no source."""


_COATS = (0.08, 0.2)
"""Flour or crumbs in weights of the food that is turned in them, from and to; common practice, no source."""
_LEAST_COATING_G = 40.0


def by_food(state: ReadingState, doubts: Doubts, happening: Happening, line: int, component: str) -> str:
    """What is put for a line without an amount by the weight of the food that lies in it: salt that is strewn
    on, flour and salt that food is turned in; "" for any other line."""
    if is_strewn(state, happening, line):
        return strewn(state, doubts, happening, component)
    listed = state.lines[line]
    if happening.kind != "dredge" or listed.line.amount is not None or not grams_known(happening, state):
        return ""
    grams = food_grams(happening, state)
    if listed.kind == "flour" and not listed.line.joined:
        low, high = (max(share * grams, _LEAST_COATING_G * share / _COATS[0]) for share in _COATS)
        return f"{low:.0f} to {high:.0f} g {listed.line.food_words or listed.text}"
    if listed.kind == "salt" and state.spoken.get(line, 0) <= 1:
        low, high = (share * grams for share in _SEASONS[True])
        return f"{low:.2g} to {high:.2g} g salt"
    return ""


def grams_known(happening: Happening, state: ReadingState) -> bool:
    """Whether the list weighs the food of a step."""
    return any(grams_roughly(state.lines[n]) for n in happening.foods)


def is_strewn(state: ReadingState, happening: Happening, line: int) -> bool:
    """Whether a line is of such salt."""
    listed = state.lines[line]
    return happening.kind == "dry_cure" and listed.kind == "salt" and listed.line.amount is None


def strewn(state: ReadingState, doubts: Doubts, happening: Happening, component: str) -> str:
    """The line of as much salt as is usual for the weight of the food, or as a person says."""
    rests = happening.clause.base == "season" and set(map(state.kind, happening.foods)) <= PROTEINS
    shares = _RESTS if rests and happening.eaten != 0.0 else _SHARES
    told = {name: [100 * share for share in ends] for name, ends in shares.items()}
    food = names_of(state.lines, happening.foods)
    taken = doubts.ask("strewn", happening.clause.sentence, "usual", component, food=food, **told)
    low, high = (share * food_grams(happening, state) for share in shares[taken])
    return f"{low:.2g} g salt" if low == high else f"{low:.2g} to {high:.2g} g salt"


def seasoning_of(state: ReadingState, doubts: Doubts, salt: int, component: str) -> str:
    """The line of what seasons food, of salt that the method measures elsewhere and not here; "" for none."""
    lain = {n for h in state.happened if salt in h.liquid for n in h.foods}
    foods = sorted(state.strewn.get(salt, set()) - lain)
    known = [(n, grams) for n in foods if (grams := grams_roughly(state.lines[n]))]
    shares = ((_SEASONS[state.kind(n) in PROTEINS], grams) for n, grams in known)
    ends = [(low * grams, high * grams) for (low, high), grams in shares]
    low, high = sum(each[0] for each in ends), sum(each[1] for each in ends)
    if not known:
        return ""
    food = names_of(state.lines, dict(known))
    taken = doubts.ask("seasons", state.lines[salt].text, "usual", component, food=food, well=2 * high)
    if taken == "none":
        return ""
    return f"{low:.2g} to {high:.2g} g salt" if taken == "usual" else f"{2 * high:.2g} g salt"
