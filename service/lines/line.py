"""What an ingredient line says, once read: amounts and words, no foods and no weights."""

from __future__ import annotations

from dataclasses import dataclass

from ..core.spread import Spread


@dataclass(frozen=True, slots=True)
class Measure:
    """An amount of a unit. unit: a name of units.kitchen, or None for a bare count."""

    amount: Spread
    unit: str | None


@dataclass(frozen=True, slots=True)
class Line:
    """One ingredient line, read.

    amount, unit: the quantity as written first; a range gives the amount its spread. None where the line
        gives none. unit None with an amount is a count of the food itself.
    package: what one of the counted things holds or measures ("2 (15 oz) cans": 15 ounces).
    measures: further statements of the whole quantity ("4 ounces (1 cup)": 1 cup).
    size: "small", "medium", "large", "extra large" or "".
    food_words: the food as named, lower case, without the words that only say how it is cut.
    preparation: how it is prepared, in the order written; words that also name the food ("dried") are in
        both.
    stated_after: those preparation words that follow the food: the quantity was taken before they were done.
    alternatives: what the line allows instead ("butter or margarine": margarine).
    kinds: what brackets say of its kind ("flour (wholemeal)": wholemeal).
    joined: further foods of the same line, not counted in its quantity ("salt and pepper": pepper).
    shared: all foods among which the line's one quantity may be shared, the first among them ("2 lb onions,
        carrots and celery"); whether each of them is a food is for who knows foods.
    flags: "to-taste", "as-needed", "for-greasing", "for-frying", "for-dusting", "for-serving", "divided",
        "optional", "plus-more", "approximate", "alternatives", "joined", "no-quantity", "implied-amount",
        "each", "heading", "per" (the quantity is for one of something: "2 tomatoes per person").
    """

    text: str
    amount: Spread | None = None
    unit: str | None = None
    package: Measure | None = None
    measures: tuple[Measure, ...] = ()
    size: str = ""
    food_words: str = ""
    preparation: tuple[str, ...] = ()
    stated_after: tuple[str, ...] = ()
    alternatives: tuple[str, ...] = ()
    joined: tuple[str, ...] = ()
    kinds: tuple[str, ...] = ()
    shared: tuple[str, ...] = ()
    flags: frozenset[str] = frozenset()

    def with_amount(self, text: str, amount: Spread) -> Line:
        """The same line with another number; by hand, which costs a fifth of `dataclasses.replace`."""
        return Line(
            text, amount, self.unit, self.package, self.measures, self.size, self.food_words,
            self.preparation, self.stated_after, self.alternatives, self.joined, self.kinds,
            self.shared, self.flags,
        )  # fmt: skip
