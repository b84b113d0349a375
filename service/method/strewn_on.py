"""Salt or a sauce on food, said with no verb: "tear the tofu, soy sauce on, 15 min", "Legs: salt, thyme"."""

from __future__ import annotations

from collections.abc import Sequence, Set

from .listed import Index
from .mention import Mention
from .method_words import Verb, small_words
from .prose_tokens import Token

_POUR = Verb("pour", "put", "base", False)
SPRINKLE = Verb("sprinkle", "coat", "base", False)
_WET = frozenset({"savoury", "acid", "wine"})
_DRY = frozenset({"salt", "curing", "sweet", "spice", "herb", "aromatic", "oil"})
_ONTO = frozenset({"on", "over"})
_ENDS = frozenset({",", ".", ";", "!", ")", "-", "–", "—", "top", "it", "them"})
_JOINS = frozenset({"and", "&", "+"})
_SALTED = frozenset({"meat", "poultry", "fish", "seafood", "tofu", "vegetable"})
_HOT = small_words("on_heat")


def is_strewn(words: Sequence[str], i: int, named: Set[int]) -> bool:
    """Whether word i begins "soy sauce on", "salt and sugar over", with no more behind it."""
    while i < len(words) and (i in named or words[i] in _JOINS):
        i += 1
    return i < len(words) and words[i] in _ONTO and (i + 1 == len(words) or words[i + 1] in _ENDS)


def strewn(spoken: Sequence[Mention], part: Sequence[Token], said: Set[str], index: Index) -> Verb | None:
    """What is meant where lines stand before "on" or "over", or behind a food's name and a colon: salt is
    sprinkled on it, a sauce poured."""
    if _on_all_sides(part, spoken[0].j) and index.kinds(spoken[0].lines) == {"salt"}:
        return SPRINKLE
    over = next((m for m in spoken if m.prep in _ONTO), None)
    if (
        over is not None
        and _is_led_by_share(part, over.i)
        and all(m is over or m.kind == "it" for m in spoken)
    ):
        return _POUR if index.kinds(over.lines) <= _SALTED and said.isdisjoint(_HOT) else None
    labelled = spoken[0].j < len(part) and part[spoken[0].j].text == ":"
    on = spoken[1:] if labelled else spoken
    if len(on) > 1 and on[-1].prep in _ONTO and index.kinds(on[-1].lines) <= _SALTED:
        kinds = _of(on[:-1], index)
        if any(m.prep and m.i for m in on[:-1]) or not said.isdisjoint(_HOT):
            return None
        if kinds & _WET and kinds <= _DRY | _WET | {"vegetable", "fruit"}:
            return _POUR  # "wine, soy, ginger over the duck"
        return SPRINKLE if "salt" in kinds and kinds <= _DRY else None
    if not on or any(m.kind != "line" or (m.prep and m.i) for m in spoken) or not said.isdisjoint(_HOT):
        return None
    behind = part[on[-1].j].text if on[-1].j < len(part) else ""
    if not (labelled or behind in _ONTO):
        return None
    kinds = _of(on, index)
    if labelled and not index.kinds(spoken[0].lines) <= _SALTED:
        return None
    if "salt" in kinds and kinds <= _DRY:
        return SPRINKLE
    return _POUR if kinds & _WET and kinds <= _DRY | _WET else None


def _on_all_sides(part: Sequence[Token], i: int) -> bool:
    """Whether word i begins "both sides", "on both sides", "all over"."""
    words = [token.text for token in part[i : i + 3]]
    words = words[words[:1] == ["on"] :]
    return words[:2] in _ALL_SIDES


_ALL_SIDES = (["both", "sides"], ["each", "side"], ["all", "sides"], ["all", "over"], ["either", "side"])


def _of(spoken: Sequence[Mention], index: Index) -> set[str]:
    return index.kinds(n for m in spoken for n in m.lines)


_SHARES = frozenset(
    {"all", "half", "most", "one", "some", "the", "of", "it", "this", "on", "over", "rest", "a", "third"}
)


def _is_led_by_share(part: Sequence[Token], i: int) -> bool:
    """ "All over the pork", "half over the chicken": what was stirred last goes on it."""
    return all(token.text in _SHARES for token in part[:i])


def is_of_salt(words: Sequence[str]) -> bool:
    """ "Salt", "some salt and": salt itself, and no "salt bath"."""
    at = words.index("salt") if "salt" in words[:4] else -1
    return at >= 0 and _SOME.issuperset(words[:at]) and (at + 1 == len(words) or words[at + 1] in _BEHIND)


_BEHIND = small_words("behind_noun")
_SOME = frozenset({"some", "the", "plenty", "of", "a", "little", "coarse", "fine"})
