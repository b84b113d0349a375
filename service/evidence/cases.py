"""Published measurements as cases: the recipe that was measured, where its figure stands, and what it was.

`evidence.csv` holds measurements from publications, one a row; `evidence_tables.csv` foods that national
tables tell raw and cooked; `evidence_yields.csv` the cooking yields that the dataset's own household weights
tell, `evidence_pairs.csv` its own raw and cooked rows. All give the same `Case`.

A source is for fitting or for checking, never for both (`evidence_sources.csv`). Nobody chooses which: a
source whose part is "by id" falls to one by the checksum of its id, and a source of many foods is shared out
over both by the checksum of each food's number.
"""

from __future__ import annotations

import json
import math
import zlib
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import chain
from typing import Any, Literal

from ..core.tables import Row, load
from ..foods.dataset import bundled
from ..foods.food import Food
from ..foods.nutrients import INDEX, NUTRIENTS
from ..recipe.pools import SALT_PER_SODIUM

Part = Literal["fitting", "checking"]

PARTS: tuple[Part, Part] = ("checking", "fitting")
BY_ID = "by id"

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

ROUNDING = 0.005
"""A published figure has two or three digits."""

LEAST_NA_MG = 20.0
"""In 100 g of a raw food: less is so near to tap water's 4 mg that a pot says nothing of the food."""

OWN = "own"
"""Code of a food that a case describes itself."""

BRINE = "brine"
"""A bath's word for brine of a strength, brine-8, in percent of it."""

PORTIONS = 0.05
"""Relative: what portions of one batch differ by, one analysed raw and another cooked; from memory."""

PER_FOOD_G = 4
"""Pot water taken for a pot that nobody told, over the food's weight: common practice, no source."""

BRAISED_PER_FOOD_G = 0.3
"""The same for braised food, which lies in little: common practice, no source."""


@dataclass(frozen=True, slots=True)
class Source:
    """Where measurements were published. mark: verified, verified-2nd or memory."""

    id: str
    part: Part
    mark: str
    citation: str


@dataclass(frozen=True, slots=True)
class Case:
    """One measurement. request: the body of a calculation; place: see `places`; published: in its unit;
    rounding: how far it may lie from what was measured, relative, because it is printed with few figures."""

    id: str
    kind: str
    source: Source
    request: Mapping[str, Any]
    place: str
    published: float
    note: str = ""
    rounding: float = ROUNDING


@cache
def sources() -> dict[str, Source]:
    """Every source by its id. Raises BrokenTable where a row names no part or mark."""
    return {source.id: source for source in load("evidence_sources", _source)}


def _source(row: Row) -> Source:
    if row["part"] not in (*PARTS, BY_ID) or row["mark"] not in MARKS:
        raise ValueError(f"no such part or mark: {row['part']!r}, {row['mark']!r}")
    part = part_of(row["id"]) if row["part"] == BY_ID else PARTS[PARTS.index(row["part"])]
    return Source(row["id"], part, row["mark"], row["citation"])


def part_of(id: str) -> Part:
    """The part that an id falls to, by its checksum alone."""
    return PARTS[zlib.crc32(id.encode()) % 2]


@cache
def cases() -> tuple[Case, ...]:
    """Every case: the published ones in the order of their tables, then the dataset's own."""
    return (
        *load("evidence", _case),
        *chain.from_iterable(load("evidence_tables", _table_cases)),
        *load("evidence_yields", _yield_case),
        *chain.from_iterable(load("evidence_pairs", _pair_cases)),
    )


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
        sources()[f"sr28-yields-{part_of(row['raw'])}"],
        _cooked(row, raw_g),
        "weight",
        cooked_g / raw_g,
        row["basis"],
    )


def _cooked(row: Row, raw_g: float) -> dict[str, Any]:
    is_braised = "braised" in bundled().get(row["cooked"]).name
    per_food_g = BRAISED_PER_FOOD_G if is_braised else PER_FOOD_G
    return recipe(row["raw"], raw_g, _in_a_pot(row["step"], raw_g, per_food_g))


def _in_a_pot(step: str, raw_g: float, per_food_g: float = PER_FOOD_G) -> str:
    """A step with the usual pot of water, where it needs one and none is told."""
    is_pot = step.split(maxsplit=1)[0] in ("simmer", "boil") and "bath=" not in step
    return f"{step} bath=water:{per_food_g * raw_g:g}" if is_pot else step


def _table_cases(row: Row) -> tuple[Case, ...]:
    """What a national table tells of a food raw and cooked: of each nutrient, 100 g after over before."""
    source = sources()[f"{row['table']}-{part_of(row['id'])}"]
    steps = [_in_a_pot(step.strip(), PAIR_G) for step in row["steps"].split("|")]
    request = recipe(row["food"], PAIR_G, " | ".join(steps))
    before, after = (_amounts(row[column]) for column in ("before", "after"))
    return tuple(
        Case(
            f"{row['table']}-{row['id']}-{tag}",
            "dataset" if row["batches"] == "two" else _kind_in(steps, tag),
            source,
            request,
            f"{_PLACES[row['batches']]} {tag}",
            after[tag] / amount,
            row["name"],
            _half_a_figure(after[tag]) + _half_a_figure(amount) + PORTIONS,
        )
        for tag, amount in before.items()
        if after.get(tag) and _is_told(tag, amount) and not (tag == "NA" and amount < LEAST_NA_MG)
    )


_PLACES = {"one": "ratio", "two": "batches"}
"""Where an amount after over before stands, by whether both were of one batch of the food."""


def _half_a_figure(amount: float) -> float:
    """Half of the last figure of an amount that tables print with two, relative: 140 is 135 to 145."""
    return 0.5 * 10.0 ** (math.floor(math.log10(amount)) - 1) / amount


def _kind_in(steps: Sequence[str], tag: str) -> str:
    """The kind of answer that a nutrient of a table is evidence for."""
    if tag not in ("NA", "K"):
        return "vitamins"
    return "pots" if any("bath=water" in step for step in steps) else "dataset"


def _pair_cases(row: Row) -> tuple[Case, ...]:
    """What a cooked row of the dataset holds in 100 g, worked out from the raw row."""
    raw, cooked = (bundled().get(row[end]) for end in ("raw", "cooked"))
    request, source = _cooked(row, PAIR_G), sources()[f"sr28-pairs-{part_of(row['raw'])}"]
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
    amount = food.per_100g(tag)
    return amount is not None and _is_told(tag, amount)


def _is_told(tag: str, amount: float) -> bool:
    return amount >= RESOLVED * 10.0 ** -NUTRIENTS[INDEX[tag]].decimals


def recipe(food: str, grams: float, steps: str) -> dict[str, Any]:
    """The request that `steps` tell: "boil bath=water:1500,salt:12 duration_h=0.2 | drain rinsed=true".

    Each step works on the one food; a bath is poured away after it. food: a code, or what 100 g of one that
    the dataset lacks hold, "WATER=50.8;NA=40", after its name if it tells one, "feta:WATER=50.8;NA=40".
    Raises ValueError for a broken word.
    """
    own = "=" in food
    components: list[dict[str, Any]] = [
        {"id": "food", "ingredients": [{"food": OWN if own else food, "grams": grams}]}
    ]
    told = []
    for index, words in enumerate(step for step in steps.split("|") if step.strip()):
        kind, *measures = words.split()
        step: dict[str, Any] = {"kind": kind, "food": ["food"], **dict(map(_measure, measures))}
        if "bath" in step:
            components.append(_bath(f"bath-{index}", step["bath"]))
            step["bath"] = f"bath-{index}"
        told.append(step)
    whole = {"title": "case", "servings": 1, "components": components, "steps": told}
    named = {each["food"] for bath in components[1:] for each in bath["ingredients"]}
    described = [_brine(each) for each in sorted(named) if each.startswith(BRINE)]
    if own:
        name, _, held = food.rpartition(":")
        described.append({"code": OWN, "name": name or "measured food", "per_100g": _amounts(held)})
    return whole | ({"custom_foods": described} if described else {})


def _brine(word: str) -> dict[str, Any]:
    """Brine of a stated strength, for a source that tells no amount of it."""
    percent = float(word.removeprefix(f"{BRINE}-"))
    held = {"WATER": 100.0 - percent, "NA": 1000 * percent / SALT_PER_SODIUM}
    return {"code": word, "name": f"brine of {percent:g} %", "per_100g": held}


def _amounts(parts: str) -> dict[str, float]:
    """Amounts by tag of "WATER=50.8;NA=40"."""
    told = (part.partition("=") for part in parts.split(";"))
    return {tag: float(value) for tag, _, value in told}


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
        food = {"food": WORDS.get(name, name)}
        yield food | ({"line": f"{grams} g"} if "-" in grams else {"grams": float(grams)})
