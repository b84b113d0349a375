"""What was done with a food before it is used, told behind its name: "the cod that you soaked for a day",
"the cucumbers, salted for an hour and squeezed"."""

from __future__ import annotations

from collections.abc import Sequence, Set

from .mention import Mention
from .method_words import small_words, verbs
from .prose_tokens import Token

RELATIVES = frozenset({"that", "which"})
DONE_BEFORE = RELATIVES | {"salted"}
"""Words one of which stands in every sentence that tells so."""
_HELPERS = frozenset({"you", "we", "i", "have", "has", "had", "been", "were", "was", "already", "you've"})
_LAID = frozenset({"soak", "brine", "marinate", "cure", "pickle"})
_LAY, _LAID_IN = frozenset({"hold"}), frozenset({"water", "salt", "brine"})
_REACH = 8
"""Words behind such a verb among which it is told how long, or in what."""
_BESIDE = frozenset({",", "("})
_TIME_WORDS = small_words("time")
_NEXT = frozenset({"and", ",", "then"})
_LEFT_ALONE = frozenset({"leave", "squeeze", "wring", "press", "rinse", "drain", "wash", "stand"})


def done_before(tokens: Sequence[Token], i: int, named: Set[int]) -> int:
    """Where the verb stands of "that you soaked for a day", "which have stood in the salt for an hour" behind
    a food; 0 where word i begins nothing of that kind."""
    food = i - 1 - (tokens[i - 1].text in _BESIDE)
    if tokens[i].text not in RELATIVES or food not in named:
        return 0
    k = i + 1
    while k < len(tokens) and tokens[k].text in _HELPERS:
        k += 1
    verb = verbs().get(tokens[k].text) if k < len(tokens) else None
    if verb is None or verb.form != "past":
        return 0
    near = tokens[k + 1 : k + 1 + _REACH]
    timed = any(token.stem in _TIME_WORDS for token in near)
    laid = verb.act in _LAID or verb.base == "salt"
    laid = laid or (verb.act in _LAY and any(token.text in _LAID_IN for token in near))
    return k if laid and timed else 0


def is_salted_for(tokens: Sequence[Token], i: int, named: Set[int]) -> bool:
    """ "The cucumbers, salted for an hour", "cabbage (salted, squeezed)": what was done, and no "peanuts,
    salted"."""
    if tokens[i - 1].text not in _BESIDE or i - 2 not in named or i + 2 >= len(tokens):
        return False
    after, then = tokens[i + 1], tokens[i + 2]
    if after.text in ("for", "overnight") or after.text[0].isdecimal():
        return any(token.stem in _TIME_WORDS for token in tokens[i + 1 : i + 5])
    verb = verbs().get(then.text) if after.text in _NEXT else None
    return verb is not None and verb.form == "past" and verb.base in _LEFT_ALONE


def as_done(
    tokens: Sequence[Token], cuts: Sequence[tuple[int, int]], mentions: Sequence[Mention], named: Set[int]
) -> list[tuple[int, tuple[int, int]]]:
    """The clauses of a sentence, counted (where each begins, its verb), with what was done before ahead of
    the clause that uses the food. A clause that tells so of the food before it begins with that food."""
    order: list[tuple[int, tuple[int, int]]] = []
    for at, (begin, verb_at) in enumerate(cuts):
        relative = at > 0 and verb_at > begin and done_before(tokens, begin, named) == verb_at
        salted = at > 0 and verb_at == begin and tokens[begin].text == "salted"
        if not (relative or (salted and is_salted_for(tokens, begin, named))):
            order.append((at, (begin, verb_at)))
            continue
        end = begin - (tokens[begin - 1].text in _BESIDE)
        food = next((m.i for m in mentions if m.kind == "line" and m.j == end), begin)
        order.insert(len(order) - relative, (at, (food, verb_at)))
    return order
