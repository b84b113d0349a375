"""The ingredient lines as the method knows them: their words, their kind of food, what they are for."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass, field
from functools import cache, lru_cache

from ..core.tables import rows
from ..lines import read_line
from ..lines.line import Line
from ..units.kitchen_units import to_grams, to_millilitres
from .lettered_parts import letter_of
from .method_words import class_of, nouns, small_words, verbs
from .parts_headed import names_a_part, parts_headed
from .prose_tokens import Token, stems_of, tokenize, words_of
from .remarks import is_remark, tells_of_another
from .sections import bids, heads_a_pot, is_made_below

_STOP = small_words("line")
_LEAFY = small_words("leafy")
_THICK = frozenset({"broccoli", "green", "leaf"})
"""Of these, words that name no leaf that is thin all through: stalks go with it, or another plant."""
_CANNED = frozenset({"can", "tin", "jar", "canned", "tinned"})


_POTFUL_ML = 1000.0
"""Water of a list, ml, from which on it may be plenty."""


_FROM_JAR = re.compile(r"\b(?:from|out of) (?:a|the) (?:jar|tin|can)\b")


@dataclass(slots=True, eq=False)  # a frozen one takes five times as long to make
class ListedLine:
    """A line: its place as sent, its heading, its words, its class (method_nouns.csv), what its own words say
    it is for ("" where they say nothing), the line as read, the letter of its part (see lettered_parts), and
    how strong a brine it is taken to be of where nobody says. Equal to itself alone, to be a cheap key."""

    index: int
    text: str
    heading: str
    words: tuple[str, ...]
    kind: str
    purpose: str
    line: Line
    letter: str = ""
    strength: str = ""

    @property
    def is_canned(self) -> bool:
        unit = self.line.unit or ""
        if unit in _CANNED or not _CANNED.isdisjoint(self.words):
            return True
        said = self.text.lower()
        if "jar" not in said and "can" not in said and "tin" not in said:
            return False
        return "canned" in said or "(tinned" in said or "jarred" in said or _FROM_JAR.search(said) is not None


@lru_cache(maxsize=4096)
def _words(text: str) -> tuple[Line, tuple[str, ...], str]:
    line = read_line(text)
    named = line.food_words.split(" in ")[0].split(" under ")[0]  # "tuna in spring water" is tuna
    words = words_of(named or text)
    found = tuple([stem for word, stem in words if word[0].isalpha() and word not in _STOP])
    kind = class_of(found)
    if kind == "other" and (more := class_of(tuple(stems_of(_GRAMS.sub("", text))))) != "other":
        kind = more
    if " of " in named and (of := class_of(tuple(stems_of(named.split(" of ")[0])))) in _MADE_OF:
        kind = of  # "oil of seeds", "flour of rice"
    if kind == "stock" and found[-1:] == ("cube",) and _is_much(line):
        kind = class_of(found[:-1])  # "700 g lamb cubes"
    if kind == "acid" and _is_whole_fruit(line, found):
        kind = "fruit"
    if kind == "aromatic" and _is_much(line):
        kind = "fruit" if found[-1:] == ("orange",) else "vegetable"
    if found[-1:] == ("pepper",) and kind in ("spice", "vegetable"):
        kind = "spice" if line.unit in _TEASPOONS else "vegetable" if _is_pod(line) else kind
    if kind in ("meat", "poultry") and line.unit in _TEASPOONS:
        kind = "spice"  # "1 tsp meat tenderizer", "2 tsp chicken powder"
    return line, found, kind


_GRAMS = re.compile(r"\d\s*grams?\b", re.IGNORECASE)
"""A weight, and no pulse that is called gram."""
_TEASPOONS = frozenset({"teaspoon", "pinch", "dash"})


_MADE_OF = frozenset({"oil", "flour", "milk", "stock", "salt"})
_JAR_OF_FRUIT = 5.0
_MUCH_G, _MANY = 150.0, 8
"""Garlic, chillies and their like, g or how many, from which on they are a food and no seasoning."""


def _is_much(line: Line) -> bool:
    least, each = (_MUCH_G, to_grams(line.unit) or 0.0) if line.unit else (_MANY, 1.0)
    return line.amount is not None and line.amount.likely * each >= least


def _is_pod(line: Line) -> bool:
    """Whether pepper is counted or weighed as a vegetable is: "4 poblano peppers", "1 kg peppers"."""
    said = line.text.lower()
    counted = line.amount is not None and line.unit is None
    return "peppers" in said or (counted and "peppercorn" not in said)


def _is_whole_fruit(line: Line, words: tuple[str, ...]) -> bool:
    """Whether lemons are so many, and not juiced, that they are a food and no seasoning."""
    said = line.text.lower()
    many = line.amount is not None and line.unit is None and line.amount.likely >= _JAR_OF_FRUIT
    return many and words[-1:] in (("lemon",), ("lime",)) and not ("juice" in said or "juicing" in said)


@cache
def _purposes() -> tuple[tuple[str, re.Pattern[str]], ...]:
    return tuple(
        (row["purpose"], re.compile(row["pattern"], re.IGNORECASE)) for row in rows("method_purposes")
    )


@lru_cache(maxsize=4096)
def _purpose_of(text: str) -> str:
    """What a line's own words say it is for; "" where they say nothing."""
    if not ("for" in text or "to " in text or "rin" in text or "water" in text):
        return ""
    own = _PLUS_MORE.sub("", text)  # "1 tsp salt, plus more for the pasta water" is for the dish
    return next((purpose for purpose, rule in _purposes() if rule.search(own)), "")


_PLUS_MORE = re.compile(
    r"[,;(]?\s*(?:(?:plus|and|\+)\s+(?:more|extra|some)|(?:plus|\+)\s+salt)\b.*", re.IGNORECASE
)
_ASIDE_WORDS = re.compile(r"\(([^()]*[a-z][^()]*)\)")


def listed_of(lines: Sequence[str], parts: Collection[str] = ()) -> tuple[ListedLine, ...]:
    """The lines that are foods; headings, parts among them, only tell what the lines below them are for."""
    found: list[ListedLine] = []
    heading, letter = "", ""
    heads = {i: text for i, text in enumerate(lines) if text in parts} | parts_headed(lines)
    for index, text in enumerate(lines):
        if index in heads:
            heading, letter = heads[index], letter_of(text)
        if index in heads or not text.strip() or bids(text):
            continue
        line, words, kind = _words(text)
        if is_remark(text, has_amount=line.amount is not None):
            continue
        if heads and is_made_below(text, line.unit, words, heads.values()):
            continue
        if tells_of_another(text, index, lines) or names_a_part(text, index, heads):
            continue
        purpose = _purpose_of(text) or ("pot" if heading and heads_a_pot(heading) else "")
        found.append(
            ListedLine(
                index,
                text,
                heading,
                words,
                kind,
                purpose,
                line,
                (letter_of(text) if text[0] in "([ABCDE" else "") or letter,
            )
        )
    return tuple(found)


def is_thin_leaf(line: ListedLine) -> bool:
    """Whether a line is of leaves: as thin as they grow, however large a cook cuts them."""
    return line.kind == "vegetable" and bool((_LEAFY - _THICK) & set(line.words))


_OF_TOOLS = re.compile(r"\b(?:equipment|tools|utensils|also need|special equipment)\b", re.IGNORECASE)
_ALWAYS_TOOLS = frozenset({"thermometer", "cheesecloth", "thermos", "recipient", "mould", "mold", "muslin"})


@lru_cache(maxsize=1 << 12)
def equipment(line: ListedLine) -> bool:
    """Whether a line is a thing of the state, not a food."""
    known = nouns("equipment")
    if line.heading and _OF_TOOLS.search(line.heading):
        return True
    if (line.words and line.words[-1] in _ALWAYS_TOOLS) or _is_tool(line):
        return True
    return line.kind == "other" and any(
        word in known or " ".join(line.words[i : i + 2]) in known for i, word in enumerate(line.words)
    )


def _is_tool(line: ListedLine) -> bool:
    """ "1 cheese grater", "2 bowls or plates": what a line names last, before what it is for, is a tool."""
    if _tool_ends().isdisjoint(stems_of(line.text)):
        return False
    named = [stem for word, stem in words_of(_FOR_WHAT.split(line.text)[0]) if word[0].isalpha()]
    last = (" ".join(named[-n:]) for n in (3, 2, 1) if len(named) >= n)
    return any(nouns("tool").get(words) in ("", line.kind) for words in last)


@cache
def _tool_ends() -> frozenset[str]:
    """The last words of tools' names."""
    return frozenset(words.rpartition(" ")[2] for words in nouns("tool"))


_FOR_WHAT = re.compile(r"[,(:;]|\b(?:for|to|with|or|e\.g\.|such|from|in)\b")


def _run_together(words: Iterable[str]) -> list[tuple[str, str]]:
    """Words that end in the name of their kind, with that name: "sprout" may speak of beansprouts."""
    ending = [word for word in words if word.endswith(_tails()) and word not in _tails()]
    return [(word, tail) for word in ending for tail in _tails() if word.endswith(tail)]


@cache
def _tails() -> tuple[str, ...]:
    return tuple(nouns("tail"))


@dataclass(slots=True)
class Index:
    """Which lines a word may speak of. boiled_in: pasta and grain with the paragraph that boils it. shaped:
    words of salts that alone name what is shaped of a dough ("pretzel salt"). letters: parts that a letter
    names."""

    lines: tuple[ListedLine, ...]
    by_word: dict[str, list[ListedLine]] = field(default_factory=dict)
    by_kind: dict[str, list[ListedLine]] = field(default_factory=dict)
    boiled_in: dict[int, int] = field(default_factory=dict)
    letters: dict[str, tuple[int, ...]] = field(default_factory=dict)
    _of_kinds: dict[tuple[str, ...], tuple[int, ...]] = field(default_factory=dict)
    shaped: set[str] = field(default_factory=set)
    _starters: frozenset[str] = frozenset()

    def starters(self, always: frozenset[str]) -> frozenset[str]:
        """The words that something may begin with: those of lines, and these."""
        if not self._starters:
            self._starters = always.union(self.by_word, self.letters)
        return self._starters

    @classmethod
    def of(cls, lines: Iterable[ListedLine]) -> Index:
        made = cls(tuple(lines))
        for line in made.lines:
            if equipment(line):
                continue
            made.by_kind.setdefault(line.kind, []).append(line)
            if line.kind == "salt" and len(line.words) > 1:
                made.shaped.update(nouns("made").keys() & line.words)
            if line.letter:
                made.letters[line.letter] = (*made.letters.get(line.letter, ()), line.index)
            also: list[str] = []
            for name in (*line.line.joined, *line.line.alternatives):
                also += [stem for word, stem in words_of(name) if word[0].isalpha()]
            if "(" in line.text and line.kind != "salt" and (aside := _ASIDE_WORDS.search(line.text)):
                known = nouns("class")
                also += [stem for stem in stems_of(aside[1]) if known.get(stem) == line.kind]
            for word in dict.fromkeys((*line.words, *also)):
                if (
                    word not in _STOP
                    and word != "all"
                    and (word != "half" or "half and half" in line.text.lower())
                ):
                    made.by_word.setdefault(word, []).append(line)
        for word, tail in _run_together(made.by_word):
            made.by_word.setdefault(tail, made.by_word[word])
        return made

    def of_kinds(self, *kinds: str) -> tuple[int, ...]:
        known = self._of_kinds.get(kinds)
        if known is None:
            known = tuple([line.index for kind in kinds for line in self.by_kind.get(kind, ())])
            self._of_kinds[kinds] = known
        return known

    def kinds(self, lines: Iterable[int]) -> set[str]:
        """The kinds of these lines."""
        at = {line.index: line.kind for line in self.lines}
        return {at[n] for n in lines}

    def waters(self) -> tuple[int, ...]:
        """The lines that are water and no ice."""
        return tuple(n.index for n in self.by_kind.get("water", ()) if n.words[-1:] not in ICE)

    def potfuls(self) -> bool:
        """Whether some line of water is a potful, or does not say how much it is."""
        waters = [n.line for n in self.by_kind.get("water", ())]
        sizes = [to_millilitres(line.unit) or to_grams(line.unit) if line.unit else None for line in waters]
        measured = zip(waters, sizes, strict=True)
        return any(not size or not n.amount or n.amount.likely * size >= _POTFUL_ML for n, size in measured)

    def waters_for(self, purpose: str) -> tuple[int, ...]:
        """The lines of water whose own words say what it is for ("soaking", "cooking")."""
        return tuple(n.index for n in self.by_kind.get("water", ()) if purpose in n.text.lower())

    def of_purpose(self, purpose: str, kind: str) -> tuple[ListedLine, ...]:
        return tuple(line for line in self.by_kind.get(kind, ()) if line.purpose == purpose)

    def minced(self) -> tuple[int, ...]:
        """The lines of minced meat or fish."""
        meats = (n for kind in _MEATS for n in self.by_kind.get(kind, ()))
        return tuple(n.index for n in meats if not _MINCED.isdisjoint(stems_of(n.text)))

    def leaves(self) -> tuple[int, ...]:
        """The lines of leafy vegetables."""
        return tuple(n.index for n in self.by_kind.get("vegetable", ()) if _LEAFY.intersection(n.words))

    def canned(self) -> tuple[int, ...]:
        """The lines of cans, tins and jars; of what comes "from a jar" only where there is no other."""
        cans = [n for n in self.lines if n.is_canned]
        return tuple(n.index for n in cans if "from a jar" not in n.text.lower()) or tuple(
            n.index for n in cans
        )

    def of_shape(self, stem: str) -> tuple[int, ...]:
        """The lines whose own words say that the food is cut to a shape, what only flavours apart."""
        of_food = (n for n in self.lines if n.kind not in _FLAVOURS)
        return tuple(n.index for n in of_food if any(_is_cut_to(t, stem) for t in tokenize(n.text)))

    def named(self, tokens: Sequence[Token], i: int, heading: str = "") -> tuple[tuple[int, ...], int]:
        """The lines that the run of words from i names, and where it ends; none where it names none."""
        j = i + 1
        while j < len(tokens) and tokens[j].stem in self.by_word and j - i < 5:
            j += 1
        if j == i + 1 and len(named := self.by_word[tokens[i].stem]) == 1:
            if tokens[i].stem not in nouns("group"):
                return (named[0].index,), j
        while j > i:
            plural = tokens[j - 1].text != tokens[j - 1].stem
            best = self._best([token.stem for token in tokens[i:j]], plural, heading.lower())
            if best:
                return best, j
            j -= 1
        return (), i

    def _best(self, run: list[str], plural: bool, heading: str) -> tuple[int, ...]:
        scored: list[tuple[tuple[int, bool, bool, int], int]] = []
        named, word = self.by_word[run[-1]], run[-1]
        of_group = len(run) == 1 and word in nouns("group")
        kind = class_of(tuple(run))
        of_group = of_group and kind != "other"
        for line in named:
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
        if of_group and not best[1]:
            return ()  # "the vegetables" are none of vegetable oil
        if plural and best[1]:
            alike = [index for score, index in scored if score[:3] == best[:3]]
            heads = [line.index for line in named if line.words[-1:] == (word,) and line.index in alike]
            return tuple(heads or alike)  # "the eggs" are no egg yolks
        return tuple(index for score, index in scored if score == best)


ICE = (("ice",), ("cube",))


_FLAVOURS = frozenset({"aromatic", "herb", "spice", "sweet"})
_MEATS, _MINCED = ("meat", "poultry", "fish"), frozenset({"mince", "minced", "ground"})


def _is_cut_to(token: Token, stem: str) -> bool:
    """Whether a word says that food has a shape: "chips", "chipped"."""
    if token.stem == stem:
        return True
    verb = verbs().get(token.text) if token.text.endswith("ed") else None
    return verb is not None and verb.base == stem
