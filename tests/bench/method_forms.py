"""Whether a recipe is read alike however it is written: python -m tests.bench.method_forms [--show].

Every twentieth labelled recipe (--every N) is read as it is and in each form of recipe_forms.py. Alike are:
what becomes of each line; of every step its kind, foods and hours, and what becomes of its liquid. Exits with
1 where less of a form is alike than its floor. --show names what differs.
"""

from __future__ import annotations

import argparse
import sys
from collections import Counter
from typing import Any

from saltledger.core.errors import InvalidRequest
from saltledger.method.forms import written_of
from saltledger.method.method_reading import Reading, read

from .method import PARTS, eaten_fate, fates_of, load
from .recipe_forms import FORMS, Document

FLOOR = 0.97
FLOORS: dict[str, float] = {}
"""What forms have reached that do not reach that yet."""

Shape = tuple[dict[int, str], Counter[tuple[Any, ...]]]


def shape_of(document: Document) -> Shape:
    """What is compared of a reading: the fates of the lines and the steps."""
    places = document.get("_places")
    reading = read(written_of({key: value for key, value in document.items() if key != "_places"}))
    at = {i: i if places is None else places[i] for i in _indices(reading)}
    fates = {at[i]: fate for i, fate in fates_of(reading).items() if at[i] is not None}
    return fates, Counter(_steps(reading, at))


def _indices(reading: Reading) -> set[int]:
    return {line["index"] for line in reading.lines if line["index"] is not None}


def _steps(reading: Reading, at: dict[int, int | None]) -> list[tuple[Any, ...]]:
    holds: dict[str, set[str]] = {}
    for line in reading.lines:
        if line["component"] is not None:
            place = "unlisted" if line["index"] is None else f"{at[line['index']]}"
            holds.setdefault(line["component"], set()).add(place)
    eaten = {each["id"]: each.get("eaten_fraction", 1) for each in reading.recipe["components"]}
    found: list[tuple[Any, ...]] = []
    for step in reading.recipe.get("steps", ()):
        names = [step["food"]] if isinstance(step["food"], str) else step["food"]
        foods = tuple(sorted(set().union(*(holds.get(name, set()) for name in names))))
        liquid = eaten_fate(eaten[step["bath"]]) if "bath" in step else "-"
        found.append((step["kind"], foods, round(step.get("duration_h") or 0.0, 2), liquid))
    return found


def differences(before: Shape, after: Shape) -> list[str]:
    """What of a reading differs, in words."""
    none = "none"
    lines = [i for i in {**before[0], **after[0]} if before[0].get(i, none) != after[0].get(i, none)]
    told = [f"line {i} is {after[0].get(i, none)}, was {before[0].get(i, none)}" for i in sorted(lines)]
    told += [f"no longer {step}" for step in (before[1] - after[1]).elements()]
    return told + [f"now {step}" for step in (after[1] - before[1]).elements()]


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--every", type=int, default=20)
    parser.add_argument("--show", action="store_true")
    asked = parser.parse_args()
    recipes = [recipe.document for part in PARTS for recipe in load(part)][:: asked.every]
    shapes = [shape_of(document) for document in recipes]
    low = False
    for name, form in FORMS.items():
        of = alike = 0
        for document, before in zip(recipes, shapes, strict=True):
            written = form(document)
            if written is None or written == document:
                continue
            try:
                told = differences(before, shape_of(written))
            except InvalidRequest as refused:
                told = [str(refused)]
            of, alike = of + 1, alike + (not told)
            if told and asked.show:
                print(f"    {name!r}: {document['title']}: {'; '.join(told)}")
        share = alike / of if of else 1.0
        low = low or share < FLOORS.get(name, FLOOR)
        print(f"{share:7.1%}  {alike:4} of {of:4}  {name!r}")
    return 1 if low else 0


if __name__ == "__main__":
    sys.exit(main())
