"""What a review page shows, made ready for its template: figures in words, lines in the order to look at."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from ... import store as kept
from ...foods.nutrients import INDEX
from ...nutrition.stated import accepted_names
from ...render.flow_drawing import Picture, picture
from ...review.difference import Difference
from ...review.overrides import SHORT_FORM, Overrule, at, ingredient_pointers, line_key
from ...review.tracing import lines
from ...store.records import SignOff, Version
from ...units.nutrient_amounts import own_units
from .. import known_foods
from ..saved_documents import compare
from .review_reading import Piece, marked, read_steps

if TYPE_CHECKING:
    from sqlalchemy import Connection

    from ...store.override_records import Offer

Document = dict[str, Any]

FIELD_WORDS = {
    "food": "food",
    "grams": "weight",
    "eaten_fraction": "share eaten",
    "per_100g": "packet",
    "absorption_factor": "share of the bath's salt taken up",
    "yield_fraction": "weight after over weight before",
    "sodium_after_mg_per_100g": "sodium after the step",
}
"""What a field that can be overruled is called on the pages."""

PLACE_WORDS = {
    "eaten": "Eaten",
    "poured_away": "Poured away",
    "left_on_tray": "Left on the tray",
    "trimmed": "Trimmed off",
    "not_eaten": "Not eaten",
    "evaporated": "Evaporated",
    "lost_to_heat": "Lost to heat",
}

SEVERITIES = ("stop", "check", "info")


@dataclass(frozen=True, slots=True)
class Row:
    """One ingredient on the page. `pointer` is where it stands in the recipe."""

    pointer: str
    component: str
    asked: Document
    listed_mg: float
    eaten_mg: float
    overruled: tuple[Document, ...]
    offers: tuple[Offer, ...]
    notices: tuple[Document, ...]


@dataclass(frozen=True, slots=True)
class Scale:
    """Sodium of a serving against a reference, as places (0 to 100) on a line from nothing to `top_mg`."""

    top_mg: float
    low: float
    likely: float
    high: float
    limit: float


@dataclass(frozen=True, slots=True)
class Page:
    """All that the page of one version shows."""

    version: Version
    current: Version
    title: str
    references: tuple[Document, ...]
    reference: Document
    scale: Scale
    rows: tuple[Row, ...]
    components: tuple[Document, ...]
    steps: tuple[Document, ...]
    notices: tuple[Document, ...]
    picture: Picture
    measure_first: tuple[Document, ...]
    idle: tuple[Document, ...]
    verdicts: tuple[SignOff, ...]
    since: tuple[Version, Difference] | None
    method: list[list[Piece]]
    read_steps: list[Document]

    @property
    def is_current(self) -> bool:
        return self.version.save_id == self.current.save_id

    @property
    def stops(self) -> tuple[Document, ...]:
        return tuple(notice for notice in self.notices if notice["severity"] == "stop")

    @property
    def gaps(self) -> tuple[Document, ...]:
        """What sodium was not counted; of answers from before this was told, nothing."""
        return tuple(self.sodium.get("uncounted", ()))

    @property
    def is_incomplete(self) -> bool:
        return self.sodium.get("complete") is False

    @property
    def sodium(self) -> Document:
        found: Document = self.version.answer["sodium"]
        return found


def page_of(connection: Connection, version: Version, reference_id: str | None = None) -> Page:
    """The page of a version, set against one of its answer's references (its first where none is named)."""
    current = kept.recipes.current(connection, version.key)
    assert current is not None
    references = tuple(version.answer["sodium"]["references"])
    reference = next((each for each in references if each["id"] == reference_id), references[0])
    told = version.overrules
    reading = version.answer.get("reading")
    return Page(
        version=version,
        current=current,
        title=version.request.get("title") or version.key,
        references=references,
        reference=reference,
        scale=_scale(version.answer["sodium"]["per_serving_mg"], reference["limit_mg"]),
        rows=_rows(connection, version),
        components=tuple(_components(version, told)),
        steps=tuple(_steps(version, told)),
        notices=_by_severity(version.answer["notices"]),
        picture=picture(version.answer["sodium"]["origins"]),
        measure_first=tuple(_measure_first(version.answer)),
        idle=tuple(each for each in told if each["pointer"] is None),
        verdicts=tuple(kept.recipes.sign_offs_of(connection, version.save_id)),
        since=_since(connection, version),
        method=marked(reading) if reading else [],
        read_steps=read_steps(reading) if reading else [],
    )


def component_words(request: Mapping[str, Any]) -> dict[str, str]:
    """What each component is called: its label, or its id."""
    named = {each["id"]: each.get("label") or each["id"] for each in request.get("components", ())}
    return {SHORT_FORM: "The recipe", **named, **PLACE_WORDS}


def assumption_words(name: str, request: Mapping[str, Any]) -> str:
    """What an assumption is about: the line whose weight it is, or the step, the part and the figure."""
    kind, _, pointer = name.partition(":")
    if kind in ("weight", "uncounted"):
        asked = at(request, pointer)
        about = "weight" if kind == "weight" else "sodium, not counted,"
        return f"{about} of {asked if isinstance(asked, str) else asked.get('line') or asked['food']}"
    words = component_words(request)
    step, *parts = name.split("/")
    if not step.startswith("step-") or not parts:
        return name.replace("-", " ")
    spoken = [words.get(part, part.replace("-", " ")) for part in parts]
    return f"step {int(step[5:]) + 1}, {', '.join(spoken)}"


def worded(field: str, value: Any) -> str:
    """A value of a field as people read it."""
    match field:
        case "per_100g":
            return packet_words(value)
        case "grams":
            return f"{value:g} g"
        case "eaten_fraction" | "absorption_factor" | "yield_fraction":
            return f"{100 * value:g} %"
        case "sodium_after_mg_per_100g":
            return f"{value:g} mg in 100 g"
        case "food" if value in (foods := known_foods.foods()):
            return f"{foods.get(value).name} ({value})"
        case _:
            return str(value)


PACKET_FIELDS = (
    ("sodium", "Sodium", "mg"),
    ("salt", "or salt", "g"),
    ("calories", "Calories", "kcal"),
    ("energy_kj", "or energy", "kJ"),
    ("fat", "Fat", "g"),
    ("saturates", "of which saturated", "g"),
    ("total_carbohydrate", "Carbohydrate with fibre (US)", "g"),
    ("carbohydrate", "or carbohydrate without fibre (EU)", "g"),
    ("sugars", "of which sugars", "g"),
    ("added_sugars", "of which added", "g"),
    ("fibre", "Fibre", "g"),
    ("protein", "Protein", "g"),
    ("potassium", "Potassium", "mg"),
)
"""What can be copied from a packet on the pages: name of packet_names.csv, words, unit."""


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
        parts.append(f"{name.replace('_', ' ')} {amount:g} {unit}")
    return f"{', '.join(parts)} in 100 g"


def milligrams(value: float) -> str:
    """mg as people read them: whole, but not so that a little looks like nothing."""
    return f"{value:,.0f}" if abs(value) >= 10 or abs(value) < 0.05 else f"{value:.1f}"


def quantity(value: float) -> str:
    """A figure to three or four digits, without powers of ten where people would not write them."""
    return f"{value:,.0f}" if 100 <= abs(value) < 1e6 else f"{value:.3g}"


def signed(value: float) -> str:
    """A change in mg, with its sign."""
    if abs(value) < 0.05:
        return "0"
    return ("+" if value > 0 else "−") + milligrams(abs(value))


def _scale(sodium: Mapping[str, float], limit_mg: float) -> Scale:
    top = max(sodium["high"], limit_mg) * 1.08
    places = (100 * mg / top for mg in (sodium["low"], sodium["likely"], sodium["high"], limit_mg))
    return Scale(top, *places)


def _rows(connection: Connection, version: Version) -> tuple[Row, ...]:
    """The ingredients, those the service is least sure of first."""
    answer = version.answer
    asked = answer["ingredients"]
    offers = kept.override_records.offers(
        connection, version.key, (line_key(each["line"]) for each in asked if each["line"])
    )
    rows = [
        Row(
            pointer,
            each["component"],
            each,
            line.listed_mg,
            line.eaten_mg,
            _at(version.overrules, pointer),
            tuple(_worth_offering(offers.get(line_key(each["line"] or ""), ()), version, pointer)),
            tuple(notice for notice in answer["notices"] if notice["pointer"].startswith(pointer)),
        )
        for pointer, each, line in zip(
            ingredient_pointers(version.request), asked, lines(answer), strict=True
        )
    ]
    return tuple(sorted(rows, key=lambda row: (row.asked["food"] is not None, row.asked["confidence"])))


def _worth_offering(offers: Iterable[Offer], version: Version, pointer: str) -> Iterable[Offer]:
    """The newest offer for each field on which nobody has spoken here."""
    spoken = {each["field"] for each in _at(version.overrules, pointer)}
    for offer in offers:
        if offer.overrule.field not in spoken:
            spoken.add(offer.overrule.field)
            yield offer


def _at(told: Iterable[Document], pointer: str) -> tuple[Document, ...]:
    return tuple(each for each in told if each["pointer"] == pointer)


def _components(version: Version, told: Iterable[Document]) -> Iterable[Document]:
    words = component_words(version.request)
    baths = {step.get("bath") for step in version.request.get("steps", ())}
    gaps = version.answer["sodium"].get("uncounted", ())
    unused = {gap["pointer"] for gap in gaps if gap["reason"] == "liquid_not_used"}
    for i, component in enumerate(version.request.get("components", ())):
        pointer = f"/components/{i}"
        yield {
            "pointer": pointer,
            "name": words[component["id"]],
            "is_bath": component["id"] in baths,
            "is_unused": pointer in unused,
            "eaten_fraction": component.get("eaten_fraction"),
            "overruled": _at(told, pointer),
        }


def _steps(version: Version, told: Iterable[Document]) -> Iterable[Document]:
    words = component_words(version.request)
    for i, step in enumerate(version.request.get("steps", ())):
        food = [step["food"]] if isinstance(step["food"], str) else step["food"]
        pointer = f"/steps/{i}"
        mine = [each for each in version.answer["assumptions"] if each["step"] == i]
        yield {
            "pointer": pointer,
            "number": i + 1,
            "kind": step["kind"].replace("_", " "),
            "food": ", ".join(words[name] for name in food),
            "bath": words[step["bath"]] if step.get("bath") else None,
            "step": step,
            "assumptions": [each for each in mine if _is_about_sodium(each)],
            "others": [each for each in mine if not _is_about_sodium(each)],
            "overruled": _at(told, pointer),
        }


def _is_about_sodium(assumption: Document) -> bool:
    """Whether sodium hangs on it: all but what a step leaves of single other nutrients."""
    tag = assumption["id"].rpartition("/")[2]
    return tag == "NA" or tag not in INDEX


def _by_severity(notices: Iterable[Document]) -> tuple[Document, ...]:
    return tuple(sorted(notices, key=lambda notice: SEVERITIES.index(notice["severity"])))


def _measure_first(answer: Document) -> Iterable[Document]:
    """The assumptions that carry most of the range, with their figures."""
    by_id = {each["id"]: each for each in answer["assumptions"]}
    for carrier in answer["sodium"].get("carried_by", ()):
        if carrier["assumption"] in by_id:
            yield {**by_id[carrier["assumption"]], **carrier}


def _since(connection: Connection, version: Version) -> tuple[Version, Difference] | None:
    """What changed since a reviewer last signed, or else since the version before."""
    older = kept.recipes.latest_signed(connection, version.key, version.number) or kept.recipes.version(
        connection, version.key, version.number - 1
    )
    return None if older is None else (older, compare(older, version))
