"""An ingredient as asked becomes a weighed, mapped one; what could not be known is said, never guessed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Any, Literal

from ..core.errors import Fault, InvalidRequest, NotFound, pointing_below
from ..core.notices import STATED, Notice
from ..core.spread import Spread
from ..foods.dataset import FoodTable
from ..foods.food import Food
from ..foods.matching.line_matching import match_line
from ..foods.matching.matcher import SURE, Match, says_salty
from ..foods.remote.second import ASKING
from ..foods.weights.weighing import weigh
from ..foods.weights.weight import Weight
from ..lines import Line, joined_lines, read_line, shared_lines
from ..lines.cleaning import parted
from ..nutrition.stated import StatedFood, stated_food
from ..units.kitchen_units import Cup
from ..units.nutrient_amounts import Stated, grams_of
from .packets import with_packet

if TYPE_CHECKING:
    from .sub_recipes import Portion

SURE_OF_GUESS = 0.79
"""The most that is granted to a line whose weight is a guess, however sure its food is."""

UNREAD = Line("")

SURE_OF_SHARING = 0.9
"""The confidence from which on each part of "carrots and celery" is a food of its own."""

INSIGNIFICANT_MG = 5.0
"""mg of sodium in a whole line at the most for which its food is worth no look."""

NEAREST = 3
"""How many foods are offered where none is taken."""


@dataclass(frozen=True, slots=True)
class IngredientRequest:
    """An ingredient as asked: a line, or what the caller knows better.

    food: a code of the dataset or of a custom food. grams: edible weight. eaten_fraction: 0 to 1. share: of
    the line's amount, the part (0 to 1) that is meant here, where a line is split over components. per_100g,
    per_serving ({weight_g, nutrients}): what its packet says, at most one of them. recipe: the key of a saved
    recipe that it is a portion of, by its grams, its servings or a fraction of all that it serves.
    """

    line: str | None = None
    food: str | None = None
    grams: float | None = None
    eaten_fraction: float | None = None
    share: float | None = None
    per_100g: Mapping[str, Stated] | None = None
    per_serving: Mapping[str, Any] | None = None
    recipe: str | None = None
    servings: float | None = None
    fraction: float | None = None


@dataclass(frozen=True, slots=True)
class ReadSettings:
    """How lines are read. cup: which cups and spoons are meant. no_quantity: whether lines without an
    amount count with a stated default ("assume") or not at all ("leave_out")."""

    cup: Cup = "us"
    no_quantity: Literal["assume", "leave_out"] = "assume"


@dataclass(frozen=True, slots=True, eq=False)
class Ingredient:
    """An ingredient, read, mapped and weighed.

    amount, unit: as the line gives them. grams: edible weight, None where it is not known or left out.
    food: None where nothing fits. confidence: 0 to 1, that `food` is the right one and its weight no guess;
    sure_of_food: of the food alone. Notices point into the ingredient as asked. parts: the further foods
    that the line names ("salt and pepper": pepper), each with its own words as its line. read: the line as
    read. portion: the saved recipe that it is of. asking: see `foods.matching.Match`.
    """

    line: str
    amount: float | None
    unit: str | None
    grams: Spread | None
    grams_basis: str
    grams_source: str
    food: Food | None
    confidence: float
    sure_of_food: float
    alternatives: tuple[Food, ...]
    preparation: tuple[str, ...]
    eaten_fraction: float | None
    notices: tuple[Notice, ...]
    parts: tuple[Ingredient, ...] = ()
    packet: StatedFood | None = None
    read: Line = UNREAD
    asking: str = ""
    portion: Portion | None = None

    @property
    def foods(self) -> tuple[Ingredient, ...]:
        """The line's first food, then its parts: all that it brings."""
        return (self, *self.parts)


def resolve(
    asked: str | IngredientRequest, foods: FoodTable, settings: ReadSettings, *, beside: tuple[str, ...] = ()
) -> Ingredient:
    """The ingredient that is asked for. beside: what the other lines of its recipe tell (line_company.csv).

    Raises InvalidRequest with pointers relative to `asked`: a line that is too long, a food code that the
    foods do not have, or neither a line nor a food.
    """
    if isinstance(asked, str):
        return _resolved(IngredientRequest(line=asked), foods, settings, beside, line_pointer="")
    if asked.per_100g is None and asked.per_serving is None:
        return _resolved(asked, foods, settings, beside, line_pointer="/line")
    return _resolve(asked, foods, settings, beside, line_pointer="/line")


def _resolved(
    asked: IngredientRequest,
    foods: FoodTable,
    settings: ReadSettings,
    beside: tuple[str, ...],
    *,
    line_pointer: str,
) -> Ingredient:
    """As `_resolve`, once for each line that stands in many recipes, or in one that is saved again."""

    def lasts(made: Ingredient) -> bool:
        return foods.second.is_closed or all(each.food for each in made.foods)

    def make() -> Ingredient:
        return _resolve(asked, foods, settings, beside, line_pointer=line_pointer)

    said = (asked.line, asked.food, asked.grams, asked.eaten_fraction, asked.share)
    made: Ingredient = foods.lines.find(
        (*said, asked.recipe, settings.cup, settings.no_quantity, beside), make, lasts=lasts
    )
    return made


def ingredient_document(ingredient: Ingredient) -> dict[str, Any]:
    """The ingredient as answers give it; its further foods follow in `parts`."""
    return {
        **_food_document(ingredient),
        "parts": [_food_document(part) for part in ingredient.parts],
    }


def _food_document(ingredient: Ingredient) -> dict[str, Any]:
    grams = ingredient.grams
    return {
        "line": ingredient.line,
        "amount": ingredient.amount,
        "unit": ingredient.unit,
        "grams": grams.likely if grams else None,
        "grams_low": grams.low if grams else None,
        "grams_high": grams.high if grams else None,
        "grams_basis": ingredient.grams_basis,
        "food": _named(ingredient.food) if ingredient.food else None,
        "confidence": ingredient.confidence,
        "alternatives": [_named(food) for food in ingredient.alternatives],
        **({"packet_per_100g": dict(ingredient.packet.per_100g)} if ingredient.packet else {}),
        **(ingredient.portion.document if ingredient.portion else {}),
    }


def _resolve(
    asked: IngredientRequest,
    foods: FoodTable,
    settings: ReadSettings,
    beside: tuple[str, ...],
    *,
    line_pointer: str,
) -> Ingredient:
    if not asked.line and asked.food is None:
        raise InvalidRequest([Fault("", "An ingredient needs a line or a food; say what it is.")])
    line = _read(asked.line or "", line_pointer)
    made = _of_line(asked, line, foods, settings, beside)
    if (
        asked.food is None
        and made.sure_of_food < SURE
        and (meant := _run_together(asked, foods, settings, beside))
    ):
        return meant
    if line.shared and asked.food is None and asked.grams is None:
        made = _shared(made, asked, foods, settings) or made
    parts = tuple(_parts(asked, line, foods, settings))
    return replace(made, parts=parts) if parts else made


def _run_together(
    asked: IngredientRequest, foods: FoodTable, settings: ReadSettings, beside: tuple[str, ...]
) -> Ingredient | None:
    """The ingredient with a unit parted from the word behind it; None where that names no food for sure."""
    for text in parted(asked.line or ""):
        made = _of_line(replace(asked, line=text), read_line(text), foods, settings, beside)
        if made.food is not None and made.sure_of_food >= SURE:
            notice = Notice("run-together", "info", f"Read as {text!r}; a space was missing.")
            notices = (*made.notices, notice)
            return replace(made, line=asked.line or "", notices=notices)
    return None


def _shared(
    whole: Ingredient, asked: IngredientRequest, foods: FoodTable, settings: ReadSettings
) -> Ingredient | None:
    """The ingredient as several foods that share the line's one quantity; None where it is one food."""
    line = whole.read
    named_whole = not {"and", "&"}.isdisjoint(line.food_words.split())
    if named_whole and whole.sure_of_food >= SURE:
        return None  # "1 cup peas and carrots"
    each = [_of_line(replace(asked, line=one.text), one, foods, settings) for one in shared_lines(line)]
    named = {one.food.code for one in each if one.food and one.sure_of_food >= SURE_OF_SHARING}
    if len(named) < len(each):
        return None
    first, *others = (replace(one, confidence=min(one.confidence, SURE_OF_GUESS)) for one in each)
    notice = Notice("shared-amount", "info", _sharing(line))
    return replace(
        first, line=asked.line or "", notices=(*first.notices, notice), parts=tuple(others), read=line
    )


def _sharing(line: Line) -> str:
    return (
        f"The line gives one amount for {len(line.shared)} foods, {', '.join(line.shared)}; it was shared "
        "equally. Give each a line of its own to state its amount."
    )


def _parts(
    asked: IngredientRequest, line: Line, foods: FoodTable, settings: ReadSettings
) -> Iterator[Ingredient]:
    """The further foods of a line; none where the caller says what food the line is."""
    if asked.food is None:
        for each in joined_lines(line):
            part = IngredientRequest(line=each.text, eaten_fraction=asked.eaten_fraction, share=asked.share)
            yield _of_line(part, each, foods, settings)


def _of_line(
    asked: IngredientRequest,
    line: Line,
    foods: FoodTable,
    settings: ReadSettings,
    beside: tuple[str, ...] = (),
) -> Ingredient:
    found, taken = _food(asked, line, foods, beside)
    weight = _weight(asked, line, found.food, settings)
    packet = _packet(asked)
    if packet is not None:
        found = with_packet(found, packet, asked.line or "")
    notices = (
        *_mapping_notices(asked, line, found, packet, weight),
        *_line_notices(line, taken),
        *_heeded(asked, weight, settings),
    )
    return Ingredient(
        line=asked.line or "",
        amount=line.amount.likely if line.amount else None,
        unit=line.unit,
        grams=weight.grams,
        grams_basis=weight.basis,
        grams_source=weight.source,
        food=found.food,
        confidence=min(found.confidence, SURE_OF_GUESS) if weight.guessed else found.confidence,
        sure_of_food=found.confidence,
        alternatives=found.alternatives,
        preparation=line.preparation,
        eaten_fraction=asked.eaten_fraction,
        notices=notices,
        read=line,
        packet=packet,
        asking=found.asking,
    )


def _read(text: str, pointer: str) -> Line:
    try:
        return read_line(text)
    except InvalidRequest:
        with pointing_below(pointer):
            raise


def _food(
    asked: IngredientRequest, line: Line, foods: FoodTable, beside: tuple[str, ...]
) -> tuple[Match, str]:
    """The caller's food, or the one that fits the line's words, and those words."""
    if asked.food is None:
        return match_line(line, foods, beside)
    try:
        known = foods.get(asked.food)
    except NotFound:
        message = (
            f"There is no food {asked.food!r}; look its code up by GET /v1/foods?query=, "
            "or send it among custom_foods."
        )
        raise InvalidRequest([Fault("/food", message)]) from None
    return Match(food=known, confidence=1.0, alternatives=(), why=STATED), line.food_words


def _weight(asked: IngredientRequest, line: Line, food: Food | None, settings: ReadSettings) -> Weight:
    if asked.grams is not None:
        return Weight(Spread.exact(asked.grams), STATED, STATED)
    if line.amount is None and settings.no_quantity == "leave_out":
        return Weight(None, "no quantity in the line: left out as asked", "")
    weight = weigh(line, food, cup=settings.cup)
    if asked.share is None or weight.grams is None:
        return weight
    return replace(weight, grams=weight.grams.scaled(asked.share))


def _packet(asked: IngredientRequest) -> StatedFood | None:
    """What the packet says of 100 g. Raises InvalidRequest."""
    if asked.per_100g is not None:
        return stated_food(asked.per_100g, pointer="/per_100g")
    if asked.per_serving is not None:
        serving = asked.per_serving
        return stated_food(
            serving["nutrients"], of_g=grams_of(serving["weight_g"]), pointer="/per_serving/nutrients"
        )
    return None


def _mapping_notices(
    asked: IngredientRequest, line: Line, found: Match, packet: StatedFood | None, weight: Weight
) -> Iterator[Notice]:
    if asked.food is not None or packet is not None:
        return
    if found.food is None:
        yield Notice("no-match", "check", _no_match(line, found))
    elif found.confidence < SURE:
        message = (
            f"Mapped to {found.food.name} ({found.food.code}) with confidence {found.confidence:.2f}; "
            "look whether it is right, or give food."
        )
        yield Notice("low-confidence", "check" if _may_be_salty(line, found, weight) else "info", message)


def _may_be_salty(line: Line, found: Match, weight: Weight) -> bool:
    """Whether a line whose food is in doubt holds sodium worth a look, whichever of the foods it is."""
    if weight.grams is None or says_salty(line.food_words):
        return True
    meant = (each for each in (found.food, *found.alternatives) if each)
    sodium = max((each.per_100g("NA") or 0.0 for each in meant), default=0.0)
    return sodium * weight.grams.high / 100 > INSIGNIFICANT_MG


def _no_match(line: Line, found: Match) -> str:
    named = f"No food fits {line.food_words!r}" if line.food_words else "The line names no food"
    nearest = "; ".join(f"{food.name} ({food.code})" for food in found.alternatives[:NEAREST])
    offered = f" The nearest are: {nearest}." if nearest else ""
    told = f"{named}, so it is not counted.{offered} Give food, or send it among custom_foods."
    return f"{told} {ASKING[found.asking]}" if found.asking else told


def _line_notices(line: Line, taken: str) -> Iterator[Notice]:
    if line.alternatives:
        others = [each for each in (line.food_words, *line.alternatives) if each != taken]
        message = f"The line allows {', '.join(others)} instead; {taken} was taken."
        yield Notice("alternative-taken", "info", message)
    if line.joined:
        message = (
            f"The line names several foods, and each is counted by itself: {line.food_words}, "
            f"{', '.join(line.joined)}. Give each a line of its own to state its amount."
        )
        yield Notice("several-foods", "info", message)
    if "plus-more" in line.flags:
        message = "The line says that more may be needed; only its stated amount counts."
        yield Notice("plus-more", "info", message)
    if "optional" in line.flags:
        yield Notice("optional", "info", "The line is optional; it is counted.")


def _heeded(asked: IngredientRequest, weight: Weight, settings: ReadSettings) -> tuple[Notice, ...]:
    """The notices about the weight, and one for a line that is left out."""
    if weight.grams is None and not weight.notices and asked.grams is None:
        message = "The line gives no quantity and is left out, as asked."
        return (Notice("left-out", "info", message),)
    return weight.notices


def _named(food: Food) -> dict[str, str]:
    return {"code": food.code, "name": food.name}
