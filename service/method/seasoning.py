"""Salt that no line names, and salt of the list that is too much to be eaten."""

from __future__ import annotations

from collections.abc import Container, Iterable
from functools import cached_property

from ..core.spread import Spread
from ..nutrition.sodium_priors import prior_of, short_of
from .amounts_said import is_a_pinch
from .clauses import Clause
from .happenings import Happening
from .layout import DISH, Component, Layout
from .left_over import ASIDE
from .left_to_the_cook import grams_roughly
from .listed import ListedLine
from .may_be_left import may_be_left
from .method_words import phrasing
from .questions import Doubts
from .reading_state import ReadingState
from .stakes import SALT_MG_PER_G, is_salty, is_worth_asking, line_mg
from .weights_told import salt_grams

_LEFT = "left-behind"
_MOST_MG_PER_G = 7.0
"""Sodium of a gram of what is eaten, mg, above which a line is asked about: 1.8 % salt."""
_LEAST_MG = 1500.0
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


_SERVES = 1.0
"""Servings where the recipe does not say: its figures are for the whole of it."""
_SERVING_G = 250.0
"""What a serving weighs at the least where the lines do not weigh all, g; as usual_amounts.csv has it."""
_SWEET = 0.08
"""The share of what is sweet, from which on a dish is salted as a sweet one."""
_WEIGHTLESS = frozenset({"salt", "curing", "spice", "herb"})
_TEASPOON_G = 6.0
_IN_SPOONS = ((0.75, "a pinch"), (1.1, "1/8 teaspoon"), (2.2, "1/4 teaspoon"), (4.5, "1/2 teaspoon"))


class Salting:
    """What little salt and much salt is in a dish, for as much of its lines as is eaten and beside what these
    bring; weighed when it is first asked for, which few recipes need."""

    def __init__(self, state: ReadingState, layout: Layout, servings: float | None) -> None:
        self._state, self._layout, self.servings = state, layout, servings

    @cached_property
    def grams(self) -> Spread:
        """Salt, g, of a dish that is salted little, as usual and well."""
        apart = [c for c in self._layout.components.values() if c.eaten is not None and c.eaten < 1.0]
        baths = {n for c in apart for n in c.sources}
        lines = [line for line in self._state.index.lines if line.index not in baths]
        grams = [grams_roughly(line) or 0.0 for line in lines]
        salted = {n for each in self._state.happened if _salts(self._state, each) for n in each.foods}
        weighed, sweet = sum(grams), sum([g for g, n in zip(grams, lines, strict=True) if n.kind == "sweet"])
        dish_g, of_no_weight = weighed, {n.kind for g, n in zip(grams, lines, strict=True) if not g}
        if not of_no_weight <= _WEIGHTLESS:
            dish_g = max(weighed, _SERVING_G * (self.servings or _SERVES))
        in_dish = prior_of("salt", float(sweet > _SWEET * weighed)).in_dish
        rest_mg = sum([line_mg(n) for n in lines if n.kind != "salt" or n.line.amount is not None])
        rest_mg += (
            in_dish.likely / 100 * sum([g for g, n in zip(grams, lines, strict=True) if n.index in salted])
        )
        short = short_of(in_dish, rest_mg / dish_g * 100) if dish_g else 1.0
        return in_dish.scaled(short * dish_g / 100 / SALT_MG_PER_G)

    def told(self) -> dict[str, str]:
        """Little and well in words, each as what it comes to: "about 4.5 g (3/4 teaspoon)"."""
        return {"little": _told(self.grams.low), "well": _told(self.grams.high)}

    def line(self, choice: str) -> str:
        """The salt of a choice, "little" or "well", as a line."""
        return f"{self.grams.low if choice == 'little' else self.grams.high:.2g} g salt"


def _salts(state: ReadingState, each: Happening) -> bool:
    """Whether a pot, brine or cure salts its food, so that little more is put on that "to taste"."""
    if each.kind in ("dredge", "fry"):
        return False
    return (each.water is not None and each.water.is_salted) or "salt" in map(state.kind, each.liquid)


def _told(grams: float) -> str:
    """An amount of salt for people: "about 4.5 g (3/4 teaspoon)"."""
    spoons = round(2 * grams / _TEASPOON_G) / 2
    more = f"{spoons:g} teaspoon{'s' if spoons > 1 else ''}"
    said = next((name for most, name in _IN_SPOONS if grams < most), more)
    return f"about {grams:.2g} g ({said})"


def season(state: ReadingState, doubts: Doubts, dish: Component, usual: Salting) -> None:
    """Salt that only the method names goes into the dish: as said, or as cooks usually do."""
    amounts = [text for _, text in state.seasoned if text]
    for clause, text in state.seasoned:
        if not text:
            continue
        share = _at_need(state, doubts, clause, text) if "if" in clause.words else 1.0
        if share and not _is_left(doubts, text, usual.servings):
            dish.add({"line": text} if share == 1.0 else {"line": text, "share": share}, None)
    vague = [clause for clause, text in state.seasoned if not text]
    if amounts and not all(map(is_a_pinch, amounts)):
        vague = [clause for clause in vague if clause.base in ("season", "salt") and not clause.has("more")]
    if vague and not any(line.kind == "salt" for line in state.index.lines):
        to_taste(doubts, dish, vague[0].sentence, usual)
    elif state.beside is not None:
        clause, is_likely = state.beside
        to_taste(doubts, dish, clause.sentence, usual, "usual" if is_likely else "none")


_AT_NEED = phrasing("salt_at_need")


def _at_need(state: ReadingState, doubts: Doubts, clause: Clause, text: str) -> float:
    """How much goes in of salt that no line lists and the method adds "if it's still bland": none where soy
    sauce or ham salts the dish already, all of it elsewhere."""
    if _AT_NEED.search(clause.text) is None:
        return 1.0
    salted = any(is_salty(line) or _SALTY_WORDS.intersection(line.words) for line in state.index.lines)
    likely = "none" if salted else "all"
    return doubts.figure("at_need", text, likely, DISH, line=text)


def _is_left(doubts: Doubts, text: str, servings: float | None) -> bool:
    """Whether salt that no line lists is more than anybody could eat, and stays behind."""
    grams = salt_grams(text.lower().removesuffix(" salt").removesuffix(" of")) or 0.0
    if servings is None or grams < 2 * _MOST_EATEN_G * servings:
        return False
    return doubts.ask("left", text, "left_behind", DISH, "half", line=text) != "eaten"


def to_taste(doubts: Doubts, dish: Component, sentence: str, usual: Salting, likely: str = "usual") -> None:
    """Salt without an amount into the dish, or the flour of a coating: as a person says, else as usual."""
    taken = doubts.ask("seasoning", sentence, likely, dish.id, **usual.told())
    if taken != "none":
        dish.add({"line": "salt, to taste" if taken == "usual" else usual.line(taken)}, None)


def ask_how_much(
    state: ReadingState, doubts: Doubts, dish: Component, meant: Container[int], usual: Salting
) -> None:
    """Ask how much salt goes in where the list names it with no amount, as it is all of the figure."""
    for position, source in enumerate(dish.sources):
        line = state.lines.get(source) if source is not None else None
        if line is None or line.kind != "salt" or line.line.amount is not None or line.index in meant:
            continue
        taken = doubts.ask("how_much", line.text, "usual", dish.id, line=line.text, **usual.told())
        if taken != "usual":
            dish.ingredients[position] = {"line": usual.line(taken)}
        return


def leave_behind(state: ReadingState, doubts: Doubts, layout: Layout, servings: float | None) -> None:
    """Put aside, and ask about, salt and soy sauce that no step takes and nobody could eat."""
    foods = [line for line in state.index.lines if line.kind not in ("salt", "water", "curing")]
    food_g = sum([grams_roughly(line) or 0.0 for line in foods])
    asked = {n for left in state.left_over if left.share == ASIDE for n in left.lines}
    for line in state.index.lines:
        if line.index in asked or layout.left(line.index) < 0.5:
            continue
        in_doubt = may_be_left(state, line, servings)
        if not in_doubt and line.kind not in ("salt", "savoury"):
            continue
        grams = grams_roughly(line) or 0.0
        excess = _excess(line.kind, set(line.words), grams, servings, food_g)
        if excess < 1.0 and not in_doubt and not _too_salty(state, layout, line):
            continue
        likely = "left_behind" if excess >= 2.0 and line.kind == "salt" else "eaten"
        taken = doubts.ask("left", line.text, likely, DISH, line=line.text)
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
        return mg >= _BRINE * water_g * SALT_MG_PER_G
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
