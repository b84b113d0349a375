"""Stews of which only the meat is eaten: "toss the pork with two tablespoons of the cooking liquid"."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from .clauses import Clause
from .happenings import SALTING, LeftOver
from .left_over import SOME
from .method_words import phrasing
from .reading_state import HOT, ReadingState
from .stakes import is_worth_asking, lines_mg

_A_LITTLE = phrasing("a_little_liquor")
_SOME_STOCK = phrasing("some_broth")
_SALTY = SALTING | {"savoury", "stock", "milk"}
_UNSAID = 0.0


def of_braises(state: ReadingState, clauses: Sequence[Clause]) -> Iterator[LeftOver]:
    """The salty lines of a stew whose meat is taken out, and of whose liquid only a little is spoken of."""
    if stock := state.index.of_kinds("stock"):
        yield from _of_stocks(state, clauses, stock)
    if any(each.kind in HOT for each in state.happened) or not state.main_foods():
        return
    for i, clause in enumerate(clauses):
        if not clause.opens or clause.act == "reserve" or not _A_LITTLE.search(clause.sentence):
            continue
        lines = {n for c in clauses[:i] for m in c.mentions for n in m.lines if state.kind(n) in _SALTY}
        lines -= {n for left in state.left_over for n in left.lines}
        if lines and is_worth_asking(state, 0.5 * lines_mg(state, lines)):
            yield LeftOver(clause, tuple(sorted(lines)), _UNSAID)
        return


def _of_stocks(state: ReadingState, clauses: Sequence[Clause], stock: Sequence[int]) -> Iterator[LeftOver]:
    """ "Simmer the meatballs in the stock and soy sauce, serve them over rice with some of the broth"."""
    told = {n for each in state.happened for n in each.liquid}
    serves = next((c for c in clauses if c.opens and _SOME_STOCK.search(c.sentence)), None)
    if serves is None or not told.isdisjoint(stock):
        return
    beside = (c for c in clauses if any(not set(stock).isdisjoint(m.lines) for m in c.mentions))
    named = {n for c in beside for m in c.mentions for n in m.lines if state.kind(n) in _SALTY}
    lines = {*stock, *named} - {n for left in state.left_over for n in left.lines}
    if is_worth_asking(state, 0.5 * lines_mg(state, lines)):
        yield LeftOver(serves, tuple(sorted(lines)), SOME)
