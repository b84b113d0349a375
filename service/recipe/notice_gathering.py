"""The notices about lines, gathered: one check for all that was not counted, and none twice about one thing.

Whoever is asked to look at everything looks at nothing. What a line's own notice says more of stays, to be
known.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from ..core.notices import Notice
from .completeness import WORDS, brings_nothing, is_heading, uncounted_of
from .outcome import ResolvedIngredient

NAMED = 4
"""How many lines a notice names."""

_ABOUT_WEIGHT = ("no-quantity", "no-weight")
_ABOUT_FOOD = ("no-match", "low-confidence")


def gathered(listed: Sequence[ResolvedIngredient], notices: Sequence[Notice]) -> Iterator[Notice]:
    """The notices of the lines, those that a gathered one says too made info."""
    headings = {each.pointer for each in listed if is_heading(each)}
    asked = [notice for notice in notices if notice.pointer not in headings]
    unweighed = _unweighed(listed, asked)
    yield from _incomplete(listed) or _not_weighed(unweighed)
    named = {each.pointer for each in uncounted_of(listed)}
    tools = {each.pointer for each in listed if not each.ingredient.food and brings_nothing(each)}
    for notice in asked:
        said = notice.code in _ABOUT_FOOD and notice.pointer in named | tools
        yield replace(notice, severity="info") if said or notice.code in _ABOUT_WEIGHT else notice


def _incomplete(listed: Sequence[ResolvedIngredient]) -> list[Notice]:
    """One notice for all lines whose sodium was not counted."""
    lines = uncounted_of(listed)
    if not lines:
        return []
    told = [f"{each.name[:60]!r} ({WORDS[each.uncounted.reason]})" for each in lines if each.uncounted]
    message = (
        f"The sodium is incomplete, so no claim is judged. Not counted, or only by what is usual: "
        f"{_named(told)}. "
        "Give each a food and a weight."
    )
    return [Notice("incomplete", "check", message, lines[0].pointer if len(lines) == 1 else "")]


def _unweighed(listed: Sequence[ResolvedIngredient], notices: Sequence[Notice]) -> list[ResolvedIngredient]:
    """Lines of known food that weigh nothing, since nothing is known of their weight."""
    asked = {notice.pointer for notice in notices if notice.code in _ABOUT_WEIGHT}
    return [each for each in listed if each.pointer in asked and each.ingredient.food and not each.grams]


def _not_weighed(lines: Sequence[ResolvedIngredient]) -> list[Notice]:
    """One notice for all lines that hold no sodium to speak of, but are missing in every other figure."""
    if not lines:
        return []
    named = _named([repr(each.name[:60]) for each in lines])
    message = f"The weight is not known, so that no figure holds these: {named}. Give an amount, or grams."
    return [Notice("not-weighed", "check", message, lines[0].pointer if len(lines) == 1 else "")]


def _named(told: Sequence[str]) -> str:
    more = f"; and {len(told) - NAMED} more" if len(told) > NAMED else ""
    return f"{'; '.join(told[:NAMED])}{more}"
