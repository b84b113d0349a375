"""A pot that a paragraph's first words tell and its sentences tell again: "Cook the pasta: bring water …"."""

from __future__ import annotations

from .happenings import Happening

_HOT = ("boil", "simmer")
_BEGINS = 30
"""Characters of a paragraph in which its label begins: "Step 2 - boil the potatoes: …"."""
_LABEL = 8
"""Words and signs of the longest label."""


def without_label(happened: list[Happening], pot: Happening) -> list[Happening]:
    """ "Cook the spaghetti: bring salted water to the boil, add the spaghetti": what happened but for the pot
    of the label, whose time and liquid are those of this one."""
    method, foods = pot.clause.method, pot.foods.keys()
    for label in happened:
        if label.clause.method != method or label.foods.keys() != foods or not _is_label(label, pot):
            continue
        pot.hours = pot.hours or label.hours
        pot.liquid = label.liquid | pot.liquid
        if pot.water is not None and label.water is not None:
            pot.water.amount = pot.water.amount or label.water.amount
        return [each for each in happened if each is not label]
    return happened


def _is_label(each: Happening, pot: Happening) -> bool:
    said = each.clause
    still = not (each.drained or each.closed or each.lifted) and each.same_as is None is pot.same_as
    return each.kind in _HOT and still and said.start < _BEGINS and len(said.tokens) <= _LABEL
