"""What is put into boiling water and no line names: dumplings of a dough, "them", and puddings in a cloth."""

from __future__ import annotations

from .clauses import Clause
from .left_to_the_cook import grams_roughly
from .method_words import small_words, verbs
from .reading_state import ReadingState

_CLOTHS = small_words("wrapping")
TIES = small_words("ties")


def note_dough(state: ReadingState, clause: Clause) -> None:
    """ "Roll out the dough, cut circles, a spoon of filling in each": what boils then is all of it; "tie it
    up in the cloth": what boils then in its wrapping touches no water."""
    rolls = clause.base in ROLLS or (
        clause.act == "mix" and clause.has("dough")
    )  # "knead to a dough, roll out"
    if rolls and (clause.has("dough") or (_is_of_dough(clause) and _kneads_much(state))):
        state.rolled_in = clause.method
    if not TIES.isdisjoint(clause.words) and any(map(clause.sentence.lower().__contains__, _CLOTHS)):
        state.wrapped = clause.method


def _is_of_dough(clause: Clause) -> bool:
    """ "Roll out thin", "fill and close", of what no word names."""
    if clause.base == "roll":
        return clause.has("out", "thin", "thinly")
    return clause.base in _FILLS and "line" not in clause.speaks


_FILLS = frozenset({"fill", "stuff"})
_MUCH_G = 150.0
"""Flour, g, of which a dough is kneaded, and no sauce thickened."""


def _kneads_much(state: ReadingState) -> bool:
    flours = (n for n in state.index.by_kind.get("flour", ()))
    return any((grams_roughly(line) or 0.0) >= _MUCH_G for line in flours)


def put_into_water(state: ReadingState, clause: Clause) -> dict[int, float]:
    """The food of a clause that names none and boils it."""
    found = of_label(state, clause) or _just_named(state, clause) or filled(state, clause)
    found = found or _dough(state) or shaped(state, clause)
    return found or ({} if has_unknown_object(clause) else state.foods(clause))


def has_unknown_object(clause: Clause) -> bool:
    """ "Blanch the mangetout", of a list that has none: what boils is nothing that a line names."""
    words = [token.text for token in clause.tokens]
    at = next((i for i, word in enumerate(words) if (v := verbs().get(word)) and v.base == clause.base), None)
    meant = (m for m in clause.mentions if m.kind == "it" and not m.prep and m.i <= clause.aim)
    if at is None or at + 2 >= len(words) or any(meant):
        return False
    at += words[at + 1] == "in" and at + 3 < len(words)  # "slip in the pierogi"
    article = words[at + 1] in ("the", "your", "some")
    k = at + 1 + article
    named = any(m.i <= j < m.j for m in clause.mentions for j in range(k, min(k + 3, len(words))))
    noun = words[k].replace("-", "").isalpha() and not words[k].endswith("ly") and words[k] not in _NO_FOOD
    return noun and not named and (article or (words[k].endswith("s") and len(words[k]) > _SHORT))


_SHORT = 4
_NO_FOOD = small_words("no_food")


def of_label(state: ReadingState, clause: Clause) -> dict[int, float]:
    """ "Peas: boil for 4 minutes", "peas - boil": what stands before the colon or dash."""
    before = clause.sentence.partition(clause.text)[0].rstrip()
    labelled = before.endswith((":", " -", "–", "—"))
    return dict.fromkeys(state.last_foods, 1.0) if labelled else {}


def _just_named(state: ReadingState, clause: Clause) -> dict[int, float]:
    """ "Peel the potatoes and boil them": what the sentence named before, and no dough that rests."""
    if state.last_sentence != clause.sentence or not any(
        m.kind == "it" and not m.prep for m in clause.mentions
    ):
        return {}
    return dict.fromkeys(state.last_foods, 1.0)


def shaped(state: ReadingState, clause: Clause) -> dict[int, float]:
    """All that dumplings, bagels and their like were made of, where those are what boils."""
    near = state.made_in is not None and 0 <= clause.method - state.made_in <= 1 and not state.last_foods
    made = near or "made" in clause.speaks or clause.has("batter", "dough")
    if not made:
        return {}
    return _all_spoken_of(state, clause) or ({} if near else _headed(state))


def _headed(state: ReadingState) -> dict[int, float]:
    """The list's dough by its heading ("Pasta dough"), of a method that speaks of none of its lines."""
    heads = {line.heading for line in state.index.lines if state.kind(line.index) == "flour"}
    doughs = {head for head in heads if not DOUGHS.isdisjoint(head.lower().strip("#: ").split())}
    parts = (line for line in state.index.lines if line.heading in doughs)
    return {line.index: 1.0 for line in parts if line.kind != "water"}


DOUGHS = frozenset({"dough", "pasta", "noodle", "noodles", "dumpling", "dumplings"})
ROLLS = frozenset({"roll", "cut", "pinch", "fold", "fill", "stuff", "shape", "form"})
_SOON = 3
"""Paragraphs after which what was rolled out of a dough still goes into the water."""


def boiled_rolled(state: ReadingState, clause: Clause) -> dict[int, float]:
    """ "Roll out rounds, fill and seal. Boil for 6 minutes": of what no line names, by the clock."""
    boils = clause.act == "boil" and bool(clause.hours) and clause.speaks <= {"it"}
    rolled = filled(state, clause) if boils and state.rolled_in is not None else {}
    before = state.latest(("boil", "simmer"), rolled) if rolled else None
    return rolled if before is None or not before.foods.keys() >= rolled.keys() else {}


def filled(state: ReadingState, clause: Clause) -> dict[int, float]:
    """All that was spoken of, soon after a dough was rolled out or filled."""
    if state.rolled_in is None or not 0 <= clause.method - state.rolled_in <= 1:
        return {}
    rolled = _all_spoken_of(state, clause)
    return rolled if "flour" in map(state.kind, rolled) else rolled | _headed(state)


def rolled_out(state: ReadingState, clause: Clause) -> dict[int, float]:
    """ "Shape the dough in rolls … slip them into the water": all that the dough was made of."""
    near = state.rolled_in is not None and 0 <= clause.method - state.rolled_in <= _SOON
    return _all_spoken_of(state, clause) if near or clause.has("dough") else {}


def names_what_was_rolled(state: ReadingState, clause: Clause) -> dict[int, float]:
    """ "Add the uszka in batches", "boil", once a pot of water is hot: all that was rolled out before."""
    if state.rolled_in is None or "line" in clause.speaks:
        return {}
    if has_unknown_object(clause):
        return rolled_out(state, clause)
    return filled(state, clause) if clause.base == "boil" else {}


def _all_spoken_of(state: ReadingState, clause: Clause) -> dict[int, float]:
    """All that a dough may be made of: what was spoken of, of its own part where the list has one."""
    own = {n.index for n in state.index.lines if n.heading and n.heading == clause.heading}
    own = own if any(state.kind(n) == "flour" for n in own) else set(state.lines)
    baths = {n for each in state.happened for n in each.liquid}
    baths |= {n for n in (state.pot.liquid if state.pot else ()) if state.kind(n) == "flour"}
    sauces = {n for n, line in state.lines.items() if "sauce" in line.heading.lower()}
    pots = {n for n, line in state.lines.items() if line.purpose == "pot" or state.kind(n) == "water"}
    wrappers = {line.index for line in state.index.by_word.get("wrapper", ())}  # "wrap" says enough
    found = {
        n: 1.0 for n in (*wrappers, *state.spoken) if n in own | wrappers and n not in baths | sauces | pots
    }
    waits = state.pot.liquid if state.pot is not None and not state.pot.foods else {}
    for n, share in (waits | state.lines_of(clause, ("salt",))).items():
        if n in found and state.kind(n) == "salt":
            found[n] = _of_the_dough(state, n, share)
    return {n: share for n, share in found.items() if share}


def _of_the_dough(state: ReadingState, salt: int, in_water: float) -> float:
    """How much of a line of salt is in a dough: what the water leaves, "half of it … the rest"."""
    if in_water >= 1.0:
        return 0.0 if state.spoken[salt] == 1 else 1.0
    return min(sum(state.parts.get(salt, {}).values()), 1.0) if in_water < 0.0 else round(1.0 - in_water, 4)


def _dough(state: ReadingState) -> dict[int, float]:
    """The dough that was stirred last, where that is rubbed or dropped into the water."""
    mixture = state.mixture
    if mixture.closed or "flour" not in map(state.kind, mixture.lines):
        return {}
    soda = {n for n in (state.pot.liquid if state.pot else ()) if state.kind(n) == "flour"}
    return {n: 1.0 for n in mixture.lines if n not in soda}


def last_stirred(state: ReadingState) -> dict[int, float]:
    """What "it" is that goes into the water: the food spoken of last, or the batter that it is stirred to."""
    dough = _dough(state) or (state.floured.lines if state.floured is not None else {})
    return dict(dough) if dough.keys() >= {*state.last_foods} else dict.fromkeys(state.last_foods, 1.0)
