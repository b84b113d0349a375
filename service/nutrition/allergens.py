"""Allergens that the names of foods point to: a prompt for a person's check, never a declaration."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Any

from ..core.name_rules import NameRules
from ..core.tables import Row, load

STATEMENT = (
    "This is a prompt for a person's check, not an allergen declaration. It is read from names alone: it "
    "knows neither brands nor traces, and misses what a name does not say. Check the label of everything "
    "that is really used, and declare as local law has it."
)

_CERTAINTIES = ("contains", "may")


@dataclass(frozen=True, slots=True)
class Named:
    """An ingredient: its line as written, and name and group code of its food, "" where there is none."""

    line: str
    food_name: str = ""
    group_code: str = ""


@dataclass(frozen=True, slots=True)
class Allergen:
    """An allergen, and the lists ("us", "eu") that name it."""

    allergen: str
    name: str
    lists: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Sign:
    """A name points to an allergen: it "contains" it or "may", with what should be asked."""

    allergen: str
    certainty: str
    note: str


@cache
def allergens() -> dict[str, Allergen]:
    """Every allergen by its id."""
    return {each.allergen: each for each in load("allergens", _allergen)}


@lru_cache(maxsize=4096)
def signs(name: str, group_code: str = "") -> tuple[Sign, ...]:
    """What a name points to: of each allergen the surest sign, the sure ones first."""
    held = sorted(_rules().all(name, group_code), key=lambda sign: _CERTAINTIES.index(sign.certainty))
    surest: dict[str, Sign] = {}
    for sign in held:
        surest.setdefault(sign.allergen, sign)
    return tuple(surest.values())


def allergen_prompt(ingredients: Iterable[Named]) -> dict[str, Any]:
    """What a person should check: {statement, allergens: [{allergen, name, lists, certainty, because}],
    unread}.

    because: [{line, food, certainty, note}], one for each ingredient that points to it. unread: lines without
    a food, of which only their own words were read. Food names and lines are both read, so that a line that
    was mapped to a plainer food still speaks for itself.
    """
    listed = list(ingredients)
    because: dict[str, list[dict[str, Any]]] = {allergen: [] for allergen in allergens()}
    for ingredient in listed:
        for sign in _signs_of(ingredient):
            because[sign.allergen].append(_reason(ingredient, sign))
    return {
        "statement": STATEMENT,
        "allergens": [_document(allergens()[key], reasons) for key, reasons in because.items() if reasons],
        "unread": [ingredient.line for ingredient in listed if not ingredient.food_name],
    }


def _signs_of(ingredient: Named) -> Iterator[Sign]:
    said = signs(ingredient.food_name, ingredient.group_code) if ingredient.food_name else ()
    surest = {sign.allergen: sign for sign in signs(ingredient.line)}
    for sign in said:
        if sign.certainty == "contains" or sign.allergen not in surest:
            surest[sign.allergen] = sign
    return iter(surest.values())


def _reason(ingredient: Named, sign: Sign) -> dict[str, Any]:
    return {
        "line": ingredient.line,
        "food": ingredient.food_name or None,
        "certainty": sign.certainty,
        "note": sign.note,
    }


def _document(allergen: Allergen, reasons: list[dict[str, Any]]) -> dict[str, Any]:
    surest = "contains" if any(reason["certainty"] == "contains" for reason in reasons) else "may"
    return {
        "allergen": allergen.allergen,
        "name": allergen.name,
        "lists": list(allergen.lists),
        "certainty": surest,
        "because": reasons,
    }


@cache
def _rules() -> NameRules[Sign]:
    return NameRules.of("allergen_rules", _sign)


def _sign(row: Row) -> Sign:
    if row["allergen"] not in allergens() or row["certainty"] not in _CERTAINTIES:
        raise ValueError(f"no allergen {row['allergen']!r} or no certainty {row['certainty']!r}")
    return Sign(row["allergen"], row["certainty"], row["note"])


def _allergen(row: Row) -> Allergen:
    return Allergen(row["allergen"], row["name"], tuple(row["lists"].split()))
