"""Food cooked in what nobody names: "cook the carrots until tender". What is done next shows the water."""

from __future__ import annotations

from .clause_words import strength_of
from .clauses import Clause
from .covered import soda_of
from .happenings import PROTEINS, Happening, Water
from .mention import Mention
from .reading_state import HOT, ReadingState
from .waters import salt_of_pot, salts_of, says_plain

_IN_WATER = frozenset({"vegetable", "potato", "egg", "legume", "grain", "pasta"})
_MAY_BOIL = _IN_WATER | PROTEINS
_BROWNS = frozenset(
    {"turning", "stirring", "brown", "golden", "crisp", "crispy", "oil", "butter", "roast", "fat"}
    | {"flame", "charred", "black", "blackened", "oven", "grill", "microwave", "steamer", "translucent"}
)
_SHELLED = frozenset({"peel", "shell", "skin"})
_SKINS = frozenset({"skins", "jackets", "shells"})
_COOLS = frozenset({"rinse", "refresh", "plunge", "cool", "chill", "shock", "run", "hold"})
_FATS = frozenset({"fat", "grease", "oil", "paper", "towel", "towels", "rack"})


def remember_bare(state: ReadingState, clause: Clause, solids: dict[int, float]) -> None:
    """Keep what is cooked alone, by no fat and in nothing named: it may turn out to have boiled."""
    alone = not any(company & solids.keys() for company in state.company)
    if alone and not state.fat_is_hot and _MAY_BOIL.issuperset(map(state.kind, solids)):
        if clause.words.isdisjoint(_BROWNS) and not any(state.lines[n].is_canned for n in solids):
            state.bare = clause, solids


def boiled_bare(state: ReadingState, clause: Clause) -> None:
    """Begin the pot of what was cooked so once it is drained, peeled or cooled in water; forget it once other
    food is spoken of."""
    assert state.bare is not None
    cooked, foods = state.bare
    others = not state.solids(clause).keys() <= foods.keys()
    if others or clause.method > cooked.method + 1 or state.latest(HOT, foods):
        state.bare = None
    elif _shows_water(state, clause, cooked):
        begin_in_water(state, cooked, foods)
        state.bare = None


def _shows_water(state: ReadingState, clause: Clause, cooked: Clause) -> bool:
    if "water" in clause.speaks and clause.act in _LEAVES:
        return True
    simmered, plants = cooked.act == "simmer", _IN_WATER.issuperset(map(state.kind, state.solids(cooked)))
    if not (simmered or plants):
        return False  # "cook the chicken; drain": its fat
    if clause.act == "drain":
        return clause.words.isdisjoint(_FATS)
    if clause.act == "remove" and not clause.speaks.isdisjoint(("it", "line")):
        return simmered and "heat" not in clause.words
    if clause.base in _SHELLED or not _SKINS.isdisjoint(clause.words):
        return True
    return clause.base in _COOLS and clause.has("water", "tap")


_LEAVES = frozenset({"drain", "discard", "remove", "rinse"})


_FLAVOURS = frozenset({"spice", "herb", "aromatic", "salt"})


def flavours_pot(state: ReadingState, mention: Mention) -> bool:
    """ "Boil it with the bay leaf", "them with the salt": what goes along into the pot of something else."""
    if mention.prep != "with":
        return False
    return mention.kind == "salt" or (
        bool(mention.lines) and _FLAVOURS.issuperset(map(state.kind, mention.lines))
    )


def begin_in_water(state: ReadingState, clause: Clause, foods: dict[int, float]) -> Happening:
    """A pot of water that nobody names, with the food and the salt of a clause."""
    pot = Happening("boil", clause, foods=foods, confidence=0.75, heated=True)
    strength = strength_of(clause) or ("salted" if state.salt_said(clause) is not None else "")
    pot.water = Water(strength, salt_of_pot(clause, strength), said_plain=says_plain(clause))
    pot.liquid = salts_of(state, clause) | soda_of(state, clause)
    state.pot = state.begin(pot, clause)
    return pot
