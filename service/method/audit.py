"""A second look at all that was read: what sentences say of water, brines and marinades and nothing was made
of, and what the method says may be skipped. Each becomes a question, if enough sodium hangs on it."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from typing import Any

from .clause_words import goal, strength_of
from .clauses import Clause
from .happenings import SALTING, SOLIDS, WET, Happening, LeftOver, Water
from .layout import names_of
from .left_over import ASIDE
from .left_to_the_cook import grams_in
from .mention import Mention
from .method_words import phrasing, small_words
from .poured import is_no_pot
from .questions import Doubts
from .reading_state import COLD, HOT, MOST_HAPPENINGS, ReadingState
from .stakes import is_salty, is_worth_asking, lines_mg, liquid_mg
from .suspects import mark, suspect
from .waters import is_hot, salts_of, water_for, water_said
from .weights_told import grams_of

_BATHS = {"brine": ("brine", "ferment"), "marinade": ("marinate",), "cure": ("dry_cure",)}
_BATHES = frozenset(
    {"soak", "put", "hold", "boil", "simmer", "cook", "heat", "cut", "let", "brine", "pickle", ""}
)
"""What is done where food comes into water that is not eaten with it."""
_WET = (*HOT, "soak", "brine")
_USES = frozenset({"put", "mix", "heat", "boil", "simmer", "reduce", "serve", "coat", "season", "cook"})
"""What is done with a liquid that is eaten after all."""
_AWAY = frozenset({"discard", "drain", "throw", "rest", "pat", "drip", "dry", "in", "from", "out", "off"})
_LIQUOR = frozenset({"liquid", "liquor", "juices", "juice"})
_SALTY = frozenset({"salted", "salt", "salty", "saltwater", "brine", "briny"})
_COVERS = frozenset({"cover", "covered", "covering", "fill", "submerge", "top", "start", "begin", "pot"})
"""Beside these "with water" tells of a pot of it, and else of a little that is stirred in."""
_HEATS = frozenset({"boil", "simmer", "cook", "heat", "roast", "fry", "mix", "reduce", "steam"})
_COLD = frozenset({"fridge", "refrigerate", "refrigerator", "chill", "overnight", "cellar", "larder", "cold"})
_COLD_C, _A_BATH_G = 15.0, 150.0
"""Where it is cold, °C; liquid, g, from which on food may lie in it."""
_LITTLE_ML = 500.0
"""Water of a stated amount, ml, below which it is stirred in and eaten."""
_TAKEN_UP_MG = 1.0
"""Sodium that a gram of food takes up in salted water, mg; common practice, no source."""
_GIVEN_OFF = 0.4
"""Of the salt of salty food, the share that plain water draws, roughly."""
_SKIPS = phrasing("may_be_skipped")
_MAY_SKIP = small_words("may_skip")
_OF_BATHS = re.compile(r"\b(?:salting|brin\w+|soak\w*|marina[dt]\w+|curing|cure)\b", re.IGNORECASE)


def speaks_of_liquid(state: ReadingState, clause: Clause) -> bool:
    """Whether a clause may put food into water that moves salt, or take a bath up again."""
    if clause.negated:
        return False
    if "bath" in clause.speaks:
        said = clause.act in _USES and any(m.name in _BATHS for m in clause.mentions)
        return said or not _LIQUOR.isdisjoint(clause.words)
    if "water" not in clause.speaks or clause.act not in _BATHES:
        return False
    return not _SALTY.isdisjoint(clause.words) or any(map(is_salty, state.index.lines))


def liquids(state: ReadingState) -> tuple[Any, ...]:
    """What a sentence may change by what it says of a liquid that nothing lies in yet."""
    mixture, pot = state.mixture, state.pot
    now = (len(mixture.lines), mixture.water is None, len(state.seasoned), id(state.attention))
    salted = pot.water.strength if pot is not None and pot.water is not None else ""
    inside = (len(pot.foods), len(pot.liquid), len(pot.extra), salted) if pot is not None else ()
    return (*mark(state), *now, *inside)


def note_idle(
    state: ReadingState, clause: Clause, stood: tuple[Any, ...] | None, flows: tuple[Any, ...] | None
) -> None:
    """Note a sentence that speaks of leaving a liquid, or of a liquid, and changed nothing."""
    if stood is not None and (stood == mark(state) or clause.has("whatever", "leftover", "surplus")):
        suspect(state, clause)
    if flows is not None and flows == liquids(state):
        state.idle.append((clause, state.last_foods))


def review(state: ReadingState, clauses: Sequence[Clause]) -> None:
    """Mark what is in doubt, once all is read."""
    for clause, foods in state.idle:
        _used_after_all(state, clause, foods)
        found = _unread_water(state, clause, foods) if len(state.happened) < MOST_HAPPENINGS else None
        if found is not None:
            _insert(state, found)
    for clause, foods in state.washed:
        found = _unread_washing(state, clause, foods) if len(state.happened) < MOST_HAPPENINGS else None
        if found is not None:
            _insert(state, found)
    _never_poured(state, clauses)
    for bath in _skipped(state, clauses):
        bath.left_open = True


def _insert(state: ReadingState, found: Happening) -> None:
    """Put a step among the others, in the order of the method."""
    after = (i for i, h in enumerate(state.happened) if h.clause.place > found.clause.place)
    state.happened.insert(next(after, len(state.happened)), found)


def _used_after_all(state: ReadingState, clause: Clause, foods: Sequence[int]) -> None:
    """ "Spoon the marinade over", of one that was taken to be poured away."""
    if clause.act not in _USES or not _AWAY.isdisjoint(clause.words):
        return
    for mention in clause.mentions:
        if mention.kind != "bath" or goal(clause, mention):
            continue
        bath = _meant(state, clause, mention)
        if bath is None or (foods and bath.foods.keys().isdisjoint(foods)):
            continue
        if bath.eaten == 0.0 and bath.clause.sentence != clause.sentence:
            if is_worth_asking(state, liquid_mg(state, bath)):
                bath.guessed = True


def _meant(state: ReadingState, clause: Clause, mention: Mention) -> Happening | None:
    """The bath that a clause speaks of, if it came before."""
    kinds = _BATHS.get(mention.name)
    before = [h for h in state.happened if h.clause.place < clause.place]
    if kinds is None:
        said = {token.text for token in clause.tokens[mention.i : mention.j]}
        of_roast = clause.has("pan", "tin", "roasting") and not said.isdisjoint(("juice", "juices"))
        kinds = ("marinate", "brine") if said & _LIQUOR and not of_roast else ()
    return next((h for h in reversed(before) if h.kind in kinds), None)


def _unread_water(state: ReadingState, clause: Clause, last: Sequence[int]) -> Happening | None:
    """Water in which food may lie or boil and of which nothing was made."""
    water = state.water_of(clause)
    if water is None or clause.act not in _BATHES or water.prep in ("to", "of", "from"):
        return None
    said = grams_of(water_said(clause)) if water_said(clause) else None
    if (said is not None and said < _LITTLE_ML) or is_no_pot(state, clause) or clause.has("splash", "little"):
        return None
    if water.prep == "with" and _COVERS.isdisjoint(clause.words):
        return None
    foods = state.solids(clause) or dict.fromkeys(last, 1.0)
    if not foods or _is_known(state, clause, foods):
        return None
    salted = bool(strength_of(clause) or state.salt_said(clause) or salts_of(state, clause))
    mg = _GIVEN_OFF * sum(lines_mg(state, (n,)) for n in foods if is_salty(state.lines[n]))
    if salted:
        mg += _TAKEN_UP_MG * grams_in(state, foods)
        mg += lines_mg(state, salts_of(state, clause))
    if not is_worth_asking(state, mg):
        return None
    kind = "boil" if is_hot(clause) or clause.vessel() == "pot" else "brine" if salted else "soak"
    found = Happening(kind, clause, foods=foods, liquid=salts_of(state, clause), confidence=0.5, maybe=True)
    found.water, found.heated, found.drained = water_for(state, clause), kind == "boil", True
    found.unread = True
    found.take_time(clause)
    return found


def _unread_washing(state: ReadingState, clause: Clause, lines: Sequence[int]) -> Happening | None:
    """Salty food that a sentence seems to rinse or soak, and of which no step was made."""
    wet = (*_WET, "drain", "rinse")
    known = {n for h in state.happened if h.kind in wet for n in (*h.foods, *h.extra)}
    foods = {n: 1.0 for n in lines if n not in known}
    if not foods or any(h.clause.sentence == clause.sentence for h in state.happened):
        return None
    found = Happening("soak", clause, foods=foods, water=Water(), drained=True, confidence=0.5, maybe=True)
    found.unread = True
    found.take_time(clause)
    return found


def _never_poured(state: ReadingState, clauses: Sequence[Clause]) -> None:
    """What was stirred to a salty bath, where something waits in the cold and no bath was seen to be used."""
    used = {n for h in state.happened for n in (*h.liquid, *h.extra, *h.foods)}
    asked = {n for left in state.left_over for n in left.lines}
    for company in (*reversed(state.company), state.simmered):
        if company & (used | asked):
            continue
        kinds = set(map(state.kind, company))
        if kinds & (SOLIDS | {"flour"}) or not kinds & {"salt", "savoury", "curing"}:
            continue
        wet = grams_in(state, company, WET - {"oil"})
        if wet < _A_BATH_G or not is_worth_asking(state, 0.5 * lines_mg(state, company)):
            continue
        waits = next((c for c in clauses if _waits_cold(c) and not state.is_soup), None)
        if waits is not None:
            state.left_over.append(LeftOver(waits, tuple(sorted(company)), ASIDE))
        return


def _waits_cold(clause: Clause) -> bool:
    """Whether a clause lets something lie for an hour or more where it is cold."""
    long = clause.act not in _HEATS and bool(clause.hours) and clause.hours[0].likely >= 1.0
    cold = clause.celsius is not None and clause.celsius <= _COLD_C
    return long and (cold or not _COLD.isdisjoint(clause.words))


def _is_known(state: ReadingState, clause: Clause, foods: dict[int, float]) -> bool:
    """Whether a step was made of the sentence, or of another of this food in water."""
    another = clause.has("fresh", "again", "clean", "second")
    return any(
        h.clause.sentence == clause.sentence
        or (not another and h.kind in _WET and foods.keys() & {*h.foods, *h.extra})
        for h in state.happened
    )


def _skipped(state: ReadingState, clauses: Sequence[Clause]) -> Iterator[Happening]:
    """Baths of which a sentence near them says that they may be left out."""
    baths = [h for h in state.happened if h.kind in COLD and SALTING & set(map(state.kind, h.liquid))]
    if not baths:
        return
    for clause in clauses:
        if _MAY_SKIP.isdisjoint(clause.words) or not _SKIPS.search(clause.sentence):
            continue
        before = [h for h in baths if h.clause.place <= clause.place]
        near = [h for h in before if h.clause.method == clause.method]
        if _OF_BATHS.search(clause.sentence):
            near = near or before or baths
        if near:
            yield near[-1]


def is_done_after_all(state: ReadingState, doubts: Doubts, each: Happening) -> bool:
    """What a person says of water that a sentence speaks of and no step was made of."""
    food = names_of(state.lines, each.foods)
    does = "boil" if each.kind in HOT else "lie"
    said, told = each.clause.sentence, {"food": food, "does": does}
    return doubts.ask("unread", said, "left_out", "dish", said=said[:120], **told) == "done"
