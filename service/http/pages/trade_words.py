"""The words of the pages: what fields, figures and causes are called by people who cook and reckon diets."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable, Mapping
from pathlib import Path
from types import MappingProxyType
from typing import Any, NamedTuple

from ...core.numbers import shown
from ...foods.nutrients import INDEX, NUTRIENTS
from ...nutrition.stated import accepted_names
from ...review.difference import Cause
from ...review.overrides import SHORT_FORM, Overrule, at
from ...units.nutrient_amounts import own_units
from .. import known_foods

Document = Mapping[str, Any]


class Inner(NamedTuple):
    """A recipe that is an ingredient, as it was used. save_id: of that version."""

    title: str
    request: Document
    save_id: str


Below = Mapping[str, Inner]
"""Recipes that are ingredients, at any depth, by key."""
NONE_BELOW: Below = MappingProxyType({})

SEVERITIES = ("stop", "check", "info")

WORDS: Mapping[str, Mapping[str, Any]] = tomllib.loads(
    Path(__file__).parents[1].joinpath("templates/review/words.toml").read_text(encoding="utf-8")
)
"""The words of the pages by what they are of; the file says what each part holds."""

FIELD_WORDS = WORDS["fields"]
_API_WORDS = {**FIELD_WORDS, **WORDS["api_fields"]}
_ALSO = {"give food": "choose a food", "Give food": "Choose a food", "give grams": "write its weight"}
_FIELD = re.compile(r"\b[a-z]+(?:_[a-z0-9]+)+\b")
_OF_FIELDS = re.compile(r"\s*\((?:[a-z0-9]+(?:_[a-z0-9]+)+(?:, | and | or )?)+\)")
_POINTER = re.compile(r"/(?:components/\d+/ingredients/\d+|ingredients/\d+|components/\d+|steps/\d+)")
_BELOW = re.compile(r"/(?:components/\d+/)?ingredients/\d+/([^/]+)(/(?:components|ingredients)/.+)")
"""A pointer to an ingredient that is a recipe, that recipe's key, and a pointer into it."""

_NUTRIENT_NAMES = {each.tag: each.name for each in NUTRIENTS}


def quantity(value: float) -> str:
    """A figure to three or four digits, without powers of ten where people would not write them."""
    return shown(value, grouped=True)


def milligrams(value: float) -> str:
    """Milligrams as people read them: whole, but not so that a little looks like nothing."""
    return shown(value, 2, decimals=1, grouped=True)


def signed(value: float) -> str:
    """A change in mg, with its sign."""
    if abs(value) < 0.05:
        return "0"
    return ("+" if value > 0 else "−") + milligrams(abs(value))


def plain(message: str, request: Document) -> str:
    """A message of an answer without the API's field names and pointers."""
    text = _OF_FIELDS.sub("", message)
    for said, instead in _ALSO.items():
        text = text.replace(said, instead)
    text = _POINTER.sub(lambda found: thing_words(request, found[0]), text)
    return _FIELD.sub(lambda found: _API_WORDS.get(found[0], found[0].replace("_", " ")), text)


def component_words(request: Document) -> dict[str, str]:
    """What each component is called: its label, or its id."""
    named = {each["id"]: each.get("label") or spoken(each["id"]) for each in request.get("components", ())}
    return {SHORT_FORM: "The recipe", **named, **WORDS["places"]}


def spoken(name: str) -> str:
    """A name of the API as a word."""
    words = name.replace("_", " ").replace("-", " ")
    return words[:1].upper() + words[1:]


def thing_words(request: Document, pointer: str, below: Below = NONE_BELOW) -> str:
    """What stands at a pointer: the line, the part's name, or the number of the step.

    below: the recipes that are ingredients, into which a pointer may lead.
    """
    if found := _BELOW.fullmatch(pointer):
        inner = below.get(found[1], Inner(found[1], {}, ""))
        words = thing_words(inner.request, found[2], below)
        return words if _BELOW.fullmatch(found[2]) else f"{words} in the recipe {inner.title}"
    try:
        found = at(request, pointer)
    except (KeyError, IndexError, ValueError, TypeError):
        return "the recipe"
    if "/ingredients/" in pointer:
        return found if isinstance(found, str) else str(_first_of(found, ("line", "food", "recipe")))
    if pointer.startswith("/steps/"):
        return f"step {int(pointer.split('/')[2]) + 1}"
    return component_words(request)[found["id"]]


def assumption_words(name: str, request: Document, below: Below = NONE_BELOW) -> str:
    """What an assumption is about: the line whose weight it is, or the step, the part and the figure.

    below: the recipes that are ingredients; an assumption of theirs names the recipe that it is of.
    """
    if name == "reading":
        return "how the recipe was read from its words"
    kind, _, pointer = name.partition(":")
    if kind == "recipe":
        key, _, rest = pointer.partition("/")
        inner = below.get(key, Inner(key, {}, ""))
        told = assumption_words(rest, inner.request, below)
        return told if rest.startswith("recipe:") else f"in the recipe {inner.title}, {told}"
    if pointer.startswith("/"):
        about = {"weight": "weight", "uncounted": "sodium, not counted,", "batch": "difference of batches"}
        return f"{about.get(kind, spoken(kind).lower())} of {thing_words(request, pointer, below)}"
    words = component_words(request)
    step, *parts = name.split("/")
    if not step.startswith("step-") or not parts:
        return name.replace("-", " ").replace("_", " ")
    return f"step {int(step[5:]) + 1}, {', '.join(_part(part, words) for part in parts)}"


def _first_of(ingredient: Document, names: Iterable[str]) -> Any:
    return next(ingredient[name] for name in names if ingredient.get(name))


def _part(part: str, words: Mapping[str, str]) -> str:
    return (
        words.get(part)
        or WORDS["assumptions"].get(part)
        or _NUTRIENT_NAMES.get(part)
        or part.replace("-", " ")
    )


def amount_words(value: float, unit: str) -> str:
    """A figure with its unit; shares in percent, and no powers of ten."""
    match unit:
        case "fraction" | "ratio":
            return f"{quantity(100 * value)} %"
        case "1" | "":
            return quantity(value)
    return f"{small(value)} {unit.replace('m2/s', 'm²/s').replace('_', ' ')}"


def small(value: float) -> str:
    """A figure whose power of ten, if it has one, is written as people write it."""
    if not 0 < abs(value) < 1e-4:
        return quantity(value)
    figure, mark, power = f"{value:.3g}".partition("e")
    return f"{figure} × 10{str(int(power)).translate(_RAISED)}" if mark else figure


_RAISED = str.maketrans("-0123456789", "⁻⁰¹²³⁴⁵⁶⁷⁸⁹")


def step_words(step: Document) -> str:
    """Times, temperatures and sizes of a step, and what was measured of it."""
    told = [
        words.format(quantity(of * step[name]))
        for part, of in (("steps", 1), ("step_shares", 100))
        for name, words in WORDS[part].items()
        if step.get(name) is not None
    ]
    if step.get("rinsed"):
        told.append("rinsed afterwards")
    return ", ".join(told)


def is_about_sodium(assumption: Document) -> bool:
    """Whether sodium hangs on it: all but what a step leaves of single other nutrients."""
    tag = str(assumption["id"]).rpartition("/")[2]
    return tag == "NA" or tag not in INDEX


def joined(words: Iterable[str]) -> str:
    """Sentences one after another, each once."""
    return " ".join(dict.fromkeys(words))


def _range_words(figure: Mapping[str, Any]) -> str:
    ends = [figure.get(end, figure["likely"]) for end in ("low", "high")]
    return f"{figure['likely']:g}" + (f" ({ends[0]:g} to {ends[1]:g})" if ends[0] < ends[1] else "")


def worded(field: str, value: Any) -> str:
    """A value of a field as people read it."""
    match field:
        case "per_100g":
            return packet_words(value)
        case "grams" | "sodium_after_mg_per_100g":
            return f"{shown(value, 6)} {'g' if field == 'grams' else 'mg in 100 g'}"
        case "eaten_fraction" | "absorption_factor" | "yield_fraction":
            return f"{shown(100 * value, 6)} %"
        case "figure":
            row = value["row"].partition(":")[2].replace("/", ", ").replace("_", " ")
            return f"{row}: {_range_words(value)}"
        case "food" if value in (foods := known_foods.foods()):
            return f"{foods.get(value).name} ({value})"
        case _:
            return str(value)


def cause_words(cause: Cause) -> str:
    """A cause of a change, in words."""
    if cause.kind == "line":
        ends = bool(cause.before), bool(cause.after)
        return {(True, False): "Line taken out", (False, True): "Line added"}.get(ends, "Line")
    if cause.kind == "override":
        field, _, about = cause.what.partition(" of ")
        return f"{spoken(FIELD_WORDS.get(field, field))} of {about}, by {cause.by}"
    if cause.kind == "made_of":
        return f"Recipe: {cause.what}"
    if cause.kind == "part":
        return f"What is eaten of {spoken(cause.what).lower()}"
    if cause.kind == "step":
        return f"Step {cause.what}" if cause.what else "Steps added or taken out"
    return str(WORDS["moves"][cause.kind])


def thing_of(overrule: Overrule) -> str:
    """What an overrule is about: the line, the part or the kind of step."""
    what = overrule.target.what
    match overrule.target.kind:
        case "ingredient":
            return str(what["asked"].get("line") or what["asked"].get("food"))
        case "component":
            return spoken(str(what["asked"].get("label") or what["component"]))
        case _:
            return spoken(str(what["step"]["kind"])) if "step" in what else "figures of the tables"


def offered(overrule: Overrule) -> dict[str, Any]:
    """What an overrule of another recipe fills into the form, by field; shares are written in percent
    there."""
    value = overrule.value
    if isinstance(value, Mapping):
        plain = {name: each for name, each in value.items() if not isinstance(each, Mapping)}
        return {f"packet_{name}": each for name, each in plain.items()}
    is_share = overrule.field == "eaten_fraction" and not isinstance(value, str)
    return {overrule.field: value * 100 if is_share else value}


def packet_words(stated: Mapping[str, Any]) -> str:
    """What a packet says of 100 g, in words."""
    units = own_units()
    parts = []
    for name, value in stated.items():
        tag = accepted_names()[name]
        amount, unit = (value["amount"], value["unit"]) if isinstance(value, Mapping) else (value, units[tag])
        parts.append(f"{name.replace('_', ' ')} {shown(amount, 6)} {unit}")
    return f"{', '.join(parts)} in 100 g"
