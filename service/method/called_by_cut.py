"""Food that is called by how it was cut: "slice the turkey, chop the mushrooms, dredge the slices"."""

from __future__ import annotations

from collections.abc import Iterator, Set
from dataclasses import replace

from .clauses import Clause
from .happenings import SOLIDS
from .listed import Index
from .mention import kinds_of
from .method_words import nouns


def called_by_their_cut(clauses: list[Clause], index: Index) -> list[Clause]:
    """The clauses, in which "the slices" name what was sliced, where other food was spoken of since.

    Where two foods were sliced it stays open which are meant: what was spoken of last.
    """
    if not [m for c in clauses if "it" in c.speaks for m in c.mentions if m.kind == "it" and m.name]:
        return clauses
    foods = {line.index for line in index.lines if line.kind in SOLIDS}
    return list(_named(clauses, foods, _florets(index)))


def _florets(index: Index) -> dict[str, tuple[int, ...]]:
    """ "Boil the florets": of the one cauliflower of the list, which nobody cuts first."""
    heads = [line.index for word in ("cauliflower", "broccoli") for line in index.by_word.get(word, ())]
    return {"floret": (heads[0],)} if len(heads) == 1 else {}


def _named(clauses: list[Clause], foods: Set[int], cut: dict[str, tuple[int, ...]]) -> Iterator[Clause]:
    last: tuple[int, ...] = ()
    for clause in clauses:
        spoken = (m.lines for m in clause.mentions if m.kind == "line" and not m.prep)
        lines = next((each for each in spoken if not foods.isdisjoint(each)), ())
        if clause.act == "cut" and (it := lines or last):
            cut |= {shape: it if cut.get(shape, it) == it else () for shape in _shapes(clause)}
        elsewhere = {shape: of for shape, of in cut.items() if of and of != last} if not lines else {}
        yield _with_its_food(clause, elsewhere) if elsewhere else clause
        last = lines or last


def _shapes(clause: Clause) -> set[str]:
    """To what a clause cuts: "slice", "in rings", "into 2 cm cubes"."""
    return {clause.base, *(token.stem for token in clause.tokens)} & nouns("shape").keys()


def _with_its_food(clause: Clause, cut: dict[str, tuple[int, ...]]) -> Clause:
    called = [m for m in clause.mentions if m.kind == "it" and m.name in cut]
    if not called:
        return clause
    mentions = tuple(
        replace(m, kind="line", lines=cut[m.name], name="") if m in called else m for m in clause.mentions
    )
    return replace(clause, mentions=mentions, speaks=kinds_of(mentions))
