"""How much of something a clause speaks of: "two thirds of it", "a ladleful", "60 ml"."""

from __future__ import annotations

from ..units.kitchen_units import find, to_millilitres
from .clauses import Clause
from .method_words import small_words
from .numbers_said import number_at

_PARTS = {"third": 1 / 3, "quarter": 0.25, "fifth": 0.2}
_NEXT = frozenset(
    {"of", "over", "into", "the", "for", "in", "on", "to", "with", "aside", "back", "goes", "go", ",", "."}
)
_FULL = small_words("full")
_LOOSE_ML = {
    "ladle": 100.0, "ladleful": 100.0, "glass": 200.0, "mug": 250.0, "mugful": 250.0, "cupful": 240.0,
    "splash": 40.0, "spoonful": 15.0, "spoon": 15.0, "spoonfuls": 15.0, "ladles": 100.0, "ladlefuls": 100.0,
}  # fmt: skip
"""Measures of a kept liquid that are no units of ingredient lines; common practice, no source."""


def part_said(clause: Clause) -> float | None:
    """The fraction of something that a clause speaks of, 0 to 1; None where it names none."""
    for i, token in enumerate(clause.tokens):
        after = clause.tokens[i + 1].text if i + 1 < len(clause.tokens) else "."
        if after not in _NEXT and not (after == "and" and i + 2 == len(clause.tokens)):
            continue  # "take out half and | put it in the fridge", but no half and half
        if token.text == "half":
            return 0.5
        if token.text == "most":
            return 0.8
        if token.stem in _PARTS:
            number = number_at(clause.tokens, i - 1) if i else None
            return min((number[0] if number else 1.0) * _PARTS[token.stem], 1.0)
    return None


def part_of_mixture(clause: Clause) -> float:
    """ "Use half of it to marinate the chicken": how much of what was stirred; all where no word says."""
    if any(m.kind == "line" and m.portion is not None for m in clause.mentions):
        return 1.0  # "marinate half of the chicken"
    texts = [token.text for token in clause.tokens]
    at = next((i for i, text in enumerate(texts) if text in _LEFT), len(texts))
    if any(text == "half" or text.rstrip("s") in _PARTS for text in texts[at + 1 : at + 3]):
        return 1.0  # "in the remaining half": all that is left of it
    return part_said(clause) or 1.0


_LEFT = frozenset({"remaining", "other", "second"})


def millilitres(clause: Clause) -> float | None:
    """How much a clause says in measures, ml; None where it says none."""
    for i, token in enumerate(clause.tokens):
        number = number_at(clause.tokens, i)
        if number is None and token.text in ("a", "some") and i + 1 < len(clause.tokens):
            number = (1.0, i + 1)
        if number is not None and number[1] < len(clause.tokens):
            full = clause.tokens[number[1]].text in _FULL and number[1] + 1 < len(clause.tokens)
            size = _size_ml(clause.tokens[number[1] + full].text)  # "a big mug"
            if size is not None:
                halved = i > 0 and clause.tokens[i - 1].text == "half"  # "half a mug"
                return number[0] * size * (0.5 if halved else 1.0)
    return None


def _size_ml(word: str) -> float | None:
    unit = find(word)
    return to_millilitres(unit) if unit else _LOOSE_ML.get(word)
