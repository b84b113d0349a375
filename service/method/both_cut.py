"""Foods that are cut one after the other and then worked on together: "shred the cabbage and grate the
carrot. Rub them with salt"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from .clauses import Clause
from .listed import Index
from .mention import Mention, kinds_of

_TOGETHER = frozenset({"vegetable", "potato", "fruit"})
"""Kinds of food that are worked on together where "them" stands behind the cutting of each."""
_TWO = 2


def both_cut(clauses: list[Clause], index: Index) -> list[Clause]:
    """The clauses, in which "them" or "both" names all the vegetables that the sentence before cuts up."""
    run: list[Clause] = []
    told = clauses
    for i, clause in enumerate(clauses):
        if clause.act == "cut" or clause.base == "scrape":
            run.append(clause)
            continue
        if len(run) >= _TWO and clause.method == run[-1].method and _says_them(clause, run):
            told = list(clauses) if told is clauses else told
            told[i] = _with_foods(clause, _cut_by(run, clause, index))
        run = []
    return told


def _says_them(clause: Clause, run: Sequence[Clause]) -> bool:
    """Whether a clause is about more than one food: "rub them with salt", "put both in a colander"."""
    if "both" in clause.words:
        return True
    first = clause.mentions[0] if clause.mentions else None
    return first is not None and first.kind == "it" and not (first.name or first.prep) and clause.has("them")


def _cut_by(run: Sequence[Clause], clause: Clause, index: Index) -> tuple[int, ...]:
    """What the clauses of one sentence cut, each one food; where two are meant, those of two sentences."""
    both = "both" in clause.words
    cuts = run[-_TWO:] if both else [each for each in run if each.sentence == run[-1].sentence]
    spoken = [[m.lines for m in each.mentions if m.kind == "line" and not m.prep] for each in cuts]
    if len(cuts) < _TWO or any(len(each) != 1 or len(each[0]) != 1 for each in spoken):
        return ()
    foods = tuple(dict.fromkeys(each[0][0] for each in spoken))
    return foods if len(foods) > 1 and index.kinds(foods) <= _TOGETHER else ()


def _with_foods(clause: Clause, foods: Sequence[int]) -> Clause:
    """The clause, in which these foods stand for the word that means them."""
    at = next((i for i, token in enumerate(clause.tokens) if token.text in ("both", "them")), None)
    named = [m for m in clause.mentions if m.kind == "line" and not m.prep]
    if not foods or named or at is None:
        return clause
    meant = [Mention(at, at + 1, "line", (food,)) for food in foods]
    rest = [m for m in clause.mentions if m.i != at]
    mentions = tuple(sorted((*meant, *rest), key=_begin))
    return replace(clause, mentions=mentions, speaks=kinds_of(mentions))


def _begin(mention: Mention) -> int:
    return mention.i
