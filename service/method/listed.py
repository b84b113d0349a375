"""The ingredient lines as the method knows them: their words, their kind of food, what they are for."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from functools import cache, lru_cache

from ..core.tables import rows
from ..lines import read_line
from ..lines.line import Line
from .method_words import class_of, nouns, small_words
from .prose_tokens import Token, tokenize

_STOP = small_words("line")
_HEADING = re.compile(r"^\s*#+\s*(.*)$")
_SECTION = re.compile(
    r"^(?:for (?:the )?|to (?:make (?:the )?|finish|serve)|the )?[a-zà-ÿ' &,-]{2,50}:$"
    r"|^(?:for|to make) the [a-zà-ÿ' &-]{2,40}$",
    re.IGNORECASE,
)
_BARE = frozenset(
    [
        "brine",
        "marinade",
        "dressing",
        "sauce",
        "topping",
        "filling",
        "cure",
        "rub",
        "dry rub",
        "salad",
        "crust",
        "dough",
        "garnish",
        "glaze",
        "gravy",
        "to serve",
        "to finish",
        "pickle",
        "pickling liquid",
        "the brine",
        "the marinade",
        "vinaigrette",
        "icing",
        "batter",
        "coating",
        "base",
    ]
)
_CANNED = frozenset({"can", "tin", "jar", "canned", "tinned"})


@dataclass(frozen=True, slots=True)
class ListedLine:
    """A line: its place as sent, the heading it stands under, its words, its class (method_nouns.csv), what
    its own words say it is for ("" where they say nothing), and the line as read."""

    index: int
    text: str
    heading: str
    words: tuple[str, ...]
    kind: str
    purpose: str
    line: Line

    @property
    def is_canned(self) -> bool:
        unit = self.line.unit or ""
        return unit in _CANNED or bool(_CANNED.intersection(self.words)) or "canned" in self.text.lower()


def is_heading(text: str) -> str | None:
    """The heading that a line or paragraph is, None where it is none."""
    if found := _HEADING.match(text):
        return found[1].strip().strip(":")
    bare = text.strip()
    if bare.lower() in _BARE:
        return bare
    return bare.strip(":") if _SECTION.match(bare) and len(bare) < 60 else None


@lru_cache(maxsize=4096)
def _words(text: str) -> tuple[Line, tuple[str, ...], str]:
    line = read_line(text)
    names = [line.food_words] if line.food_words else [text]
    found = tuple(
        t.stem for name in names for t in tokenize(name) if t.text[0].isalpha() and t.text not in _STOP
    )
    kind = class_of(found)
    if kind == "other" and (more := class_of(tuple(t.stem for t in tokenize(text)))) != "other":
        kind = more
    return line, found, kind


@cache
def _purposes() -> tuple[tuple[str, re.Pattern[str]], ...]:
    return tuple(
        (row["purpose"], re.compile(row["pattern"], re.IGNORECASE)) for row in rows("method_purposes")
    )


@lru_cache(maxsize=4096)
def _purpose_of(text: str) -> str:
    """What a line's own words say it is for; "" where they say nothing."""
    if not ("for" in text or "to " in text or "rin" in text):
        return ""
    return next((purpose for purpose, rule in _purposes() if rule.search(text)), "")


def listed_of(lines: Sequence[str]) -> tuple[ListedLine, ...]:
    """The lines that are foods; headings only tell what the lines below them are for."""
    found: list[ListedLine] = []
    heading = ""
    for index, text in enumerate(lines):
        if (head := is_heading(text)) is not None:
            heading = head
            continue
        if not text.strip():
            continue
        line, words, kind = _words(text)
        purpose = _purpose_of(text)
        found.append(ListedLine(index, text, heading, words, kind, purpose, line))
    return tuple(found)


def equipment(line: ListedLine) -> bool:
    """Whether a line is a thing of the state, not a food."""
    known = nouns("equipment")
    return line.kind == "other" and any(
        word in known or " ".join(line.words[i : i + 2]) in known for i, word in enumerate(line.words)
    )


@dataclass(slots=True)
class Index:
    """Which lines a word may speak of."""

    lines: tuple[ListedLine, ...]
    by_word: dict[str, list[ListedLine]] = field(default_factory=dict)
    by_kind: dict[str, list[ListedLine]] = field(default_factory=dict)

    @classmethod
    def of(cls, lines: Iterable[ListedLine]) -> Index:
        made = cls(tuple(lines))
        for line in made.lines:
            made.by_kind.setdefault(line.kind, []).append(line)
            also = [t.stem for name in (*line.line.joined, *line.line.alternatives) for t in tokenize(name)]
            for word in dict.fromkeys((*line.words, *also)):
                if word not in _STOP:
                    made.by_word.setdefault(word, []).append(line)
        return made

    def of_kinds(self, *kinds: str) -> tuple[int, ...]:
        return tuple(line.index for kind in kinds for line in self.by_kind.get(kind, ()))

    def named(self, tokens: Sequence[Token], i: int, heading: str = "") -> tuple[tuple[int, ...], int]:
        """The lines that the run of words from i names, and where it ends; none where it names none."""
        j = i
        while j < len(tokens) and tokens[j].stem in self.by_word and j - i < 5:
            j += 1
        while j > i:
            plural = tokens[j - 1].text != tokens[j - 1].stem
            best = self._best([token.stem for token in tokens[i:j]], plural, heading.lower())
            if best:
                return best, j
            j -= 1
        return (), i

    def _best(self, run: list[str], plural: bool, heading: str) -> tuple[int, ...]:
        scored: list[tuple[tuple[int, bool, bool, int], int]] = []
        kind = class_of(tuple(run))
        for line in self.by_word[run[-1]]:
            matched = sum(word in line.words for word in run)
            also = matched == 0
            if also and len(run) > 1:
                continue
            head = bool(line.words) and line.words[-1] == run[-1]
            here = bool(heading) and line.heading.lower() == heading
            fits = head or line.kind == kind
            scored.append(((matched, fits, here, matched - len(line.words)), line.index))
        if not scored:
            return ()
        best = max(score for score, _ in scored)
        if plural and best[1]:
            return tuple(index for score, index in scored if score[:3] == best[:3])
        return tuple(index for score, index in scored if score == best)
