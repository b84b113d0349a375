"""A hundred whole recipes of our own and what was worked out for them: what a change moves.

The recipes are requests (`golden/recipes.jsonl`), over all kinds of steps, with baths, targets and recipes in
prose among them; `golden/figures.csv` pins what their answers say. A figure has moved where it differs by
more than `TOLERANCE`; words have where they differ at all.
"""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from ..core.tables import rows, seed_foods
from .figure_lock import Difference

TOLERANCE = 1e-3
"""Of the pinned figure; a thousandth, since nobody weighs finer."""

RECIPES, PINNED = "golden/recipes.jsonl", "golden/figures.csv"
EVIDENCE = "evidence"
"""Stands in place of a recipe for the counts of measurements inside their range."""

_NUTRIENTS = ("WATER", "ENERC", "PROCNT", "FAT", "CHOCDF", "FIBTG", "SUGAR", "NA", "K", "CA", "FE", "VITC")
_PARTS = ("low", "likely", "high")

CODE_DID = "no figure of the tables changed: code moved it"

Said = Mapping[str, str]


@dataclass(frozen=True, slots=True)
class Golden:
    """A request: its path with what is asked in the query, and its body."""

    id: str
    path: str
    body: Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Moved:
    """A figure of a recipe that is not what was pinned; "" where it was or is not there."""

    recipe: str
    figure: str
    was: str
    now: str

    @property
    def share(self) -> float:
        """By what share it moved; 1 for words, and where there was nothing. Of several numbers, the most."""
        was, now = self.was.split(), self.now.split()
        if not was or len(was) != len(now):
            return 1.0
        return max(_share(*each) for each in zip(was, now, strict=True))

    def __str__(self) -> str:
        return f"{self.recipe}: {self.figure} was {self.was or 'not there'} and is {self.now or 'not there'}"


def recipes() -> tuple[Golden, ...]:
    text = seed_foods().joinpath(RECIPES).read_text(encoding="utf-8")
    return tuple(Golden(**json.loads(line)) for line in text.splitlines())


def pinned() -> dict[str, dict[str, str]]:
    """What was worked out when it was last accepted, by recipe and figure."""
    found: dict[str, dict[str, str]] = {}
    for row in csv.DictReader(io.StringIO(seed_foods().joinpath(PINNED).read_text(encoding="utf-8"))):
        found.setdefault(row["recipe"], {})[row["figure"]] = row["value"]
    return found


def pinned_text(answers: Mapping[str, Mapping[str, Any]]) -> str:
    """What to pin of the answers, and of the evidence: a line a figure, sorted."""
    out = io.StringIO()
    table = csv.writer(out, lineterminator="\n")
    table.writerow(("recipe", "figure", "value"))
    said = _said(answers)
    table.writerows(sorted((recipe, name, value) for recipe in said for name, value in said[recipe].items()))
    return out.getvalue()


def moved_since(answers: Mapping[str, Mapping[str, Any]]) -> list[Moved]:
    """Every figure that is not what was pinned, recipe by recipe, those that moved most first."""
    was, now = pinned(), _said(answers)
    names = sorted(was.keys() | now.keys())
    return [each for name in names for each in moved(name, was.get(name, {}), now.get(name, {}))]


def _said(answers: Mapping[str, Mapping[str, Any]]) -> dict[str, dict[str, str]]:
    return {id: said_by(answer) for id, answer in answers.items()} | {EVIDENCE: evidence_counts()}


def evidence_counts() -> dict[str, str]:
    """How many published measurements lie inside, by kind and part ("10 of 12")."""
    return {
        f"{row['kind']}/{row['part']}": f"{row['inside']} of {row['of']}" for row in rows("evidence_coverage")
    }


def said_by(answer: Mapping[str, Any]) -> dict[str, str]:
    """What an answer says, by the name of the figure: numbers to seven figures, lists of words joined."""
    found = {name: _written(value) for name, value in _figures(answer) if value is not None}
    codes = {f"{notice['code']}={notice['severity']}" for notice in answer.get("notices", ())}
    return found | {"notices": " ".join(sorted(codes))}


def moved(recipe: str, was: Said, now: Said) -> list[Moved]:
    """The figures that moved, those that moved most first."""
    names = sorted(was.keys() | now.keys())
    found = [Moved(recipe, name, was.get(name, ""), now.get(name, "")) for name in names]
    return sorted((each for each in found if _is_other(each)), key=lambda each: -each.share)


def why(answer: Mapping[str, Any], changed: Iterable[Difference]) -> str:
    """Which changed rows an answer rests on; else which tables changed at all, or that none did."""
    listed = list(changed)
    rests_on = {each.get("row") for each in answer.get("assumptions", ())}
    if named := sorted({each.name for each in listed} & rests_on):
        return "rests on " + ", ".join(named)
    if tables := sorted({each.table for each in listed}):
        return "tables that changed: " + ", ".join(tables)
    return CODE_DID


def _figures(answer: Mapping[str, Any]) -> Iterator[tuple[str, Any]]:
    for name in ("calculation", "reading"):
        if answer.get(name):
            yield from ((f"{name} {key}", value) for key, value in _figures(answer[name]))
    if "per_serving" in answer:
        yield from _of_a_recipe(answer)
    for name in ("absorption_factor", "salt_percent_in_food", "ready_h"):
        yield from ((f"{name} {part}", (answer.get(name) or {}).get(part)) for part in _PARTS)
    for name in ("equilibrium", "reached", "nitrite", "nitrate"):
        yield from ((f"{name} {key}", value) for key, value in (answer.get(name) or {}).items())
    yield from ((name, answer.get(name)) for name in ("reachable", "value", "unit", "floor_mg"))


def _of_a_recipe(answer: Mapping[str, Any]) -> Iterator[tuple[str, Any]]:
    served, sodium = answer["per_serving"], answer["sodium"]
    yield "weight_g", served["weight_g"]
    for tag in _NUTRIENTS:
        yield tag, (served["nutrients"].get(tag) or {}).get("amount")
    yield from ((f"sodium {part}", sodium["per_serving_mg"][part]) for part in _PARTS)
    yield "sodium as listed", sodium["as_listed_per_serving_mg"]
    yield "sodium complete", sodium["complete"]
    yield from ((f"sodium {each['place']}", each["mg"]) for each in sodium["fates"]["places"])
    yield "claims met", " ".join(claim["id"] for claim in sodium["claims"] if claim["met"])
    yield "references", " ".join(f"{each['id']}={each['limit_mg']:g}" for each in sodium["references"])
    prompted = answer["allergens"]["allergens"]
    yield "allergens", " ".join(f"{each['allergen']}={each['certainty']}" for each in prompted)
    yield "foods", " ".join((each.get("food") or {}).get("code", "-") for each in answer["ingredients"])
    yield "grams", " ".join(f"{each['grams'] or 0:.4g}" for each in answer["ingredients"])
    for column in (answer.get("label") or {}).get("columns", ()):
        for row in column["rows"]:
            yield f"label {column['basis']} {row['tag']}", f"{row['declared']}, {row['percent']} %"


def _written(value: Any) -> str:
    return f"{value:.7g}" if isinstance(value, float) else str(value)


def _share(was: str, now: str) -> float:
    try:
        before, after = float(was), float(now)
    except ValueError:
        return float(was != now)
    if before == after:
        return 0.0
    return abs(after - before) / abs(before) if before else 1.0


def _is_other(each: Moved) -> bool:
    return each.was != each.now and each.share > TOLERANCE
