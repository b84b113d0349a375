"""What a review page shows, made ready for its template: figures in words, lines in the order to look at."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from ... import store as kept
from ...render.flow_drawing import Picture, picture
from ...review.difference import Difference
from ...review.overrides import ingredient_pointers, line_key
from ...review.tracing import Line, lines
from ...store.records import Heading, SignOff, Version
from ..saved_documents import compare
from . import to_decide
from .made_of import Used, below, made_of_this, used_by_page
from .review_reading import Piece, marked, read_assumed, read_steps
from .trade_words import WORDS, Below, component_words, is_about_sodium, spoken, step_words

if TYPE_CHECKING:
    from sqlalchemy import Connection

    from ...store.override_records import Kept, Offer

Document = dict[str, Any]


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


@dataclass(frozen=True, slots=True)
class Nutrient:
    """One of the main nutrients: its amount in a serving and in 100 g, None where it is not known."""

    name: str
    unit: str
    serving: Document
    per_100g: float | None


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
    decide: tuple[to_decide.Item, ...]
    notices: tuple[to_decide.Told, ...]
    nutrients: tuple[Nutrient, ...]
    picture: Picture
    idle: tuple[Document, ...]
    of_tables: tuple[Document, ...]
    """Overrules of figures of the tables, wherever the recipe stands on them."""
    versions: tuple[Heading, ...]
    changes: tuple[Kept, ...]
    verdicts: tuple[SignOff, ...]
    since: tuple[Version, Difference] | None
    method: list[list[Piece]]
    read_steps: list[Document]
    read_assumed: list[tuple[str, str]]

    used: tuple[Used, ...]
    """The recipes that it is made of, at any depth."""
    users: tuple[Heading, ...]
    """The recipes that are made of it."""
    below: Below

    @property
    def parts(self) -> dict[str, Used]:
        """The recipes that are ingredients of this one, by their pointers."""
        return {each.told["pointer"]: each for each in self.used if each.depth == 0}

    @property
    def is_stale(self) -> bool:
        """Whether a recipe that is an ingredient has changed since."""
        return self.is_current and self.versions[0].stale

    @property
    def whole_figures(self) -> list[Document]:
        """The assumptions that belong to no step."""
        return [each for each in self.version.answer["assumptions"] if each["step"] is None]

    @property
    def is_current(self) -> bool:
        return self.version.save_id == self.current.save_id

    @property
    def stops(self) -> int:
        """How many stop notices there are."""
        return stops_of(self.version)

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


_LATEST = 8


def stops_of(version: Version) -> int:
    """How many stop notices a version has."""
    return sum(each["severity"] == "stop" for each in version.answer["notices"])


def page_of(connection: Connection, version: Version, reference_id: str | None = None) -> Page:
    """The page of a version, set against one of its answer's references (its first where none is named)."""
    current = kept.recipes.current(connection, version.key)
    assert current is not None
    references = tuple(version.answer["sodium"]["references"])
    reference = next((each for each in references if each["id"] == reference_id), references[0])
    told = version.overrules
    reading = version.answer.get("reading")
    pointers, traced = ingredient_pointers(version.request), lines(version.answer)
    used = used_by_page(connection, version)
    inner = below(used)
    decide = to_decide.items(version, pointers, traced, inner)
    return Page(
        version=version,
        current=current,
        title=version.request.get("title") or version.key,
        references=references,
        reference=reference,
        scale=_scale(version.answer["sodium"]["per_serving_mg"], reference["limit_mg"]),
        rows=_rows(connection, version, pointers, traced),
        components=tuple(_components(version, told)),
        steps=tuple(_steps(version, told)),
        decide=tuple(decide),
        notices=tuple(to_decide.told(version, decide)),
        nutrients=tuple(_nutrients(version.answer)),
        picture=picture(version.answer["sodium"]["origins"]),
        changes=tuple(kept.override_records.history(connection, version.key)),
        versions=tuple(kept.recipes.history(connection, version.key, limit=_LATEST)),
        idle=tuple(each for each in told if each["pointer"] is None),
        of_tables=tuple(each for each in told if each["kind"] == "figure"),
        verdicts=tuple(kept.recipes.sign_offs_of(connection, version.save_id)),
        since=_since(connection, version),
        method=marked(reading) if reading else [],
        read_steps=read_steps(reading) if reading else [],
        read_assumed=read_assumed(reading) if reading else [],
        used=used,
        users=made_of_this(connection, version.key),
        below=inner,
    )


def _scale(sodium: Mapping[str, float], limit_mg: float) -> Scale:
    top = max(sodium["high"], limit_mg) * 1.08
    places = (100 * mg / top for mg in (sodium["low"], sodium["likely"], sodium["high"], limit_mg))
    return Scale(top, *places)


def _nutrients(answer: Document) -> Iterable[Nutrient]:
    serving = answer["per_serving"]["nutrients"]
    in_100g = (answer["per_100g"] or {}).get("nutrients", {})  # nothing where a serving weighs nothing
    for tag, name in WORDS["nutrients"].items():
        if tag in serving:
            found = in_100g.get(tag)
            yield Nutrient(name, serving[tag]["unit"], serving[tag], found and found["amount"])


def _rows(
    connection: Connection, version: Version, pointers: Sequence[str], traced: Sequence[Line]
) -> tuple[Row, ...]:
    """The ingredients, in the order of the recipe."""
    answer = version.answer
    asked = answer["ingredients"]
    offers = kept.override_records.offers(
        connection, version.key, (line_key(each["line"]) for each in asked if each["line"])
    )
    return tuple(
        Row(
            pointer,
            each["component"],
            each,
            line.listed_mg,
            line.eaten_mg,
            _at(version.overrules, pointer),
            tuple(_worth_offering(offers.get(line_key(each["line"] or ""), ()), version, pointer)),
        )
        for pointer, each, line in zip(pointers, asked, traced, strict=True)
    )


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
            "kind": spoken(step["kind"]),
            "told": step_words(step),
            "food": ", ".join(words[name] for name in food),
            "bath": words[step["bath"]] if step.get("bath") else None,
            "step": step,
            "assumptions": [each for each in mine if is_about_sodium(each)],
            "others": [each for each in mine if not is_about_sodium(each)],
            "overruled": _at(told, pointer),
        }


def _since(connection: Connection, version: Version) -> tuple[Version, Difference] | None:
    """What changed since a reviewer last signed, or else since the version before."""
    older = kept.recipes.latest_signed(connection, version.key, version.number) or kept.recipes.version(
        connection, version.key, version.number - 1
    )
    return None if older is None else (older, compare(older, version))
