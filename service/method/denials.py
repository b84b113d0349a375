"""What a clause denies: "do not soak", "no more salt", "it is not necessary"."""

from __future__ import annotations

from collections.abc import Sequence

from .meant_verbs import TURNS_OUT
from .method_words import Verb, small_words, verbs
from .prose_tokens import Token
from .verbs_said import AWAY_VERBS

NEGATIONS = small_words("negation")


def undenied(part: Sequence[Token]) -> frozenset[str]:
    """The words of a clause but the three behind a negation: "do not rinse" has no rinsing in it."""
    words = [token.text for token in part]
    unsaid = {
        k
        for i, word in enumerate(words)
        if word in NEGATIONS and not _limits(words[i : i + 3])
        for k in range(i + 1, i + (6 if word in _BIDS_NOT else 4))
    }
    return frozenset(word for i, word in enumerate(words) if i not in unsaid)


_BIDS_NOT = frozenset({"don't", "don’t", "dont", "never"})
_MINDS = small_words("minds")
_NEEDED = frozenset({"needed", "necessary", "required", "essential"})
_MORE = frozenset({"more", "longer"})
_GOES_ON = frozenset({"than", "or", "and", "else", "because", "since", "if", "when", "as"})
"""Behind "no more", where that ends what is told and begins nothing that is denied."""


def _limits(words: Sequence[str]) -> bool:
    """ "One minute, no more", "not less than 4 hours", "not too much salt": limits, of which nothing is
    denied, as it is in "no more salt"."""
    if words[0] == "no" and words[1:2] and words[1] in _MORE:
        return not words[2:] or words[2] in _GOES_ON or not words[2].isalpha()
    return words[0] in ("no", "not") and (words[2:] == ["than"] or words[1:] == ["too", "much"])


def is_negated(part: Sequence[Token], verb: Verb | None) -> bool:
    """Whether a clause says that its verb is not to be done: "do not soak", "without salting"."""
    if verb is TURNS_OUT:
        return False  # "after 2 hours it should bend without snapping"
    table = verbs()
    commands = verb is not None and verb.form == "base"
    if not (commands or _NEEDED.isdisjoint(token.text for token in part)):
        return True  # "soaking is not needed", but not "boil 20 minutes, no salt needed"
    for i, token in enumerate(part):
        if token.text in NEGATIONS:
            behind = [each.text for each in part[i : i + 3]]
            if _limits(behind):
                continue
            return behind[1:2] == [] or behind[1] not in _MINDS
        if verb is not None and (known := table.get(token.text)) is not None:
            if known.base == verb.base or (verb.base == "discard" and known.base in AWAY_VERBS):
                return False
    return False
