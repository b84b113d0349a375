"""How well recipes in prose are read: python -m tests.bench.method [--part PART] [--show].

By line: is its fate right (eaten, its bath poured away, partly eaten, no food)? By step: is it found with its
kind and food, is none invented, is the liquid's fate right, are the hours? By recipe whose right structure
stands in method_structures.yaml: is the sodium of a serving near, or else is a question asked? Exits with 1
below the floors. --show names failures, of the tuning part alone.
"""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import chain
from operator import attrgetter
from pathlib import Path
from typing import Any

import yaml
from saltledger.foods.dataset import FoodTable, bundled
from saltledger.method.forms import written_of
from saltledger.method.method_reading import Reading, read

from .method_sodium import (
    LEAST_SHARE,
    WITHIN,
    asked_of,
    moves_towards,
    right_recipe,
    sodium_mg,
    structures,
    tried_mg,
)
from .method_speed import MOST_CALLS, MOST_CALLS_ANEW, best_ms, calls

HERE = Path(__file__).parent
PARTS = {
    "tuning": ("tuning",),
    "kept_apart": ("kept_apart",),
    "fresh": ("fresh_1", "fresh_2", "fresh_3"),
    "second": ("fresh_4", "fresh_5"),
    "third": ("fresh_6", "fresh_7"),
    "fourth": ("fresh_8",),
    "fifth": ("fresh_9",),
    "sixth": ("fresh_10",),
    "seventh": ("fresh_11",),
    "eighth": ("fresh_12",),
    "ninth": ("fresh_13", "fresh_14"),
    "tenth": ("fresh_15", "fresh_16"),
    "eleventh": ("fresh_17",),
    "twelfth": ("fresh_18",),
    "thirteenth": ("fresh_19",),
    "fourteenth": ("fresh_20", "fresh_21", "fresh_22"),
    "fifteenth": ("fresh_23", "fresh_24", "fresh_25"),
    "sixteenth": ("fresh_26", "fresh_27"),
    "seventeenth": ("fresh_28",),
    "eighteenth": ("fresh_29",),
    "nineteenth": ("fresh_30",),
}
MARKS = {"~ ": "poured", "% ": "partly", "x ": "none", "? ": "any"}
FLOORS = {"fates": 0.95, "found": 0.92, "hours": 0.97, "sodium": LEAST_SHARE, "asked": 1.0}
FLOORS_OF = {
    "ninth": {"sodium": 0.81},
    "tenth": {"hours": 0.91, "sodium": 0.68, "asked": 0.95},
    "eleventh": {"fates": 0.94, "found": 0.89, "hours": 0.95, "sodium": 0.67, "asked": 0.76},
    "twelfth": {"sodium": 0.76},
    "thirteenth": {"sodium": 0.57, "asked": 0.93},
    "fourteenth": {"found": 0.9, "sodium": 0.77, "asked": 0.93},
    "fifteenth": {"found": 0.91, "hours": 0.95, "sodium": 0.77, "asked": 0.95},
    "sixteenth": {"found": 0.87, "hours": 0.95, "sodium": 0.74, "asked": 0.95},
    "seventeenth": {"fates": 0.94, "found": 0.91, "hours": 0.87, "sodium": 0.72},
    "eighteenth": {"sodium": 0.89},
    "nineteenth": {"fates": 0.94, "found": 0.91, "sodium": 0.74, "asked": 0.74},
}
"""What other parts have reached so far where that is below the floors; raise them with what you reach. At
first sight, the twelfth gave fates 89 %, steps 73 %, invented 24 %, sodium 63 %; the thirteenth 95, 64, 3
and 60 %; the fourteenth, of three examiners, 93, 69, 19 and 65 %; the fifteenth, of three others, 94, 68,
17 and 61 %; the sixteenth, in the way of one collection, 95, 81, 9 and 70 %; the seventeenth 92, 85, 8 and
67 %; the eighteenth, whose lines are weighed alike on both sides, 94, 92, 8 and 66 %; the nineteenth 93, 81,
9 and 67 %. All but half of the last two were mended on."""
MOST_INVENTED = 0.05
MOST_INVENTED_OF = {
    "twelfth": 0.06,
    "fourteenth": 0.08,
    "sixteenth": 0.07,
    "eighteenth": 0.06,
    "nineteenth": 0.07,
}
HOURS_WITHIN = 0.05
LEAST_SWING = 0.10
"""A question counts as asked where its choices move this share of the sodium."""
MOST_QUESTIONS = 1.6
"""Questions a recipe, on average over a part: who is asked more answers none."""


_TIE = 1e-9
"""Hours by which figures miss half of a label's last digit: 4.5 minutes, 0.075 h, are "0.08"."""


@dataclass(frozen=True, slots=True)
class LabelledStep:
    """A step as labelled: the kinds that are right, words of its food, what becomes of its liquid, hours or
    None; may_be_missing: it moves no salt to speak of; rounded: by how much its last digit may be off."""

    kinds: tuple[str, ...]
    food: tuple[int, ...]
    liquid: str
    hours: float | None
    may_be_missing: bool = False
    rounded: float = 0.0

    def has_hours(self, hours: float | None) -> bool:
        """Whether hours are those of the label, as it rounds them: 30 seconds are "0.01"."""
        wanted = self.hours or 0.0
        return hours is not None and abs(hours - wanted) <= max(HOURS_WITHIN * wanted, self.rounded) + _TIE


@dataclass(frozen=True, slots=True)
class Labelled:
    """A recipe and its labels: the fate of each line, the steps that move salt, the right structure."""

    document: dict[str, Any]
    fates: tuple[str, ...]
    steps: tuple[LabelledStep, ...]
    structure: str | None


@dataclass(slots=True)
class Tally:
    """Counts over many recipes, and what went wrong."""

    right: dict[str, int] = field(default_factory=dict)
    of: dict[str, int] = field(default_factory=dict)
    wrong: list[str] = field(default_factory=list)

    def count(self, what: str, is_right: bool, told: str) -> None:
        self.of[what] = self.of.get(what, 0) + 1
        self.right[what] = self.right.get(what, 0) + is_right
        if not is_right:
            self.wrong.append(f"{what}: {told}")

    def share(self, what: str) -> float:
        return self.right.get(what, 0) / self.of[what] if self.of.get(what) else 1.0


def load(part: str) -> Iterator[Labelled]:
    """The labelled recipes of a part."""
    right = structures()
    for entry in chain.from_iterable(
        yaml.safe_load((HERE / f"method_{name}.yaml").read_text(encoding="utf-8")) for name in PARTS[part]
    ):
        raw = [line for line in entry["lines"].splitlines() if line.strip()]
        marks = [MARKS.get(line[:2], "eaten") for line in raw]
        lines = [line[2:] if line[:2] in MARKS else line for line in raw]
        method = [line for line in entry["method"].splitlines() if line.strip()]
        document = {**{k: entry[k] for k in ("title", "servings")}, "ingredients": lines, "method": method}
        foods = [f"# {line}" if mark == "none" else line for line, mark in zip(lines, marks, strict=True)]
        steps = tuple(_step(line, foods) for line in entry["steps"].splitlines() if line.strip())
        structure = entry.get("structure", right.get(entry["title"]))
        yield Labelled(document, tuple(marks), steps, structure)


def _step(text: str, lines: list[str]) -> LabelledStep:
    kind, food, liquid, hours = (part.strip() for part in text.removeprefix("? ").split("|"))
    places = tuple(
        next(
            i
            for i, line in enumerate(lines)
            if word.strip().lower() in line.lower() and not line.startswith("#")
        )
        for word in food.split(",")
    )
    stated = None if hours == "-" else float(hours)
    decimals = len(hours.partition(".")[2])
    return LabelledStep(
        tuple(map(_kind, kind.split("/"))),
        places,
        liquid.split()[0],
        stated,
        may_be_missing=text.startswith("? "),
        rounded=0.5 * 10**-decimals if decimals > 1 else 0.0,  # "0.5" is half an hour
    )


def fates_of(reading: Reading) -> dict[int, str]:
    """What becomes of each line in a reading."""
    components = {each["id"]: each for each in reading.recipe["components"]}
    coatings = {s.get("bath") for s in reading.recipe.get("steps", ()) if s["kind"] in ("dredge", "fry")}
    found: dict[int, set[str]] = {}
    for line in reading.lines:
        if line["index"] is None:
            continue
        name = line["component"]
        found.setdefault(line["index"], set()).add(
            "none"
            if name is None
            else "partly"
            if name in coatings
            else eaten_fate(components[name].get("eaten_fraction", 1))
        )
    return {index: fates.pop() if len(fates) == 1 else "partly" for index, fates in found.items()}


def eaten_fate(eaten: float) -> str:
    """What becomes of what is eaten to this share."""
    return "eaten" if eaten >= 0.99 else "poured" if eaten < 0.2 else "partly"


def score(recipe: Labelled, reading: Reading, tally: Tally) -> None:
    title = recipe.document["title"]
    fates = fates_of(reading)
    for i, wanted in enumerate(recipe.fates):
        found = fates.get(i, "none")
        tally.count(
            "fates",
            wanted in (found, "any"),
            f"{title}: {recipe.document['ingredients'][i]!r} is {found}, wanted {wanted}",
        )
    _score_steps(recipe, reading, tally)


def _score_steps(recipe: Labelled, reading: Reading, tally: Tally) -> None:
    title, places = recipe.document["title"], _places(reading)
    left = list(reading.recipe.get("steps", ()))
    rinses = [{"kind": "rinse", "food": each["food"], "of": each} for each in left if each.get("rinsed")]
    for wanted in sorted(recipe.steps, key=attrgetter("may_be_missing")):
        alike = [
            s
            for s in (*left, *rinses)
            if _kind(s["kind"]) in wanted.kinds and _foods(s, places) & set(wanted.food)
        ]
        # Of two boils of one food, that which has the hours.
        timed = [s for s in alike if wanted.hours is not None and wanted.has_hours(s.get("duration_h"))]
        found = next(iter(timed or alike), None)
        if not wanted.may_be_missing:
            tally.count("found", found is not None, f"{title}: {wanted.kinds} {wanted.food}")
        if found is None:
            continue
        (rinses if "of" in found else left).remove(found)
        if wanted.may_be_missing:
            continue
        if wanted.hours is not None:
            hours = found.get("duration_h")
            told = f"{title}: {wanted.kinds} has {hours}, wanted {wanted.hours}"
            tally.count("hours", wanted.has_hours(hours), told)
        if wanted.liquid != "-" and "bath" in found:
            _score_liquid(wanted, found, reading, tally, title)
    rinsed = [each["of"] for each in rinses]
    for each in left:
        if each.get("rinsed") and each not in rinsed:
            continue  # "rinse the capers", which is read as drained and rinsed
        tally.count("invented", False, f"{title}: {each}")


def _score_liquid(
    wanted: LabelledStep, found: dict[str, Any], reading: Reading, tally: Tally, title: str
) -> None:
    bath = next(c for c in reading.recipe["components"] if c["id"] == found["bath"])
    fate = eaten_fate(bath.get("eaten_fraction", 1))
    right = fate == wanted.liquid or (
        wanted.liquid == "partly" and found["kind"] in ("dredge", "fry", "boil")
    )
    tally.count("liquids", right, f"{title}: the liquid of {wanted.kinds} is {fate}, wanted {wanted.liquid}")


_SAME = {"simmer": "boil", "smoke": "roast", "grill": "roast", "bake": "roast", "press": "squeeze"}
"""Kinds that labels part and a reading need not: dry heat is dry heat."""


def _kind(kind: str) -> str:
    return _SAME.get(kind, kind)


def _places(reading: Reading) -> dict[str, set[int]]:
    found: dict[str, set[int]] = {}
    for line in reading.lines:
        if line["component"] is not None and line["index"] is not None:
            found.setdefault(line["component"], set()).add(line["index"])
    return found


def _foods(step: dict[str, Any], places: dict[str, set[int]]) -> set[int]:
    names = [step["food"]] if isinstance(step["food"], str) else step["food"]
    return set().union(*(places.get(name, set()) for name in names))


def score_sodium(recipe: Labelled, text: str, foods: FoodTable, tally: Tally) -> None:
    """Whether the reading's sodium is near the right structure's; where not, whether it asks."""
    reading, title = read(written_of(recipe.document)), recipe.document["title"]
    headings = {line["index"] for line in reading.lines if line.get("reason") == "a heading"}
    right = sodium_mg(right_recipe(recipe.document, text, headings), foods)
    found = sodium_mg(reading.recipe, foods)
    is_near = abs(found - right) <= WITHIN * right
    tally.count("sodium", is_near, f"{title}: {found:.0f} mg, wanted {right:.0f}")
    if not is_near:
        tried = tried_mg(reading, foods)
        swing = max((max(mgs) - min(mgs) for mgs in tried), default=0.0)
        tally.count("asked", swing > LEAST_SWING * right, f"{title}: nothing asked ({swing:.0f} mg)")
        tally.count("towards", moves_towards(tried, found, right), f"{title}: no choice is nearer")


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--part", choices=PARTS, action="append")
    parser.add_argument("--show", action="store_true")
    asked = parser.parse_args()
    low = max(_report(part, show=asked.show) for part in asked.part or PARTS)
    counted, anew = calls(), calls(anew=True)
    print(f"15 lines, 10 paragraphs: {best_ms():.2f} ms (best of 60), {counted} calls of functions")
    print(f"  with nothing kept at all: {best_ms(anew=True):.2f} ms, {anew} calls")
    return 1 if counted > MOST_CALLS or anew > MOST_CALLS_ANEW else low


def _report(part: str, *, show: bool) -> int:
    recipes, tally, asked, foods = list(load(part)), Tally(), 0, bundled()
    for recipe in recipes:
        reading = read(written_of(recipe.document))
        score(recipe, reading, tally)
        asked += len(asked_of(reading, foods))
    for recipe in recipes:
        if recipe.structure is not None:
            score_sodium(recipe, recipe.structure, foods, tally)
    invented = tally.of.get("invented", 0) / max(tally.of["found"], 1)
    print(f"{part}: {len(recipes)} recipes")
    for what in ("fates", "found", "liquids", "hours", "sodium", "asked", "towards"):
        print(f"  {what:8} {tally.share(what):6.1%}  {tally.right.get(what, 0)} of {tally.of.get(what, 0)}")
    print(f"  invented {invented:6.1%}  questions {asked / len(recipes):.2f} a recipe")
    for each in tally.wrong if show else ():
        print("   ", each)
    floors = FLOORS | FLOORS_OF.get(part, {})
    low = [what for what, floor in floors.items() if tally.share(what) < floor]
    many = asked > MOST_QUESTIONS * len(recipes)
    return 1 if low or many or invented > MOST_INVENTED_OF.get(part, MOST_INVENTED) else 0


if __name__ == "__main__":
    sys.exit(main())
