"""Pots whose water nobody names: "boil the potatoes", "cook the pasta", "poach the fish in the stock"."""

from __future__ import annotations

import re
from collections.abc import Iterable

from .clauses import Clause
from .cooked_bare import begin_in_water, flavours_pot, remember_bare
from .doughs import boiled_rolled, of_label
from .happenings import LIQUIDS, POURED_WITHOUT_WORD, PROTEINS, SOLIDS, Happening, Water
from .ingredients_meant import leading_food, sole_food
from .left_to_the_cook import grams_in, grams_roughly
from .liquors import in_new_water, poached_in_milk
from .mention import Mention
from .method_words import HEATS
from .pans_of_water import opens_alone
from .poured import boils_cured
from .reading_state import ReadingState
from .waters import lies_in_mixture, salt_beside, salt_into_pot, water_for

_BOILS = frozenset({"boil", "boiled"})
_DRAINS = re.compile(r"\bdrain(?:ed|ing)?\b", re.IGNORECASE)
_OF_A_POT = frozenset({"water", "salt", "acid", "sweet", "spice", "herb", "aromatic"})
_LIFTED_OUT = PROTEINS | {"potato", "egg", "pasta"}


def _all_there_is_to_do(state: ReadingState, clause: Clause) -> bool:
    """ "Boil 3 hours": a method that begins so, of a list with water in it, boils its food in all of that."""
    if clause.act != "boil" or clause.negated or clause.speaks - {"vessel"} or state.spoken or state.company:
        return False
    waters = state.index.of_kinds("water")
    if not waters:
        return False
    foods = state.main_foods() or leading_food(state.index)
    if not foods or not set(map(state.kind, foods)) <= _LIFTED_OUT:
        return False
    pot = Happening("boil", clause, foods=foods, confidence=0.75, heated=True)
    pot.liquid = dict.fromkeys(state.index.of_kinds(*sorted(_OF_A_POT)), 1.0)
    counted = any(state.lines[n].line.amount is not None for n in waters)
    pot.topped = not counted
    if not (counted or state.is_soup):  # "water to cover" is what it is taken out of
        pot.lifted = pot.drained = True
    state.pot = state.begin(pot, clause)
    return True


def implied(state: ReadingState, clause: Clause) -> bool:
    """ "Boil the potatoes for 20 minutes", "cook the pasta": water that nobody names."""
    if clause.base == "fill" or clause.act in HEATS:
        if opens_alone(state, clause) or in_new_water(state, clause) or _all_there_is_to_do(state, clause):
            return True
    if clause.act == "put" and _POACHED_IN & state.index.by_kind.keys() and _put_in_stock(state, clause):
        return True
    act = "cook" if clause.base in _PREPARES and _makes_ready(state, clause) else clause.act
    if clause.negated or act not in {"boil", "cook", "simmer"}:
        return False
    solids = state.solids(clause, direct=True)
    liquids = [
        m
        for m in clause.mentions
        if m.prep in ("in", "into", "with")
        and (m.kind == "bath" or any(state.kind(n) in (*LIQUIDS, "oil") for n in m.lines))
    ]
    if any(not m.prep and state.kind(n) in _DRUNK for m in clause.mentions for n in m.lines):
        return False  # "boil up the wine, tomatoes and capers": a sauce
    solids = solids or (_meant_by_it(state, clause) if liquids else _spoken_of(state, clause))
    solids = solids or _pasta_of_label(state, clause)
    solids = solids or boiled_rolled(state, clause)
    in_it = any(m.kind == "it" and m.prep in ("in", "into") for m in clause.mentions)
    if in_it:
        # "dissolve the salt in the water, bring it to a simmer and poach the fish in it"
        if into_stirred(state, clause) or poached_in_milk(state, clause):
            return True
        if _in_broth(state) or _broth_is_hot(state):
            return True
    if (
        not solids
        or (clause.vessel() == "pan" and act != "boil")
        or clause.has("oven", "grill", "microwave", "steamer", "fry", "butter")
        or (_IN_A_DISH.search(clause.text) and not any("stock" in map(state.kind, m.lines) for m in liquids))
    ):
        return False
    if pot := state.latest(("boil", "simmer"), solids):
        if not pot.closed:
            pot.take_time(clause)
            pot.heated = True
            return True
    pastas = {line: share for line, share in solids.items() if state.kind(line) == "pasta"}
    if liquids:
        wet = any(state.kind(n) in LIQUIDS for m in liquids for n in m.lines)
        if act == "cook" or not (wet and all(m.kind == "line" for m in liquids)):
            return False  # "simmer the tomatoes in the oil": a sauce
        return _in_liquid(state, clause, solids)
    sure = pastas or act == "boil" or _are_dry(state, clause, solids)
    if not (sure or (act == "simmer" and _was_desalted(state, solids))):
        if not _cooked_and_drained(state, clause, solids):
            if "it" not in clause.speaks:
                remember_bare(state, clause, solids)
            return False
    foods = (pastas or solids) if act == "cook" else solids
    if pastas and any(set(pastas) & company for company in state.company):
        return False
    if act != "cook" and not POURED_WITHOUT_WORD & set(map(state.kind, foods)) and clause.base == "boil":
        if not set(map(state.kind, foods)) & (PROTEINS | {"grain", "legume"}):
            return False
    waits = state.pot
    if waits is not None and not (waits.foods or waits.closed):
        waits.foods, waits.heated, waits.clause = dict(foods), True, clause  # "in they go; boil 20 minutes"
        state.begin(waits, clause)
        return True
    pot = begin_in_water(state, clause, foods)
    if in_it or _was_salted_now(state, clause):
        salt_into_pot(state, pot)
    if POURED_WITHOUT_WORD & set(map(state.kind, foods)) and (listed := _listed_pot(state)):
        pot.liquid, pot.water = listed | pot.liquid, None
    return True


def _was_salted_now(state: ReadingState, clause: Clause) -> bool:
    """ "Add the salt to the water, cook the pasta": what was stirred just now is its pot's water."""
    stirred = state.mixture
    since = [state.turn - state.last_spoken.get(n, -_JUST) for n in stirred.lines]
    now = stirred.sentence == clause.sentence or any(turns < _JUST for turns in since)
    return now and stirred.name != "brine"


_JUST = 3
"""Clauses since which salt was spoken of, below which it was just now."""


_DRUNK = frozenset(LIQUIDS) - {"water"}
_IN_A_DISH = re.compile(
    r"\bbroth\b|\b(?:in|into) (?:the|your|this) (?:\w+ )?(?:soup|stew|sauce|curry)\b", re.I
)
_COOKS = re.compile(r"\b(?:cook|simmer|poach|boil)", re.IGNORECASE)
_POACHED_IN = frozenset({"stock", "milk", "wine"})


def _put_in_stock(state: ReadingState, clause: Clause) -> bool:
    """ "Put the chicken in the stock and cook for 20 minutes", fish in the milk: heated at once, a pot."""
    foods = state.solids(clause, direct=True) or _meant_by_it(state, clause)
    of_fish = not {"fish", "seafood"}.isdisjoint(map(state.kind, foods))
    stock = set(state.index.of_kinds(*(_POACHED_IN if of_fish else ("stock",))))
    within = any(m.prep in ("in", "into", "with") and not stock.isdisjoint(m.lines) for m in clause.mentions)
    within = within or ("vessel" in clause.speaks and bool(state.lines_of(clause, _POACHED_IN)))
    poaches = of_fish and clause.vessel() in ("pan", "pot")  # "lay it in a pan with the milk"
    if clause.negated or not within or not (poaches or _COOKS.search(clause.sentence)):
        return False
    alone = state.pot is None or state.pot.closed or not state.pot.foods
    flesh = {n for n in foods if state.kind(n) != "vegetable"}
    if not flesh or not alone or not set(map(state.kind, flesh)) <= PROTEINS or clause.vessel() == "bowl":
        return False
    return _in_liquid(state, clause, foods)


def _meant_by_it(state: ReadingState, clause: Clause) -> dict[int, float]:
    """The meat or fish of "poach it in the milk"."""
    direct = bool(clause.mentions) and clause.mentions[0].kind == "it" and not clause.mentions[0].prep
    flesh = direct and set(map(state.kind, state.last_foods)) <= PROTEINS
    return dict.fromkeys(state.last_foods, 1.0) if flesh else {}


_PREPARES = frozenset({"prepare", "make"})


def _makes_ready(state: ReadingState, clause: Clause) -> bool:
    """ "Prepare the noodles according to the package", "make the pasta", of no flour."""
    if clause.has("package", "packet", "packaging", "box"):
        return True
    only = clause.speaks <= {"line", "water", "vessel"} and state.lines_of(clause) == state.solids(clause)
    return only and not clause.hours and not state.index.of_kinds("flour") and _is_dry_pasta(state, clause)


def _is_dry_pasta(state: ReadingState, clause: Clause) -> bool:
    solids = state.solids(clause, direct=True)
    return bool(solids) and all(state.kind(n) == "pasta" and not state.lines[n].is_canned for n in solids)


def into_stirred(state: ReadingState, clause: Clause) -> bool:
    """ "Combine water, salt and lemons, bring to a boil; add the potatoes to the pot": in what was mixed."""
    mixture, pot = state.mixture, state.pot
    if not mixture.heated or mixture.closed or (pot is not None and pot.foods):
        return False
    if "milk" in state.index.by_kind and poached_in_milk(state, clause):
        return True
    kinds = set(map(state.kind, mixture.lines))
    if not {"water", "salt"} <= kinds or "sweet" in kinds or not kinds.isdisjoint(SOLIDS):
        return False
    if lies_in_mixture(state):
        return False  # that was the pot of another food
    if any(state.kind(n) == "acid" and state.lines[n].line.unit for n in mixture.lines):
        return False  # a pickle
    foods = {n: s for n, s in state.solids(clause, direct=True).items() if n not in mixture.lines}
    if not foods or clause.vessel() in ("bowl", "pan"):
        return False
    pot = Happening("boil", clause, foods=foods, liquid=mixture.shares(), heated=True)
    state.pot = state.attention = state.begin(pot, clause)
    mixture.closed = True
    return True


_JOINT_G = 600.0
"""Cured meat, g, from which on it is a joint that is boiled and not a flavouring."""
_POTFUL_G = 600.0
"""Drink, g, from which on it is a joint's liquid; common practice, no source."""
FILLS_POT = frozenset({"pour", "cover", "add", "top", "put", "place", "simmer", "boil"})
_POURED_OVER = frozenset({"wine", "stock", "acid", "other", "water"})


def joint_in_drink(state: ReadingState, clause: Clause) -> bool:
    """ "Pour the cola over the gammon", "cover the ham with the cider", "add onions, water and cider" to
    it: a pot of what the list has."""
    if clause.negated:
        return False
    liquid = state.lines_of(clause, _POURED_OVER)
    if grams_in(state, liquid) < _POTFUL_G:
        return False
    beside = {n: s for n, s in state.solids(clause, direct=True).items() if n not in liquid}
    foods = beside or dict.fromkeys(state.last_foods, 1.0)
    if not set(map(state.kind, foods)) & PROTEINS:
        flesh = {n: 1.0 for n in state.last_foods if state.kind(n) in PROTEINS}
        foods = flesh or state.main_foods() or foods
    foods = {n: s for n, s in foods.items() if n not in liquid}
    if "legume" in map(state.kind, state.last_foods):
        return False  # "drain the beans; add water and the ham bone"
    if not foods or (state.pot is not None and state.pot.foods and not state.pot.closed):
        return False
    pot = Happening("simmer", clause, foods=foods, liquid=liquid)
    weighs = grams_in(state, foods)
    if weighs < _JOINT_G or not boils_cured(pot, state):
        return False
    pot.extra = beside.keys() - foods.keys()
    pot.liquid |= {n: s for n, s in state.lines_of(clause, _POURED_OVER).items() if n not in foods}
    pot.water = water_for(state, clause) if state.water_of(clause) is not None else None
    pot.topped = pot.water is not None
    pot.heated = clause.act in ("simmer", "boil")
    state.pot = state.attention = state.begin(pot, clause)
    return True


def topped_up(state: ReadingState, clause: Clause, water: Mention) -> bool:
    """ "Add the cider and fill up with cold water": both are the liquid of a pot."""
    pot = state.pot
    if pot is None or water.kind != "water" or pot.water is not None or not pot.liquid:
        return False
    if state.attention is not pot or clause.base not in _TOPS or state.solids(clause):
        return False
    pot.water, pot.topped = water_for(state, clause), True
    return True


_TOPS = frozenset({"add", "top", "fill", "pour", "cover"})


def _broth_is_hot(state: ReadingState) -> bool:
    """ "Bring the broth to the boil; cook the tortellini in it"."""
    mixture = state.mixture
    heated = mixture.heated and not mixture.closed
    return heated and any(state.kind(n) in ("stock", "milk") for n in mixture.lines)


def _in_broth(state: ReadingState) -> bool:
    """Whether "in it" means a broth that is eaten: what cooks there is eaten with it."""
    pot = state.latest(("boil", "simmer"))
    return pot is not None and pot.eaten == 1.0


_DONE = frozenset({"tender", "soft", "done", "cooked", "al-dente"})
"""How long something boils, by what it comes to: "boil them until they are tender"."""
_IN_WATER = frozenset({"boil", "parboil", "par-boil", "parcook", "par-cook", "blanch", "hard-boil"})


def _spoken_of(state: ReadingState, clause: Clause) -> dict[int, float]:
    """The eggs or roots of "to eat, boil for 10 minutes", which were never in a pot before."""
    last = state.last_foods or sole_food(state.index, state.spoken)
    named = any(m.kind != "it" and not flavours_pot(state, m) for m in clause.mentions)
    desalted = (clause.act in ("simmer", "cook") or clause.base == "poach") and _was_soaked(state, last)
    timed = (
        bool(clause.hours)
        or (clause.tokens[0].text in _BOILS and ("it" in clause.speaks or state.lines_of(clause, ("salt",))))
        or (clause.base in _IN_WATER and state.last_heat != "fry" and not clause.words.isdisjoint(_DONE))
    )
    drained = clause.act == "cook" and not state.last_heat and bool(_DRAINS.search(clause.sentence))
    if not ((clause.base in _IN_WATER or desalted or drained) and timed) or named or not last:
        return {}
    before = {
        n for each in state.happened if each.kind in ("boil", "simmer") for n in each.foods | each.liquid
    }
    stirred = set().union(*state.company) if state.company else set()
    foods = set(last)
    alone = foods.isdisjoint(before) and (state.pot is None or not state.pot.foods)
    alone = alone and not (_broth_is_hot(state) and foods <= state.mixture.lines.keys())
    kinds = set(map(state.kind, foods))
    lay = state.latest(("soak", "dry_cure", "brine"), foods)
    salted = lay is not None and (kinds <= PROTEINS | {"legume"} or lay.rinsed)
    if not alone or not (
        kinds <= {"egg"} or salted or (kinds <= POURED_WITHOUT_WORD and foods.isdisjoint(stirred))
    ):
        return {}
    return dict.fromkeys(last, 1.0)


def _pasta_of_label(state: ReadingState, clause: Clause) -> dict[int, float]:
    """ "Spaghetti: cook al dente"."""
    named = of_label(state, clause) if clause.act == "cook" and not clause.mentions else {}
    return named if set(map(state.kind, named)) == {"pasta"} else {}


def _was_soaked(state: ReadingState, foods: Iterable[int]) -> bool:
    """ "Soak the beans … simmer them for an hour", or what was desalted."""
    legumes = {n for n in foods if state.kind(n) == "legume"}
    return _was_desalted(state, foods) or (bool(legumes) and state.latest(("soak",), legumes) is not None)


def _was_desalted(state: ReadingState, foods: Iterable[int]) -> bool:
    """ "Soak the cod … simmer it for 10 minutes": salted fish or meat that lay in water."""
    flesh = {n for n in foods if state.kind(n) in PROTEINS}
    return bool(flesh) and state.latest(("soak",), flesh) is not None


def _cooked_and_drained(state: ReadingState, clause: Clause, solids: dict[int, float]) -> bool:
    """ "Cook the peas as the packet says, drain": only what cooks in water is drained; "cook the
    potatoes, cool and cube them", "simmer the beets, then peel": before anything was fried, potatoes alone
    and what is peeled afterwards are boiled."""
    kinds = set(map(state.kind, solids))
    peeled = clause.has(*_SKINS) or not _SKINS.isdisjoint(clause.sentence.partition(clause.text)[2].split())
    roots = {"potato", "egg", "vegetable"} if peeled else {"potato", "egg"}
    alone = kinds <= roots and not (state.last_heat or state.company or clause.vessel())
    if alone and (peeled or "potato" in kinds):
        return clause.words.isdisjoint(_BROWNS)
    return bool(_DRAINS.search(clause.sentence)) and kinds <= {"vegetable", "potato", "legume", "grain"}


def _are_dry(state: ReadingState, clause: Clause, solids: dict[int, float]) -> bool:
    """ "Simmer the lentils for 20 minutes": alone, by the clock, in water that counts once it is drained."""
    if not clause.hours or not set(map(state.kind, solids)) <= {"legume", "grain"}:
        return False
    alone = not any(company & solids.keys() for company in state.company)
    return alone and not any(state.lines[n].is_canned for n in solids)


_SKINS = frozenset({"skin", "skins", "jackets", "peel", "peel.", "peeled", "peeled.", "skins."})
_BROWNS = frozenset(
    {"turning", "stirring", "brown", "golden", "crisp", "crispy", "oil", "butter", "roast"}
    | {"flame", "charred", "black", "blackened"}
)


def _in_liquid(state: ReadingState, clause: Clause, solids: dict[int, float]) -> bool:
    """ "Poach the fish in the stock": a pot whose liquid is eaten unless it is said to go."""
    liquid = state.lines_of(clause, (*LIQUIDS, "salt"))
    pot = Happening("simmer", clause, foods=solids, liquid=liquid, heated=True)
    pot.extra |= {line for line in liquid if state.kind(line) != "water"}
    state.pot = state.begin(pot, clause)
    return True


def _listed_pot(state: ReadingState) -> dict[int, float]:
    """A potful of water of the list, with its salt, that nothing else was seen to happen in."""
    taken = {n for each in state.happened for n in each.liquid}
    free = [line for n, line in state.lines.items() if n not in taken and line.kind in ("water", "salt")]
    least = {"water": _POT_ML, "salt": _POT_SALT_G}
    found = {line.index: 1.0 for line in free if (grams_roughly(line) or 0.0) >= least[line.kind]}
    if "water" not in map(state.kind, found):
        return {}
    if "salt" not in map(state.kind, found):
        found |= {n: s for n, s in salt_beside(state, found).items() if n not in taken}
    return found


_POT_ML, _POT_SALT_G = 2000.0, 15.0
"""Water of a list that may be a pot of pasta's, and its salt, from so much on; common practice, no source."""


_GRATED = frozenset({"grated", "shredded"})


def pot_of_pasta(state: ReadingState, clause: Clause) -> bool:
    """ "Drain the pasta": it was boiled, in the pot that waits or in one that nobody spoke of; but potatoes
    that are grated give off their own juice."""
    named = state.solids(clause) or {n: 1.0 for n in state.last_foods if state.kind(n) == "pasta"}
    foods = {n: s for n, s in named.items() if state.kind(n) in ("pasta", "potato")}
    raw = _GRATED & {word for n in foods for word in state.lines[n].text.split()}
    if not foods or raw or any(state.lines[n].is_canned for n in foods):
        return False
    boiled_unsaid(state, clause, foods)
    return True


def boiled_unsaid(state: ReadingState, clause: Clause, foods: dict[int, float]) -> None:
    """Begin the pot in which food was boiled that is drained by now, though nobody said so."""
    pot = state.pot
    if pot is None or pot.foods:
        listed = _listed_pot(state)
        water = None if listed else Water()
        pot = Happening("boil", clause, liquid=listed, water=water, confidence=0.6)
    pot.foods, pot.heated, pot.drained, pot.closed = foods, True, True, True
    state.begin(pot)
    state.pot = None
