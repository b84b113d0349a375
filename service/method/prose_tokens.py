"""Prose as words with their places, and its sentences."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache, lru_cache
from typing import NamedTuple

from ..core.tables import rows
from .method_words import singular, small_words
from .spellings import respelt

_LETTERS = "[A-Za-zÀ-ÖØ-öø-ÿ]+"
_WORD = re.compile(
    rf"^\.\d+|w/o\b|[Hh]2[Oo0]\b|[Ss][&+][Pp]\b|w/(?=\s|[a-z])|{_LETTERS}(?:['’\-]{_LETTERS})*(?![^\W\d_])|\d+(?:[.,]\d+)*(?:/\d+)?"
    r"|[½¼¾⅓⅔⅛]|[^\W\d_]+(?:['’\-][^\W\d_]+)*|[^\w\s]"
)
"""Words, numbers and marks; those of Latin letters first, which are found fast."""
_SPELT_OUT = {"w/": "with", "w/o": "without", "excluding": "except", "w": "with", "&": "and", "!": "."}
_SPELT_OUT |= dict.fromkeys(("h2o", "h20"), "water") | dict.fromkeys(("s&p", "s+p"), "salt")
_WHOLE = frozenset({"everything", "all", "else", "ingredients"})
"""Behind these "but" leaves something out."""
_ENDS = frozenset(".!?;")
_SHORT = small_words("short")
_LONGEST_KEPT = 60
"""Characters between two spaces, at the most, whose words are kept for the next time."""
_MOST_KEPT = 1 << 14
MOST_WORDS = 120
"""Words of the longest sentence that is read in one go; a longer one is cut there."""


class Token(NamedTuple):
    """A word, number or mark: its text in lower case, its stem, and its place in the paragraph."""

    text: str
    stem: str
    start: int
    end: int


@lru_cache(maxsize=1 << 14)
def _word(said: str) -> tuple[str, str]:
    """A word as it is compared, and its stem."""
    word = said.lower()
    word = _SPELT_OUT.get(word, word)
    if word.endswith(("'s", "’s")):
        word = word[:-2]  # "the duck's skin"
    if "-" in word and (said_how := word.partition("-"))[0] in _HOW:
        word = said_how[2]  # "just-simmering"
    word = respelt(word)
    return word, singular(word)


_HOW = frozenset({"just", "barely", "freshly", "gently", "rapidly"})


class _Runs(dict[str, tuple[tuple[str, str, int, int], ...]]):
    """The words and marks of characters that stand between two spaces, with their places in these; kept for
    the next time, but for very long ones, until they are too many."""

    def __missing__(self, run: str) -> tuple[tuple[str, str, int, int], ...]:
        found: list[tuple[str, str, int, int]] = []
        end = 0
        for said in _WORD.findall(run + " "):
            start = run.find(said, end)  # nothing between two words is a part of one
            end = start + len(said)
            found.append((*_word(said), start, end))
        if len(run) <= _LONGEST_KEPT:
            if len(self) >= _MOST_KEPT:
                self.clear()
            self[run] = tuple(found)
        return tuple(found)


RUNS = _Runs()


_token = tuple.__new__
"""Makes a token in half the time that its class takes, as every word of a method is one."""


def tokenize(text: str) -> list[Token]:
    found: list[Token] = []
    begin = 0
    for run in text.split(" "):
        for word, stem, start, end in RUNS[run]:
            found.append(_token(Token, (word, stem, begin + start, begin + end)))
        begin += len(run) + 1
    if " but" in text:
        for i, token in enumerate(found):
            if token.text == "but" and i and found[i - 1].text in _WHOLE:
                found[i] = Token("except", "except", token.start, token.end)
        if " but not the " in text:
            found = _without_not(found)
    return found


def _without_not(tokens: Sequence[Token]) -> list[Token]:
    """ "Drain the beans but not the corn": all except the corn, and nothing denied."""
    found: list[Token] = []
    for i, token in enumerate(tokens):
        behind = [each.text for each in tokens[i + 1 : i + 3]]
        if token.text == "but" and behind == ["not", "the"]:
            found.append(Token("except", "except", token.start, token.end))
        elif not (token.text == "not" and i and found[-1].text == "except" and tokens[i - 1].text == "but"):
            found.append(token)
    return found


def words_of(text: str) -> list[tuple[str, str]]:
    """The words and marks of a text, each with its stem, for where nobody asks where they stand."""
    runs = text.split(" ")
    if "but" in runs:
        return [(token.text, token.stem) for token in tokenize(text)]
    return [(word, stem) for run in runs for word, stem, _, _ in RUNS[run]]


def stems_of(text: str) -> list[str]:
    """The stems of the words and marks of a text."""
    runs = text.split(" ")
    if "but" in runs:
        return [token.stem for token in tokenize(text)]
    return [stem for run in runs for _, stem, _, _ in RUNS[run]]


def sentences(text: str) -> list[list[Token]]:
    """The words of each sentence of a paragraph."""
    found: list[list[Token]] = []
    tokens = _plainly(tokenize(text), text)
    begin = 0
    for i in [i for i, token in enumerate(tokens) if token.text in _ENDS]:
        if i < begin:
            continue
        closes = tokens[begin].text == "(" and [token.text for token in tokens[i + 1 : i + 2]] == [")"]
        if closes or _is_end(tokens, i, text):
            end = i + 1 + closes  # "(It may stick.) Drain": a sentence of its own
            found += _not_too_long(_without_short_stops(tokens[begin:end]))
            begin = end
    return found + _not_too_long(_without_short_stops(tokens[begin:]))


@cache
def _otherwise() -> tuple[tuple[str, tuple[str, ...], str, frozenset[str]], ...]:
    """What is said in several small words: as text, its words, the plain ones, what must follow."""
    return tuple(
        (
            row["said"],
            tuple([word for word, _ in words_of(row["said"])]),
            row["plain"],
            frozenset(row["before"].split()),
        )
        for row in rows("method_otherwise")
    )


def _plainly(tokens: list[Token], text: str) -> list[Token]:
    """The words of a text in plain ones where it says those otherwise: "as soon as" is "when"."""
    low = text.lower()
    low = low.replace("’", "'") if "’" in low else low
    for said, words, plain, before in _otherwise():
        if said not in low:
            continue
        for i in reversed(range(len(tokens) - len(words))):
            end = i + len(words)
            if tuple([token.text for token in tokens[i:end]]) != words:
                continue
            start, stop = tokens[i].start, tokens[end - 1].end
            if low[start:stop] == said and (not before or tokens[end].text in before):
                tokens[i:end] = [Token(word, word, start, stop) for word in plain.split()]
    return tokens


def _without_short_stops(tokens: list[Token]) -> list[Token]:
    """A sentence without the full stops of what is written short: "1 tsp. salt"."""
    stops = [i for i, token in enumerate(tokens[:-1]) if token.text == "." and i]
    inner = {i for i in stops if tokens[i - 1].text in _SHORT}
    return [token for i, token in enumerate(tokens) if i not in inner] if inner else tokens


def _is_end(tokens: list[Token], i: int, text: str) -> bool:
    """Whether a full stop or its like ends a sentence: not that of "approx. 2" or before a bracket."""
    after = tokens[i + 1] if i + 1 < len(tokens) else None
    if after is None:
        return True
    short = tokens[i].text == "." and i > 0 and tokens[i - 1].text in _SHORT
    if short and i > 1 and tokens[i - 1].text == "in" and not tokens[i - 2].text[0].isdecimal():
        return True  # "rub it in."
    return after.text != ")" and not (short and not text[after.start].isupper())


def _not_too_long(tokens: list[Token]) -> list[list[Token]]:
    if len(tokens) <= MOST_WORDS:
        return [tokens] if tokens else []
    return [tokens[k : k + MOST_WORDS] for k in range(0, len(tokens), MOST_WORDS)]
