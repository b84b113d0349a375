"""Salt that no line names, and salt of the list that is too much to be eaten."""

from __future__ import annotations

import re
from collections.abc import Container, Iterable

from .layout import DISH, Component, Layout
from .left_over import ASIDE
from .left_to_the_cook import grams_roughly
from .listed import ListedLine
from .questions import Choice, Doubts
from .reading_state import ReadingState
from .stakes import is_worth_asking, line_mg

_LEFT = "left-behind"
_PINCH = re.compile(r"\b(?:pinch|dash)", re.IGNORECASE)
_MOST_MG_PER_G = 7.0
"""Sodium of a gram of what is eaten, mg, above which a line is asked about: 1.8 % salt."""
_LEAST_MG = 1500.0
_SODIUM_OF_SALT = 390.0
_SALTY_WORDS = frozenset({"soy", "tamari", "shoyu", "fish", "nam", "miso", "oyster"})
_A_BRINE_ML, _BRINE = 500.0, 0.015
"""Water, g, and salt in weights of it, from which on the two make a brine."""
_UNWEIGHED_G = {
    "vegetable": 200.0,
    "potato": 200.0,
    "fruit": 150.0,
    "meat": 500.0,
    "poultry": 800.0,
    "fish": 500.0,
}
"""What is taken for food whose line gives no weight, g."""
_MOST_EATEN_G = 6.0
"""Salt of one line a serving, g, above which a reading asks if it is eaten; twice that is left behind."""
_MOST_OF_DISH = 0.04
"""The same as a share of the weight of the food, where the servings are not known."""
_OF_FAT_EATEN = 0.3
"""Of fat that food is kept in, the share that goes along with it; common practice, no source."""
_MOST_OF_FAT = 0.5
_SALTY_SAUCES = frozenset({"soy", "tamari", "shoyu"})
_MOST_SAUCE_G = 40.0


_LITTLE_TSP, _WELL_TSP = 0.125, 0.5
"""Salt for a serving that is salted little and well, teaspoons; common practice, no source."""
_SERVES = 4.0
"""Servings where the recipe does not say."""


_SPOONS = {0.125: "1/8 teaspoon", 0.25: "1/4 teaspoon", 0.5: "1/2 teaspoon", 1.0: "1 teaspoon"}


def _spoons(each_tsp: float, servings: float | None) -> str:
    """Salt for all servings, in spoons as cooks have them, and in halves from one on: "4 teaspoons"."""
    spoons = each_tsp * (servings or _SERVES)
    if spoons < 1.25:
        return _SPOONS[min(_SPOONS, key=lambda size: abs(size - spoons))]
    whole, half = divmod(round(2 * spoons), 2)
    return f"{whole} 1/2 teaspoons" if half else f"{whole} teaspoons"


def season(state: ReadingState, doubts: Doubts, dish: Component, servings: float | None = None) -> None:
    """Salt that only the method names goes into the dish: as said, or as cooks usually do."""
    amounts = [text for _, text in state.seasoned if text]
    for text in amounts:
        dish.add({"line": text}, None)
    vague = [clause for clause, text in state.seasoned if not text]
    if amounts and not all(_PINCH.search(text) for text in amounts):
        vague = [clause for clause in vague if clause.base in ("season", "salt") and not clause.has("more")]
    if vague and not any(line.kind == "salt" for line in state.index.lines):
        _to_taste(doubts, dish, vague[0].sentence, _spoons(_WELL_TSP, servings))


def _to_taste(doubts: Doubts, dish: Component, sentence: str, well: str) -> None:
    choices = (
        Choice("none", "No salt is added there."),
        Choice("usual", f"As cooks usually do, from a pinch to {well} in all."),
        Choice("well", f"Well: about {well} in all."),
    )
    message = "How much salt goes in where the method only says to season?"
    taken = doubts.settle("seasoning", sentence, message, choices, "usual", dish.id, "ingredients")
    if taken != "none":
        dish.add({"line": "salt, to taste" if taken == "usual" else f"{well} of salt"}, None)


def ask_how_much(
    state: ReadingState,
    doubts: Doubts,
    dish: Component,
    meant: Container[int],
    servings: float | None = None,
) -> None:
    """Ask how much salt goes in where the list names it with no amount, as it is all of the figure."""
    little, well = (_spoons(each, servings) for each in (_LITTLE_TSP, _WELL_TSP))
    for position, source in enumerate(dish.sources):
        line = state.lines.get(source) if source is not None else None
        if line is None or line.kind != "salt" or line.line.amount is not None or line.index in meant:
            continue
        choices = (
            Choice("usual", "As cooks usually do."),
            Choice("little", f"Little: about {little} in all."),
            Choice("well", f"Well: about {well} in all."),
        )
        message = f"How much is {line.text!r}? The list gives no amount."
        taken = doubts.settle("how-much", line.text, message, choices, "usual", dish.id, "ingredients")
        if taken != "usual":
            dish.ingredients[position] = {"line": f"{little if taken == 'little' else well} of salt"}
        return


def leave_behind(state: ReadingState, doubts: Doubts, layout: Layout, servings: float | None) -> None:
    """Put aside, and ask about, salt and soy sauce that no step takes and nobody could eat."""
    food_g = sum(
        grams_roughly(line) or 0.0
        for line in state.index.lines
        if line.kind not in ("salt", "water", "curing")
    )
    asked = {n for left in state.left_over if left.share == ASIDE for n in left.lines}
    for line in state.index.lines:
        if line.index in asked or layout.left(line.index) < 0.5 or line.kind not in ("salt", "savoury"):
            continue
        grams = grams_roughly(line) or 0.0
        excess = _excess(line.kind, set(line.words), grams, servings, food_g)
        if excess < 1.0 and not _too_salty(state, layout, line):
            continue
        choices = (
            Choice("left_behind", "It is left behind or poured away."),
            Choice("eaten", "It is eaten with the dish."),
            Choice("half", "About half of it is eaten."),
        )
        message = f"Is all of {line.text!r} eaten? No step says what becomes of it."
        likely = "left_behind" if excess >= 2.0 and line.kind == "salt" else "eaten"
        taken = doubts.settle("left", line.text, message, choices, likely, DISH, "ingredients")
        if taken != "eaten":
            aside = layout.components.get(_LEFT) or layout.new(_LEFT, "Left behind")
            aside.eaten = 0.0
            layout.place(aside, line.index, -1.0 if taken == "left_behind" else 0.5 * layout.left(line.index))


def leave_fat(state: ReadingState, layout: Layout) -> None:
    """Put aside the fat that food is kept or cooked in, of which only some is eaten."""
    for line in sorted(state.fats_left):
        if layout.left(line) > _MOST_OF_FAT:
            aside = layout.new("fat", "Fat that is left")
            aside.eaten = _OF_FAT_EATEN
            layout.place(aside, line, -1.0)


def _too_salty(state: ReadingState, layout: Layout, line: ListedLine) -> bool:
    """Whether a line makes the dish saltier than people eat, or makes a brine with the water of the list."""
    mg, index = line_mg(line), state.index
    sauce = line.kind == "savoury" and _SALTY_WORDS & set(line.words)
    if line.line.amount is None or mg < _LEAST_MG or not (sauce or line.kind == "salt"):
        return False
    poured = {
        n for c in layout.components.values() if c.eaten is not None and c.eaten < 1.0 for n in c.sources
    }
    eaten = [n for n in index.lines if n.index not in poured]
    water_g = sum(grams_roughly(n) or 0.0 for n in eaten if n.kind == "water")
    if line.kind == "salt" and water_g >= _A_BRINE_ML and not state.is_soup and not _is_dough(eaten):
        return mg >= _BRINE * water_g * _SODIUM_OF_SALT
    food_g = sum(grams_roughly(n) or _unweighed_g(n) for n in eaten)
    return mg > _MOST_MG_PER_G * food_g and is_worth_asking(state, mg)


def _unweighed_g(line: ListedLine) -> float:
    """What is taken for a line that gives no weight, g."""
    amount = line.line.amount
    return _UNWEIGHED_G.get(line.kind, 0.0) * (max(amount.likely, 1.0) if line.is_canned and amount else 1.0)


def _is_dough(lines: Iterable[ListedLine]) -> bool:
    return any(n.kind in ("flour", "grain", "legume", "pasta") for n in lines)


def _excess(kind: str, words: set[str], grams: float, servings: float | None, food_g: float) -> float:
    """What a line holds, in times of what is likely to be eaten at the most."""
    if kind == "salt":
        return grams / (_MOST_EATEN_G * servings) if servings else grams / max(_MOST_OF_DISH * food_g, 1.0)
    if kind == "savoury" and words & _SALTY_SAUCES and servings:
        return grams / (_MOST_SAUCE_G * servings)
    return 0.0
