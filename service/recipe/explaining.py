"""Where each figure of an answer came from: the chain from line to serving, by what the kitchen really did.

The kitchen's trail is played again with every amount marked by the line that brought it. What is in one
place is taken to be well mixed, nutrient by nutrient: what leaves it is shared out among the lines by what
each has in it. So the shares add up to the figure, in any recipe.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from ..core.checkpoint import checkpoint
from ..core.documents import rounded
from ..foods.nutrients import INDEX, NUTRIENTS
from ..render import sentences
from .outcome import Outcome, ResolvedIngredient
from .pool_rows import ROW, ROWS, WATER
from .pools import Passage
from .request import PLACES

METHOD = (
    "Likely amounts, for the whole recipe where not per serving. Things in one place are taken to be well "
    "mixed: what leaves it is shared out among the lines by what each has in it."
)
MAIN = ("ENERC", "PROCNT", "FAT", "FASAT", "CHOCDF", "FIBTG", "SUGAR", "CHOLE", "NA", "K", "CA", "FE", "VITD")
"""The nutrients that are explained where none is named: those of a label."""

TAP = "tap"
DIGITS = 9
"""Significant digits: more than elsewhere in an answer, so that the parts still add up to the whole."""

Marked = NDArray[np.float64]
"""Amounts in a place by who brought them, shape (lines + 1, tags); the last is the tap."""

_Way = tuple[str, str, int | None]
"""From where to where, and in which step."""


@dataclass(frozen=True, slots=True, eq=False)
class Trace:
    """What of each line's amounts ended where: by place, and what went from place to place, by tag."""

    ended: dict[str, Marked]
    movements: dict[str, list[sentences.Movement]]
    poured_g: float


def explanation(outcome: Outcome, tags: Sequence[str] = MAIN) -> dict[str, Any]:
    """{method, nutrients: {tag: chain}} of an outcome that was cooked with its trail kept.

    tags: INFOODS tagnames of nutrients.csv. Raises ValueError where no trail was kept.
    """
    trace = traced(outcome, tags)
    chains = {tag: _chain(outcome, trace, tag, at) for at, tag in enumerate(tags)}
    return {"method": METHOD, "nutrients": rounded(chains, DIGITS)}


def traced(outcome: Outcome, tags: Sequence[str]) -> Trace:
    """The trail played again, with every amount of `tags` marked by its line. Raises ValueError."""
    trail = outcome.state.pools.trail
    if trail is None:
        raise ValueError("no trail was kept; cook the recipe with follow=True")
    column_of = np.full(ROWS, -1)
    column_of[[ROW[tag] for tag in tags]] = np.arange(len(tags))
    brought = _brought(outcome.listed, np.array([INDEX[tag] for tag in tags]))
    marked = _laid_out(outcome, brought)
    told: dict[str, dict[_Way, float]] = {tag: defaultdict(float) for tag in tags}
    for name, amounts in _left_at_once(outcome, brought):
        _tell(told, tags, (name, "not_eaten", None), amounts)
    for passage in trail:
        checkpoint()
        columns = column_of[passage.rows]
        kept = columns >= 0
        if not kept.any():
            continue
        _pass_on(marked, passage, columns[kept], kept)
        way = (passage.source or TAP, passage.target, passage.step)
        _tell(told, [tags[column] for column in columns[kept]], way, passage.amounts[kept])
    return Trace(
        {place: marked[place] for place in PLACES},
        {tag: [sentences.Movement(*key, amount) for key, amount in told[tag].items()] for tag in tags},
        sum(float(each.amounts[each.rows == WATER].sum()) for each in trail if each.source is None),
    )


def _brought(listed: Sequence[ResolvedIngredient], nutrients: NDArray[np.intp]) -> Marked:
    """What every line brings in; nothing of what is not known."""
    nothing = np.zeros(nutrients.size)
    per_100g = np.stack(
        [food.values[nutrients] if (food := each.ingredient.food) else nothing for each in listed]
    )
    grams = np.array([each.grams for each in listed])
    brought: Marked = np.where(np.isnan(per_100g), 0.0, per_100g) * (grams / 100)[:, np.newaxis]
    assumed_mg = np.array([each.assumed_mg.likely if each.assumed_mg else 0.0 for each in listed])
    brought[:, nutrients == INDEX["NA"]] += assumed_mg[:, np.newaxis]
    return brought


def _laid_out(outcome: Outcome, brought: Marked) -> dict[str, Marked]:
    """What every line brought into its component, and what of it was set aside as not eaten."""
    shape = (len(outcome.listed) + 1, brought.shape[1])
    marked = {place: np.zeros(shape) for place in outcome.state.pools.amounts}
    for i, each in enumerate(outcome.listed):
        marked[each.component][i] = brought[i] * each.eaten_share
        marked["not_eaten"][i] = brought[i] * (1 - each.eaten_share)
    return marked


def _left_at_once(outcome: Outcome, brought: Marked) -> Iterator[tuple[str, NDArray[np.float64]]]:
    """By component, what lines said is not eaten of them."""
    for each, amounts in zip(outcome.listed, brought, strict=True):
        if each.eaten_share < 1:
            yield each.component, amounts * (1 - each.eaten_share)


def _pass_on(
    marked: dict[str, Marked], passage: Passage, columns: NDArray[np.intp], kept: NDArray[np.bool_]
) -> None:
    """Move marked amounts, those in `columns`, as a passage moved the rows that are `kept`."""
    if passage.source is None:
        marked[passage.target][-1, columns] += passage.amounts[kept]
        return
    part = marked[passage.source][:, columns] * (passage.amounts[kept] / passage.held[kept])
    marked[passage.source][:, columns] -= part
    marked[passage.target][:, columns] += part


def _tell(
    told: dict[str, dict[_Way, float]],
    tags: Sequence[str],
    way: _Way,
    amounts: NDArray[np.float64],
) -> None:
    for tag, amount in zip(tags, amounts.tolist(), strict=True):
        if amount > 0:
            told[tag][way] += amount


def _chain(outcome: Outcome, trace: Trace, tag: str, at: int) -> dict[str, Any]:
    nutrient = NUTRIENTS[INDEX[tag]]
    sources = [_source(each, trace, tag, i, at) for i, each in enumerate(outcome.listed)]
    if tag == "WATER" and trace.poured_g > 0:
        sources.append(_from_the_tap(trace, at))
    return sentences.explain(
        sentences.Subject(tag, nutrient.name, nutrient.unit),
        sources,
        eaten=float(outcome.eaten[ROW[tag], 0]),
        servings=outcome.request.servings,
        movements=trace.movements[tag],
        audience=outcome.request.audience,
    )


def _source(listed: ResolvedIngredient, trace: Trace, tag: str, i: int, at: int) -> sentences.Source:
    food, grams = listed.ingredient.food, listed.ingredient.grams
    return sentences.Source(
        line=listed.name,
        component=listed.component,
        food_name=food.name if food else None,
        food_code=food.code if food else None,
        grams=grams.likely if grams else None,
        per_100g=food.per_100g(tag) if food else None,
        ended=_ends(trace, i, at),
        pointer=listed.pointer,
    )


def _from_the_tap(trace: Trace, at: int) -> sentences.Source:
    return sentences.Source(
        "fresh water", TAP, "Water, from the tap", None, trace.poured_g, 100.0, _ends(trace, -1, at)
    )


def _ends(trace: Trace, i: int, at: int) -> dict[str, float]:
    found = {place: float(amounts[i, at]) for place, amounts in trace.ended.items()}
    return {place: amount for place, amount in found.items() if amount > 0}
