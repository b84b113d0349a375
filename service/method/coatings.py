"""Flour that food is turned in: part sticks to it, the rest stays behind."""

from __future__ import annotations

import re
from collections.abc import Collection

from .clauses import Clause
from .coats_said import (
    DRY_MIX,
    EGGS,
    INTO,
    LEFT_OVER_G,
    coats_bare,
    dips,
    egg_alone,
    egg_washes,
    goes_in,
    goes_through,
    is_in,
    lies_in_egg,
    may_coat,
    meant_for,
    milk_between,
    of_bowl,
    part_of_list,
    seasoned_with,
    stirred_before,
    thickens,
)
from .fat_depth import is_much
from .frying import NO_COATING
from .happenings import PROTEINS, Happening, Mixture
from .leavens import is_leaven
from .left_to_the_cook import grams_roughly
from .mention import Mention
from .method_words import phrasing, small_words
from .reading_state import COLD, ReadingState
from .twins import is_for_coating

TURNS = small_words("turns")
_BREADS = frozenset({"dredge", "bread", "crumb", "breadcrumb", "pané", "pane"})
"""What is done with all the flour and crumbs of the list, where no clause says with which."""
_TOPS = frozenset({"top", "scatter", "strew", "finish"})
"""Of these "to coat" tells how a dish is topped, and nothing is turned."""
_SHAKES = frozenset({"coat", "shaking", "excess"})
_PANES = _BREADS - {"dredge"}
_TURNED = frozenset({"tumble", "dunk", "swish", "push", "press", "turn", "flip", "draw", "shake"})
_BEHIND = frozenset({"in", "into", "with", "through", "on"})
COATED = PROTEINS | {"vegetable", "cheese", "potato"}
_SHAKEN = phrasing("shaken_off")
_COATS = phrasing("coat_heading")
_FLOUR_IN = re.compile(r"flour (?:goes )?in\b", re.I)
_ONE_BY_ONE = phrasing("one_by_one")
_WHOEVER = ("every", "each", "piece", "pieces", "them")
_IN_BAG = re.compile(r"\b(?:bags?|sacks?|coats?)\b", re.IGNORECASE)


def read_coating(state: ReadingState, clause: Clause) -> None:
    """Take a clause that turns food in flour, egg or crumbs."""
    if clause.negated or not NO_COATING.isdisjoint(clause.words):
        return
    coats = clause.act in {"dredge", "coat", "mix", "put"} or clause.base in _TURNED | _LASTLY
    again = clause.base in _LASTLY or (not clause.act and clause.has("same", "likewise", "lastly", "finally"))
    again = again or (clause.base == "shake" and "then" in clause.words)
    if again and _goes_on(state, clause):
        return
    if not EGGS.isdisjoint(clause.words):
        state.dipped |= lies_in_egg(state, clause)
    if clause.base == "add" and _TO_BATTER.search(clause.sentence):
        return
    if clause.act in ("coat", "dredge") and _in_turn(state, clause):
        return
    if coats or goes_through(state, clause) or ("through" in clause.words and _is_each(clause)):
        _dredge(state, clause)
    elif not clause.act or clause.base in _SETS_OUT:
        _in_turn(state, clause)


_SETS_OUT = frozenset({"flour", "set", "line", "arrange", "get", "prepare", "take", "fill"})
""" "Set out three plates: flour, egg, crumbs"."""


_TO_BATTER = re.compile(
    r"\b(?:until|till|have|get|make|makes) (?:\w+ ){0,3}a (?:\w+ )?(?:batter|dough)\b", re.IGNORECASE
)
""" "Add the fish and the water until you have a thick batter": a mixture, and no coat."""


def _dredge(state: ReadingState, clause: Clause) -> None:
    if all(map(is_leaven, state.index.by_kind.get("flour", ()))) or _FLOUR_IN.match(clause.text):
        return  # "toss the wings with the baking powder", "flour in, cook two minutes"
    flours = state.lines_of(clause, ("flour",))
    behind = {n for m in clause.mentions if m.prep in _BEHIND or is_in(clause, m) for n in m.lines}
    used = (n for n in flours if n in behind or clause.base == "flour")
    flours = {stirred_before(state, n): flours[n] for n in used} | part_of_list(state, clause)
    mixture = dry_bowl(state)
    added = not mixture.closed and (
        coats_bare(state, clause, mixture) or _is_added_to_flour(state, clause, mixture)
    )
    of_mixture = added or (
        not mixture.closed
        and "flour" in map(state.kind, mixture.lines)
        and (goes_in(clause) or any(_is_mixture(state, m) for m in clause.mentions))
    )
    tossed = clause.base == "toss" and _is_tossed_in(state, clause, flours, mixture if of_mixture else None)
    if clause.base in ("shake", "toss") and not mixture.closed and _shakes_in_flour(state, clause, mixture):
        of_mixture = tossed = True
    tossed = tossed or (clause.base == "shake" and bool(flours))
    dusted = clause.base == "dust" and _leaves_flour(
        state, clause, flours or (mixture.lines if of_mixture else {})
    )
    through = goes_through(state, clause)
    turned = clause.base in TURNS or not (clause.base in _TOPS or clause.words.isdisjoint(_SHAKES))
    turned |= (clause.act == "put" and clause.has("coated")) or (
        of_mixture and clause.has("coated", "coating")
    )
    said = turned or through or dusted or tossed or added or _is_laid_in_flour(state, clause, flours)
    known = state.latest(("dredge",))
    if (
        known is not None
        and (clause.act == "dredge" or clause.base in TURNS or clause.base in ("cover", "top"))
        and known.clause.sentence == clause.sentence
    ):
        known.liquid |= flours | {
            n: 1.0 for n in behind | dips(state) if state.kind(n) in ("egg", "flour", "milk")
        }
        return
    one_by_one = _is_in_each(state, clause)
    bare = one_by_one or (clause.act == "dredge" and _names_no_flour(state, clause))
    of_mixture = of_mixture and not one_by_one
    bare = bare and not (flours or of_mixture or "made" in clause.speaks)  # "bread dumplings go well"
    if bare:  # "let drip, dredge": in the flour that waits, or in the only one of the list
        of_mixture = not (mixture.closed or one_by_one) and "flour" in map(state.kind, mixture.lines)
        flours = {} if of_mixture else dict.fromkeys(_flours_of_list(state, clause), 1.0)
        state.dipped |= egg_washes(state) if one_by_one or clause.base in _PANES else set()
    if clause.act in ("put", "mix") and not flours:
        state.dipped |= egg_alone(state, clause)
    if said and not flours and clause.base in TURNS:
        state.dipped |= {n for n in behind if state.kind(n) in ("egg", "milk")}
    if not (said or bare) or not (flours or of_mixture):
        return
    foods = {n: s for n, s in coated(state, clause).items() if state.kind(n) in COATED}
    foods |= dict.fromkeys(state.stirred_with(foods, PROTEINS), 1.0)
    if own := meant_for(state, flours, foods):
        flours, of_mixture = own, False
    if not foods or set(foods) & set(flours) or thickens(state, foods, flours):
        return
    if clause.base == "dip" or clause.has("egg", "eggs") or through:
        flours = {**flours, **{n: 1.0 for n in behind if state.kind(n) == "egg"}}
    known = state.latest(("dredge",), foods)
    if not (mixture.closed or own) and (of_mixture or set(flours) & set(mixture.lines)):
        flours = {**flours, **of_bowl(state, mixture, whole=of_mixture)}
    flours.update({n: 1.0 for n in state.index.of_kinds("flour") if n in flours})
    flours = _of_this_food(state, flours, foods, mixture.lines if of_mixture else ())
    flours |= seasoned_with(state, clause, flours) | milk_between(state, clause, behind)
    if known is not None:
        known.liquid |= _without_bath_salt(state, flours | dict.fromkeys(dips(state), 1.0))
        return
    _begin(state, clause, foods, flours)


def _begin(state: ReadingState, clause: Clause, foods: dict[int, float], flours: dict[int, float]) -> None:
    """Coat food in flours, with all that the list and the bowls have with them."""
    flours |= dict.fromkeys(_of_heading(state, flours), 1.0)
    flours |= dict.fromkeys(dips(state), 1.0)
    flours = _without_bath_salt(state, flours | dict.fromkeys(_stirred_in(state, flours), 1.0))
    state.begin(Happening("dredge", clause, foods=foods, liquid=flours, closed=True, confidence=0.85))


def _shakes_in_flour(state: ReadingState, clause: Clause, mixture: Mixture) -> bool:
    """ "Shake in the bag", "drop it in and shake", of flour that was stirred dry."""
    if "flour" not in map(state.kind, mixture.lines):
        return False
    bare = clause.base == "shake" and not clause.mentions and not clause.has("off", "out", "dry", "excess")
    bare = bare and mixture.water is None and state.latest(("dredge",)) is None  # else other food is done
    return bare or bool(_IN_BAG.search(clause.sentence))


def _is_in_each(state: ReadingState, clause: Clause) -> bool:
    """ "Coat the fish in each in turn", of the dishes that flour, egg and crumbs were put in."""
    if not (clause.base in TURNS or "through" in clause.words) or not _is_each(clause):
        return False
    if clause.base in TURNS and "line" not in clause.speaks and clause.has(*_WHOEVER):
        return True  # "roll every finger through them in this order"
    return any(not coated(state, clause).keys().isdisjoint(m.lines) for m in clause.mentions)


def _is_each(clause: Clause) -> bool:
    """ "Take the cod through all three", whatever the verb."""
    return _ONE_BY_ONE.search(clause.text) is not None


def _names_no_flour(state: ReadingState, clause: Clause) -> bool:
    """ "Dredge the fish", "flour the chops": with what need not be said."""
    if clause.base != "flour" or state.solids(clause, direct=True):
        return clause.base in _BREADS or clause.base == "flour"
    last = set(map(state.kind, state.last_foods)) if "it" in clause.speaks else set()
    many = any(m.kind == "it" and (m.name or clause.tokens[m.i].text == "them") for m in clause.mentions)
    return bool(last) and last <= (COATED if many else PROTEINS)  # "wipe the fillets and flour them"


def _flours_of_list(state: ReadingState, clause: Clause) -> list[int]:
    """The flours and crumbs of the list; the flours alone where food is floured."""
    found = state.index.of_kinds("flour")
    only = clause.base == "flour" and _PANES.isdisjoint(clause.words)  # not of "flour, egg and crumb it"
    return [n for n in found if not only or state.lines[n].words[-1] in _PLAIN]


_PLAIN = frozenset({"flour", "cornflour", "cornstarch", "starch", "cornmeal"})
_LASTLY = frozenset({"finish", "repeat", "follow", "end", "continue"})
"""What is done with the next of several coats: "repeat with the egg", "finish with the crumbs"."""


def _goes_on(state: ReadingState, clause: Clause) -> bool:
    """Whether a clause only gives what is coated already its next coat."""
    shakes = clause.base == "shake"  # "shaking off the excess, then the egg and the crumbs"
    behind = {n for m in clause.mentions if m.prep in _BEHIND or shakes for n in m.lines}
    coats = {n for n in behind if state.kind(n) in ("flour", "egg", "milk")}
    known = state.latest(("dredge",))
    if not coats or known is None or clause.method - known.clause.method > 2:
        return False
    known.liquid |= dict.fromkeys(coats, 1.0)
    return True


_LAYS = frozenset({"place", "put", "lay", "drop", "set", "cover", "finish"})


def _is_laid_in_flour(state: ReadingState, clause: Clause, flours: Collection[int]) -> bool:
    """ "Place each fillet in a bowl of flour": pieces of meat or fish lie in it on all sides."""
    if clause.base not in _LAYS or not flours or clause.vessel() in ("pot", "pan"):
        return False
    where = {n for m in clause.mentions if m.prep in INTO for n in m.lines}
    if clause.base == "cover":  # "cover the chops with flour", but crumbs may only lie on top
        behind = {n for m in clause.mentions if m.prep == "with" for n in m.lines}
        where |= {n for n in behind if state.lines[n].words[-1] in _PLAIN}
    pieces = set(state.solids(clause, direct=True)) - where or set(state.last_foods)
    minced = any(not _MINCED.isdisjoint(state.lines[n].text.lower().split()) for n in pieces)
    only = {state.kind(n) for n in where} <= {"flour", "egg", "salt", "spice", "herb"} | PROTEINS
    return only and set(flours) <= where and not minced and {state.kind(n) for n in pieces} <= PROTEINS


def _in_turn(state: ReadingState, clause: Clause) -> bool:
    """ "Flour, egg, panko - in that order": what food is turned in, with no verb; "coat the chops: flour,
    egg, crumbs"; "flour the chops, then egg, then crumbs"."""
    named = {n for m in clause.mentions for n in m.lines if not (clause.act and m.prep)}
    coats = {n for n in named if state.kind(n) in _COATS_IN_TURN}
    kinds = set(map(state.kind, coats))
    if clause.base == "flour" or clause.base in _PANES:
        coats |= set(_flours_of_list(state, clause))
        kinds.add("flour")
    others = set(map(state.kind, named - coats))
    if not {"flour", "egg"} <= kinds or not others <= (COATED if clause.act else set()):
        return False
    if not (state.last_foods or clause.act):
        if sum(state.kind(n) == "flour" for n in named) < _SEVERAL:
            return False  # "flour, eggs, milk", of a batter
        state.last_foods = tuple(state.main_foods())
    foods = {n: s for n, s in coated(state, clause).items() if state.kind(n) in COATED and n not in coats}
    if not foods or state.latest(("dredge",), foods) is not None:
        return False
    lines = dict.fromkeys(coats, 1.0)
    lines |= dict.fromkeys(_stirred_in(state, lines), 1.0)
    state.begin(Happening("dredge", clause, foods=foods, liquid=lines, closed=True, confidence=0.85))
    return True


_COATS_IN_TURN = frozenset({"flour", "egg", "milk", "salt", "spice"})


def _of_this_food(
    state: ReadingState, flours: dict[int, float], foods: Collection[int], stirred: Collection[int]
) -> dict[int, float]:
    """Of several lines of flour those for a coating, or else under the heading of the food, and what was
    stirred to the batter that a clause speaks of."""
    several = [n for n in flours if state.kind(n) == "flour"]
    if len(several) < _SEVERAL:
        return flours
    headings = {state.lines[n].heading for n in foods}
    own = [n for n in several if is_for_coating(state.lines[n].text)]
    own = own or [n for n in several if state.lines[n].heading in headings]
    names = {state.lines[n].words[-1:] for n in own}
    others = {n for n in several if n not in own and n not in stirred and state.lines[n].words[-1:] in names}
    return {n: s for n, s in flours.items() if n not in others}


_SEVERAL = 2


def _of_heading(state: ReadingState, flours: dict[int, float]) -> set[int]:
    """What the list puts beside the flour under "For the coating": the salt and the spices of it."""
    headings = {h for n in flours if _COATS.search(h := state.lines[n].heading)}
    return {
        line.index
        for line in state.index.lines
        if line.heading in headings and line.kind in ("flour", "salt", "spice", "herb")
    }


def _stirred_in(state: ReadingState, flours: dict[int, float]) -> set[int]:
    """The salt, spices and milk that were stirred into the flour or the egg of a coating."""
    found: set[int] = set()
    bases = {n for n in flours if state.kind(n) not in ("salt", "spice", "herb")}
    for company in state.company:
        kinds = set(map(state.kind, company))
        if company & bases and not kinds & PROTEINS:
            found |= {n for n in company if state.kind(n) in ("salt", "spice", "herb", "milk")}
            found |= {n for n in company if kinds <= _WITH_CRUMBS and state.kind(n) in ("cheese", "water")}
    return found - flours.keys()


def _without_bath_salt(state: ReadingState, flours: dict[int, float]) -> dict[int, float]:
    """What food is turned in without the salt that the list puts under a marinade: a pinch more of it for the
    flour is none of the marinade's teaspoons."""
    lain_in = {n for each in state.happened if each.kind in COLD for n in each.liquid}
    own = {state.lines[n].heading for n in flours if state.kind(n) == "flour"} | {""}
    salts = {n for n in lain_in if state.kind(n) == "salt" and state.lines[n].heading not in own}
    waits = state.pending
    if waits is not None and waits.clause.act == "season":  # "salt the cutlets; turn them through each"
        dry = {n for m in waits.clause.mentions for n in m.lines if state.kind(n) == "flour"}
        stirred = set().union(*(c for c in state.company if not c.isdisjoint(flours)))
        salts |= {n for n in waits.liquid if state.kind(n) == "salt" and not dry and n not in stirred}
    return {n: s for n, s in flours.items() if n not in salts or s != 1.0}


_WITH_CRUMBS = frozenset({"flour", "egg", "milk", "water", "cheese", "salt", "spice", "herb"})
"""What is stirred with crumbs or egg and with nothing else: a coating."""


def dry_bowl(state: ReadingState) -> Mixture:
    """The flour that was stirred with its spices, though oil was heated since; else what was stirred last."""
    if state.floured is None or "flour" in map(state.kind, state.mixture.lines):
        return state.mixture
    return state.floured


def _is_added_to_flour(state: ReadingState, clause: Clause, mixture: Mixture) -> bool:
    """ "Mix the flour with the spices; add the chicken, a piece at a time": it is turned in dry flour."""
    pieces = {n for n in state.solids(clause, direct=True) if state.kind(n) in PROTEINS}
    if clause.act != "put" or clause.base not in ("add", "put", "place", "drop") or not pieces:
        return False
    lines = mixture.lines.keys() - pieces
    kinds = {state.kind(n) for n in lines if state.lines[n].purpose != "fryer"}
    minced = any(not _MINCED.isdisjoint(state.lines[n].text.lower().split()) for n in pieces)
    return "flour" in kinds and kinds <= DRY_MIX - {"oil"} and not (minced or mixture.water)


_MINCED = frozenset({"mince", "minced", "ground", "sausage"})


def _leaves_flour(state: ReadingState, clause: Clause, flours: dict[int, float]) -> bool:
    """Whether food is dusted over more flour than sticks to it: what is shaken off, what goes on raw meat by
    weight, or an amount that no line gives, before it fries in depth."""
    if any(m.prep in INTO for m in clause.mentions):
        return True  # "dust it in the flour"
    if not flours or _SHAKEN.search(clause.sentence):
        return bool(flours)
    raw = state.last_heat != "fry" and "top" not in clause.words
    if raw and all(grams_roughly(state.lines[n]) for n in flours):
        return set(map(state.kind, coated(state, clause))) <= PROTEINS
    deep = any(is_much(n) or n.purpose == "fryer" for n in state.index.lines if n.kind == "oil")
    return deep and all(state.lines[n].line.amount is None for n in flours)


def _is_mixture(state: ReadingState, mention: Mention) -> bool:
    if mention.kind == "it":  # "season the flour and turn the chicken in it", "dust it with this"
        into = mention.prep in INTO or mention.prep == "with"
        return into and may_coat(state, state.mixture)
    return mention.kind == "bath" and mention.name == "other" and mention.prep in _BEHIND


def _is_tossed_in(
    state: ReadingState, clause: Clause, flours: dict[int, float], mixture: Mixture | None
) -> bool:
    """ "Toss the pieces in cornflour", "in it": in so much that some is left; a spoonful that thickens is
    eaten."""
    behind = {n for m in clause.mentions if m.prep in INTO or is_in(clause, m) for n in m.lines}
    into = {n for n in flours if n in behind}
    if mixture is not None and any(m.prep in INTO for m in clause.mentions):
        into |= {n for n in mixture.lines if state.kind(n) == "flour"}
    return any((grams_roughly(state.lines[n]) or 0.0) >= LEFT_OVER_G for n in into)


def coated(state: ReadingState, clause: Clause) -> dict[int, float]:
    """What is turned in a coating: the piece, never the egg or the crumbs."""
    direct = {n: s for n, s in state.solids(clause, direct=True).items() if state.kind(n) != "egg"}
    pieces = dict.fromkeys((n for n in state.last_foods if state.kind(n) != "egg"), 1.0)
    salted = state.pending or state.latest(("dry_cure", "brine", "marinate", "soak"))
    return direct or pieces or state.main_foods() or (dict(salted.foods) if salted is not None else {})
