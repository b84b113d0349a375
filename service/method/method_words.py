"""The vocabulary of recipe prose, from the tables of seed_foods/: verbs, classes of food, vessels, baths."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from ..core.tables import rows

_KEPT_S = ("ss", "us", "is")
_IN_I = ("nis", "lis", "wis", "gis", "chis")
"""How plurals end of words in -i: "zucchinis", "chilis", "kiwis"."""


FLESH = frozenset({"meat", "poultry", "fish", "seafood", "tofu"})
"""Kinds of food that are flesh, or are cooked as flesh is."""
BOILS = frozenset({"boil", "simmer", "cook"})
HEATS = BOILS | {"heat"}
COOKS = BOILS | {"fry", "roast"}
"""Acts of method_verbs.csv by which food gets hot."""


@dataclass(frozen=True, slots=True)
class Verb:
    """A verb form. form: "base", "s", "past" or "ing". noun: it is as often a noun."""

    base: str
    act: str
    form: str
    noun: bool


@cache
def singular(word: str) -> str:
    """A word without its plural, by one name where a food has several; the same is done to lines and to
    prose, so it need not be English."""
    stem = _without_plural(word)
    return _one_name().get(stem, stem)


@cache
def _one_name() -> Mapping[str, str]:
    """Other names of foods ("eggplant", "cukes"), each with the one that stands for it."""
    return {
        other: row["name"]
        for row in rows("method_nouns")
        if row["role"] == "also"
        for other in row["words"].split("|")
    }


def _without_plural(word: str) -> str:
    if len(word) < 4 or not word.endswith("s") or (word.endswith(_KEPT_S) and not word.endswith(_IN_I)):
        return word
    if word.endswith("ies"):
        return word[:-3] + "y"
    if word.endswith(("oes", "shes", "ches", "sses", "xes")):
        return word[:-2]
    if word.endswith("ves") and word not in ("olives", "chives", "cloves", "endives"):
        return word[:-3] + "f"
    return word[:-1]


@cache
def verbs() -> Mapping[str, Verb]:
    """Every form of every verb; a hyphenated one also stands joined."""
    found: dict[str, Verb] = {}
    for row in rows("method_verbs"):
        base, act, noun = row["verb"], row["act"], row["noun"] == "yes"
        for form, kind in _forms(base, row["forms"]):
            for spelt in {form, form.replace("-", "")}:
                found.setdefault(spelt, Verb(base, act, kind, noun))
    return found


@cache
def root(word: str) -> str:
    """A word by the verb that it is a form of, else by its singular: "dusting" is "dust"."""
    verb = verbs().get(word)
    return verb.base if verb is not None else singular(word)


def _forms(base: str, irregular: str) -> list[tuple[str, str]]:
    stem = base[:-1] if base.endswith("e") else base
    past = base[:-1] + "ied" if base.endswith("y") and base[-2] not in "aeo" else stem + "ed"
    third = base + ("es" if base.endswith(("s", "sh", "ch", "x", "z", "o")) else "s")
    regular = [(base, "base"), (third, "s"), (past, "past"), (stem + "ing", "ing")]
    special = [(form, _kind(form)) for form in irregular.split("|") if form]
    return [*regular, *special]


def _kind(form: str) -> str:
    if form.endswith("ing"):
        return "ing"
    return "s" if form.endswith("es") and form in ("goes", "fries", "sautes") else "past"


@cache
def nouns(role: str) -> Mapping[str, str]:
    """Of a role ("bath", "vessel", "class", "group", "equipment"), each word's or phrase's name."""
    found: dict[str, str] = {}
    for row in rows("method_nouns"):
        if row["role"] == role:
            for word in row["words"].split("|"):
                found.setdefault(word, row["name"])
                found.setdefault(" ".join(map(singular, word.split())), row["name"])
    return found


@cache
def _small_words() -> Mapping[str, frozenset[str]]:
    return {row["role"]: frozenset(row["words"].split()) for row in rows("method_words")}


def small_words(role: str) -> frozenset[str]:
    """The words of a role in method_words.csv."""
    return _small_words()[role]


@cache
def _turns_of_phrase() -> Mapping[str, list[str]]:
    found: dict[str, list[str]] = {}
    for row in rows("method_phrases"):
        found.setdefault(row["name"], []).append(row["pattern"])
    return found


def phrasing(name: str) -> re.Pattern[str]:
    """The turns of phrase of a name in method_phrases.csv."""
    return re.compile("|".join(_turns_of_phrase()[name]), re.IGNORECASE)


@cache
def phrases(role: str) -> Mapping[str, tuple[tuple[tuple[str, ...], str], ...]]:
    """The phrases of a role by first word, longest first, each with its name."""
    found: dict[str, list[tuple[tuple[str, ...], str]]] = {}
    for text, name in nouns(role).items():
        words = tuple(text.split())
        found.setdefault(words[0], []).append((words, name))
    return {first: tuple(sorted(each, key=lambda pair: -len(pair[0]))) for first, each in found.items()}


def class_of(words: tuple[str, ...]) -> str:
    """What a food is, by its words: the longest name in them, the last one first; "other" where none is."""
    table, cuts, kept = nouns("class"), nouns("cut"), ""
    for end in range(len(words), 0, -1):
        last = words[end - 1]
        both = table.get(f"{words[end - 2]} {last}") if end > 1 else None
        for name in (both, table.get(last)):
            if name is None:
                continue
            if last in cuts and end > 1 and not kept:
                kept = name
            elif not kept or name in FLESH:
                return name
    return kept or "other"
