"""A pot that a paragraph's first words tell and its sentences tell again: "Cook the pasta: bring water …"."""

from __future__ import annotations

from .happenings import Happening

_HOT = ("boil", "simmer")
_COLD = ("brine", "marinate", "dry_cure")
_BEGINS = 30
"""Characters of a paragraph in which its label begins: "Step 2 - boil the potatoes: …"."""
_FEW = 6
"""Words and signs of what only announces a pot: "Meanwhile, cook the pasta."."""
_NEXT = 6
"""Paragraphs in which such a pot is told."""
_LONGER = 2.0
"""Times a label's time, from which on a pot is another."""
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


def without_announced(happened: list[Happening]) -> list[Happening]:
    """ "Cook the pasta. / Boil water. / Put the pasta in.": what happened but for the pot that a paragraph
    only announces and the next ones tell."""
    for at, label in enumerate(happened):
        if label.kind not in _HOT or len(label.clause.tokens) > _FEW or not _announces(label):
            continue
        for pot in happened[at + 1 :]:
            near = 0 < pot.clause.method - label.clause.method <= _NEXT
            if near and pot.kind in _HOT and pot.foods.keys() == label.foods.keys() and _is_own(pot):
                pot.hours = pot.hours or label.hours
                return without_announced([each for each in happened if each is not label])
    return happened


def _announces(each: Happening) -> bool:
    """Whether so few words say no more than that a food is boiled."""
    left = each.drained or each.closed or each.lifted or each.liquid or each.hours
    alone = each.clause.start == 0 and len(each.clause.sentence) == len(each.clause.text)
    return not left and each.same_as is None and alone


def _is_own(pot: Happening) -> bool:
    """Whether a pot is of water and salt alone, and no second one."""
    return pot.same_as is None and pot.water is not None and not pot.clause.has("again", "fresh", "second")


def _is_label(each: Happening, pot: Happening) -> bool:
    said = each.clause
    still = not (each.drained or each.closed or each.lifted) and each.same_as is None is pot.same_as
    both = any(each.kind in kinds and pot.kind in kinds for kinds in (_HOT, _COLD))
    told = each.kind in _HOT or (each.hours is None and not said.speaks & {"bath", "water"})
    if each.hours and pot.hours and pot.hours.likely > _LONGER * each.hours.likely:
        return False  # "boil the eggs 8 minutes … simmer in tea for an hour"
    return both and still and told and said.start < _BEGINS and len(said.tokens) <= _LABEL
