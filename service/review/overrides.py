"""A reviewer's overrules: what one aims at, and how they are laid over a recipe as its author sends it.

An overrule holds for exactly what the reviewer saw. Where the author later changes that line or that
step, it no longer applies, and is told of instead of being stretched to fit.
"""

from __future__ import annotations

import copy
import dataclasses
import unicodedata
from collections.abc import Container, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Literal

from .chain import UNKNOWN, Actor, fingerprint

Document = Mapping[str, Any]
Value = str | float | Document
Kind = Literal["ingredient", "component", "step", "figure"]
Reach = Literal["recipe", "line", "food"]
"""Where an overrule holds: in its recipe, or in every recipe with that line, or with that food."""

SHORT_FORM = "recipe"
"""What an answer calls the component made of a recipe's own `ingredients`."""

PACKET = "per_100g"
"""The field of an ingredient that holds what its packet says, amounts by tag."""

INGREDIENT_FIELDS = ("food", "grams", "eaten_fraction", PACKET)
COMPONENT_FIELDS = ("eaten_fraction",)
FIGURE = "figure"
"""The field of a row of the tables: its likely, low and high, or one number for all three."""

STEP_FIELDS = ("absorption_factor", "yield_fraction", "sodium_after_mg_per_100g")
OF_A_FOOD = ("food", PACKET)
"""Fields that can be overruled for a food wherever it is: a weight holds for a line, not for a food."""
FIELDS: Mapping[Kind, tuple[str, ...]] = {
    "ingredient": INGREDIENT_FIELDS,
    "component": COMPONENT_FIELDS,
    "step": STEP_FIELDS,
    "figure": (FIGURE,),
}


@dataclass(frozen=True, slots=True)
class Target:
    """What an overrule aims at.

    what: the thing as its author wrote it, whole, so that any change of it is noticed. occurrence:
    which one (from 0) where the recipe has several that are alike. A figure is a row of the tables and, where
    the row holds several, the end of the assumption's name: it holds wherever the recipe stands on that row.
    """

    kind: Kind
    what: Document
    occurrence: int = 0

    @property
    def key(self) -> str:
        """The same for the same target; short and safe to store."""
        return fingerprint([self.kind, self.what, self.occurrence])

    @classmethod
    def of_row(cls, row: str, of: str = "") -> Target:
        """A row of the tables, "drip:meat/roast"."""
        return cls("figure", {"row": row, "of": of})

    @property
    def line_key(self) -> str | None:
        """The same for the same line in any recipe; None where there is no line."""
        line = self.what.get("asked", {}).get("line")
        return fingerprint(line) if line else None


@dataclass(frozen=True, slots=True)
class Overrule:
    """A reviewer's word over the calculation's: `field` of `target` is `value`, and why.

    reviewer: the name they gave; by: who they are as the service knows them. food_code: of the food that
    it holds for, where it reaches every recipe with one.
    """

    target: Target
    field: str
    value: Value
    reason: str
    reviewer: str
    created_at: str = ""
    id: int | None = None
    by: Actor = UNKNOWN
    reach: Reach = "recipe"
    food_code: str | None = None

    def __post_init__(self) -> None:
        # SQLite gives 20.0 back as 20: one form from the start, so that the same recipe is worked out again.
        if isinstance(self.value, float) and self.value.is_integer():
            object.__setattr__(self, "value", int(self.value))


@dataclass(frozen=True, slots=True)
class Applied:
    """A recipe with overrules laid over it. applied: each with the pointer of what it changed.
    idle: those whose target the recipe no longer has. foods: codes of foods by pointer, where they were
    asked for."""

    document: dict[str, Any]
    applied: tuple[tuple[Overrule, str], ...]
    idle: tuple[Overrule, ...]
    foods: Mapping[str, str | None] = dataclasses.field(default_factory=dict)


def normalised_line(line: str) -> str:
    """A line as it is compared: case, width, spaces and closing punctuation do not count."""
    return " ".join(unicodedata.normalize("NFKC", line).casefold().split()).strip(" .,;")


def line_key(line: str) -> str:
    """The key under which overrules of a line are found in other recipes."""
    return fingerprint(normalised_line(line))


def targets(document: Document, kinds: Container[Kind] = tuple(FIELDS)) -> dict[str, Target]:
    """Everything of some kinds in a recipe that can be overruled, by JSON Pointer."""
    found: dict[str, Target] = {}
    seen: dict[str, int] = {}
    for pointer, kind, what in _things(document):
        if kind not in kinds:
            continue
        alike = fingerprint([kind, what])
        found[pointer] = Target(kind, what, seen.get(alike, 0))
        seen[alike] = seen.get(alike, 0) + 1
    return found


def apply(
    document: Document, overrules: Iterable[Overrule], foods: Mapping[str, str | None] | None = None
) -> Applied:
    """Lay overrules over a recipe; of several for one field of one target the last holds.

    One that reaches further holds where neither its author nor an overrule of its own says otherwise, and is
    never idle. foods: what each ingredient was mapped to, by pointer, for overrules of a food.
    """
    overrules = list(overrules)
    if not overrules:
        return Applied(dict(document), (), (), foods or {})
    latest = {(each.target.key, each.field): each for each in overrules if each.reach == "recipe"}
    kinds = {each.target.kind for each in latest.values()}
    by_key = {target.key: pointer for pointer, target in targets(document, kinds).items()}
    made = copy.deepcopy(dict(document))
    applied, idle = [], []
    for overrule in latest.values():
        pointer = _place_of(overrule.target, by_key)
        if pointer is None:
            idle.append(overrule)
            continue
        _set(made, pointer, overrule.field, overrule.value)
        applied.append((overrule, pointer))
    spoken = {(pointer, overrule.field) for overrule, pointer in applied}
    for overrule, pointer in _reached(document, overrules, foods or {}):
        if (pointer, overrule.field) not in spoken:
            spoken.add((pointer, overrule.field))
            _set(made, pointer, overrule.field, overrule.value)
            applied.append((overrule, pointer))
    return Applied(made, tuple(applied), tuple(idle), foods or {})


def _reached(
    document: Document, overrules: Iterable[Overrule], foods: Mapping[str, str | None]
) -> Iterator[tuple[Overrule, str]]:
    """Ingredients that overrules of other recipes reach: of a line before those of a food, the last first."""
    wide = sorted(
        (each for each in overrules if each.reach != "recipe"),
        key=lambda each: (each.reach == "line", each.id is None, each.id or 0),
        reverse=True,
    )
    if not wide:
        return
    for pointer, kind, what in _things(document):
        if kind != "ingredient":
            continue
        asked = what["asked"]
        key = fingerprint(asked["line"]) if asked.get("line") else None
        for each in wide:
            if each.reach == "line":
                reached = key is not None and each.target.line_key == key
            else:
                reached = each.food_code == foods.get(pointer)
            stated = each.field in asked or (each.field == PACKET and "per_serving" in asked)
            if reached and not stated:
                yield each, pointer


def foods_at(document: Document, answer: Document) -> dict[str, str | None]:
    """The code of the food that each ingredient was mapped to, by pointer."""
    found = (each["food"]["code"] if each.get("food") else None for each in answer.get("ingredients", ()))
    return dict(zip(ingredient_pointers(document), found, strict=False))


def _place_of(target: Target, by_key: Mapping[str, str]) -> str | None:
    """The pointer of a target in a recipe, or that of its figures, which has a place for every row."""
    return "/figures" if target.kind == "figure" else by_key.get(target.key)


def laid_over(document: Document, told: Iterable[tuple[str, str, Value]]) -> dict[str, Any]:
    """A recipe with values at (pointer, field, value), as `apply` laid them."""
    made = copy.deepcopy(dict(document))
    for pointer, field, value in told:
        _set(made, pointer, field, value)
    return made


def as_worked_out(request: Document, told: Iterable[Document]) -> dict[str, Any]:
    """The recipe of a version as it was worked out: its overrules, as it tells of them, laid over it."""
    standing = [each for each in told if each["pointer"] is not None]
    return laid_over(request, [(each["pointer"], each["field"], each["value"]) for each in standing])


def at(document: Document, pointer: str) -> Any:
    """What stands at a JSON Pointer that `targets` gave."""
    found: Any = document
    for part in pointer.split("/")[1:]:
        found = found[int(part)] if isinstance(found, list) else found[part]
    return found


def ingredient_pointers(document: Document) -> list[str]:
    """The pointer of each ingredient, in the order in which an answer lists them."""
    return [pointer for pointer, kind, _ in _things(document) if kind == "ingredient"]


def _set(document: dict[str, Any], pointer: str, field: str, value: Value) -> None:
    if isinstance(value, Mapping) and field == FIGURE:
        _set_figure(document, value)
        return
    parent, _, last = pointer.rpartition("/")
    holder = at(document, parent)
    place: Any = int(last) if isinstance(holder, list) else last
    if isinstance(holder[place], str):
        holder[place] = {"line": holder[place]}
    if field == PACKET:
        holder[place].pop("per_serving", None)
    holder[place][field] = value


def _set_figure(document: dict[str, Any], figure: Document) -> None:
    """Put the reviewer's figure in place of a row, and of what the author said of that row."""
    mine = _row_of(figure)
    others = [each for each in document.get("figures", ()) if _row_of(each) != mine]
    document["figures"] = [*others, dict(figure)]


def _row_of(figure: Document) -> tuple[str, str]:
    return figure["row"], figure.get("of", "")


def _things(document: Document) -> Iterator[tuple[str, Kind, dict[str, Any]]]:
    yield from _ingredients(SHORT_FORM, document.get("ingredients") or (), "")
    for i, component in enumerate(document.get("components") or ()):
        pointer = f"/components/{i}"
        stated = {"component": component["id"], "asked": _without(component, ("id", "ingredients"))}
        yield pointer, "component", stated
        yield from _ingredients(component["id"], component["ingredients"], pointer)
    lines = _lines_by_component(document)
    for i, step in enumerate(document.get("steps") or ()):
        yield f"/steps/{i}", "step", {"step": dict(step), "lines": _worked_on(step, lines)}


def _ingredients(
    component: str, asked: Sequence[Any], pointer: str
) -> Iterator[tuple[str, Kind, dict[str, Any]]]:
    for i, each in enumerate(asked):
        yield f"{pointer}/ingredients/{i}", "ingredient", {"component": component, "asked": _asked(each)}


def _asked(ingredient: str | Document) -> dict[str, Any]:
    stated = {"line": ingredient} if isinstance(ingredient, str) else dict(ingredient)
    if "line" in stated:
        stated["line"] = normalised_line(stated["line"])
    return stated


def _lines_by_component(document: Document) -> dict[str, list[Any]]:
    found = {component["id"]: component["ingredients"] for component in document.get("components") or ()}
    return {SHORT_FORM: document.get("ingredients") or [], **found}


def _worked_on(step: Document, lines: Mapping[str, list[Any]]) -> list[Any]:
    """What the step's components list: a factor holds for these amounts in this bath, not for others."""
    food = step.get("food") or ()
    names = [food] if isinstance(food, str) else list(food)
    if step.get("bath"):
        names.append(step["bath"])
    return [[_asked(each) for each in lines.get(name, ())] for name in names]


def _without(document: Document, names: Sequence[str]) -> dict[str, Any]:
    return {key: value for key, value in document.items() if key not in names}
