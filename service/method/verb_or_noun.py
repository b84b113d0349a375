"""Which words of a sentence are verbs: commands, participles, and nouns that only look like one."""

from __future__ import annotations

from collections.abc import Sequence

from .adjectives import SAYS_HOW, describes
from .done_before import is_salted_for
from .method_words import COOKS, Verb, small_words, verbs
from .prose_tokens import Token

_FOOD_VERBS = small_words("food_verb")
LIFTING = small_words("lifting_tool")
LASTING = frozenset({"rub", "brine", "cure", "marinade"})
_IN_SOMETHING = LASTING | {"roll"}
HOW = frozenset({"with", "in", "into", "inside", "for", "overnight", "all"})
_SPLIT_PAST = frozenset(
    {"drain", "rinse", "discard", "dry", "reserve", "roast", "fry", "boil", "remove", "brine", "hold", "soak"}
)
_SPLIT_ING = frozenset({"drain", "discard", "dry", "reserve", "rinse", "brine", "soak", "marinate", "remove"})
_OBJECT_NEXT = small_words("object")
_STRICT_NEXT = small_words("strict")
BE = frozenset({"is", "are", "be", "been", "being", "was", "were", "get", "gets"})
_WAYS = frozenset({"up", "down"})
_ODD_VERBS = _FOOD_VERBS | SAYS_HOW | {"fish", "batter"}
_ODD_ACTS = frozenset({"let", "pickle"})


def is_verb(tokens: Sequence[Token], i: int, named: set[int], *, opens: bool) -> bool:
    verb = verbs().get(tokens[i].text)
    if verb is None or verb.form != "base":
        return False
    after = tokens[i + 1].text if i + 1 < len(tokens) else "."
    if after == "side" and {token.text for token in tokens[i + 2 : i + 3]} & _WAYS:
        return False  # "skin side up", "cut side down"
    if verb.base in _ODD_VERBS or verb.act in _ODD_ACTS:
        told = _is_odd_verb(tokens, i, named, verb, after, opens=opens)
        if told is not None:
            return told
    if verb.noun and not opens:
        if i in named and after in ("and", ",") and tokens[i - 1].text in ("and", ","):
            return False  # "the shin, bone and fat"
        aside = i > 0 and tokens[i - 1].text == "("  # "(roast potatoes!)"
        if aside or verb.act not in COOKS:
            return after in _OBJECT_NEXT or i + 1 in named or after.endswith("ly") or after[0].isdecimal()
    return not (i in named and after not in _OBJECT_NEXT and not after[0].isdecimal())


def _is_odd_verb(
    tokens: Sequence[Token], i: int, named: set[int], verb: Verb, after: str, *, opens: bool
) -> bool | None:
    """Whether a word that names a food, or says what one is like, is a verb; None where others tell."""
    if verb.act == "let" and (goes_on := verbs().get(after)) is not None and goes_on.form == "ing":
        return True  # "start preheating the oven"
    if verb.base == "fish":
        return any(token.text == "out" for token in tokens[i + 1 : i + 6])
    if verb.base == "batter":
        return opens and i + 1 < len(tokens) and (after in OF_SUBJECT or i + 1 in named)
    if not opens and describes(tokens, i, named, verb):
        return False
    if verb.act == "pickle" and not opens and after in (",", ".", ")", ";"):
        return False
    if verb.base == "salt" and opens and any(token.text in _MUST for token in tokens[i + 1 : i + 4]):
        return False  # "salt cod must be soaked"
    if verb.base == "salt" and i == 0 and all(not token.text.isalpha() for token in tokens[1:]):
        return True  # "Salt."
    if verb.base == "salt" and opens and [t.text for t in tokens[i + 1 : i + 3]] == ["and", "pepper"]:
        return i + 3 < len(tokens) and tokens[i + 3].text in _OBJECT_NEXT  # "Salt and pepper the chicken"
    how = opens or tokens[i - 1].text.endswith("ly")
    if verb.base == "salt" and opens and after == ".":
        return True  # "Slice. Salt. Leave."
    if verb.base == "salt" and how and after in (",", "and", "then") and _acts_next(tokens, i + 2):
        return True  # "Salt, stand for 10 minutes", "slice, lightly salt, then leave"
    if verb.base == "salt" and [t.text for t in tokens[i + 1 : i + 3]] == ["and", "pepper"]:
        return i + 3 < len(tokens) and tokens[i + 3].text in _STRICT_NEXT  # "salt and pepper the beef"
    if verb.base == "salt" and _is_cut_and_salted(tokens, i):
        return True
    if verb.base not in _FOOD_VERBS:
        return None
    if not (opens and after != ":"):
        return (
            after in _STRICT_NEXT
            or (verb.base in _IN_SOMETHING and (after in HOW or after[0].isdecimal()))
            or (i not in named and (i + 1 in named or (after == "with" and tokens[i - 1].text in _AND)))
        )
    if verb.base in LASTING and after == "to":
        return False  # "brine to drain"
    lasts = verb.base in LASTING and after[0].isdecimal()
    names = after in _OBJECT_NEXT or i + 1 in named
    return lasts or (names and after not in ("and", ",", ".", ":", "is", "or"))


_AND = frozenset({"and", "then"})
_MUST = frozenset({"must", "should", "is", "needs", "has"})


def _acts_next(tokens: Sequence[Token], i: int) -> bool:
    while i < len(tokens) and (tokens[i].text in ("then", "and") or tokens[i].text.endswith("ly")):
        i += 1
    verb = verbs().get(tokens[i].text) if i < len(tokens) else None
    return verb is not None and verb.form == "base" and verb.act in _GO_ON


_GO_ON = frozenset({"hold", "let", "mix", "put", "drain", "dry", "rinse", "soak"})


def _is_cut_and_salted(tokens: Sequence[Token], i: int) -> bool:
    """ "Grate the courgettes, salt and leave": what is cut is no list that the salt belongs to."""
    if tokens[i - 1].text not in (",", "and", "then") or not _is_cut(tokens[: min(i, _FIRST_WORDS)]):
        return False
    after = [token.text for token in tokens[i + 1 : i + 3]]
    if after[:1] in (["between"], ["on"]) and tokens[i + 2].text in _WHERE:
        return True  # "halve the cabbage, then salt between the leaves"
    leads = 2 if after == [",", "and"] else 1 if after[:1] in (["and"], [","]) else 0
    waits = after[:1] == [","] and len(after) > 1 and after[1][0].isdecimal()
    return leads > 0 and (waits or _acts_next(tokens, i + 1 + leads))


_WHERE = frozenset({"the", "both", "each", "all", "every"})


def _is_cut(tokens: Sequence[Token]) -> bool:
    said = (verbs().get(t.text) for t in tokens)  # but "lime juice" cuts nothing
    return any(
        verb is not None and verb.act == "cut" and not (k and verb.noun and tokens[k - 1].text != ":")
        for k, verb in enumerate(said)
    )


_FIRST_WORDS = 4
"""Of a sentence, among which its first verb stands: "grate the beets", "the beets grate"."""


def is_participle(tokens: Sequence[Token], i: int, named: set[int]) -> bool:
    verb = verbs().get(tokens[i].text)
    if verb is not None and verb.base == "salt" and _is_salted_once_cut(tokens, i, verb):
        return True
    if verb is None or (i + 1 in named and verb.form == "past"):
        return False
    if verb.form == "past" and verb.act in _SALTS:
        return _is_done_too(tokens, i) or (verb.base == "salt" and is_salted_for(tokens, i, named))
    if verb.form == "ing" and verb.base in _THROWS:
        return i + 1 < len(tokens) and tokens[i + 1].text in ("away", "out", "off")
    return (verb.form == "past" and verb.act in _SPLIT_PAST) or (
        verb.form == "ing" and verb.act in _SPLIT_ING
    )


def _is_salted_once_cut(tokens: Sequence[Token], i: int, verb: Verb) -> bool:
    """ "After slicing and salting the cucumbers", "having sliced and salted them": two things done, and no
    "sliced and salted cucumbers"."""
    before = verbs().get(tokens[i - 2].text) if i > 2 and tokens[i - 1].text == "and" else None
    if before is None or before.act != "cut" or before.form != verb.form:
        return False
    return tokens[i - 3].text in (_HAVING if verb.form == "past" else _ONCE)


_HAVING, _ONCE = frozenset({"having", "have", "you've"}), frozenset({"after", "when", "by", "start"})
_SALTS = frozenset({"season", "coat"})
_THROWS = frozenset({"throw", "chuck", "pour", "tip"})
_JOINTS = frozenset({",", "(", "and", ":"})


def _is_done_too(tokens: Sequence[Token], i: int) -> bool:
    """ "They are sliced, sprinkled with salt", "cabbage shredded, salted": whether a participle goes on with
    what is done."""
    before = verbs().get(tokens[i - 2].text) if i > 2 and tokens[i - 1].text == "," else None
    if before is not None and before.form == "past" and tokens[i - 3].text not in _JOINTS:
        return True
    told = (tokens[k + 1].text for k in range(i - 1) if tokens[k].text in BE)
    return any((verb := verbs().get(word)) is not None and verb.form == "past" for word in told)


OF_SUBJECT = frozenset({"the", "these", "your", "all", "both", "my"})
_GOES = frozenset({"go", "goes", "sit", "sits", "lie", "lies", "come", "comes"})
_GO_WHERE = frozenset({"in", "into", "under", "out"})
_MODALS = BE | {"must", "should", "can", "to", "then", "now", "also", "may", "gets", "just", "always", "has"}


def is_done_to(tokens: Sequence[Token], i: int, named: set[int]) -> int:
    """Where the verb stands of ", and the potatoes get boiled": a subject that something is done to; 0 where
    none begins at word i."""
    k = i
    while k < len(tokens) and k - i < 3 and tokens[k].text in OF_SUBJECT:
        k += 1
    if k >= len(tokens) or k not in named:
        return 0
    while k < len(tokens) and k in named:
        k += 1
    at = k
    while at < len(tokens) and at - k < 4 and tokens[at].text in _MODALS:
        at += 1
    if at == k and at + 1 < len(tokens) and tokens[at].text in _GOES and tokens[at + 1].text in _GO_WHERE:
        return at  # "eggs go in after"
    verb = verbs().get(tokens[at].text) if at < len(tokens) else None
    if at == k:
        added = verb is not None and verb.base == "add" and verb.form == "past"
        return at if added else 0  # "peas added at the end"
    return at if verb is not None and verb.form == "past" and verb.act in _DONE else 0


_DONE = frozenset(
    {"drain", "rinse", "discard", "boil", "simmer", "cook", "brine", "soak", "marinate", "put", "fry"}
    | {"roast", "coat", "cure", "remove", "reserve", "hold", "dry", "season"}
)


_ALONE = 3  # words of a clause that is one verb, with the "and" behind it


def acts_alone(tokens: Sequence[Token], begin: int, end: int) -> bool:
    """ "Grate, salt and leave", "grate, salt, 15 minutes"."""
    if end - begin <= _ALONE:
        return True
    return tokens[begin + 1].text == "," and tokens[begin + 2].text[0].isdecimal()


def is_of_water(tokens: Sequence[Token], i: int) -> bool:
    """Whether "3 litres of water" stands at word i."""
    words = [token.text for token in tokens[i : i + 4]]
    return words[2:] == ["of", "water"] and words[0][0].isdecimal()
