"""Which food of the dataset a line's words mean, how sure that is, and what else it may be.

Everyday names come first; what they leave unsaid is looked for in the dataset's own names, which run
"Head noun, qualifier, qualifier". A word that nothing explains makes the answer less sure; too many make it
none.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from ..dataset import FoodTable
from ..food import Food
from .everyday_names import MARK, marks, salty_words, warnings_of
from .folding import Words, fold
from .match_scoring import FRESH, NEAREST, Choice
from .qualifiers import content, states

SURE = 0.8
"""Below this confidence a mapping wants a person's look."""


@dataclass(frozen=True, slots=True)
class Match:
    """food None: nothing fits. confidence: 0 to 1. alternatives: at most three other foods, nearest first.

    asking: where asking the second source stands, '' where nobody asks (`remote.second.ASKING`).
    """

    food: Food | None
    confidence: float
    alternatives: tuple[Food, ...]
    why: str
    asking: str = ""


def match(words: str, preparation: Sequence[str], foods: FoodTable) -> Match:
    """The food that words mean.

    preparation: phrases that may change the food ("cooked", "drained"), and the line's unit, or "counted" for
    what is counted without one: it tells some foods of one name apart.
    """
    asked = (*_shares(preparation), *fold(words))
    choice = _own(asked, foods) or _chosen(asked, _told_beside(asked, preparation), foods)
    if choice.code is not None:
        return _match(choice, foods)
    others = (*foods.second.offered(words), *choice.others)[:NEAREST]
    return replace(_match(replace(choice, others=others), foods), asking=foods.second.unknown(words))


def _chosen(asked: Words, told: Words, foods: FoodTable) -> Choice:
    """The bundle's food, or a kept food of the second source that fits the words better."""
    first = foods.scorer.choose(asked, told)
    if first.confidence >= SURE:
        return first
    second = foods.second.kept.choose(asked, told)
    if second.code is None or second.confidence <= first.confidence:
        return replace(first, others=(*first.others, *second.others)[:NEAREST])
    others = (first.code, *first.others) if first.code else first.others
    return replace(second, others=(*others, *second.others)[:NEAREST])


def says_salty(words: str) -> bool:
    """Whether words say that their food is salted, cured, pickled or the like."""
    return not salty_words().isdisjoint(fold(words))


def names_a_kind(words: str) -> bool:
    """Whether words say only a kind of food ("vegetables"), so that nothing is to be taken in its place."""
    named = content(fold(words))
    return bool(named) and set(named) <= warnings_of("alone")


def _told_beside(asked: Words, preparation: Sequence[str]) -> Words:
    """What the preparation tells, and that the food is fresh where chopping or the like says so."""
    told = _told(preparation)
    return (*told, FRESH) if _says_fresh(asked, preparation) else told


def _says_fresh(asked: Words, preparation: Sequence[str]) -> bool:
    """Whether the line says that its herb or root is fresh, so that a spoon of it is no dried one."""
    fresh = warnings_of("fresh")
    return not fresh.isdisjoint(asked) or any(not fresh.isdisjoint(fold(each)) for each in preparation)


def _told(preparation: Sequence[str]) -> Words:
    """The states that the preparation tells; what the food is for ("for the brine") tells none."""
    told = (phrase for phrase in preparation if not phrase.startswith("for "))
    return tuple(state for phrase in told for state in _phrase_states(phrase))


@lru_cache(maxsize=2048)
def _phrase_states(phrase: str) -> Words:
    """The states that a phrase tells; one that names something else tells none, but a unit may."""
    words = fold(phrase)
    told = () if content(words) else states(words)
    return (MARK + phrase, *told) if phrase in marks() else told


def _shares(preparation: Sequence[str]) -> Words:
    """Shares of fat or lean that the preparation states; they name the food: "93% lean"."""
    parts = (part for phrase in preparation for part in phrase.split(","))
    stated = (fold(part) for part in parts if "%" in part or "percent" in part)
    return tuple(word for words in stated if all(map(_in_share, words)) for word in words)


def _in_share(word: str) -> bool:
    return word.endswith("%") or not content((word,))


def _own(asked: Words, foods: FoodTable) -> Choice | None:
    """The caller's own food, where its name stands in the line beside words that change nothing."""
    for food in foods.custom:
        name = fold(food.name)
        rest = [word for word in asked if word not in name]
        if name and set(name) <= set(asked) and not content(rest) and not states(rest):
            return Choice(food.code, 0.97, (), "the caller's own food of that name")
    return None


def _match(choice: Choice, foods: FoodTable) -> Match:
    food = None if choice.code is None else foods.get(choice.code)
    others = tuple(foods.get(code) for code in choice.others)
    return Match(food, choice.confidence, others, choice.why)
