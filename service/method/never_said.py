"""Brines, marinades, cures and deep fat that are made ready and no clause was seen to use: they were used.
So was the pot of pasta that is told of in passing."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence

from .bath_kinds import kind_of_bath
from .clauses import Clause
from .frying import heated_in_depth
from .happenings import DRY, PROTEINS, SALTABLE, SALTING, WET, Happening
from .hours_meant import WAITS
from .implied_pots import boiled_unsaid
from .left_to_the_cook import grams_in, grams_roughly, salty_paste
from .mention import Mention
from .method_words import phrasing
from .reading_state import COLD, HOT, ReadingState
from .roasts import in_the_oven
from .times_and_sizes import Span

_SURE = 0.5
_LEAST_H = 0.3
_CRUSTED = 0.7
_CRUST_G = 250.0
_CRUST = 0.25
"""Salt, g and in weights of the food that bakes, from which on it is a crust that is broken off."""
_LEAST_BRINE_SALT_G = 40.0
"""Salt beside water in a list, g, from which on it is taken for a brine where the two make one."""
_LEAST_JAR_SALT_G = 5.0
"""The same where something is put up in jars."""
_CRUSTS = DRY | {"egg", "water"}
_STRENGTHS = (0.02, 0.3)
"""Salt in weights of the water between which the two make a brine."""
_IN_BRINES = DRY | {"water", "acid", "curing"}


def use_what_stands_ready(state: ReadingState, clauses: Sequence[Clause]) -> None:
    """Begin what the list or a clause makes ready, and no clause was understood to use."""
    _use_unused_baths(state, clauses)
    _salt_crusts(state, clauses)
    _fry_in_waiting_fat(state, clauses)
    if "pasta" in state.index.by_kind:
        _boil_pasta_in_passing(state, clauses)


_IN_PASSING = phrasing("pasta_in_passing")
_DRAINED = frozenset({"cooked", "boiled", "drained", "strained"})
_COOKED_BEFORE = frozenset({"cooked", "leftover", "boiled", "precooked", "instant", "fried"})


def _boil_pasta_in_passing(state: ReadingState, clauses: Sequence[Clause]) -> None:
    """ "While the pasta cooks, fry the leeks", "put the fusilli on", "toss with the drained noodles": where
    that is the first that is said of it."""
    waiting = {
        n
        for n in state.index.of_kinds("pasta")
        if not state.lines[n].is_canned
        and _COOKED_BEFORE.isdisjoint(state.lines[n].text.lower().split())
        and state.latest((*HOT, "soak"), (n,)) is None
    }
    for clause in clauses if waiting else ():
        said = {n: m for m in clause.mentions for n in m.lines if n in waiting}
        if not said or clause.negated or state.is_soup:
            continue
        drained = any(_is_drained(clause, mention) for mention in said.values())
        if drained or _IN_PASSING.search(clause.sentence):
            boiled_unsaid(state, clause, dict.fromkeys(said, 1.0))
        waiting -= said.keys()


def _is_drained(clause: Clause, food: Mention) -> bool:
    """ "The cooked and cooled macaroni", "over noodles cooked as the packet says"."""
    since = max((m.j for m in clause.mentions if m.j <= food.i), default=0)
    near = clause.tokens[max(food.i - 3, since) : food.j + 1]
    return any(token.text in _DRAINED for token in near)


def _use_unused_baths(state: ReadingState, clauses: Sequence[Clause]) -> None:
    """Begin, as a doubtful reading, what the list says was done and no clause was understood to do."""
    if not clauses:
        return
    for lines in (*_baths(state, clauses), *_first_of_list(state, clauses)):
        salty = {n for n in lines if state.kind(n) in SALTING | {"savoury"}}
        if not salty or any(salty & each.liquid.keys() for each in state.happened):
            continue
        foods = _foods(state, lines)
        if not foods:
            continue
        clause, hours = _longest_wait(clauses, lines)
        if hours is None:
            clause = next((c for c in clauses if c.has("jar", "jars") and c.act), clause)
        kind = _kind(state, lines)
        bath = Happening(
            kind, clause, foods=foods, liquid=dict.fromkeys(lines, 1.0), confidence=_SURE, hours=hours
        )
        bath.celsius, bath.named, bath.guessed = clause.celsius, True, True
        if any(c.act == "discard" and "bath" in c.speaks for c in clauses):
            bath.eaten, bath.drained, bath.guessed = 0.0, True, False
        state.happened.insert(0, bath)


def _salt_crusts(state: ReadingState, clauses: Sequence[Clause]) -> None:
    """Begin a crust of salt that food lay or baked in, where the list has more salt than could season it."""
    for salt in state.index.of_kinds("salt"):
        if any(salt in each.liquid for each in state.happened) or state.lines[salt].purpose == "pot":
            continue
        foods = _foods(state, (salt,))
        food_g = grams_in(state, foods)
        grams = grams_roughly(state.lines[salt]) or 0.0
        if (
            not foods
            or grams < max(_CRUST_G, _CRUST * food_g)
            or (_beside(state, salt) and not _is_dough(state, salt, foods))
        ):
            continue
        baked = state.latest(("roast", "smoke"), foods)
        oven = baked.clause if baked is not None else _baking(clauses)
        if oven is None:
            continue
        whites = {n: 1.0 for n in state.index.of_kinds("egg") if "white" in state.lines[n].words}
        liquid = {salt: 1.0, **whites, **dict.fromkeys(_dough_of(state, salt, foods), 1.0)}
        crust = Happening("dry_cure", oven, foods=foods, liquid=liquid, confidence=_CRUSTED)
        crust.eaten, crust.drained, crust.closed = 0.0, True, True
        if baked is not None:
            crust.hours = baked.hours
        else:
            crust.take_time(oven)
        state.happened.insert(state.happened.index(baked) if baked else len(state.happened), crust)


_FRIES_FOR = frozenset({"cook", "put", "let", "heat", "hold", "simmer", "other", ""})


def _fry_in_waiting_fat(state: ReadingState, clauses: Sequence[Clause]) -> None:
    """Fry what was coated, where deep fat was heated and nobody says what goes into it: "Heat the oil to
    180 °C. Dip the hake in the batter. Drain on paper"."""
    coated = state.latest(("dredge",))
    if coated is None or state.latest(("fry", "roast"), coated.foods) is not None:
        return
    heats = ((c, heated_in_depth(state, c)) for c in clauses if not c.negated)
    heated, fats = next(((c, fats) for c, fats in heats if fats - coated.liquid.keys()), (None, set[int]()))
    if heated is None:
        return
    fried = Happening("fry", heated, foods=dict(coated.foods), liquid={min(fats): 1.0}, closed=True)
    fried.take_time(heated)
    begun = max(coated.clause.place, heated.place)
    later = (c for c in clauses if c.place > begun and c.hours and not c.negated)
    if fried.hours is None and (told := next(later, None)) is not None and told.act in _FRIES_FOR:
        fried.take_time(told)
    state.happened.append(fried)


def _baking(clauses: Sequence[Clause]) -> Clause | None:
    """Where something bakes for a stated time."""
    return next((c for c in clauses if c.hours and (c.act == "roast" or in_the_oven(c))), None)


def _is_dough(state: ReadingState, salt: int, foods: Collection[int]) -> bool:
    return "flour" in map(state.kind, _dough_of(state, salt, foods))


def _dough_of(state: ReadingState, salt: int, foods: Collection[int]) -> set[int]:
    """What the salt of a crust was stirred with: flour, egg, water and herbs."""
    stirred = set().union(*(company for company in state.company if salt in company))
    return {n for n in stirred - {salt, *foods} if state.kind(n) in _CRUSTS}


def _baths(state: ReadingState, clauses: Sequence[Clause]) -> Iterator[tuple[int, ...]]:
    """The baths that headings name, then salt and water of a list that make a brine."""
    seen: set[int] = set()
    for name, mixture in state.named.items():
        lines = tuple(n for n in mixture.lines if not state.lines[n].purpose or state.lines[n].heading)
        seen.update(lines)
        if name in ("brine", "marinade", "cure"):
            yield lines
    for salt in state.index.of_kinds("salt"):
        grams = grams_roughly(state.lines[salt]) or 0.0
        water = () if salt in seen or grams < _LEAST_JAR_SALT_G else _beside(state, salt)
        if not water or (grams < _LEAST_BRINE_SALT_G and not any(c.has("jar", "jars") for c in clauses)):
            continue
        litres = grams_in(state, water, ("water",))
        if litres and _STRENGTHS[0] <= grams / litres <= _STRENGTHS[1]:
            yield (salt, *water)


_SOAKS = frozenset({"marinate", "brine", "cure"})
_LEAST_LINES, _FEW = 2, 2
"""Lines of such a bath at the least; lines at the most that a word speaks of which is no name of many."""


def _first_of_list(state: ReadingState, clauses: Sequence[Clause]) -> Iterator[tuple[int, ...]]:
    """ "Mix the marinade, add the beef": what the list has before the meat, if the method names none."""
    if state.named or any(h.kind in COLD for h in state.happened):
        return
    soaks = any(c.act in _SOAKS and not c.negated for c in clauses)
    soaks = soaks or any(m.name == "marinade" for c in clauses for m in c.mentions)
    order = state.index.lines
    meat = next((i for i, line in enumerate(order) if line.kind in PROTEINS), 0)
    lines = tuple(line.index for line in order[:meat])
    kinds = set(map(state.kind, lines))
    if not soaks or len(lines) < _LEAST_LINES or not kinds <= DRY | WET:
        return
    named = {n for c in clauses for m in c.mentions if len(m.lines) <= _FEW for n in m.lines}
    salty = {n for n in lines if state.kind(n) in {*SALTING, "savoury"}}
    if salty and kinds & WET and named.isdisjoint(salty):
        yield lines


def _beside(state: ReadingState, salt: int) -> tuple[int, ...]:
    """The lines around a line of salt that may be of its brine."""
    order = [line.index for line in state.index.lines]
    at, found = order.index(salt), []
    for way in (range(at - 1, -1, -1), range(at + 1, len(order))):
        for i in way:
            if (
                state.kind(order[i]) not in _IN_BRINES
                or state.lines[order[i]].heading != state.lines[salt].heading
            ):
                break
            found.append(order[i])
    return tuple(found) if "water" in map(state.kind, found) else ()


def _foods(state: ReadingState, lines: Sequence[int]) -> dict[int, float]:
    """The meat or fish of the recipe, or else what it begins with that salt can change."""
    main = {n: s for n, s in state.main_foods().items() if n not in lines}
    if main:
        return main
    first = next(
        (n for n in state.index.lines if n.kind in SALTABLE - PROTEINS and n.index not in lines), None
    )
    return {first.index: 1.0} if first is not None else {}


def _longest_wait(clauses: Sequence[Clause], lines: Sequence[int]) -> tuple[Clause, Span | None]:
    """The clause that lets food stand the longest once one of the lines was spoken of, and its time."""
    spoken = next(
        (
            i
            for i, c in enumerate(clauses)
            if c.act != "discard" and any(set(lines) & set(m.lines) or m.kind == "bath" for m in c.mentions)
        ),
        0,
    )
    told = next((c for c in clauses[spoken:] if c.hours and "bath" in c.speaks and not c.negated), None)
    if told is not None and told.hours[0].likely >= _LEAST_H:
        return told, told.hours[0]
    waits = [c for c in clauses[spoken:] if c.hours and c.act in WAITS and not c.negated]
    if not waits:
        return clauses[spoken], None
    longest = max(waits, key=lambda c: c.hours[0].likely)
    return longest, longest.hours[0]


def _kind(state: ReadingState, lines: Sequence[int]) -> str:
    kinds = set(map(state.kind, lines)) - {"oil"}
    return kind_of_bath("", kinds, is_paste=salty_paste(state, lines))
