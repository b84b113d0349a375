"""Components and steps in the making: which share of which line lies where."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from .clauses import Clause
from .listed import ListedLine
from .method_words import class_of
from .prose_tokens import stems_of, words_of

DISH = "dish"
_NO_ID = re.compile(r"[^a-z0-9]+")
_APOSTROPHE = re.compile(r"['’]")


@dataclass(slots=True)
class Component:
    """A component in the making: ingredients as the calculation takes them, each with the line it came of.
    vague, vague_water: lines of salt and of water that state no amount."""

    id: str
    label: str
    ingredients: list[dict[str, Any] | str] = field(default_factory=list)
    sources: list[int | None] = field(default_factory=list)
    eaten: float | None = None
    vague: int | None = None
    vague_water: int | None = None

    def add(self, ingredient: dict[str, Any] | str, source: int | None) -> None:
        self.ingredients.append(ingredient)
        self.sources.append(source)

    def texts(self) -> list[str]:
        """The words of what lies in it."""
        return [each if isinstance(each, str) else each["line"] for each in self.ingredients]


@dataclass(slots=True)
class Step:
    """A step in the making, and where it was read."""

    body: dict[str, Any]
    clause: Clause
    confidence: float
    stated: list[str]
    assumed: list[str]
    until: int = 0


@dataclass(slots=True)
class Layout:
    """Components by id in order. placed: of each line, the share that already lies in one. meant: what a
    line comes to that gives its amount by the weight of another."""

    lines: dict[int, ListedLine]
    components: dict[str, Component] = field(default_factory=dict)
    placed: dict[int, float] = field(default_factory=dict)
    meant: dict[int, str] = field(default_factory=dict)

    def new(self, name: str, label: str) -> Component:
        """An empty component of this name; a second one of the name gets a number."""
        identity, n = name, 2
        while identity in self.components:
            identity, n = f"{name}-{n}", n + 1
        self.components[identity] = Component(identity, label)
        return self.components[identity]

    def left(self, line: int) -> float:
        """The share of a line that lies nowhere yet."""
        return 1.0 - self.placed.get(line, 0.0)

    def place(self, component: Component, line: int, share: float) -> None:
        """Put a share of a line into a component, as far as there is any left of it; -1: what is left."""
        share = self.left(line) if share < 0 else min(share, self.left(line))
        if share < 1e-6:
            return
        if line in self.meant:
            component.add({"line": self.meant[line]}, line)
            self.placed[line] = 1.0
            return
        self.placed[line] = self.placed.get(line, 0.0) + share
        text = self.lines[line].text
        component.add(text if share > 1 - 1e-6 else {"line": text, "share": round(share, 6)}, line)

    def of_line(self, name: str, line: int) -> Component | None:
        """The component of a name ("fat", "fat-2") that a line lies in."""
        return next(
            (c for c in self.components.values() if c.id.split("-")[0] == name and line in c.sources), None
        )


def names_of(lines: Mapping[int, ListedLine], foods: Iterable[int]) -> str:
    """What foods are called in a question: the first two of them."""
    return " and ".join(dict.fromkeys([name_of(lines[n]).replace("-", " ") for n in [*foods][:2]]))


def name_of(line: ListedLine) -> str:
    """An id of the food of a line: its last two words that say what it is."""
    named = line.line.food_words.split(" in ")[0]
    words = [word for word in named.split() if word.isascii() and word not in ("of", "and", "the")]
    if line.kind != "other" and class_of(tuple(stems_of(named))) == "other":
        words = [word for word, stem in words_of(line.text) if class_of((stem,)) == line.kind][-1:] or words
    if line.words and words and words[-1] not in line.text.lower().split("/")[-1]:
        words = list(line.words)
    named = _APOSTROPHE.sub("", "-".join((words or list(line.words) or ["food"])[-2:]).lower())
    joined = _NO_ID.sub("-", named).strip("-")
    return joined[:40] or "food"
