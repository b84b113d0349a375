"""Ways to say that a pot of water stands ready, or that food goes into the one that does."""

from __future__ import annotations

import re
from collections.abc import Iterable
from itertools import pairwise

from .clause_words import goal, strength_of
from .clauses import Clause
from .doughs import last_stirred, rolled_out
from .happenings import POURED_WITHOUT_WORD, PROTEINS, SOLIDS, Happening, Water
from .left_to_the_cook import grams_in
from .mention import Mention
from .method_words import small_words
from .reading_state import ReadingState
from .waters import salt_of_pot, salts_of, water_said
from .weights_told import grams_of

_A_POT_ML = 700.0
_NEW = frozenset({"fresh", "cold", "clean", "new", "plain", "enough"})
_BOILS = re.compile(r"\b(?:boil|simmer|cook)\b", re.IGNORECASE)
_DRAINS = re.compile(r"\b(?:drain|pour off|tip off)\b", re.IGNORECASE)
_RISES = re.compile(
    r"\bwater (?:over|on top)(?= ?[,.;]| and\b)"
    r"|\bwater\b.{0,30}\b(?:to (?:come|reach|cover|submerge)|com(?:es|ing) (?:up|to|\d|an?|at|two|three)"
    r"|above"
    r"|(?:an? inch|\d ?cm|two inches) (?:over|above))",
    re.IGNORECASE,
)
"""How far water that is poured on rises, so that food lies in it."""


_LITTLE = small_words("little") - {"tablespoon", "tbsp"}
_BOILED = POURED_WITHOUT_WORD | {"legume", "salt", "water", "egg", "grain"}
_LARGE = ("big", "large", "deep", "biggest", "largest")


def fills_pan(state: ReadingState, clause: Clause, water: Mention, *, object_said: bool) -> bool:
    """ "Put the joint in your largest pan with 4 litres of water": a pan that is a pot. object_said: what is
    put there is known."""
    dry = clause.has("roasting", "baking", "oven") or (clause.has("frying") and clause.base != "fill")
    if not dry and (clause.base == "fill" or (clause.act == "put" and clause.has(*_LARGE))):
        return True
    before = [token.text for token in clause.tokens[max(water.i - 4, 0) : water.i]]
    if "lots" in before or "plenty" in before:
        return True
    said = grams_of(water_said(clause)) if water.kind == "water" and water_said(clause) else None
    lines = water.lines if water.kind == "line" else tuple(state.waters & state.lines_of(clause).keys())
    listed = grams_in(state, lines)
    if clause.act == "put" and (said or listed or 0.0) >= _A_POT_ML:
        return True
    if clause.act != "put" or said:
        return False
    if object_said and not _NEW.isdisjoint(before[-1:]):
        return True
    if object_said and not (dry or listed) and _boils_and_drains(state, clause):
        return True
    if object_said and _BOILED_BARE.issuperset(map(state.kind, state.lines_of(clause))):
        return (
            not dry
            and _LITTLE.isdisjoint(clause.words)
            and water.prep == "with"
            and bool(clause.speaks & {"line"})
        )
    return (object_said or not water.prep) and not (dry or listed) and _is_salted_with_food(state, clause)


_BOILED_BARE = frozenset({"potato", "egg", "pasta", "water"})
"""What lies in a pan of water for no other end than to boil."""


def _boils_and_drains(state: ReadingState, clause: Clause) -> bool:
    """ "Put the olives in a small pan with water, bring to the boil, drain": of nothing but them."""
    behind = clause.sentence.partition(clause.text)[2]
    if _BOILS.search(behind) is None or _DRAINS.search(behind) is None:
        return False
    return state.lines_of(clause) == state.solids(clause)


def _is_salted_with_food(state: ReadingState, clause: Clause) -> bool:
    """ "Put the beans in a pan with water and the salt", "put water and the salt in a pan": nothing but
    what is boiled and salt is in water that nobody measures."""
    if not _LITTLE.isdisjoint(clause.words) or not salts_of(state, clause):
        return False
    meant = state.last_foods if "it" in clause.speaks else ()
    return {state.kind(n) for n in (*state.lines_of(clause), *meant)} <= _BOILED


def is_waiting_pot(state: ReadingState, clause: Clause, water: Mention) -> bool:
    """ "Boil 3 litres of water … put the rice in boiling water": in the water that boils already."""
    pot = state.pot
    if (
        pot is None
        or pot.foods
        or pot.closed
        or clause.act not in ("put", "boil")
        or water.prep not in ("in", "into")
    ):
        return False
    foods = state.solids(clause) or rolled_out(state, clause) or last_stirred(state)
    pot.foods, pot.clause = dict(foods), clause
    pot.heated = True
    if pot.foods:
        state.begin(pot, clause)
    return bool(pot.foods)


def heats_its_water(state: ReadingState, clause: Clause) -> bool:
    """ "Put the lentils in a pan with the water … bring the water to the boil": that in which they lie."""
    pot = state.pot
    if pot is None or not pot.foods or pot.closed or pot.heated or clause.act not in ("boil", "heat"):
        return False
    pot.heated = True
    pot.take_time(clause)
    return True


def is_meant_for(clause: Clause, water: Mention, lines: Iterable[int]) -> bool:
    """ "Put a pot of water on for the pasta", "enough to cover the pasta": what the water is for is not in it
    yet."""
    if clause.words.isdisjoint(_MEANT):
        return False
    texts, meant = [token.text for token in clause.tokens], False
    for mention in clause.mentions:
        if mention is water or not set(lines).intersection(mention.lines):
            continue
        since = water.j if mention.i > water.i else 0
        aside = mention.i > water.i or texts[mention.j] == ","  # not "for the peas: boil them in water"
        if not aside or _MEANT.isdisjoint(texts[max(mention.i - 3, since) : mention.i]):
            return False
        meant = True
    return meant


_MEANT = frozenset({"for", "cover"})
_THINGS = small_words("thing")
_NEAR = 5
"""Words from the beginning of a clause, among which its verb and its object stand."""


def _works_on_things(clause: Clause) -> bool:
    """ "Soak the wooden skewers for an hour", "rinse the muslin": whether they are what is put there."""
    if clause.act not in ("soak", "put", "boil", "simmer", "drain", "rinse", "hold"):
        return False
    words = [token.text for token in clause.tokens[:_NEAR]]
    at = next((i for i, word in enumerate(words) if word in _THINGS), 0)
    return at > 0 and _PREPS.isdisjoint(words[:at]) and not any(m.i < at for m in clause.mentions)


_PREPS = small_words("preposition")


_WASHES = small_words("washes_vessel")


def washes_things(clause: Clause) -> bool:
    """ "Scald the jar with boiling water", "soak the skewers", "boil the kettle": no food is in it."""
    if not _THINGS.isdisjoint(clause.words) and _works_on_things(clause):
        return True
    if clause.act == "boil" and clause.speaks == {"vessel"} and "kettle" in clause.words:
        return not clause.mentions[0].prep
    if not ({"vessel", "water"} <= clause.speaks) or _WASHES.isdisjoint(clause.words):
        return False
    first = clause.mentions[0]
    return first.kind == "vessel" and not first.prep and "line" not in clause.speaks


def hangs(clause: Clause, water: Mention) -> bool:
    """ "Hang the pot over the fire with a gallon of water in it"."""
    if clause.act == "" and clause.has("rolling", "boiling"):
        return True  # "beans: rolling water"
    if clause.act == "" and _BOILS.search(clause.sentence):
        return (grams_of(water_said(clause) or "") or 0.0) >= _A_POT_ML  # "40 l water, 60 g salt, boil 8 min"
    if gets_on(clause, water):
        return True
    if clause.act in ("hold", "remove") and clause.has("boiling", "simmering") and clause.hours:
        return water.prep in ("in", "into")  # "they want 20 minutes in boiling water"
    return clause.base in ("hang", "stand", "get") and clause.vessel() == "pot" and bool(water_said(clause))


def gets_on(clause: Clause, water: Mention) -> bool:
    """ "First get your water on", "put the water on"."""
    after = clause.tokens[water.j].text if water.j < len(clause.tokens) else ""
    return after == "on" and not water.prep and clause.base in ("get", "put", "set", "have")


def rises_over(clause: Clause) -> bool:
    """ "Pour over water to come 5 cm above": food lies in it."""
    return _RISES.search(clause.text) is not None


_LAID = POURED_WITHOUT_WORD | {"legume"}


def is_laid_in(state: ReadingState, clause: Clause, water: Mention) -> bool:
    """ "Put the potatoes on in cold salted water": in a pot that no word names."""
    if clause.act != "put" or water.prep not in ("in", "into") or "vessel" in clause.speaks:
        return False
    if clause.has("ice", "iced", "boiling", "simmering", "hot", "same"):
        return False
    named, pot = state.solids(clause, direct=True), state.pot
    waits = pot is not None and not (pot.foods or pot.closed)
    if waits and not (named and clause.has("cold", "fresh", "clean", "another", "separate")):
        return False  # it goes into the water that waits
    kinds = {state.kind(n) for n in named or state.last_foods}
    fresh = clause.has("on") or not {t.text for t in clause.tokens[max(water.i - 2, 0) : water.i]}.isdisjoint(
        _NEW
    )
    if kinds == {"cheese"}:
        return bool(salts_of(state, clause))  # "drop the paneer into the warm water with the salt"
    return bool(kinds) and (kinds <= _LAID or (fresh and bool(kinds & PROTEINS)))


def in_little_water(state: ReadingState, clause: Clause, water: Mention) -> bool:
    """ "Cook the cabbage in a little boiling water": a pot of which little is left."""
    if clause.act not in ("boil", "cook", "simmer") or water.prep not in ("in", "into"):
        return False
    foods = state.solids(clause, direct=True) or dict.fromkeys(state.last_foods, 1.0)
    return bool(foods) and set(map(state.kind, foods)) <= POURED_WITHOUT_WORD


_IN = frozenset({"in", "into", "with"})
_DISSOLVED = frozenset({"dissolved", "crumbled", "diluted", "steeped", "soaked", "mixed", "melted"})


def dissolves(clause: Clause, water: Mention) -> bool:
    """ "Add the stock cubes dissolved in 400 ml boiling water": what is stirred into a stew."""
    before = [token.text for token in clause.tokens[max(water.i - 6, 0) : water.i]]
    return any(word in _DISSOLVED and behind in _IN for word, behind in pairwise(before))


def is_for_a_bath(state: ReadingState, lines: dict[int, float]) -> bool:
    """Whether liquids are those of a named brine, or are stirred to one with sugar."""
    baths = set().union(*(mixture.lines for mixture in state.named.values())) if state.named else set()
    kinds = {state.kind(line) for line in lines if state.lines[line].line.unit or state.kind(line) != "acid"}
    return (
        bool(baths.intersection(lines)) or {"water", "sweet", "salt"} <= kinds or {"water", "acid"} <= kinds
    )


def is_its_own(state: ReadingState, pot: Happening, clause: Clause, water: Mention) -> bool:
    """ "When the water boils", of the pot that stands there; "stir the water to a whirlpool", "down to the
    surface of the water", while eggs cook in it."""
    if clause.tokens[0].text in ONCE and not water.prep:
        pot.heated = True
        return True
    if not pot.foods or clause.act == "cook" or clause.has("boil", "simmer") or state.solids(clause):
        return False
    return water.kind == "water" and water.i > 0 and clause.tokens[water.i - 1].text == "the"


ONCE = frozenset({"when", "once", "as", "after", "while", "whilst"})


def steams_or_fries(state: ReadingState, clause: Clause) -> bool:
    """ "Put the broccoli in a steamer over it", "melt the butter in the oil", while a pot of water waits."""
    if clause.has("steamer", "steam", "basket", "colander"):
        return True
    return any(m.prep in ("in", "with") and "oil" in map(state.kind, m.lines) for m in clause.mentions)


def meant_elsewhere(state: ReadingState, pot: Happening, clause: Clause, new: dict[int, float]) -> bool:
    """Whether what is put in goes to the pan spoken of since, while the pot of water still waits."""
    if pot.foods or state.attention is pot or clause.act not in ("put", "mix", "", "let") or not new:
        return False
    kinds = set(map(state.kind, new))
    if kinds == {"egg"} and state.lines_of(clause, _OF_DOUGHS):
        return True  # "pour in the eggs and milk"
    return not kinds & {"pasta", "potato", "egg"}


_OF_DOUGHS = ("milk", "flour", "oil", "sweet")


def opens_alone(state: ReadingState, clause: Clause) -> bool:
    """ "Bring a large pot to the boil", "boil a big pot with plenty of salt": of water."""
    if clause.base != "fill" and not (clause.act in ("boil", "heat") and clause.has("boil", "boiling")):
        return False
    pot = next((m for m in clause.mentions if m.kind == "vessel" and m.name == "pot" and not m.prep), None)
    if pot is None or clause.negated or state.solids(clause) or state.water_of(clause) is not None:
        return False
    before = {token.text for token in clause.tokens[max(pot.i - 3, 0) : pot.i]}
    others = set(map(state.kind, state.lines_of(clause))) - {"salt", "acid"}
    if others or not before & {"a", "your", "another"}:
        return False
    salty = state.salt_said(clause) is not None or bool(salts_of(state, clause))
    strength = strength_of(clause) or ("salted" if salty else "")
    state.pot = Happening("boil", clause, liquid=salts_of(state, clause), heated=True)
    state.pot.water = Water(strength, salt_of_pot(clause, strength))
    return True


def foods_of_all(state: ReadingState, clause: Clause) -> dict[int, float]:
    """The meat and fish of "everything in the pot", or the one food that there is."""
    lines = state.lines_of(clause)
    solids = [n for n in lines if state.kind(n) in SOLIDS]
    return dict.fromkeys(solids if len(solids) == 1 else (n for n in lines if state.kind(n) in PROTEINS), 1.0)


def puts_it(state: ReadingState, clause: Clause, solids: dict[int, float]) -> bool:
    """ "Set it on the fire in a pot of water with the carrot": what was spoken of last, and the carrot."""
    if not solids or not state.last_foods or state.solids(clause, direct=True):
        return False
    return any(m.kind == "it" and not m.prep and not goal(clause, m) for m in clause.mentions)


def stews_all(state: ReadingState, clause: Clause) -> bool:
    """ "Everything goes into the slow cooker with water", beans or grain among it: a stew, unless drained."""
    kinds = set(map(state.kind, state.lines_of(clause)))
    return "drain" not in clause.sentence and not kinds.isdisjoint(("legume", "grain"))
