"""Lines of a recipe in prose whose own words leave much sodium open: how much, whether at all, which food.

The calculation knows the range of every line. Where the sodium of a serving hangs on one of them, the ends of
its range are the choices of a question.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from ..core.numbers import shown
from ..core.spread import Spread
from ..core.tables import row_of
from ..foods.dataset import FoodTable
from ..foods.food import Food
from ..foods.matching.matcher import SURE
from ..method.line_answers import AMOUNT, AS_READ, FOOD, LEFT_OUT, places, variants
from ..method.questions import Choice, Question
from .ingredients import IngredientRequest, resolve
from .outcome import Outcome, ResolvedIngredient
from .request import eaten_share

WORTH_ASKING = 0.20
"""Share of the sodium of a serving from which on a person is asked what it hangs on."""
_WORTH_OF_KIND = 0.25
"""The same of a kind that is the less usual one: butter without salt, stock low in it."""
_OF_BATH = 0.3
"""Of the sodium of a liquid that is poured away, the share that can be eaten with the food, roughly."""
_APART = 0.15
"""Weights that differ by less than this share are one choice."""
_OFFERED = 3
"""Foods that are offered where it is not sure which one a line means."""
_UNKNOWN = frozenset({"doubtful_food", "part_not_counted"})
"""Reasons of `completeness` for which the weight of a line is not what is open."""
_SALT_KINDS = "salt_kinds"
_BY_HAND = frozenset({"pinch", "dash", "smidgen", "handful", "sprinkle"})
"""Units that differ from hand to hand more than salts do."""
_A_SERVING_G = (60.0, 120.0, 250.0)
"""Weights of a serving that are offered where a line gives none, g; common practice, no source."""
_ASKED_BY_METHOD = ("how-much", "strewn", "split", "left")
"""Questions about salt of the list that the method gives rise to."""


def open_lines(
    outcome: Outcome,
    lines: Sequence[Mapping[str, Any]],
    asked: Sequence[Question],
    answers: Mapping[str, str],
    foods: FoodTable,
) -> list[Question]:
    """What to ask of the lines of a reading, one thing of each, most sodium first.

    outcome: of the recipe as read, without answers to these questions. lines: as the reading tells them.
    asked: what is asked of the method already. answers: by id; what has one is told whatever hangs on it.
    """
    listed = {(each.component, each.pointer): each for each in outcome.listed if not each.part}
    least = WORTH_ASKING * float(outcome.sodium_per_serving_mg[0])
    found: dict[str, tuple[float, Question]] = {}
    for topic, ask in ((FOOD, _food), (AMOUNT, _amount)):
        for key, place in places(lines, topic):
            resolved = _resolved(outcome, listed, place)
            if resolved is None or _is_asked(resolved, asked):
                continue
            is_answered = key in answers
            worth = 0.0 if is_answered else least
            asks = ask(outcome, resolved, foods, worth)
            if asks is None or asks[2] < worth:
                continue
            told = key if is_answered else place["text"]
            if told not in found or found[told][0] < asks[2]:
                found[told] = asks[2], _question(key, place, asks, answers)
    return [question for _, question in sorted(found.values(), key=lambda each: -each[0])]


def _question(key: str, place: Mapping[str, Any], asks: _Asks, answers: Mapping[str, str]) -> Question:
    message, choices, _ = asks
    taken = answers.get(key, AS_READ)
    if all(taken != each.choice for each in choices):
        choices = (*choices, Choice(taken, f"{taken}, as was answered."))
    field = f"ingredients/{place['ingredient']}"
    return Question(key, message, choices, taken, key in answers, place["component"], field)


_Asks = tuple[str, tuple[Choice, ...], float]
"""A question in words, its choices, and the mg a serving between them."""


def _resolved(
    outcome: Outcome, listed: Mapping[tuple[str, str], ResolvedIngredient], place: Mapping[str, Any]
) -> ResolvedIngredient | None:
    """The ingredient that a line became; None where the method made another of it."""
    at = next(c for c in outcome.request.components if c.id == place["component"])
    found = listed.get((at.id, f"{at.pointer}/ingredients/{place['ingredient']}"))
    return found if found is not None and found.ingredient.line == place["text"] else None


def _is_asked(listed: ResolvedIngredient, asked: Sequence[Question]) -> bool:
    """Whether a question about the method asks how much of this salt there is."""
    food = listed.ingredient.food
    is_salt = listed.ingredient.read.amount is None and food is not None and "salt" in food.name.lower()
    return is_salt and any(each.id.startswith(_ASKED_BY_METHOD) for each in asked)


def _eaten(outcome: Outcome, listed: ResolvedIngredient) -> float:
    """The share of a line's sodium that is eaten, roughly."""
    component = next(c for c in outcome.request.components if c.id == listed.component)
    share = eaten_share(component, outcome.request)
    return max(share, _OF_BATH if component.id in outcome.request.baths else 0.0) / outcome.request.servings


# How much


def _amount(
    outcome: Outcome, listed: ResolvedIngredient, _foods: FoodTable, _least_mg: float
) -> _Asks | None:
    grams, line = _grams(listed), listed.ingredient.read
    if listed.ingredient.grams is None and _takes_salt(outcome, listed):
        return _unweighed(outcome, listed)
    if grams is None:
        return None
    assert listed.ingredient.food is not None
    may_be_out = "optional" in line.flags
    low, high = 0.0 if may_be_out else grams.low, grams.high
    per_g = (listed.ingredient.food.per_100g("NA") or 0.0) / 100
    swing_mg = (high - low) * per_g * _eaten(outcome, listed)
    choices = tuple(_choices(listed, grams, may_be_out=may_be_out))
    return (_how_much(listed), choices, swing_mg) if len(choices) > 1 else None


def _takes_salt(outcome: Outcome, listed: ResolvedIngredient) -> bool:
    """Whether a food lies in what may salt it, as a bag of pasta in its water."""
    return any(step.bath and listed.component in step.food for step in outcome.request.steps)


def _unweighed(outcome: Outcome, listed: ResolvedIngredient) -> _Asks:
    """How much there is of a food that takes up salt, and takes none without a weight: told by trying."""
    weights = [_told(each * outcome.request.servings) for each in _A_SERVING_G]
    choices = (
        Choice(AS_READ, "Not known: it takes up no salt."),
        *(Choice(f"{grams} g", f"About {grams} g.") for grams in weights),
    )
    swing_mg = float(outcome.sodium_per_serving_mg[0])
    return f"How much is {listed.name[:120]!r}? Its weight is not known.", choices, swing_mg


def _grams(listed: ResolvedIngredient) -> Spread | None:
    """What a line may weigh; None where its food or the food's sodium is not known."""
    ingredient, gap = listed.ingredient, listed.uncounted
    per_100g = ingredient.food.per_100g("NA") if ingredient.food else None
    if not per_100g or (gap is not None and gap.reason in _UNKNOWN):
        return None
    grams, held = ingredient.grams or Spread.exact(0.0), listed.assumed_mg
    if held is None:
        return grams
    more = held.scaled(100 / per_100g)
    return Spread(grams.low + more.low, grams.likely + more.likely, grams.high + more.high)


def _choices(listed: ResolvedIngredient, grams: Spread, *, may_be_out: bool) -> Iterator[Choice]:
    """The ends of what a line may weigh, as far as they differ from what was taken."""
    low, likely, high = map(_told, (grams.low, grams.likely, grams.high))
    has_amount = listed.ingredient.read.amount is not None
    as_read = f"About {likely} g, as was taken."
    less, more = ("At least", "At most") if has_amount else ("Little:", "Much:")
    if _is_spooned_salt(listed):
        as_read, less = f"Fine salt: about {likely} g.", "Coarse or flaky salt:"
    if may_be_out:
        yield Choice(LEFT_OUT, "It is left out.")
    only_whether = may_be_out and has_amount
    if not only_whether and float(low) > 0 and grams.likely - grams.low > _APART * grams.likely:
        yield Choice(f"{low} g", f"{less} about {low} g.")
    yield Choice(AS_READ, as_read)
    if not only_whether and grams.high - grams.likely > _APART * grams.likely:
        yield Choice(f"{high} g", f"{more} about {high} g.")


def _is_spooned_salt(listed: ResolvedIngredient) -> bool:
    """Whether a line measures salt by the spoon, of which coarse kinds hold less."""
    by_spoon = listed.ingredient.read.unit not in _BY_HAND
    return by_spoon and row_of(listed.ingredient.grams_source).startswith(_SALT_KINDS)


def _told(grams: float) -> str:
    """A weight to two digits."""
    return shown(float(f"{grams:.2g}"))


def _how_much(listed: ResolvedIngredient) -> str:
    line, gap, name = listed.ingredient.read, listed.uncounted, repr(listed.name[:120])
    if line.amount is None:
        goes_in = ", if it goes in" if "optional" in line.flags else ""
        return f"How much is {name}{goes_in}? The list gives no amount."
    if "optional" in line.flags:
        return f"Does {name} go in? The list leaves it open."
    if gap is not None and gap.reason == "more_to_taste":
        return f"How much of {name} goes in in all? The list says that more of it may."
    if _is_spooned_salt(listed):
        return f"Which salt is {name}? A spoon of coarse salt holds less than one of fine."
    return f"How much is {name}? Its weight is not sure."


# Which food


def _food(outcome: Outcome, listed: ResolvedIngredient, foods: FoodTable, least_mg: float) -> _Asks | None:
    food, grams = listed.ingredient.food, _grams(listed) or listed.ingredient.grams
    per_100g = food.per_100g("NA") if food else None
    if food is None or per_100g is None or grams is None:
        return None
    share = _eaten(outcome, listed) / 100
    if not _may_be_another(listed):
        held = grams.likely * per_100g * share
        return _unsaid_kind(outcome, listed, foods, share, least_mg) if held >= least_mg else None
    others = [
        (other, mg) for other in _others(outcome, listed, foods) if (mg := other.per_100g("NA")) is not None
    ]
    mgs = [per_100g, *(mg for _, mg in others)]
    choices = (Choice(AS_READ, f"{food.name}."), *(Choice(each.code, f"{each.name}.") for each, _ in others))
    swing_mg = (max(mgs) - min(mgs)) * grams.likely * share
    return (f"Which food is {listed.name[:120]!r}?", choices, swing_mg) if others else None


def _may_be_another(listed: ResolvedIngredient) -> bool:
    doubted = listed.uncounted is not None and listed.uncounted.reason == "doubtful_food"
    return doubted or bool(listed.ingredient.read.alternatives)


def _others(outcome: Outcome, listed: ResolvedIngredient, foods: FoodTable) -> list[Food]:
    """What a line allows instead, or may mean as well."""
    ingredient = listed.ingredient
    assert ingredient.food is not None
    found = [_of(outcome, words, foods)[0] for words in ingredient.read.alternatives]
    found += [] if ingredient.read.alternatives else ingredient.alternatives
    others = {each.code: each for each in found if each is not None and each.code != ingredient.food.code}
    return list(others.values())[:_OFFERED]


def _of(outcome: Outcome, words: str, foods: FoodTable) -> tuple[Food | None, float]:
    """The food that words name for sure, and its likely weight, 0 where that is not known."""
    made = resolve(IngredientRequest(line=words), foods, outcome.request.settings)
    sure = made.food is not None and made.sure_of_food >= SURE
    return (made.food if sure else None), (made.grams.likely if made.grams else 0.0)


def _unsaid_kind(
    outcome: Outcome, listed: ResolvedIngredient, foods: FoodTable, share: float, least_mg: float
) -> _Asks | None:
    """Salted or not, drained or not, where the line says neither and no step drains it."""
    drained = any(
        step.kind in ("drain", "rinse", "soak") and listed.component in step.food
        for step in outcome.request.steps
    )
    now = _held(*_of(outcome, listed.name, foods))
    choices, held = [Choice(AS_READ, "As it is usually sold and used.")], [now]
    for phrase, label in variants(listed.name):
        if phrase == "drained" and drained:
            continue
        other = _held(*_of(outcome, f"{listed.name}, {phrase}", foods))
        if other and now - other > _APART * now:
            choices.append(Choice(phrase, label))
            held.append(other)
    if len(choices) == 1:
        return None
    part = listed.grams / (_of(outcome, listed.name, foods)[1] or listed.grams or 1.0)
    message = f"Which kind is {listed.name[:120]!r}? The list does not say."
    swing_mg = (max(held) - min(held)) * part * share
    is_worth = swing_mg >= _WORTH_OF_KIND / WORTH_ASKING * least_mg
    return (message, tuple(choices), swing_mg) if is_worth else None


def _held(food: Food | None, grams: float) -> float:
    """A hundred times the mg of sodium in so much of a food."""
    return (food.per_100g("NA") or 0.0) * grams if food else 0.0
