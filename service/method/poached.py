"""Food poached in a liquor of water, salt and what gives taste, and taken out of that."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from .clauses import Clause
from .happenings import LIQUIDS, PROTEINS, SALTING, Happening
from .left_to_the_cook import food_grams, grams_in
from .mention import Mention
from .method_words import phrasing, small_words
from .parts_said import millilitres
from .reading_state import HOT, ReadingState
from .weights_told import grams_of

_TAKES_OUT = frozenset({"remove", "take", "lift", "scoop", "fish", "transfer", "move"})
_FLAVOURING_WORDS = small_words("flavouring")
_DRY = frozenset({"aromatic", "herb", "spice", "acid"})
_FLAVOURING_KINDS = _DRY | SALTING | LIQUIDS | {"sweet", "other"}
_OF_LIQUOR = phrasing("goes_on_with_liquor")
_STAYS_BY = frozenset({"heat", "oven", "fire", "flame", "lid", "stove", "burner", "skin", "bone", "bones"})
_GOES_IN = frozenset({"put", "boil", "simmer", "heat", ""})
_GOES_ON = frozenset({"boil", "simmer", "heat", "reduce"})
_DRINKS = frozenset({"grain", "pasta", "legume", "potato", "milk", "stock", "water"})
"""Put in afterwards, these tell that the liquor is that of a dish."""
_LEAST_LIQUOR = 0.8
"""Liquor in weights of the food from which on it is poached and not stewed; common practice, no source."""


def take_out_of_liquor(state: ReadingState, clauses: Sequence[Clause]) -> None:
    """ "Simmer wine, water, an onion and salt; poach the salmon in it and lift it out": unless the method
    goes on with the liquor, all of that stays in the pot, and a person is asked."""
    milky = "milk" in state.index.by_kind
    for pot in state.happened:
        if milky and pot.kind in HOT and pot.eaten is None and pot.kept_ml is None:
            _into_sauce(state, pot, clauses)
        if pot.kind in HOT and pot.heated and pot.eaten is None and not (pot.drained or pot.absorbed):
            meats = {n for n in (*pot.foods, *pot.extra) if state.kind(n) in PROTEINS}
            begin = next((i for i, c in enumerate(clauses) if c is pot.clause), None)
            if not meats or begin is None or _uses_part_of_stock(state, pot, meats, clauses[begin + 1 :]):
                continue
            if not state.is_soup:
                _take_out(state, pot, clauses, meats, begin)


def _into_sauce(state: ReadingState, pot: Happening, clauses: Sequence[Clause]) -> None:
    """ "Poach the haddock in the milk and lift it out … add the milk to the roux": it is eaten, or as much of
    it as goes in."""
    milk = {n for n, share in pot.liquid.items() if state.kind(n) == "milk" and share == 1.0}
    begun = pot.clause.place
    for clause in clauses if milk else ():
        if clause.place <= begun or clause.act in _POURS_OFF or clause.negated:
            continue
        if milk.isdisjoint(state.lines_of(clause)):
            continue
        ml = millilitres(clause)
        if ml is None:
            pot.eaten, pot.drained, pot.lifted = 1.0, False, False
        else:
            pot.kept_ml, pot.drained, pot.closed = ml, True, True
        return


_POURS_OFF = frozenset({"discard", "drain", "remove", "boil", "simmer", "heat"})


def _take_out(
    state: ReadingState, pot: Happening, clauses: Sequence[Clause], meats: set[int], begin: int
) -> None:
    out = next((i for i in range(begin + 1, len(clauses)) if _takes_out(clauses[i], meats)), None)
    if out is None:
        return
    said = {n for c in clauses[: out + 1] for m in c.mentions for n in m.lines}
    pot_lines = {*pot.foods, *(pot.extra & said), *pot.liquid}
    flavours = pot_lines - meats
    salted = not SALTING.isdisjoint(map(state.kind, flavours)) or (pot.water and pot.water.is_salted)
    if not (flavours and salted) or not all(_gives_taste(state, n) for n in flavours):
        return
    if not _is_deep(state, pot, flavours, meats):
        return
    if not any(_goes_on(state, c, flavours, meats) for c in clauses[out:]):
        pot.extra &= said
        _part(state, pot, meats, clauses[begin : out + 1])


_PART_AT_MOST = 0.8
"""Share of a list's stock below which the measured part that a method goes on with is not all of it."""


def _uses_part_of_stock(
    state: ReadingState, pot: Happening, meats: set[int], later: Sequence[Clause]
) -> bool:
    """ "Simmer the chicken in the stock. Lift it out. Whisk 200 ml of the stock into the roux": the rest of
    what the list has stays in the pot."""
    stock = {n for n in pot.liquid if state.kind(n) == "stock"}
    if not stock or pot.extra - stock - meats:
        return False
    used = 0.0
    for clause in later:
        said = any(not stock.isdisjoint(m.lines) for m in clause.mentions)
        if not said or clause.act == "discard" or clause.sentence == pot.clause.sentence:
            continue
        ml = millilitres(clause)
        if ml is None and not clause.has("reserved"):
            return False
        used += ml or 0.0
    if not 0.0 < used < _PART_AT_MOST * grams_in(state, stock):
        return False
    pot.foods = {n: s for n, s in pot.foods.items() if n not in stock}
    pot.liquid = {n: s for n, s in pot.liquid.items() if state.kind(n) != "flour"}  # of the roux
    pot.extra -= stock
    pot.drained, pot.closed, pot.kept_ml = True, True, used
    return True


def is_of_liquor(state: ReadingState, clause: Clause, water: Mention, solids: Collection[int]) -> bool:
    """ "Bring water, vinegar, a carrot and peppercorns to the boil": before the fish goes in, a liquor."""
    if water.prep or not solids or state.is_soup or PROTEINS.isdisjoint(state.index.by_kind):
        return False
    if not all(state.kind(n) in ("vegetable", "fruit") and _gives_taste(state, n) for n in solids):
        return False
    return bool(state.lines_of(clause, _DRY | {"wine"}))


def flavours_liquor(state: ReadingState, pot: Happening) -> bool:
    """Whether a pot is of several vegetables that only give taste: "simmer the onion and carrot; strain"."""
    return len(pot.foods) > 1 and all(_gives_taste(state, n) for n in pot.foods)


def _gives_taste(state: ReadingState, line: int, kinds: frozenset[str] = _FLAVOURING_KINDS) -> bool:
    kind = state.kind(line)
    return kind in kinds or (
        kind in ("vegetable", "fruit") and not _FLAVOURING_WORDS.isdisjoint(state.lines[line].words)
    )


def _takes_out(clause: Clause, meats: set[int]) -> bool:
    if clause.base not in _TAKES_OUT or clause.negated or not clause.words.isdisjoint(_STAYS_BY):
        return False
    named = {n for m in clause.mentions if not m.prep for n in m.lines}
    return bool(named) and named <= meats


def _goes_on(state: ReadingState, clause: Clause, flavours: set[int], meats: set[int]) -> bool:
    """Whether a clause speaks of the liquor, or of what gave its taste, after the food was taken out."""
    if _OF_LIQUOR.search(clause.text) and clause.act != "discard":
        return True
    fresh = clause.vessel() == "pan" or "water" in clause.speaks
    lines = state.lines_of(clause)
    heats = clause.act in _GOES_ON and not (fresh or lines)
    new = meats.isdisjoint(lines) and clause.vessel() not in ("bowl", "pan")
    adds = clause.act in ("put", "mix") and (new or clause.vessel() == "pot")
    adds = adds and not _DRINKS.isdisjoint(map(state.kind, lines))
    named = {n for n in lines if n in flavours and state.kind(n) in ("vegetable", "wine", "stock")}
    return heats or adds or (bool(named) and clause.act != "discard")


def _is_deep(state: ReadingState, pot: Happening, flavours: set[int], meats: set[int]) -> bool:
    """Whether there is so much liquor that the food is poached in it."""
    if pot.water is not None and not pot.water.amount:
        return True
    said = grams_of(pot.water.amount) if pot.water is not None else None
    wet = [n for n in flavours if state.kind(n) in LIQUIDS and state.kind(n) != "savoury"]
    grams = grams_in(state, wet) + (said or 0.0)
    food = Happening(pot.kind, pot.clause, foods=dict.fromkeys(meats, 1.0))
    return grams >= _LEAST_LIQUOR * food_grams(food, state)


def _part(state: ReadingState, pot: Happening, meats: set[int], between: Sequence[Clause]) -> None:
    """Make what is taken out the food of its pot, and all else the liquid; from when it went in, it cooks."""
    near = [c for c in between[:-1] if c.act in _GOES_IN and c.vessel() not in ("bowl", "pan")]
    beside = {n for c in near for n in state.lines_of(c) if _gives_taste(state, n, _DRY)}
    shares = pot.liquid | pot.foods
    later = [i for i, c in enumerate(between[1:], 1) if meats & state.solids(c, direct=True).keys()]
    if not meats <= pot.foods.keys() and later:
        cooks = between[later[0] : -1]
        pot.clause, pot.hours = cooks[0] if cooks else pot.clause, None
        timed = next((c for c in cooks if c.hours), None)
        if timed is not None:
            pot.take_time(timed)
    pot.liquid = {n: shares.get(n, 1.0) for n in (*shares, *sorted(pot.extra | beside)) if n not in meats}
    pot.foods, pot.extra = dict.fromkeys(sorted(meats), 1.0), set()
    pot.lifted = True
    state.pour_off(pot)
