"""The grid of plain acts: ways to say them, and whether a reading comes to the steps, the fates of lines and
the sodium that are meant."""

from __future__ import annotations

import random
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from statistics import median
from typing import Any

import yaml
from saltledger.foods.dataset import bundled
from saltledger.method.method_reading import Reading

from ...bench.method_sodium import sodium_mg
from ..test_method_reading import reading

HERE = Path(__file__).parent
HOURS_WITHIN = 0.05
LEFT_BEHIND, EATEN = 0.2, 0.9
"""A bath of which less is eaten counts as poured away; of which more, as eaten."""
_NO_SALT_MOVES = {"roast", "rest", "reduce", "skim"}
_SAME = {"simmer": "boil", "press": "squeeze"}
_SLOT = re.compile(r"\{([^{}]*)\}")
_SPACES, _BEFORE_SIGN = re.compile(r" {2,}"), re.compile(r" (?=[,.;:])")
_SENTENCE_STARTS = re.compile(r"(?:^|[.!?] |/ )[a-z]")
_SENTENCES = re.compile(r"(?<=[a-z]\.) (?=[A-Z])")
_MAY_HEAD = re.compile(r"#|.*:$|[A-Z][^0-9]*$")
SAME_IN_ALL_FORMS = 0.015
"""The share by which sodium may differ between the forms of one text."""


@dataclass(frozen=True, slots=True)
class Act:
    """lines: of the recipe. steps: that it comes to. said: sayings with slots. poured, eaten: words of lines
    that are poured away and eaten whole. sodium: the share by which a serving's may differ, None where it is
    not looked at. others: lists that say the same as `lines`."""

    name: str
    lines: tuple[str, ...]
    steps: tuple[str, ...]
    said: tuple[str, ...]
    poured: tuple[str, ...] = ()
    eaten: tuple[str, ...] = ()
    sodium: float | None = None
    others: tuple[tuple[str, ...], ...] = ()

    @property
    def lists(self) -> tuple[tuple[str, ...], ...]:
        return (self.lines, *self.others)

    def cells(self, most: int) -> list[list[Cell]]:
        """Of every saying, at most so many ways to say it."""
        return [cells(saying, most, len(self.lists)) for saying in self.said]


@dataclass(frozen=True, slots=True)
class Cell:
    """One way to say an act; choices: what was taken for each slot. listed: which of the act's lists."""

    text: str
    choices: tuple[str, ...]
    listed: int = 0

    @property
    def paragraphs(self) -> list[str]:
        return [each.strip() for each in self.text.split(" / ")]


def acts(path: Path) -> Iterator[Act]:
    """The acts of a file."""
    for entry in yaml.safe_load(path.read_text(encoding="utf-8")):
        lists = entry["lines"] if isinstance(entry["lines"][0], list) else [entry["lines"]]
        first, *others = map(tuple, lists)
        fates = (tuple(entry.get(fate, ())) for fate in ("poured", "eaten"))
        told = (tuple(entry[key]) for key in ("steps", "said"))
        yield Act(entry["act"], first, *told, *fates, entry.get("sodium"), tuple(others))


def files() -> list[Path]:
    return sorted(HERE.glob("*.yaml"))


def cells(saying: str, most: int, lists: int = 1) -> list[Cell]:
    """At most so many ways to say it: always the same, each choice of a slot as often as another, and each of
    so many lists."""
    slots: list[list[Any]] = [each.split("|") for each in _SLOT.findall(saying)]
    chance = random.Random(saying)
    columns = []
    for slot in [*slots, list(range(lists))]:
        column = [slot[i % len(slot)] for i in range(most)]
        chance.shuffle(column)
        columns.append(column)
    drawn = dict.fromkeys(zip(*columns, strict=True))
    return [Cell(_filled(saying, each[:-1]), each[:-1], each[-1]) for each in drawn]


def _filled(saying: str, choices: tuple[str, ...]) -> str:
    left = iter(choices)
    text = _BEFORE_SIGN.sub("", _SPACES.sub(" ", _SLOT.sub(lambda _: next(left), saying))).strip()
    return _SENTENCE_STARTS.sub(lambda found: found[0].upper(), text)


def faults(act: Act, cell: Cell) -> list[str]:
    """What a reading of the cell misses, makes up and puts elsewhere; empty where it is right."""
    found = reading(list(act.lists[cell.listed]), *cell.paragraphs)
    return [*_wrong_steps(act, cell, list(_steps(found))), *_wrong_fates(act, found)]


def _wrong_steps(act: Act, cell: Cell, steps: list[tuple[str, str, float | None]]) -> list[str]:
    left, wrong = list(steps), []
    together = [s for s in steps if " ; " in s[1]]  # "drain the tuna and the corn" answers for both
    for wanted in sorted(act.steps, key=lambda step: step.startswith("? ")):
        kinds, food, time = (*(part.strip() for part in wanted.removeprefix("? ").split("|")), "", "")[:3]
        those = (s for s in (*left, *together) if s[0] in kinds.split("/"))
        found = next((s for s in those if all(w in s[1] for w in food.split())), None)
        if found is not None:
            left = [s for s in left if s is not found]
            if not _is_long(found[2], time, cell.text):
                wrong.append(f"{found[2]} hours for {wanted}")
        elif not wanted.startswith("? "):
            wrong.append(f"missing: {wanted}")
    return wrong + [f"made up: {kind} of {food[:40]}" for kind, food, _ in left]


def _wrong_fates(act: Act, found: Reading) -> Iterator[str]:
    eaten = {each["id"]: each.get("eaten_fraction", 1.0) for each in found.recipe["components"]}
    for words, is_eaten in [*((w, False) for w in act.poured), *((w, True) for w in act.eaten)]:
        places = [each for each in found.lines if _is_named(words, each["text"])]
        lying = [(each.get("share", 1.0), eaten[each["component"]]) for each in places if each["component"]]
        if not lying:
            yield f"nowhere: {words}"
            continue
        share = sum(part * fate for part, fate in lying) / sum(part for part, _ in lying)
        if (share < EATEN) if is_eaten else (share >= LEFT_BEHIND):
            yield f"{share:.0%} eaten of: {words}"


def _is_named(words: str, text: str) -> bool:
    return any(each in text.lower() for each in words.split(" or "))


def out_of_line(act: Act, grid: Sequence[Cell]) -> dict[Cell, str]:
    """The cells of an act whose sodium lies apart from the median of all, or hangs on the form."""
    if act.sodium is None:
        return {}
    found = {cell: _sodium(act, cell) for cell in grid}
    middle = median(found.values())
    apart = {
        cell: f"{mg:.0f} mg of sodium, not {middle:.0f}"
        for cell, mg in found.items()
        if abs(mg - middle) > act.sodium * middle
    }
    return apart | {cell: told for cell in grid if cell not in apart and (told := _by_form(act, cell))}


def _sodium(act: Act, cell: Cell) -> float:
    return _sodium_of(act.lists[cell.listed], tuple(cell.paragraphs))


@lru_cache(maxsize=4096)
def _sodium_of(lines: tuple[str, ...], paragraphs: tuple[str, ...]) -> float:
    return sodium_mg(reading(list(lines), *paragraphs).recipe, bundled())


def _by_form(act: Act, cell: Cell) -> str:
    """In which other form of the text its sodium is another; empty where in none."""
    mg = _sodium(act, cell)
    for name, lines, paragraphs in forms(act.lists[cell.listed], cell.paragraphs):
        other = _sodium_of(tuple(lines), tuple(paragraphs))
        if abs(other - mg) > SAME_IN_ALL_FORMS * mg:
            return f"{other:.0f} mg of sodium {name}"
    return ""


def forms(lines: Sequence[str], told: Sequence[str]) -> Iterator[tuple[str, Sequence[str], Sequence[str]]]:
    """The same recipe laid out otherwise, with the name of the form: what no cook would notice."""
    yield "in one paragraph", lines, [" ".join(told)]
    yield "with a paragraph a sentence", lines, [each for part in told for each in _SENTENCES.split(part)]
    yield "with numbers", lines, [f"{i}. {each}" for i, each in enumerate(told, 1)]
    yield "as one text with numbers", lines, ["\n".join(f"{i}) {each}" for i, each in enumerate(told, 1))]
    yield "as HTML", [f"<li>{each}</li>" for each in lines], ["".join(f"<p>{each}</p>" for each in told)]
    if not any(map(_MAY_HEAD.match, lines)):
        yield "with lines turned about", lines[::-1], told
        yield "with lines by the alphabet", sorted(lines), told


def _is_long(hours: float | None, time: str, text: str) -> bool:
    said = time.rstrip("!")
    number, unit = said[:-1], said[-1:]
    if not number or not (said < time or re.search(rf"\b{number}\b", text)):
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
