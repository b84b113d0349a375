"""Walks the words of one segment: what names the food, what only says how it is prepared."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from .line_tokens import Token, text_of
from .vocabulary import Preparation, pair_starts, preparations, role, without_phrases

EDGES = " .,;:-*&/+'\"!?=|"
_FILL = frozenset({"and", "&", "n", "of", "a", "an", "the", "then", "or"})


@dataclass(slots=True)
class Name:
    """A segment's food and preparations. real: the name has a word that is not preparation.

    before, behind: preparations in front of the food's last word and after it, lower case.
    tail: what follows from the first word that ends the name. states: those at the end of `kept`.
    """

    kept: list[Token] = field(default_factory=list)
    states: list[Token] = field(default_factory=list)
    real: bool = False
    before: list[str] = field(default_factory=list)
    behind: list[str] = field(default_factory=list)
    tail: Sequence[Token] = ()

    @property
    def text(self) -> str:
        return plain(self.kept)


def plain(tokens: Sequence[Token]) -> str:
    """Tokens as lower-case text without marks at its ends."""
    return text_of(tokens).lower().strip(EDGES)


def read_name(tokens: Sequence[Token]) -> Name:
    """The food and the preparations that a segment names."""
    name = Name()
    degree: list[Token] = []
    at = 0
    while at < len(tokens):
        word = tokens[at].word
        if name.real and word in role("stop") and not _goes_on(tokens, at):
            name.tail = tokens[at:]
            name.behind.append(without_phrases(plain(name.tail)))
            break
        width, known = _known_at(tokens, at)
        piece = tokens[at : at + width]
        at += width
        following = tokens[at].word if at < len(tokens) else ""
        if known is None:
            _take_plain(piece[0], following, name, degree)
        elif known.kind == "degree":
            degree += piece
        else:
            _take_preparation(piece, known, following in known.binds, name, degree)
            degree = []
    if name.states:  # "bacon cooked" is cooked bacon
        name.kept = [*name.states, *name.kept[: -len(name.states)]]
    return name


def known(words: Sequence[str]) -> bool:
    """Whether any of the words, alone or with the next, speaks of preparation."""
    table = preparations()
    return any(word in table for word in words) or any(
        f"{first}-{second}" in table for first, second in pairwise(words)
    )


def _goes_on(tokens: Sequence[Token], at: int) -> bool:
    """Whether a stop here belongs to the name after all: "tuna in oil", "corn on the cob"."""
    following = tokens[at + 1].word if at + 1 < len(tokens) else ""
    if tokens[at].word == "in":
        return following in role("after_in")
    return tokens[at].word == "on" and any(
        token.word in role("after_on") for token in tokens[at + 1 : at + 3]
    )


def _known_at(tokens: Sequence[Token], at: int) -> tuple[int, Preparation | None]:
    """How many tokens the word of preparation here has, and which it is; (1, None) for any other."""
    if tokens[at].kind != "word":
        return 1, None
    table = preparations()
    word = tokens[at].word
    if word in pair_starts() and at + 1 < len(tokens) and tokens[at + 1].kind == "word":
        both = table.get(f"{word}-{tokens[at + 1].word}")
        if both:
            return 2, both
    return 1, table.get(word)


def _take_plain(token: Token, following: str, name: Name, degree: list[Token]) -> None:
    """A word that names, or a mark or number amid such words."""
    word = token.word
    if token.kind != "word":
        if name.kept or token.kind == "number":
            name.kept.append(token)
            name.states.clear()
        return
    if word in _FILL and (not name.real or not following or following in preparations() or name.behind):
        return
    # "fine sea salt" keeps "fine"; "finely" would have been read with its participle.
    name.kept += [each for each in degree if not each.word.endswith("ly")]
    degree.clear()
    name.kept.append(token)
    name.states.clear()
    name.real = True
    name.before += name.behind
    name.behind.clear()


def _take_preparation(
    piece: Sequence[Token], known: Preparation, bound: bool, name: Name, degree: Sequence[Token]
) -> None:
    """A word of preparation: told, and kept in the name where it also names the food."""
    if known.kind == "aside":
        return
    if known.kind == "state" or bound:
        name.kept += piece
        name.states += piece if name.real and not bound else ()
    if known.kind == "state" and bound:
        return
    told = name.behind if name.real else name.before
    text = " ".join([*(token.word for token in degree), known.word])
    told.append(text)
