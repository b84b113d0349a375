"""The two forms in which a recipe comes as it is written, made one: title, servings, lines, paragraphs.

schema.org/Recipe as JSON-LD (alone, in a list, in @graph, its instructions in any usual shape), or lines and
paragraphs. What schema.org calls otherwise is refused by name; properties that are not needed are ignored.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from ..core.errors import Fault, Faults, InvalidRequest
from ..core.notices import Notice
from .blanks import single_blanks
from .list_marks import (
    with_titles,
    without_bare_numbers,
    without_bullet,
    without_number,
    without_numbers,
)
from .plain_text import headed, paragraphs_of, plain, unwrapped
from .servings import servings_of

MOST_LINES = 500
MOST_CHARACTERS = 60_000
"""Characters of a method that are read: forty printed pages. What is longer is no recipe."""

_STEP_TEXTS = ("text", "description", "name")
_LISTS = ("itemListElement", "steps", "step")


@dataclass(frozen=True, slots=True)
class Written:
    """A recipe as it is written. lines, paragraphs: a leading "# " makes one a heading. servings: None where
    the recipe does not say. answers: to questions of an earlier reading, by id. portion_g: what a portion
    weighs as served, where the recipe states that in place of servings."""

    title: str
    servings: float | None
    lines: tuple[str, ...]
    paragraphs: tuple[str, ...]
    answers: Mapping[str, str] = field(default_factory=dict)
    notices: tuple[Notice, ...] = ()
    portion_g: float | None = None


def is_written(document: Any) -> bool:
    """Whether a document is a recipe in prose: it has a method, or is JSON-LD."""
    if isinstance(document, list):
        return any(isinstance(each, Mapping) and _is_linked(each) for each in document)
    return isinstance(document, Mapping) and ("method" in document or _is_linked(document))


def written_of(document: Any) -> Written:
    """The recipe that a document holds. Raises InvalidRequest with every fault found."""
    if isinstance(document, Mapping) and not _is_linked(document):
        return _of_lines(document)
    return _of_linked(document)


def _is_linked(document: Mapping[str, Any]) -> bool:
    return not {"@type", "@graph", "@context"}.isdisjoint(document)


def _of_lines(document: Mapping[str, Any]) -> Written:
    faults = Faults()
    lines = _texts(document.get("ingredients"), "/ingredients", faults)
    method = document.get("method", [])
    told = [method] if isinstance(method, str) else _texts(method, "/method", faults)
    servings, notices = servings_of(document.get("servings"), "/servings", faults)
    if servings is not None and document.get("portion_g") is not None:
        faults.append(Fault("/portion_g", "A recipe states `servings` or `portion_g`; keep one."))
    title = document.get("title") or ""
    if not isinstance(title, str):
        faults.append(Fault("/title", "The title is text; put it in quotes."))
    return _checked(title, servings, lines, told, document, faults, notices, "/ingredients", "/method")


def _of_linked(document: Any) -> Written:
    recipe, pointer = _recipe_in(document)
    faults = Faults()
    said = recipe.get("recipeIngredient", recipe.get("ingredients"))
    listed = [said] if isinstance(said, str) else said
    if isinstance(listed, list):
        listed = [_entry(each) for each in listed]
    lines = _texts(listed, f"{pointer}/recipeIngredient", faults)
    if isinstance(said, str):
        lines = [each for line in lines for each in paragraphs_of(line)]
    told = list(_told(recipe.get("recipeInstructions"), 0))
    servings, notices = servings_of(recipe.get("recipeYield", recipe.get("yield")), "/recipeYield", faults)
    title = recipe.get("name") or recipe.get("headline") or ""
    title = title if isinstance(title, str) else next(iter(_values(title)), "")
    ways = f"{pointer}/recipeIngredient", f"{pointer}/recipeInstructions"
    return _checked(title, servings, lines, told, recipe, faults, notices, *ways)


def _entry(each: Any) -> Any:
    """An ingredient that is an object (PropertyValue, HowToSupply), in words."""
    if not isinstance(each, Mapping):
        return each
    amount, name = (next(iter(_values(each.get(key))), "") for key in ("requiredQuantity", "name"))
    return f"{amount} {name or next(iter(_values(each.get('text'))), '')}".strip()


def _checked(
    title: str,
    servings: float | None,
    lines: list[str],
    told: list[str],
    document: Mapping[str, Any],
    faults: Faults,
    notices: list[Notice],
    lines_at: str,
    method_at: str,
) -> Written:
    if not lines and not any(fault.pointer.startswith(lines_at) for fault in faults):
        faults.append(Fault(lines_at, "The recipe has no ingredient lines; give at least one."))
    if len(lines) > MOST_LINES:
        faults.append(Fault(lines_at, f"Found {len(lines)} lines, wanted at most {MOST_LINES}; split it."))
    if (length := sum(map(len, told))) > MOST_CHARACTERS:
        message = f"The method has {length:,} characters, wanted at most {MOST_CHARACTERS:,}; shorten it."
        faults.append(Fault(method_at, message))
        told = []
    answers = document.get("answers") or {}
    if not isinstance(answers, Mapping) or not all(isinstance(each, str) for each in answers.values()):
        faults.append(
            Fault("/answers", "Answers are an object: the id of a question and the choice, as text.")
        )
        answers = {}
    faults.refuse()
    parts = with_titles([part for each in told for part in paragraphs_of(each)])
    numberless = [bare for part in without_bare_numbers(parts) if (bare := without_number(part).strip())]
    paragraphs = tuple(map(without_bullet, unwrapped(numberless)))
    clean = tuple(plain(headed(without_bullet(line)))[:500].strip() for line in without_numbers(lines))
    portion_g = document.get("portion_g")
    return Written(
        plain(title).strip()[:300],
        None if portion_g is not None else servings,
        single_blanks(clean),
        paragraphs,
        dict(answers),
        () if portion_g is not None else tuple(notices),
        portion_g,
    )


def _texts(value: Any, pointer: str, faults: list[Fault]) -> list[str]:
    if value is None:
        return []
    if not isinstance(value, list):
        faults.append(Fault(pointer, "Wanted a list of texts; put each line in quotes, in brackets."))
        return []
    for i, each in enumerate(value):
        if not isinstance(each, str):
            faults.append(Fault(f"{pointer}/{i}", "Wanted text: one line as it is written, in quotes."))
    return [each for each in value if isinstance(each, str)]


def _types(node: Mapping[str, Any]) -> list[str]:
    return [each.rsplit("/", 1)[-1].removeprefix("schema:") for each in _values(node.get("@type"))]


def _recipe_in(document: Any) -> tuple[Mapping[str, Any], str]:
    """The one Recipe among the nodes, and its pointer. Raises InvalidRequest, naming what is there."""
    others: list[str] = []
    for node, pointer in _nodes(document, "", 0):
        if "Recipe" in (types := _types(node)):
            return node, pointer
        others += types
    found = ", ".join(dict.fromkeys(others)) or "no @type"
    raise InvalidRequest(
        [
            Fault(
                "/@type",
                f"Found {found[:200]}, wanted a schema.org Recipe; send the node whose @type is Recipe.",
            )
        ]
    )


def _nodes(document: Any, pointer: str, depth: int) -> Iterator[tuple[Mapping[str, Any], str]]:
    if depth > 5:
        return
    if isinstance(document, list):
        for i, each in enumerate(document):
            yield from _nodes(each, f"{pointer}/{i}", depth + 1)
    elif isinstance(document, Mapping):
        if "@type" in document:
            yield document, pointer
        for key in ("@graph", "mainEntity", "mainEntityOfPage"):
            if isinstance(document.get(key), list | Mapping):
                yield from _nodes(document[key], f"{pointer}/{key}", depth + 1)


def _values(value: Any) -> Iterator[str]:
    """The texts in a value of JSON-LD: text, number, {"@value"}, or a list of those."""
    match value:
        case str():
            yield value
        case bool() | None:
            return
        case int() | float() if math.isfinite(value):
            yield f"{value:g}"
        case list():
            for each in value:
                yield from _values(each)
        case {"@value": inner} | {"value": inner} | {"name": inner}:
            yield from _values(inner)


def _told(value: Any, depth: int) -> Iterator[str]:
    """The paragraphs of recipeInstructions, headings marked: text, lists, steps, sections, ItemList."""
    if depth > 6:
        return
    match value:
        case str():
            yield value
        case list():
            for each in value:
                yield from _told(each, depth + 1)
        case Mapping():
            yield from _told_step(value, depth)


def _told_step(step: Mapping[str, Any], depth: int) -> Iterator[str]:
    below = next((step[key] for key in _LISTS if step.get(key)), None)
    if below is None:
        text = next((text for key in _STEP_TEXTS for text in _values(step.get(key))), "")
        if not text and isinstance(step.get("item"), Mapping):
            yield from _told_step(step["item"], depth + 1)
        elif text:
            yield text
        return
    name = next(_values(step.get("name")), "")
    if name and "HowToSection" in _types(step):
        yield "# " + re.sub(r"\s+", " ", name)
    elif not name and isinstance(step.get("text"), str):
        yield step["text"]
        return
    yield from _told(below, depth + 1)
