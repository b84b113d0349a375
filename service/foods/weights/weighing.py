"""Turns a read line into grams of its food, by the surest way there is, and says which.

The order: a weight in the line; the food's own household weight in the matching form; the same by another
volume; typical densities and pieces; a stated default where the line has no quantity. What cannot be
weighed is said to be so.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from ...core.notices import Notice
from ...core.spread import Spread
from ...lines.line import Line, Measure
from ...units.kitchen_units import Cup, dimension, find, reach, to_grams, to_millilitres, to_millimetres
from ..food import Food
from ..matching.headwords import Phrase
from . import household_weights, typical
from .edible_portion import edible_share
from .guesses import is_guess
from .typical import Figure, Filling

SALT = "02047"
"""The dataset's table salt, which stands for every kind: they differ in bulk, not in make."""

ASSUMED = "no quantity in the line: a default for such a line"
"""The basis of a weight that no line states."""

STATED_IN_LINE = "stated in the line"
"""The source of a weight that the line itself gives."""

_SALT_MATTERS_G = 1.0
"""From this range on, in g of salt a recipe, the kind of salt is worth asking for (about 390 mg sodium)."""
_LONGEST_BESIDE = 4
"""Words of a preparation that tell of the food; what is longer is a remark ("not garlic cloves, just …")."""
_CANS = frozenset({"can", "jar"})
_DRAINED = frozenset({"drained", "rinsed"})
_OF_WHOLE = {"piece": 1.0, "half": 0.5}
"""Counts that stand for a share of the food itself where no weight is kept for them."""
_RECKONED = "usual density of such food"
_METRIC = frozenset({"millilitre", "centilitre", "decilitre"})
_TEASPOON = "teaspoon"
_CUP_ML = 236.5882365


@dataclass(frozen=True, slots=True)
class Weight:
    """What a line weighs: g of the food, None where it is not known; how it was found; notices.

    guessed: its range is so wide that it may well be wrong; a person's look is worth while.
    """

    grams: Spread | None
    basis: str
    source: str
    notices: tuple[Notice, ...] = ()
    guessed: bool = False


class _Asked:
    """A line and a food together; what is looked up of them is made once, when it is first asked for."""

    __slots__ = ("_forms", "_phrase", "cup", "food", "line")

    def __init__(self, line: Line, food: Food | None, cup: Cup) -> None:
        self.line = line
        self.food = food
        self.cup = cup
        self._phrase: Phrase | None = None
        self._forms: frozenset[str] | None = None

    @property
    def phrase(self) -> Phrase:
        """The food by the line's words."""
        if self._phrase is None:
            beside = (each for each in self.line.preparation if each.count(" ") < _LONGEST_BESIDE)
            self._phrase = Phrase.of_line(self.line.food_words, beside)
        return self._phrase

    @property
    def forms(self) -> frozenset[str]:
        """What the line says of the food's form."""
        if self._forms is None:
            # "broccoli florets" names a form last; the "whole" of "whole milk" is none.
            last = self.line.food_words.rpartition(" ")[2]
            words = " ".join((last, *self.line.preparation)).replace("-", " ").split()
            self._forms = typical.forms_in(words)
        return self._forms

    @property
    def is_cooked_food(self) -> bool:
        """Whether both line and food are cooked, so that the food's own cup is one of the cooked."""
        return self.food is not None and "cooked" in self.forms and ", cooked" in self.food.name

    def phrases(self) -> Iterator[Phrase]:
        """The food by the line's words, then by its name in the dataset."""
        yield self.phrase
        if self.food:
            yield Phrase.of_name(self.food.name)


def weigh(line: Line, food: Food | None, *, cup: Cup = "us") -> Weight:
    """What `line` weighs if it is of `food`; `food` None weighs by the line's words alone.

    cup: what cups and spoons hold. Never raises; what cannot be weighed has grams None and a notice.
    """
    asked = _Asked(line, food, cup)
    if line.amount is None:
        return _unquantified(asked)
    for weight in _ways(asked):
        if weight is not None:
            return _possible(_checked(weight, asked), asked)
    return _unknown(line)


def combine(amount: Spread, each: Spread) -> Spread:
    """`amount` times `each`, two independent ranges: their logarithms' reaches add in quadrature."""
    likely = amount.likely * each.likely
    if likely == 0 or amount.low <= 0 or each.low <= 0:
        return Spread(amount.low * each.low, likely, amount.high * each.high)
    below = math.hypot(math.log(amount.likely / amount.low), math.log(each.likely / each.low))
    above = math.hypot(math.log(amount.high / amount.likely), math.log(each.high / each.likely))
    return Spread(min(likely, likely * math.exp(-below)), likely, max(likely, likely * math.exp(above)))


def _ways(asked: _Asked) -> Iterator[Weight | None]:
    """Weights of the line by each way, the surest first."""
    line = asked.line
    main = Measure(line.amount, line.unit) if line.amount else None
    stated = [each for each in (main, *line.measures) if each]
    yield from (_by_mass(each, asked) for each in stated if dimension(each.unit) == "mass")
    package = _all_packages(line)
    if package and dimension(package.unit) == "mass":
        yield _by_mass(package, asked, packed=True)
    if package and dimension(package.unit) == "volume":
        yield _by_volume(package, asked)
    for each in stated:
        if dimension(each.unit) == "volume":
            yield _by_piece(each, asked, household=False)
            yield _by_volume(each, asked)
        else:
            yield _by_piece(each, asked, household=True)


def _all_packages(line: Line) -> Measure | None:
    """What the line's packages hold together."""
    if line.package is None or line.amount is None:
        return None
    return Measure(combine(line.amount, line.package.amount), line.package.unit)


def _by_mass(measure: Measure, asked: _Asked, *, packed: bool = False) -> Weight:
    unit_g = to_grams(measure.unit or "") or 0.0
    grams = measure.amount.scaled(unit_g)
    basis = f"weight in the line, {_said(measure)}"
    if packed and asked.line.unit in _CANS:
        return _drained(Weight(grams, basis, STATED_IN_LINE), asked)
    share = edible_share(asked.line, asked.food, asked.phrase)
    if share is None:
        return Weight(grams, basis, STATED_IN_LINE)
    return Weight(combine(grams, share.grams), f"{basis}, {share.basis}", share.source)


def _drained(weight: Weight, asked: _Asked) -> Weight:
    """A can's weight without its liquid, where the line says it is drained."""
    words = " ".join(asked.line.preparation).replace(",", " ").split()
    if asked.line.unit not in _CANS or weight.grams is None or _DRAINED.isdisjoint(words):
        return weight
    share = typical.drained_share(asked.phrase)
    basis = f"{weight.basis}, drained: {_figure(share.grams.likely * 100)} % of it"
    return Weight(combine(weight.grams, share.grams), basis, share.source, weight.notices)


def _by_volume(measure: Measure, asked: _Asked) -> Weight | None:
    millilitres = to_millilitres(measure.unit or "", asked.cup)
    if millilitres is None:
        return None
    amount = combine(measure.amount, reach(measure.unit))
    if _is_salt(asked):
        return _salt(measure, amount, millilitres, asked)
    found = _cup_weight(asked, _nearest_ml(measure, millilitres))
    if found is None:
        return None
    per_ml, basis = found
    each = per_ml.grams.scaled(millilitres)
    text = f"{_amount(measure.amount)} × {_figure(each.likely)} g per {measure.unit}, {basis}"
    return Weight(combine(amount, each), text, per_ml.source)


def _nearest_ml(measure: Measure, millilitres: float) -> float:
    """The volume by which a household weight is chosen: of metric measures all, else that of the unit."""
    return millilitres * measure.amount.likely if measure.unit in _METRIC else millilitres


def _cup_weight(asked: _Asked, millilitres: float) -> tuple[Figure, str] | None:
    """g in one millilitre of the food, and how that is known."""
    own = household_weights.by_volume(asked.food, asked.forms, millilitres) if asked.food else None
    if own and own.fits and asked.is_cooked_food:
        return own.figure, own.basis
    if own and own.poured:
        return own.figure, own.basis
    typed = next((each for name in asked.phrases() if (each := typical.filling(name, asked.forms))), None)
    if own and (own.exact or (own.fits and not asked.forms) or (own.fits and not (typed and typed.form))):
        return _as_scooped(own.figure, typed), own.basis
    if typed:
        return _per_millilitre(typed.figure), _RECKONED
    if own:
        return own.figure, own.basis
    group = typical.group_filling(asked.food.group_code) if asked.food else None
    return (_per_millilitre(group), "usual density of its food group") if group else None


def _as_scooped(own: Figure, typed: Filling | None) -> Figure:
    """A food's own weight, as wide as cups of such food are: spooned, scooped, shaken down."""
    if typed is None:
        return own
    usual, grams = typed.figure.grams.scaled(1 / _CUP_ML), own.grams
    return Figure(Spread(min(usual.low, grams.low), grams.likely, max(usual.high, grams.high)), own.source)


def _per_millilitre(cup: Figure) -> Figure:
    return Figure(cup.grams.scaled(1 / _CUP_ML), cup.source)


def _is_salt(asked: _Asked) -> bool:
    """Whether the food is a salt by kind; foods that only hold salt are weighed as others are."""
    by_words = "salt" in asked.phrase.heads
    return (asked.food is not None and asked.food.code == SALT) or (
        by_words and (asked.food is None or not asked.food.household)
    )


def _salt(measure: Measure, amount: Spread, millilitres: float, asked: _Asked) -> Weight:
    kind = typical.salt(asked.phrase.words)
    teaspoons = millilitres / (to_millilitres(_TEASPOON) or 1.0)
    each = kind.teaspoon.grams.scaled(teaspoons)
    grams = combine(amount, each)
    named = len(kind.words) > 1
    said = "kind as named" if named else "household weight of Salt, table; kind not named"
    basis = f"{_amount(measure.amount)} × {_figure(each.likely)} g per {measure.unit}, {said}"
    weight = Weight(grams, basis, kind.teaspoon.source)
    if grams.high - grams.low < _SALT_MATTERS_G:
        return weight
    if named and kind.teaspoon.grams.high < 1.5 * kind.teaspoon.grams.low:
        return weight
    message = (
        "A teaspoon of salt weighs 2.8 to 6.4 g by its kind; this line was taken as "
        f"{_figure(grams.likely)} g ({_figure(grams.low)} to {_figure(grams.high)} g). "
        "Weigh the salt and give grams, or name its kind."
    )
    return replace(weight, notices=(Notice("salt-kind", "info", message),))


@dataclass(frozen=True, slots=True)
class _Each:
    """What one counted piece weighs, and how that is known. drained: a can without its liquid."""

    figure: Figure
    basis: str
    drained: bool = False


def _by_piece(measure: Measure, asked: _Asked, *, household: bool) -> Weight | None:
    """The weight by count, from the food's household weights or the table of pieces."""
    each = _piece_of_length(measure, asked) or _named_by_piece(measure, asked)
    own = (
        household_weights.by_count(asked.food, measure.unit, asked.line) if household and asked.food else None
    )
    ours = _Each(own.figure, own.basis, own.drained) if own else None
    if own and own.fits:
        each = each or ours
    each = each or _typical_piece(measure.unit, asked) or ours
    if each is None:
        return None
    unit = f" per {measure.unit}" if measure.unit else " each"
    text = f"{_amount(measure.amount)} × {_figure(each.figure.grams.likely)} g{unit}, {each.basis}"
    weight = Weight(combine(measure.amount, each.figure.grams), text, each.figure.source)
    return weight if each.drained else _drained(weight, asked)


def _named_by_piece(measure: Measure, asked: _Asked) -> _Each | None:
    """ "3 cloves" of what is found to be garlic: the food is named by its piece."""
    unit = find(asked.line.food_words) if measure.unit is None and asked.food else None
    if unit is None or asked.food is None or dimension(unit) != "count":
        return None
    found = typical.piece(Phrase.of_name(asked.food.name), unit)
    return _Each(found.weight(asked.line.size), f"usual {unit}") if found else None


def _typical_piece(unit: str | None, asked: _Asked) -> _Each | None:
    found = next((each for name in asked.phrases() if (each := typical.piece(name, unit))), None)
    found = found or (typical.piece_of_any_food(unit) if asked.line.food_words else None)
    if found:
        size = f"{asked.line.size} " if asked.line.size else ""
        return _Each(found.weight(asked.line.size), f"usual {size}piece")
    whole = _typical_piece(None, asked) if unit in _OF_WHOLE else None
    if whole is None:
        return None
    figure = Figure(whole.figure.grams.scaled(_OF_WHOLE[unit or ""]), whole.figure.source)
    return _Each(figure, whole.basis)


def _piece_of_length(measure: Measure, asked: _Asked) -> _Each | None:
    """ "a 2-inch piece of ginger": so many inches, where the weight of one is known."""
    is_length = dimension(measure.unit) == "length"
    length = Measure(Spread.exact(1.0), measure.unit) if is_length else asked.line.package
    millimetres = to_millimetres(length.unit or "") if length else None
    if length is None or millimetres is None or dimension(measure.unit) not in {None, "count", "length"}:
        return None
    inch = next((each for name in asked.phrases() if (each := typical.piece(name, "inch"))), None)
    if inch is None:
        return None
    grams = combine(length.amount.scaled(millimetres / 25.4), inch.weight("").grams)
    return _Each(Figure(grams, inch.source), f"usual piece of {_said(length)}")


def _unquantified(asked: _Asked) -> Weight:
    """A line without quantity: the default for its purpose, or nothing."""
    line = asked.line
    grams = _default(asked) if line.food_words else None
    if grams is None:
        message = "The line gives no quantity, so its food is not counted. Add an amount, or give grams."
        return Weight(None, "no quantity in the line", "", (Notice("no-quantity", "check", message),))
    message = (
        f"The line gives no quantity; {_figure(grams.likely)} g were taken ({_figure(grams.low)} to "
        f"{_figure(grams.high)} g). Add an amount, or give grams."
    )
    told = (Notice("default-quantity", "info", message),)
    return Weight(
        grams,
        ASSUMED,
        "common practice, no source",
        told,
        guessed=is_guess(grams, asked.line.amount, asked.food),
    )


def _default(asked: _Asked) -> Spread | None:
    """g taken for the food without quantity; None where nothing is said of it."""
    group = asked.food.group_code if asked.food else ""
    for default in typical.defaults(asked.line.flags, tuple(asked.phrases()), group):
        if not default.in_pieces:
            return default.amount
        piece = _one_piece(asked)
        if piece:
            return combine(default.amount, piece)
    return None


def _one_piece(asked: _Asked) -> Spread | None:
    """What one piece of the food weighs, in g."""
    weight = _by_piece(Measure(Spread.exact(1.0), None), asked, household=True)
    return weight.grams if weight else None


def _unknown(line: Line) -> Weight:
    asked = f"{line.unit} of " if line.unit else ""
    food = line.food_words or "this food"
    message = f"It is not known what a {asked}{food} weighs, so it is not counted. Give grams."
    return Weight(None, "weight not known", "", (Notice("no-weight", "check", message),), guessed=True)


def _checked(weight: Weight, asked: _Asked) -> Weight:
    """The weight, called a guess where its range is broad."""
    grams = weight.grams
    if grams is None or not is_guess(
        grams, asked.line.amount, asked.food, reckoned=weight.basis.endswith(_RECKONED)
    ):
        return weight
    message = (
        f"The weight is rough: {_figure(grams.likely)} g, {_figure(grams.low)} to {_figure(grams.high)} g. "
        "Weigh it and give grams."
    )
    told = weight.notices or (Notice("rough-weight", "info", message),)
    return replace(weight, notices=told, guessed=True)


def _possible(weight: Weight, asked: _Asked) -> Weight:
    """The weight, with a notice that stops where no line can mean so much."""
    if weight.grams is None or weight.source == STATED_IN_LINE:
        return weight
    measure = dimension(asked.line.unit) or "count"
    code = asked.food.code if asked.food else ""
    for limit in typical.line_limits():
        fits = limit.measure == measure and (not limit.codes or code in limit.codes)
        if fits and weight.grams.likely > limit.most_g:
            message = (
                f"The line comes to {_figure(weight.grams.likely)} g ({weight.basis}): {limit.reason}. "
                "Write the amount in another way, or give grams."
            )
            return replace(weight, notices=(*weight.notices, Notice("impossible-weight", "stop", message)))
    return weight


def _said(measure: Measure) -> str:
    return f"{_amount(measure.amount)} {measure.unit or ''}".strip()


def _amount(amount: Spread) -> str:
    return _figure(amount.likely)


def _figure(value: float) -> str:
    """A figure to three digits or to the unit, without an exponent."""
    return f"{value:.3g}" if 1e-4 <= value < 999.5 else f"{value:.0f}"
