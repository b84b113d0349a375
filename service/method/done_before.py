"""What was done with a food before it is used, told behind its name: "the cod that you soaked for a day",
"the cucumbers, salted for an hour and squeezed"."""

from __future__ import annotations

from collections.abc import Sequence, Set

from .mention import Mention
from .method_words import small_words, verbs
from .prose_tokens import Token

RELATIVES = frozenset({"that", "which"})
_DONE = frozenset({"salted", "soaked", "boiled", "cooked", "simmered"})
DONE_BEFORE = RELATIVES | _DONE
"""Words one of which stands in every sentence that tells so."""
_LISTS = frozenset({"and", ",", "&", "the", "your"})
_HELPERS = frozenset({"you", "we", "i", "have", "has", "had", "been", "were", "was", "already", "you've"})
_LAID = frozenset({"soak", "brine", "marinate", "cure", "pickle"})
_BOILS = frozenset({"boil", "simmer", "cook"})
_LAY, _LAID_IN = frozenset({"hold"}), frozenset({"water", "salt", "brine"})
_REACH = 8
"""Words behind such a verb among which it is told how long, or in what."""
_BESIDE = frozenset({",", "("})
_BETWEEN = _BESIDE | {"and", "thinly", "finely", "coarsely"}
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
    if verb.act in _BOILS:
        return k if any(token.stem == "salt" for token in near) else 0
    timed = any(token.stem in _TIME_WORDS for token in near)
    laid = verb.act in _LAID or verb.base == "salt"
    laid = laid or (verb.act in _LAY and any(token.text in _LAID_IN for token in near))
    return k if laid and timed else 0


def is_salted_for(tokens: Sequence[Token], i: int, named: Set[int]) -> bool:
    """ "The cucumbers, salted for an hour", "cabbage (sliced, salted, squeezed)": what was done, and no
    "peanuts, salted"."""
    if i + 2 >= len(tokens) or food_end(tokens, i) - 1 not in named:
        return False
    after, then = tokens[i + 1], tokens[i + 2]
    if after.text in ("for", "overnight", "with") or after.text[0].isdecimal():
        return any(token.stem in _TIME_WORDS or token.stem == "salt" for token in tokens[i + 1 : i + 5])
    verb = verbs().get(then.text) if after.text in _NEXT else None
    return verb is not None and verb.form == "past" and verb.base in _LEFT_ALONE


def food_end(tokens: Sequence[Token], i: int) -> int:
    """Behind which word the food stands that a participle at word i tells of, past how it was cut; 0 where a
    participle stands behind no food."""
    k = i - 1
    if tokens[k].text not in _BESIDE and tokens[k].text != "and":
        return 0
    while k > 0 and (tokens[k].text in _BETWEEN or _is_cut(tokens[k])):
        k -= 1
    return k + 1


def _is_cut(token: Token) -> bool:
    verb = verbs().get(token.text)
    return verb is not None and verb.act == "cut" and verb.form == "past"


def as_done(
    tokens: Sequence[Token], cuts: Sequence[tuple[int, int]], mentions: Sequence[Mention], named: Set[int]
) -> list[tuple[int, tuple[int, int]]]:
    """The clauses of a sentence, counted (where each begins, its verb), with what was done before ahead of
    the clause that uses the food. A clause that tells so of the food before it begins with that food."""
    order: list[tuple[int, tuple[int, int]]] = []
    for at, (begin, verb_at) in enumerate(cuts):
        relative = at > 0 and verb_at > begin and done_before(tokens, begin, named) == verb_at
        end = food_end(tokens, begin) if at > 0 and tokens[begin].text in _DONE else 0
        if relative or (end - 1 in named and _is_told(tokens, begin, named)):
            alone = tokens[begin].text == "salted"
            end = end or begin - (tokens[begin - 1].text in _BESIDE)
            order.insert(
                len(order) - relative, (at, (_first_of(tokens, mentions, end, alone=alone), verb_at))
            )
        else:
            order.append((at, (begin, verb_at)))
    return order


def _is_told(tokens: Sequence[Token], i: int, named: Set[int]) -> bool:
    """Whether a participle tells what salt or water did: "salted for an hour", "boiled with the salt"."""
    if tokens[i].text == "salted":
        return is_salted_for(tokens, i, named)
    return tokens[i].text == "soaked" or any(token.stem == "salt" for token in tokens[i + 1 : i + _REACH])


def _first_of(tokens: Sequence[Token], mentions: Sequence[Mention], end: int, *, alone: bool) -> int:
    """Where the food begins that ends before a word, with what is listed beside it; alone: without."""
    first = end
    for m in reversed(mentions):
        listed = first < end and all(token.text in _LISTS for token in tokens[m.j : first])
        if m.kind == "line" and (m.j == first == end or (listed and not alone)):
            first = m.i
    return first


def with_own_subject(mentions: tuple[Mention, ...], upto: int) -> tuple[Mention, ...]:
    """The mentions of a clause that begins with the food it tells of: up to a word, that stands "with"
    nothing."""
    return tuple(
        Mention(m.i, m.j, m.kind, m.lines, m.name, "", m.portion, m.amount) if m.i < upto else m
        for m in mentions
    )
