"""Flour that food is turned in, and fat it is fried in: part sticks or soaks in, the rest stays behind."""

from __future__ import annotations

from ..units.kitchen_units import to_grams, to_millilitres
from .clauses import Clause
from .happenings import PROTEINS, SOLIDS, Happening
from .listed import ListedLine
from .reading_state import ReadingState

_BEHIND = frozenset({"in", "into", "with", "through", "on"})
_SPREADS = frozenset({"butter", "margarine", "shortening", "suet"})
_DEEP_ML = 200.0


def read_coating(state: ReadingState, clause: Clause) -> None:
    """Take a clause that dredges or deep-fries."""
    if clause.act == "heat":
        state.fat_is_hot = any(_is_much(state.lines[n]) for n in state.lines_of(clause, ("oil",)))
    if clause.negated or clause.has("surface", "board", "worktop", "counter", "tin", "tray"):
        return
    if clause.act in ("dredge", "coat", "mix", "put") or clause.base == "press":
        _dredge(state, clause)
    hot_fat = clause.act in ("cook", "simmer", "put") and state.fat_is_hot
    if clause.act == "fry" or (hot_fat and state.solids(clause)):
        _fry(state, clause)


def _dredge(state: ReadingState, clause: Clause) -> None:
    flours = state.lines_of(clause, ("flour",))
    behind = {n for m in clause.mentions if m.prep in _BEHIND for n in m.lines}
    flours = {n: s for n, s in flours.items() if n in behind or clause.base == "flour"}
    mixture = state.mixture
    of_mixture = (
        not mixture.closed
        and any(state.kind(n) == "flour" for n in mixture.lines)
        and any(m.kind == "bath" and m.name == "other" and m.prep in _BEHIND for m in clause.mentions)
    )
    said = clause.base in ("dredge", "roll", "dip", "coat", "flour", "bread", "press") or clause.has(
        "coat", "shaking", "excess"
    )
    known = state.latest(("dredge",))
    if (
        known is not None
        and (clause.act == "dredge" or clause.base in ("press", "cover", "coat", "top"))
        and known.clause.sentence == clause.sentence
    ):
        known.liquid |= {n: 1.0 for n in behind if state.kind(n) in ("egg", "flour")}
        return
    bare = clause.act == "dredge" and not flours and not of_mixture and clause.base in ("dredge", "bread")
    if bare:  # "let drip, dredge": in the flour that waits, or in the only one of the list
        of_mixture = not mixture.closed and any(state.kind(n) == "flour" for n in mixture.lines)
        flours = {} if of_mixture else dict.fromkeys(state.index.of_kinds("flour"), 1.0)
    if not (said or bare) or not (flours or of_mixture):
        return
    foods = {
        n: s
        for n, s in _coated(state, clause).items()
        if state.kind(n) in PROTEINS | {"vegetable", "tofu", "cheese", "potato"}
    }
    if not foods or set(foods) & set(flours):
        return
    if clause.has("batter") and not mixture.closed:
        flours = {
            **flours,
            **{n: s for n, s in mixture.lines.items() if n not in foods and state.kind(n) != "oil"},
        }
    if clause.base == "dip" or clause.has("egg", "eggs"):
        flours = {**flours, **{n: 1.0 for n in behind if state.kind(n) == "egg"}}
    known = state.latest(("dredge",), foods)
    if not mixture.closed and (of_mixture or set(flours) & set(mixture.lines)):
        flours = {
            **flours,
            **{n: s for n, s in mixture.lines.items() if state.kind(n) in ("flour", "salt", "spice", "herb")},
        }
    flours.update({n: 1.0 for n in state.index.of_kinds("flour") if n in flours})
    if known is not None:
        known.liquid.update(flours)
        return
    state.begin(Happening("dredge", clause, foods=foods, liquid=flours, closed=True, confidence=0.85))


def _fry(state: ReadingState, clause: Clause) -> None:
    if clause.has("little", "splash", "drizzle", "knob", "tablespoon", "tbsp"):
        return
    oils = [n for n in state.index.lines if n.kind == "oil" and _is_much(n)]
    foods = {n: s for n, s in state.foods(clause).items() if state.kind(n) in SOLIDS}
    if not oils or not foods:
        return
    if state.company and state.company[-1] & set(foods):
        foods |= {n: 1.0 for n in state.company[-1] if state.kind(n) in PROTEINS}
    if state.latest(("fry",), foods) is not None and len(foods) == 1:
        return  # fried once more
    if (known := state.latest(("fry",))) is not None and (not clause.hours or set(foods) & set(known.foods)):
        known.foods.update(foods)
        return
    happening = Happening(
        "fry", clause, foods=foods, liquid={line.index: 1.0 for line in oils[:1]}, closed=True
    )
    happening.take_time(clause)
    state.begin(happening)


def _is_much(listed: ListedLine) -> bool:
    """Whether a line is a bath of fat: a stated fifth of a litre or more, or for deep or shallow frying."""
    line = listed.line
    if listed.purpose == "fryer" and line.amount is None:
        return bool({"deep", "shallow"} & set(listed.text.lower().replace("-", " ").split()))
    if line.amount is None or line.unit is None or _SPREADS & set(listed.words):
        return False
    try:
        return line.amount.likely * (to_millilitres(line.unit) or to_grams(line.unit) or 0.0) >= _DEEP_ML
    except (KeyError, ValueError):
        return False


def _coated(state: ReadingState, clause: Clause) -> dict[int, float]:
    """What is turned in a coating: the piece, never the egg or the crumbs."""
    direct = {n: s for n, s in state.solids(clause, direct=True).items() if state.kind(n) != "egg"}
    pieces = dict.fromkeys((n for n in state.last_foods if state.kind(n) != "egg"), 1.0)
    return direct or pieces or state.main_foods()
