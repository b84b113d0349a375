"""The grid of plain acts: ways to say them, and whether a reading comes to the steps that are meant."""

from __future__ import annotations

import random
import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import yaml
from saltledger.method.method_reading import Reading

from ..test_method_reading import reading

HERE = Path(__file__).parent
HOURS_WITHIN = 0.05
LEFT_BEHIND, EATEN = 0.2, 0.9
"""A bath of which less is eaten counts as poured away; of which more, as eaten."""
_NO_SALT_MOVES = {"roast", "rest", "reduce", "skim"}
_SAME = {"simmer": "boil"}
_SLOT = re.compile(r"\{([^{}]*)\}")
_SPACES, _BEFORE_SIGN = re.compile(r" {2,}"), re.compile(r" (?=[,.;:])")
_SENTENCE_STARTS = re.compile(r"(?:^|[.!?] |/ )[a-z]")


@dataclass(frozen=True, slots=True)
class Act:
    """lines: of the recipe. steps: that it comes to. said: sayings with slots."""

    name: str
    lines: tuple[str, ...]
    steps: tuple[str, ...]
    said: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Cell:
    """One way to say an act; choices: what was taken for each slot."""

    text: str
    choices: tuple[str, ...]

    @property
    def paragraphs(self) -> list[str]:
        return [each.strip() for each in self.text.split(" / ")]


def acts(path: Path) -> Iterator[Act]:
    """The acts of a file."""
    for entry in yaml.safe_load(path.read_text(encoding="utf-8")):
        yield Act(entry["act"], tuple(entry["lines"]), tuple(entry["steps"]), tuple(entry["said"]))


def files() -> list[Path]:
    return sorted(HERE.glob("*.yaml"))


def cells(saying: str, most: int) -> list[Cell]:
    """At most so many ways to say it: always the same, each choice of a slot as often as another."""
    slots = [each.split("|") for each in _SLOT.findall(saying)]
    chance = random.Random(saying)
    columns = []
    for slot in slots:
        column = [slot[i % len(slot)] for i in range(most)]
        chance.shuffle(column)
        columns.append(column)
    drawn = dict.fromkeys(zip(*columns, strict=True)) if slots else {(): None}
    return [Cell(_filled(saying, choices), choices) for choices in drawn]


def _filled(saying: str, choices: tuple[str, ...]) -> str:
    left = iter(choices)
    text = _BEFORE_SIGN.sub("", _SPACES.sub(" ", _SLOT.sub(lambda _: next(left), saying))).strip()
    return _SENTENCE_STARTS.sub(lambda found: found[0].upper(), text)


def faults(act: Act, cell: Cell) -> list[str]:
    """What a reading of the cell misses and makes up; empty where it is right."""
    left = list(_steps(reading(list(act.lines), *cell.paragraphs)))
    wrong = []
    for wanted in sorted(act.steps, key=lambda step: step.startswith("? ")):
        kinds, food, time = (*(part.strip() for part in wanted.removeprefix("? ").split("|")), "", "")[:3]
        found = next(
            (s for s in left if s[0] in kinds.split("/") and all(w in s[1] for w in food.split())), None
        )
        if found is not None:
            left.remove(found)
            if not _is_long(found[2], time, cell.text):
                wrong.append(f"{found[2]} hours for {wanted}")
        elif not wanted.startswith("? "):
            wrong.append(f"missing: {wanted}")
    return wrong + [f"made up: {kind} of {food[:40]}" for kind, food, _ in left]


def _is_long(hours: float | None, time: str, text: str) -> bool:
    number, unit = time[:-1], time[-1:]
    if not number or not re.search(rf"\b{number}\b", text):
        return True
    wanted = float(number) / (60 if unit == "m" else 1)
    return hours is not None and abs(hours - wanted) <= HOURS_WITHIN * wanted


def _steps(found: Reading) -> Iterator[tuple[str, str, float | None]]:
    components = {each["id"]: each for each in found.recipe["components"]}
    for step in found.recipe.get("steps", ()):
        if step["kind"] not in _NO_SALT_MOVES:
            names = [step["food"]] if isinstance(step["food"], str) else step["food"]
            food = " ; ".join(_line(each) for name in names for each in components[name]["ingredients"])
            yield _told(step, components), food.lower(), step.get("duration_h")


def _line(ingredient: str | dict[str, Any]) -> str:
    return ingredient if isinstance(ingredient, str) else str(ingredient["line"])


def _told(step: dict[str, Any], components: dict[str, Any]) -> str:
    kind = _SAME.get(step["kind"], step["kind"])
    if "bath" not in step or kind == "dredge":
        return kind
    eaten = components[step["bath"]].get("eaten_fraction", 1)
    return f"{kind}{'~' if eaten < LEFT_BEHIND else '=' if eaten > EATEN else '%'}"
