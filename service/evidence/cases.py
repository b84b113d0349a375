"""Published measurements as cases: the recipe that was measured, where its figure stands, and what it was.

`evidence.csv` holds measurements from publications, one a row; `evidence_yields.csv` the cooking yields that
the dataset's own household weights tell. Both give the same `Case`. A source is for fitting or for checking,
never for both (`evidence_sources.csv`).
"""

from __future__ import annotations

import json
import zlib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from itertools import chain
from typing import Any, Literal

from ..core.tables import Row, load
from ..foods.dataset import bundled
from ..foods.food import Food
from ..foods.nutrients import INDEX, NUTRIENTS

Part = Literal["fitting", "checking"]

MARKS = ("verified", "verified-2nd", "memory")

WORDS = {"water": "14429", "salt": "02047", "sugar": "19335", "oil": "04582"}
"""Foods that a bath names by a word; any other it names by code."""

PAIR_G = 500.0
PAIR_TAGS = (
    *("WATER", "ENERC", "PROCNT", "FAT", "CHOCDF", "FIBTG", "CA", "FE", "MG", "P", "K", "NA", "ZN"),
    *("VITC", "THIA", "RIBF", "NIA", "VITB6A", "FOL", "CHOLE"),
)
"""Held against the dataset's cooked rows: nutrients of labels, and what boils out or is destroyed."""

RESOLVED = 10

OWN = "own"
"""Code of a food that a case describes itself."""

PER_FOOD_G = 4
"""Pot water taken for a yield whose pot nobody told, over the food's weight: common practice, no source."""


@dataclass(frozen=True, slots=True)
class Source:
    """Where measurements were published. mark: verified, verified-2nd or memory."""

    id: str
    part: Part
    mark: str
    citation: str


@dataclass(frozen=True, slots=True)
class Case:
    """One measurement. request: the body of a calculation; place: see `places`; published in its unit."""

    id: str
    kind: str
    source: Source
    request: Mapping[str, Any]
    place: str
    published: float
    note: str = ""


@cache
def sources() -> dict[str, Source]:
    """Every source by its id. Raises BrokenTable where a row names no part or mark."""
    return {source.id: source for source in load("evidence_sources", _source)}


def _source(row: Row) -> Source:
    if row["part"] not in ("fitting", "checking") or row["mark"] not in (
        "verified",
        "verified-2nd",
        "memory",
    ):
        raise ValueError(f"no such part or mark: {row['part']!r}, {row['mark']!r}")
    part: Part = "fitting" if row["part"] == "fitting" else "checking"
    return Source(row["id"], part, row["mark"], row["citation"])


@cache
def cases() -> tuple[Case, ...]:
    """Every case: the published ones in the order of their table, then the dataset's own yields."""
    pairs = load("evidence_pairs", _pair_cases)
    return (*load("evidence", _case), *load("evidence_yields", _yield_case), *chain.from_iterable(pairs))


def _case(row: Row) -> Case:
    grams = float(row["grams"])
    request = recipe(row["food"], grams, row["steps"])
    source = sources()[row["source"]]
    return Case(row["id"], row["kind"], source, request, row["place"], float(row["published"]), row["note"])


def _yield_case(row: Row) -> Case:
    """A yield of the dataset; raw foods are shared out over the two parts by their code."""
    raw_g, cooked_g = float(row["raw_g"]), float(row["cooked_g"])
    return Case(
        f"yield-{row['raw']}-{row['cooked']}",
        "yields",
        sources()[f"sr28-yields-{_part(row)}"],
        _cooked(row, raw_g),
        "weight",
        cooked_g / raw_g,
        row["basis"],
    )


def _part(row: Row) -> Part:
    """The half of the dataset's codes that a raw food belongs to."""
    return "fitting" if zlib.crc32(row["raw"].encode()) % 2 else "checking"


def _cooked(row: Row, raw_g: float) -> dict[str, Any]:
    pot = f" bath=water:{PER_FOOD_G * raw_g:g}" if row["step"] in ("simmer", "boil") else ""
    return recipe(row["raw"], raw_g, row["step"] + pot)


def _pair_cases(row: Row) -> tuple[Case, ...]:
    """What a cooked row of the dataset holds in 100 g, worked out from the raw row."""
    raw, cooked = (bundled().get(row[end]) for end in ("raw", "cooked"))
    request, source = _cooked(row, PAIR_G), sources()[f"sr28-pairs-{_part(row)}"]
    return tuple(
        Case(
            f"{raw.code}-{cooked.code}-{tag}",
            "dataset",
            source,
            request,
            f"per_100g {tag}",
            value,
            cooked.name,
        )
        for tag in PAIR_TAGS
        if (value := cooked.per_100g(tag)) and is_resolved(raw, tag)
    )


def is_resolved(food: Food, tag: str) -> bool:
    """Whether a row tells an amount with two figures at least: below, rounding is most of it."""
    amount, decimals = food.per_100g(tag), NUTRIENTS[INDEX[tag]].decimals
    return amount is not None and amount >= RESOLVED * 10.0**-decimals


def recipe(food: str, grams: float, steps: str) -> dict[str, Any]:
    """The request that `steps` tell: "boil bath=water:1500,salt:12 duration_h=0.2 | drain rinsed=true".

    Each step works on the one food; a bath is poured away after it. food: a code, or what 100 g of one that
    the dataset lacks hold, "WATER=50.8;NA=40". Raises ValueError for a broken word.
    """
    own = "=" in food
    components = [{"id": "food", "ingredients": [{"food": OWN if own else food, "grams": grams}]}]
    told = []
    for index, words in enumerate(step for step in steps.split("|") if step.strip()):
        kind, *measures = words.split()
        step: dict[str, Any] = {"kind": kind, "food": ["food"], **dict(map(_measure, measures))}
        if "bath" in step:
            components.append(_bath(f"bath-{index}", step["bath"]))
            step["bath"] = f"bath-{index}"
        told.append(step)
    whole = {"title": "case", "servings": 1, "components": components, "steps": told}
    return whole | ({"custom_foods": [_own_food(food)]} if own else {})


def _own_food(parts: str) -> dict[str, Any]:
    amounts = (part.partition("=") for part in parts.split(";"))
    return {
        "code": OWN,
        "name": "measured food",
        "per_100g": {tag: float(value) for tag, _, value in amounts},
    }


def _measure(word: str) -> tuple[str, Any]:
    key, equals, value = word.partition("=")
    if not equals:
        raise ValueError(f"{word!r} is no measure; write name=value")
    try:
        return key, json.loads(value)
    except ValueError:
        return key, value


def _bath(id: str, parts: str) -> dict[str, Any]:
    return {"id": id, "eaten_fraction": 0, "ingredients": list(_bath_foods(parts))}


def _bath_foods(parts: str) -> Iterator[dict[str, Any]]:
    for part in parts.split(","):
        name, _, grams = part.partition(":")
        yield {"food": WORDS.get(name, name), "grams": float(grams)}
