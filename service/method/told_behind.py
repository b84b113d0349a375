"""What was done before, told behind what is done with it: "grill the thighs, which you marinated overnight in
the soy sauce", "fry the cod after dipping it in the batter"."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from .clauses import Clause, moved
from .mention import Mention, kinds_of
from .method_words import COOKS, small_words, verbs
from .prose_tokens import Token
from .times_and_sizes import Span

_EARLIER = frozenset({"marinate", "brine", "dredge", "coat"})
"""Acts that come before food is cooked, in whatever order a sentence has them."""
_TOLD = small_words("done_before")
_LEADS = small_words("leads_to_done_before")
_BACK = frozenset({"for", "at", "until", "over", "under"})
"""Words behind a comma with which a sentence comes back to what is done now."""
_INTO_HEAT = frozenset({"fry", "roast", "cook"})

_Piece = tuple[Clause, int, int]
"""Words i to j of a clause."""


def in_their_order(clauses: Sequence[Clause]) -> list[Clause]:
    """The clauses in the order in which things are done."""
    if not [clause for clause in clauses if clause.words & _TOLD]:
        return list(clauses)  # as nearly always
    found: list[Clause] = []
    for clause in clauses:
        if clause.negated or not clause.words & _TOLD:
            found.append(clause)
        elif found and (food := _of_one_before(clause, found[-1])) is not None:
            told = _made_of(clause, (found[-1], food.i, food.j), (clause, 0, len(clause.tokens)))
            found[-1:] = [told, found[-1]]
        else:
            found += _parted(clause)
    return found


def _of_one_before(clause: Clause, cooked: Clause) -> Mention | None:
    """The food of the clause before, of which this one tells what was done to it: "grill the thighs | which
    should have marinated overnight"."""
    follows = clause.sentence == cooked.sentence and cooked.method == clause.method and cooked.act in COOKS
    past = clause.verb is not None and clause.verb.form == "past" and clause.act in _EARLIER
    if not (follows and past and clause.tokens[0].text in _LEADS):
        return None
    return _object(cooked, len(cooked.tokens))


def _parted(clause: Clause) -> Iterator[Clause]:
    """A clause, or the two that it is."""
    cooks, words = clause.act in COOKS, len(clause.tokens)
    at = _verb_told(clause) if cooks else _verb_to_come(clause) if clause.act in _EARLIER else 0
    food = _object(clause, at)
    if food is None:
        yield clause
        return
    begin, end = at, words
    while begin > food.j and clause.tokens[begin - 1].text in _LEADS:
        begin -= 1
    if cooks:
        end = next((i for i in range(at, words - 1) if _comes_back(clause, i)), words)
    now = _made_of(clause, (clause, 0, begin), (clause, end, words))
    verb = verbs()[clause.tokens[at].text]
    other = _made_of(clause, (clause, food.i, food.j), (clause, at, end))
    other = replace(other, verb=verb, act=verb.act, base=verb.base)
    yield from (other, now) if cooks else (now, other)


def _comes_back(clause: Clause, i: int) -> bool:
    return clause.tokens[i].text == "," and clause.tokens[i + 1].text in _BACK


def _verb_told(clause: Clause) -> int:
    """Where a verb tells what was done before its clause's own; 0 where none does."""
    for i, token in enumerate(clause.tokens):
        verb = verbs().get(token.text)
        told = verb is not None and verb.act in _EARLIER and verb.form in ("past", "ing")
        if told and i and clause.tokens[i - 1].text in _LEADS:
            return i
    return 0


def _verb_to_come(clause: Clause) -> int:
    """Where "before frying it" tells what comes next; 0 where it does not."""
    for i, token in enumerate(clause.tokens):
        verb = verbs().get(token.text)
        comes = verb is not None and verb.act in _INTO_HEAT and verb.form == "ing"
        if comes and i and clause.tokens[i - 1].text == "before":
            return i
    return 0


def _object(clause: Clause, before: int) -> Mention | None:
    """The food that a clause is about, named before a word of it."""
    return next((m for m in clause.mentions if m.kind == "line" and not m.prep and m.j <= before), None)


def _made_of(clause: Clause, *pieces: _Piece) -> Clause:
    """What a clause says, in no more than these pieces."""
    tokens: list[Token] = []
    texts: list[str] = []
    mentions: list[Mention] = []
    hours: list[Span] = []
    for of, begin, end in pieces:
        by = begin - len(tokens)
        mentions += [moved(m, by) for m in of.mentions if begin <= m.i < end]
        hours += [span._replace(i=span.i - by, j=span.j - by) for span in of.hours if begin <= span.i < end]
        part = of.tokens[begin:end]
        if part:
            texts.append(of.text[part[0].start - of.start : part[-1].end - of.start])
        tokens += part
    return replace(
        clause,
        text=" ".join(texts),
        tokens=tuple(tokens),
        mentions=tuple(mentions),
        hours=tuple(hours),
        words=frozenset(token.text for token in tokens),
        speaks=kinds_of(mentions),
        aim=len(tokens),
    )
