"""What is done by hand or left to time with salted food.

Squeezed, pressed, pumped, fermented, hung to drain, dried, rested, steamed.
"""

from __future__ import annotations

import re
from collections.abc import Iterable

from .clauses import Clause
from .happenings import PROTEINS, SALTING, WET, Happening
from .left_to_the_cook import grams_in
from .reading_state import COLD, HOT, ReadingState
from .soaking import soak_instead, stands_in_brine
from .soured import SOURED, laid_to_sour
from .whey import loses_whey, sets_milk

WRINGS = {
    "squeeze": "squeeze", "wring": "squeeze", "press": "press", "twist": "squeeze", "squash": "squeeze",
    "squish": "squeeze", "express": "squeeze", "expel": "squeeze",
}  # fmt: skip
_INTO_PLACE = frozenset({"into", "onto", "underneath", "under", "down", "together", "below", "in"})
"""Behind "press" these say that food is packed down, not that its juice is pressed out."""
_DRIES = frozenset({"dry", "dehydrate", "air-dry", "hang"})
_DRIES_H = 1.0
_RESTS_H = 4.0
_PERCENT = re.compile(r"\b(\d{1,2}) ?(?:%|per ?cent)", re.IGNORECASE)


_PACKED = frozenset(
    {"air", "bubbles", "coated", "coating", "crumbs", "breadcrumbs", "adhere", "stick", "rises"}
)
"""What presses food together or into a jar, and none of its juice out."""


_LETS_JUICE_RISE = re.compile(
    r"\bpress\w* (?:\w+ ){0,3}down\b.* (?:so|until|till) (?:that )?(?:\w+ )?(?:juices?|brine|liquid) "
    r"(?:is |are )?(?:com|ris|run|flow|cover|stand|drawn)",
    re.IGNORECASE,
)
"""Pressed down in its jar, its juice comes up and stays there."""


def packs_down(clause: Clause) -> bool:
    """Whether "press" puts food into its place, so that no juice leaves it."""
    if not _PACKED.isdisjoint(clause.words) or ("jar" in clause.words and clause.base in WRINGS):
        return True
    if clause.base == "press" and _LETS_JUICE_RISE.search(clause.text):
        return True
    if clause.base != "press" or clause.has("out", "moisture", "dry", "cloth", "towel"):
        return False
    if clause.hours and clause.has("weight", "weighted", "weights", "plate", "stone"):
        return True  # "press with a weight until tomorrow": its juice stands over it
    return clause.has("under", "underneath", "below", "down") or (
        clause.has(*_INTO_PLACE) and not clause.has("liquid")
    )


def read_handwork(state: ReadingState, clause: Clause) -> bool:
    """Take a clause that ferments, pumps, dries, rests or steams salted food; whether it was one."""
    if clause.negated:
        return False
    if clause.act == "ferment":
        return _ferment(state, clause)
    if clause.act == "inject":
        return _inject(state, clause)
    if "milk" in state.index.by_kind and (sets_milk(state, clause) or loses_whey(state, clause)):
        return True
    if clause.hours and dries_whole(clause) and _dry_seasoned(state, clause):
        return True
    kind = _left_to_time(clause) if clause.hours else ""
    if (
        kind == "rest"
        and clause.hours[0].likely >= _SOURS_H
        and _STANDS_WARM.search(clause.sentence)
        and not state.index.of_kinds("acid")
    ):
        if _sours_in_paste(state, clause):
            return True
    return bool(kind) and _follow(state, clause, kind)


def read_wringing(state: ReadingState, clause: Clause, kind: str) -> None:
    """Take a clause that squeezes or presses juice out of food that was salted or boiled before."""
    if clause.negated or packs_down(clause):
        return
    about = state.solids(clause, direct=True) or state.last_foods
    before = state.latest(("dry_cure", *HOT, "brine", "soak", "drain", "squeeze", "press"), about)
    lines = (m.lines for m in clause.mentions if not state.waters.issuperset(m.lines))  # not "the water"
    named = set(next(lines, ()))  # what stands next to the verb
    by_itself = before is None or before.clause is clause
    if by_itself and _is_kraut(state, about) and not clause.sentence.startswith("If "):
        state.happened = [each for each in state.happened if each is not before]
        state.begin(Happening(kind, clause, foods=dict.fromkeys(about, 1.0), drained=True, closed=True))
        return
    if before is None or before.kind in ("squeeze", "press") or not before.drained:
        return
    if not (named or clause.opens or before.foods.keys() & (said := _just_spoken_of(state))) and said:
        return  # "soften the gelatine in water, squeeze", and not the spinach that was boiled before
    if before.clause is clause:
        return  # "squeeze the gherkins out" of a jar: that is how they are drained
    if before.kind in HOT and kind == "press" and clause.words.isdisjoint(_PRESSED_DRY):
        return  # pieces of dough are pressed into shape
    fried = state.latest(("fry",), before.foods)
    if (named and not named & set(before.foods)) or (fried and not _is_before(state, fried, before)):
        return  # "squeeze over the lemon", "for crisper cakes squeeze the potato first"
    if not (fried or set(map(state.kind, before.foods)) & SOURED):
        return
    state.begin(Happening(kind, clause, foods=dict(before.foods), drained=True, closed=True))


def _just_spoken_of(state: ReadingState) -> set[int]:
    """The lines that the clause before speaks of, but for water; none where salt is strewn with them."""
    last = max(state.last_spoken.values(), default=0)
    spoken = {n for n, turn in state.last_spoken.items() if turn == last and turn >= state.turn - 1}
    spoken -= set(state.waters)
    return set() if SALTING & set(map(state.kind, spoken)) else spoken


_PRESSED_DRY = frozenset({"out", "colander", "sieve", "spoon", "ladle", "dripping", "drips", "dry"})
"""Words of pressing water out of boiled leaves."""


_KRAUT = frozenset({"sauerkraut", "kraut", "kimchi"})


def _is_kraut(state: ReadingState, foods: Iterable[int]) -> bool:
    """ "Squeeze out the sauerkraut": its juice runs off, with its salt."""
    lines = [state.lines[n] for n in foods]
    return bool(lines) and all(not _KRAUT.isdisjoint(line.words) for line in lines)


def _is_before(state: ReadingState, one: Happening, other: Happening) -> bool:
    """ "Fry the balls, drop them in salted water, squeeze them out"."""
    return state.happened.index(one) < state.happened.index(other)


def _left_to_time(clause: Clause) -> str:
    hours = clause.hours[0].likely
    if clause.base in _DRIES and hours >= _DRIES_H and not clause.has("brine", "marinade", "cure"):
        return "dry"
    if clause.act == "steam":
        return "steam"
    if clause.base == "steep":
        return ""
    keeps = clause.verb is not None and clause.verb.form == "s"  # "the rest keeps a week"
    return "rest" if clause.act == "hold" and hours >= _RESTS_H and not keeps else ""


def _follow(state: ReadingState, clause: Clause, kind: str) -> bool:
    """What is done to food that has left its brine or cure, where its salt goes on moving."""
    about = state.solids(clause, direct=True) or dict.fromkeys(state.last_foods, 1.0)
    before = state.latest(COLD, about) if about else None
    if before is None or not (before.drained and before.closed) or state.pending is not None:
        return False
    if kind == "rest" and any(
        company - before.foods.keys() for company in state.company if company & set(about)
    ):
        return False  # it lies in the dish by now
    if kind != "steam" and not set(map(state.kind, before.foods)) & PROTEINS:
        return False
    if any(
        each.kind in (*HOT, "roast", "smoke", "fry", kind)
        for each in state.happened
        if set(each.foods) & set(about)
    ):
        return False
    state.begin(Happening(kind, clause, foods=dict(before.foods), closed=True, confidence=0.8), clause)
    return True


def dries_whole(clause: Clause) -> bool:
    """Whether food dries in warm or moving air until its water is gone, and all its salt stays."""
    if clause.base == "dehydrate" or clause.has("dehydrator", "dehydrators"):
        return True
    warm = clause.celsius is not None and _DRYING_C[0] <= clause.celsius <= _DRYING_C[1]
    dries = warm and clause.base in _DRIES
    return dries or (clause.base in _HANGS and bool(clause.hours) and clause.hours[0].likely >= _HANGS_H)


_DRYING_C = (30.0, 95.0)
_HANGS = frozenset({"hang", "air-dry"})
_HANGS_H = 72.0


def _dry_seasoned(state: ReadingState, clause: Clause) -> bool:
    """ "Mix the mince with salt, form strips, dehydrate for 10 hours": with all that it was seasoned with."""
    about = state.solids(clause, direct=True) or state.last_foods or state.lines
    foods = {n: 1.0 for n in about if state.kind(n) in PROTEINS}
    if not foods or any(h.foods.keys() & foods.keys() for h in state.happened):
        return False
    salts = {n: 1.0 for n in state.lines if state.kind(n) in SALTING | {"savoury"}}
    if not salts or any(h.liquid.keys() & salts.keys() for h in state.happened):
        return False
    state.pending, state.mixture.closed = None, True
    state.begin(Happening("dry", clause, foods=foods, on_food=salts, closed=True, confidence=0.8), clause)
    return True


def _ferment(state: ReadingState, clause: Clause) -> bool:
    """ "Ferment for 4 weeks": what lies under salt or in brine sours there, with all the salt it drew in."""
    if state.pot is not None and not state.pot.heated and stands_in_brine(state, state.pot):
        soak_instead(state, state.pot)  # "cover with salted water and ferment for a week"
        state.pot = None
    if clause.has("dough", "batter", "starter", "sponge"):
        return False
    waits = state.pending if state.pending is None or state.pending.hours else None
    each = waits or laid_to_sour(state, clause) or state.pending or state.latest(("brine", "dry_cure"))
    if each is None or not set(map(state.kind, each.foods)) & SOURED:
        return False
    if each.closed or each.drained:
        return _sours_in_paste(state, clause)
    if each is state.pending:
        state.begin(each)
    state.pending = None
    wet = each.water is not None or any(state.kind(n) in WET - {"savoury", "oil"} for n in each.liquid)
    each.kind, each.hours, each.celsius = "ferment", None, clause.celsius
    each.eaten = each.eaten if wet else 1.0
    each.take_time(clause)
    return True


_SOURS_H = 20.0
_STANDS_WARM = re.compile(r"\b(?:room temp\w*|ambient|counter(?:top)?|worktop|bubbl\w*)\b", re.IGNORECASE)


def _sours_in_paste(state: ReadingState, clause: Clause) -> bool:
    """ "Rinse the cabbage, rub it with the chilli paste, pack it in a jar and leave to ferment for 3 days":
    what was salted and rinsed sours with what it was mixed with since."""
    salted = state.latest(("dry_cure", "brine"))
    if salted is None or not (salted.drained and salted.rinsed) or state.pending is not None:
        return False
    mixed = any(company & salted.foods.keys() and len(company) > 1 for company in state.company)
    later = state.happened[state.happened.index(salted) + 1 :]
    left = not any(h.kind not in ("rinse", "drain", "squeeze", "press", "soak") for h in later)
    if not (mixed and left and {state.kind(n) for n in salted.foods} <= SOURED):
        return False
    each = Happening("ferment", clause, foods=dict(salted.foods), closed=True, eaten=1.0, confidence=0.8)
    state.begin(each, clause)
    return True


def _inject(state: ReadingState, clause: Clause) -> bool:
    """ "Inject the turkey with the brine": the pickle that the list or a heading makes is pumped in."""
    foods = {n: s for n, s in state.foods(clause).items() if state.kind(n) in PROTEINS}
    bath = state.bath_said(clause)
    mixture = state.named.get("injection") or state.mixture_named(bath.name if bath else "brine")
    liquid = {n: s for n, s in mixture.lines.items() if n not in foods}
    said = state.lines_of(clause, WET | SALTING)
    if not foods or not (liquid or said):
        return False
    part = _pumped_part(state, clause, foods, liquid)
    liquid = {n: round(s * part, 4) for n, s in liquid.items()}
    pump = Happening("inject", clause, foods=foods, liquid=liquid or said, closed=True, drained=True)
    mixture.closed, mixture.taken = part == 1.0, 1.0 - part
    state.pending = None
    state.begin(pump)
    return True


def _pumped_part(
    state: ReadingState, clause: Clause, foods: dict[int, float], liquid: dict[int, float]
) -> float:
    """ "Pump it with 10 % of its weight": how much of the pickle that is; all of it where nobody says so."""
    said = _PERCENT.search(clause.text)
    pickle_g = grams_in(state, liquid)
    food_g = grams_in(state, foods)
    if said is None or not pickle_g or not food_g:
        return 1.0
    return min(float(said[1]) / 100 * food_g / pickle_g, 1.0)


_LEFT = re.compile(
    r"\b(?:what(?:ever)?(?:'s|’s| is)? left|the (?:rest|remainder|remaining \w+))\b", re.IGNORECASE
)


def what_is_left(state: ReadingState, clause: Clause) -> bool:
    """ "Pump it with a tenth of the pickle, then lay it in what is left"."""
    pump = state.happened[-1] if state.happened else None
    mixture = state.mixture_named("brine")
    if pump is None or pump.kind != "inject" or mixture.taken >= 1.0 or not _LEFT.search(clause.text):
        return False
    liquid = {n: s for n, s in mixture.shares().items() if n not in pump.foods}
    brine = Happening("brine", clause, foods=dict(pump.foods), liquid=liquid, water=mixture.water, named=True)
    mixture.closed = True
    state.begin(brine, clause)
    return True
