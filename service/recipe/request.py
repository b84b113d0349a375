"""A recipe as asked: components, what is done to them in order, and the wishes of the caller.

Types and ranges are the edge's schemas' business; this module holds the rules that need the whole
document (a step that names a missing component, a bath that is its own food) and names every fault.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, fields
from functools import cached_property, lru_cache
from typing import Any

from ..core.assumptions import StatedFigure
from ..core.errors import Fault, Faults
from ..core.spread import Spread
from ..core.step_kinds import step_kinds
from ..core.tables import is_row
from ..curing.curing_limits import product_classes
from ..diffusion.geometry import FLAT
from ..nutrition.dietary_references import covered
from ..nutrition.reference_amounts import reference_amount
from ..units.nutrient_amounts import in_own_unit
from .ingredients import IngredientRequest, ReadSettings

SHORT_FORM = "recipe"
"""Id of the component that a recipe's own `ingredients` make."""

PLACES = ("eaten", "poured_away", "left_on_tray", "trimmed", "not_eaten", "evaporated", "lost_to_heat")
"""Where things end; no component may have one of these ids."""

MOST_NAMED = 12
"""So many components are named in a message."""

_LENGTHS = {"short_cylinder": ("length_cm",), "brick": ("width_cm", "length_cm")}
_SELDOM_USED = ("pump_percent", "share", "into")
"""Fields that say nothing of most kinds: a kind that does not use one is told which do."""

_INSTEAD = {
    "rinsed": "Give the rinsing a step of its own: kind rinse.",
    "absorption_factor": "Where salt is taken out, no share of the bath's describes it: "
    "state sodium_after_mg_per_100g.",
}
"""What to do with a field that a kind does not use, where there is something better than to list what it
does."""

_ALL = ("index", "kind", "food")


@dataclass(frozen=True, slots=True)
class ComponentRequest:
    """A named group of ingredients. eaten_fraction: 0 to 1, None where the caller did not say."""

    id: str
    ingredients: tuple[IngredientRequest, ...]
    eaten_fraction: float | None
    pointer: str


@dataclass(frozen=True, slots=True)
class StepRequest:
    """One step; weights in g, temperatures in °C, times in h, lengths in cm, None where not stated."""

    index: int
    kind: str
    food: tuple[str, ...]
    bath: str | None = None
    duration_h: float | None = None
    temperature_c: float | None = None
    core_temperature_c: float | None = None
    thickness_cm: float | None = None
    length_cm: float | None = None
    width_cm: float | None = None
    shape: str | None = None
    food_class: str | None = None
    product_class: str | None = None
    scheme: str = "us"
    water_changes: int = 0
    untaken_fraction: float | None = None
    open_faces: int | None = None
    rinsed: bool = False
    weight_before_g: float | None = None
    weight_after_g: float | None = None
    absorption_factor: float | None = None
    yield_fraction: float | None = None
    discarded_g: float | None = None
    pick_up_percent: float | None = None
    sodium_after_mg_per_100g: float | None = None
    pump_percent: float | None = None
    into: str | None = None
    share: float | None = None

    @property
    def pointer(self) -> str:
        return f"/steps/{self.index}"


_OF_SOME_KINDS = tuple(
    (each.name, each.default) for each in fields(StepRequest) if each.name not in (*_ALL, *_SELDOM_USED)
)
"""Fields of a step that some kinds use, each with what it is where it is not stated."""


@dataclass(frozen=True)
class RecipeRequest:
    """A whole recipe. `document` is the JSON it came from, which the answer's id is taken of.

    portion_g: what a portion weighs as served, None where the servings are stated; `servings` is then a
    number to begin with, until it is known what the dish weighs (`calculation.cook_listed`).
    """

    title: str
    servings: float
    components: tuple[ComponentRequest, ...]
    steps: tuple[StepRequest, ...]
    settings: ReadSettings
    document: Mapping[str, Any]
    custom_foods: tuple[Mapping[str, Any], ...] = ()
    own_limits: tuple[Mapping[str, Any], ...] = ()
    own_figures: tuple[StatedFigure, ...] = ()
    audience: str | None = None
    dish_class: str | None = None
    baths: frozenset[str] = field(default=frozenset())
    portion_g: float | None = None

    @classmethod
    def from_document(cls, document: Mapping[str, Any]) -> RecipeRequest:
        """The request that a schema-checked JSON document holds.

        Raises InvalidRequest with every fault found, each with its JSON Pointer.
        """
        components = tuple(_components(document))
        steps = tuple(_step(i, step) for i, step in enumerate(document.get("steps", ())))
        faults = Faults(_component_faults(components))
        faults += _portion_faults(components)
        faults += _step_faults(steps, {c.id for c in components})
        faults += figure_faults(document.get("figures", ()))
        for check, wish in ((covered, "audience"), (reference_amount, "dish_class")):
            with faults.below(""):
                check(document.get(wish))
        faults.refuse()
        return cls(
            title=document.get("title", ""),
            servings=float(document.get("servings", 1.0)),
            components=components,
            steps=steps,
            settings=ReadSettings(**document.get("settings", {})),
            document=document,
            custom_foods=tuple(document.get("custom_foods", ())),
            own_limits=tuple(document.get("own_limits", ())),
            own_figures=tuple(_figures(document)),
            audience=document.get("audience"),
            dish_class=document.get("dish_class"),
            baths=frozenset(step.bath for step in steps if step.bath),
            portion_g=document.get("portion_g"),
        )

    @cached_property
    def is_bath_last(self) -> Mapping[str, bool]:
        """By component, whether the last step that it is in has it as its bath."""
        last: dict[str, bool] = {}
        for step in self.steps:
            last |= dict.fromkeys((*step.food, step.into or ""), False)
            last[step.bath or ""] = True
        return last


def component_label(component: ComponentRequest, request: RecipeRequest) -> str:
    """A component's name for people; nothing where it has none."""
    index = component.pointer.rpartition("/")[2]
    found = request.document["components"][int(index)].get("label") if index.isdecimal() else None
    return found or ""


def eaten_share(component: ComponentRequest, request: RecipeRequest) -> float:
    """The share of a component that is eaten: as stated; else none of a bath, all of anything else.

    A bath that a later step treats as food (a stock that is reduced, say) is taken to be eaten.
    """
    if component.eaten_fraction is not None:
        return component.eaten_fraction
    return 0.0 if request.is_bath_last.get(component.id, False) else 1.0


def _components(document: Mapping[str, Any]) -> Iterator[ComponentRequest]:
    if document.get("ingredients"):
        lines = _ingredients(document["ingredients"])
        yield ComponentRequest(SHORT_FORM, lines, None, "")
    for i, component in enumerate(document.get("components", ())):
        yield ComponentRequest(
            component["id"],
            _ingredients(component["ingredients"]),
            component.get("eaten_fraction"),
            f"/components/{i}",
        )


def _ingredients(asked: Sequence[str | Mapping[str, Any]]) -> tuple[IngredientRequest, ...]:
    return tuple(
        IngredientRequest(line=each) if isinstance(each, str) else IngredientRequest(**each) for each in asked
    )


def _step(index: int, step: Mapping[str, Any]) -> StepRequest:
    stated = {key: value for key, value in step.items() if value is not None}
    if "sodium_after_mg_per_100g" in stated:
        stated["sodium_after_mg_per_100g"] = in_own_unit("NA", stated["sodium_after_mg_per_100g"])
    food = stated.pop("food", ())
    return StepRequest(index=index, food=(food,) if isinstance(food, str) else tuple(food), **stated)


def _figures(document: Mapping[str, Any]) -> Iterator[StatedFigure]:
    for i, each in enumerate(document.get("figures", ())):
        likely = each["likely"]
        value = Spread(each.get("low", likely), likely, each.get("high", likely))
        yield StatedFigure(each["row"], each.get("of", ""), value, f"/figures/{i}")


def figure_faults(figures: Iterable[Mapping[str, Any]], *pointers: str) -> Iterator[Fault]:
    """What is wrong with a caller's own figures: a row that the tables lack, or no range.

    pointers: of each figure; by their places in a recipe where none are given.
    """
    for i, each in enumerate(figures):
        pointer = pointers[i] if pointers else f"/figures/{i}"
        if not is_row(each["row"]):
            yield Fault(f"{pointer}/row", f"The tables have no row {each['row']!r}; see /method for all.")
        if not each.get("low", each["likely"]) <= each["likely"] <= each.get("high", each["likely"]):
            yield Fault(pointer, "A figure's low, likely and high must rise in that order.")


def _component_faults(components: Sequence[ComponentRequest]) -> Iterator[Fault]:
    if not any(component.ingredients for component in components):
        yield Fault("", "The recipe has no ingredients; give at least one line in ingredients or components.")
    seen: set[str] = set()
    for component in components:
        if component.id in seen:
            yield Fault(f"{component.pointer}/id", f"The id {component.id!r} is used twice; ids are unique.")
        if component.id in PLACES:
            yield Fault(
                f"{component.pointer}/id",
                f"The id {component.id!r} is kept for a place where things end; choose another.",
            )
        seen.add(component.id)


def _portion_faults(components: Sequence[ComponentRequest]) -> Iterator[Fault]:
    for component in components:
        for i, each in enumerate(component.ingredients):
            stated = [each.grams, each.servings, each.fraction]
            given = len(stated) - stated.count(None)
            pointer = f"{component.pointer}/ingredients/{i}"
            if each.recipe is None and (each.servings is not None or each.fraction is not None):
                yield Fault(pointer, "Servings and fraction say how much of a saved recipe; give its recipe.")
            elif each.recipe is not None and given == 0:
                yield Fault(pointer, "A recipe as an ingredient needs one of grams, servings, fraction.")


def _step_faults(steps: Sequence[StepRequest], known: set[str]) -> Iterator[Fault]:
    for step in steps:
        yield from _name_faults(step, known)
        yield from _own_faults(step)


@lru_cache(maxsize=1024)
def _own_faults(step: StepRequest) -> tuple[Fault, ...]:
    """What is wrong with a step whatever else is in the recipe; most steps come again with every save."""
    rules = (
        _bath_faults,
        _field_faults,
        _own_brine_faults,
        _unused_faults,
        _shape_faults,
        _cure_faults,
        _measure_faults,
        _share_faults,
    )
    return tuple(fault for rule in rules for fault in rule(step))


def _name_faults(step: StepRequest, known: set[str]) -> Iterator[Fault]:
    stated = [("food", name) for name in step.food] + [("bath", step.bath), ("into", step.into)]
    listed = ", ".join(sorted(known)[:MOST_NAMED]) + (", …" if len(known) > MOST_NAMED else "") or "none"
    for field_name, name in stated:
        if name is not None and name not in known:
            pointer = f"{step.pointer}/{field_name}"
            yield Fault(pointer, f"There is no component {name!r}; the recipe has: {listed}.")
    if not step.food:
        yield Fault(f"{step.pointer}/food", f"{_a(step.kind)} step needs food: the id of a component.")
    if len(set(step.food)) < len(step.food):
        yield Fault(f"{step.pointer}/food", "A component is named twice; name each once.")


def _bath_faults(step: StepRequest) -> Iterator[Fault]:
    its_bath = step_kinds()[step.kind].bath
    if step.bath is None and its_bath:
        yield Fault(
            f"{step.pointer}/bath",
            f"{_a(step.kind)} step needs bath: the id of the component that is {its_bath}.",
        )
    if step.bath is not None and step.bath in step.food:
        yield Fault(f"{step.pointer}/bath", f"{step.bath!r} cannot be its own bath; name two components.")


def _share_faults(step: StepRequest) -> Iterator[Fault]:
    """A share of a bath where no bath is named; kinds that cannot be without one say so themselves."""
    kind = step_kinds()[step.kind]
    if step.absorption_factor is not None and step.bath is None and "bath" in kind.uses and not kind.bath:
        message = (
            "absorption_factor is a share of what the bath holds, and no bath is named; name it in bath."
        )
        yield Fault(f"{step.pointer}/absorption_factor", message)


def _a(kind: str) -> str:
    return f"{'An' if kind[0] in 'aeiou' else 'A'} {kind}"


def _unused_faults(step: StepRequest) -> Iterator[Fault]:
    used = step_kinds()[step.kind].uses
    for name, default in _OF_SOME_KINDS:
        if name not in used and getattr(step, name) != default:
            known = f"It uses {', '.join(sorted(used))}."
            message = f"{_a(step.kind)} step does not use {name}; take it out. "
            yield Fault(f"{step.pointer}/{name}", message + _INSTEAD.get(name, known))


def _field_faults(step: StepRequest) -> Iterator[Fault]:
    for name in _SELDOM_USED:
        if getattr(step, name) is not None and name not in step_kinds()[step.kind].uses:
            where = ", ".join(kind.name for kind in step_kinds().values() if name in kind.uses)
            message = f"{_a(step.kind)} step does not use {name}; take it out. It belongs to {where}."
            yield Fault(f"{step.pointer}/{name}", message)
    if step.kind in ("combine", "divide") and step.into is None:
        message = f"{_a(step.kind)} step needs into: the id of the component that it goes to."
        yield Fault(f"{step.pointer}/into", message)
    if step.kind == "divide" and step.share is None:
        yield Fault(f"{step.pointer}/share", "A divide step needs share: how much of it goes, 0 to 1.")
    if step.kind == "ferment" and step.bath is not None and step.into is not None:
        message = "In a brine (bath) no other is made; take into out, or bath where the food makes its own."
        yield Fault(f"{step.pointer}/into", message)
    if step.into is not None and step.into in (*step.food, step.bath):
        yield Fault(f"{step.pointer}/into", f"{step.into!r} cannot go into itself; name another component.")


def _own_brine_faults(step: StepRequest) -> Iterator[Fault]:
    """What is measured of a ferment whose brine stays with it: nothing can have left it."""
    if step.kind != "ferment" or step.bath is not None or step.into is not None:
        return
    for name in ("weight_after_g", "yield_fraction", "pick_up_percent", "sodium_after_mg_per_100g"):
        if getattr(step, name) is not None:
            message = (
                f"Without bath or into all of the brine stays with the food, and {name} would tell nothing; "
                "name in into where the brine goes, or take it out."
            )
            yield Fault(f"{step.pointer}/{name}", message)


def _shape_faults(step: StepRequest) -> Iterator[Fault]:
    missing = [name for name in _LENGTHS.get(step.shape or "", ()) if getattr(step, name) is None]
    if missing:
        yield Fault(f"{step.pointer}/shape", f"A {step.shape} needs {' and '.join(missing)} as well.")
    if step.open_faces is not None and step.shape is not None and step.shape not in FLAT:
        message = f"A {step.shape} has no faces; take open_faces out, or take shape {' or '.join(FLAT)}."
        yield Fault(f"{step.pointer}/open_faces", message)


def _cure_faults(step: StepRequest) -> Iterator[Fault]:
    known = product_classes(step.scheme)
    if step.product_class is not None and step.product_class not in known:
        yield Fault(
            f"{step.pointer}/product_class",
            f"The scheme {step.scheme!r} has no product class {step.product_class!r}; take one of "
            f"{', '.join(known)}.",
        )


def _measure_faults(step: StepRequest) -> Iterator[Fault]:
    wanted = step_kinds()[step.kind].needs
    if wanted and all(getattr(step, name) is None for name in wanted):
        yield Fault(step.pointer, f"{_a(step.kind)} step needs one of {', '.join(wanted)}: weigh it.")
    if len(step.food) > 1 and any(
        getattr(step, name) is not None for name in ("weight_before_g", "weight_after_g", "discarded_g")
    ):
        yield Fault(
            f"{step.pointer}/food",
            "A weight belongs to one piece of food; give each component a step of its own.",
        )
