"""One bath as asked: a food, a liquid, a temperature and a time.

Types and ranges are the edge's business; what needs more than one field is checked here.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from ..core.errors import Fault, Faults
from ..curing.agents import CuringSalt, curing_salts
from ..curing.curing_limits import limit_for, product_classes, schemes
from ..diffusion.geometry import BODIES, FLAT
from .brine import KCL_AS_SALT
from .diffusivity import food_classes

_LENGTHS = {"short_cylinder": ("length_cm",), "brick": ("length_cm", "width_cm")}
"""The lengths besides the thickness that a shape needs."""

USUAL_READY_SHARE = 0.80


@dataclass(frozen=True, slots=True)
class BathFood:
    """A food in a bath. thickness_cm: of a sheet or brick, or the diameter.

    water_fraction: 0 to 1, None if not known. untaken_fraction: share that takes up nothing (bone, fat cap,
    skin). open_faces: of a sheet or brick, 1 where one side is shut. weight_after_g: weighed afterwards,
    None if not.
    """

    food_class: str
    weight_g: float
    thickness_cm: float
    shape: str = "sheet"
    length_cm: float | None = None
    width_cm: float | None = None
    water_fraction: float | None = None
    untaken_fraction: float = 0.0
    open_faces: int = 2
    weight_after_g: float | None = None


@dataclass(frozen=True, slots=True)
class BathLiquid:
    """What the bath is made of, in g. The curing salt's own nitrite and salt come on top of the others."""

    water_g: float
    salt_g: float
    nitrite_g: float = 0.0
    nitrate_g: float = 0.0
    sugar_g: float = 0.0
    potassium_chloride_g: float = 0.0
    curing_salt_g: float = 0.0
    curing_salt: CuringSalt | None = None

    @property
    def pickle_g(self) -> float:
        """The whole pickle: water and everything dissolved in it, each weighed once."""
        salts = self.salt_g + self.potassium_chloride_g + self.curing_salt_g
        return self.water_g + salts + self.nitrite_g + self.nitrate_g + self.sugar_g

    @property
    def all_salt_g(self) -> float:
        return self.salt_g + self.curing_salt_g * (self.curing_salt.salt_share if self.curing_salt else 0.0)

    @property
    def all_nitrite_g(self) -> float:
        return self.nitrite_g + self.curing_salt_g * (
            self.curing_salt.nitrite_share if self.curing_salt else 0.0
        )

    @property
    def all_nitrate_g(self) -> float:
        return self.nitrate_g + self.curing_salt_g * (
            self.curing_salt.nitrate_share if self.curing_salt else 0.0
        )

    @property
    def salt_percent(self) -> float:
        """Salt, and potassium chloride as the salt it counts as, in them and water; percent by weight."""
        salt_g = self.all_salt_g + KCL_AS_SALT * self.potassium_chloride_g
        return 100 * salt_g / (salt_g + self.water_g) if salt_g else 0.0


@dataclass(frozen=True, slots=True)
class BathRequest:
    """A food in a bath for a time. pick_up_percent: pickle taken up, of green weight; None if not weighed.

    ready_share: the share of equilibrium at the centre that counts as ready, 0 to 1.
    """

    food: BathFood
    liquid: BathLiquid
    temperature_c: float
    duration_h: float
    product_class: str | None = None
    scheme: str = "us"
    pick_up_percent: float | None = None
    ready_share: float = USUAL_READY_SHARE

    @classmethod
    def from_document(cls, document: Mapping[str, Any]) -> BathRequest:
        """From a document that the schema has passed. Raises InvalidRequest with every fault found."""
        Faults(_faults(document)).refuse()
        return cls(
            food=_food(document["food"]),
            liquid=_liquid(document["bath"]),
            temperature_c=float(document["temperature_c"]),
            duration_h=float(document["duration_h"]),
            product_class=document.get("product_class"),
            scheme=document.get("scheme") or "us",
            pick_up_percent=document.get("pick_up_percent"),
            ready_share=document.get("ready_share") or USUAL_READY_SHARE,
        )


def _food(document: Mapping[str, Any]) -> BathFood:
    given = {key: value for key, value in document.items() if value is not None and key != "class"}
    return BathFood(**{"food_class": document.get("class"), **given})


def _liquid(document: Mapping[str, Any]) -> BathLiquid:
    given = {key: value for key, value in document.items() if value is not None}
    kind = given.pop("curing_salt", None)
    return BathLiquid(**given, curing_salt=curing_salts()[kind] if kind else None)


def _faults(document: Mapping[str, Any]) -> Iterator[Fault]:
    yield from _food_faults(document["food"])
    salts = ("salt_g", "potassium_chloride_g", "curing_salt_g")
    if not any(document["bath"].get(name) for name in ("water_g", *salts)):
        yield Fault("/bath", "The bath holds neither water nor salt; give water_g, or salt_g for a dry cure.")
    kind = document["bath"].get("curing_salt")
    if kind is not None and kind not in curing_salts():
        yield Fault("/bath/curing_salt", _choice("curing salt", kind, curing_salts()))
    if document["bath"].get("curing_salt_g") and kind is None:
        kinds = ", ".join(curing_salts())
        yield Fault("/bath/curing_salt", f"curing_salt_g is given, but not the kind; add one of {kinds}.")
    yield from _cure_faults(document)


def _food_faults(food: Mapping[str, Any]) -> Iterator[Fault]:
    food_class = food.get("class") or food.get("food_class")
    if food_class not in food_classes():
        yield Fault("/food/class", _choice("food class", food_class, food_classes()))
    shape = food.get("shape") or "sheet"
    if shape not in BODIES:
        yield Fault("/food/shape", _choice("shape", shape, BODIES))
        return
    if food.get("open_faces") is not None and shape not in FLAT:
        yield Fault(
            "/food/open_faces", f"A {shape} has no faces; take it out, or take shape {' or '.join(FLAT)}."
        )
    needed = _LENGTHS.get(shape, ())
    for length in ("length_cm", "width_cm"):
        if length in needed and food.get(length) is None:
            yield Fault(f"/food/{length}", f"A {shape} needs its {length}; add it, or take another shape.")
        elif length not in needed and food.get(length) is not None:
            yield Fault(f"/food/{length}", f"A {shape} has no {length}; leave it out, or take shape brick.")


def _cure_faults(document: Mapping[str, Any]) -> Iterator[Fault]:
    scheme, product_class = document.get("scheme") or "us", document.get("product_class")
    if scheme not in schemes():
        yield Fault("/scheme", _choice("scheme", scheme, schemes()))
    elif product_class is not None and product_class not in product_classes(scheme):
        yield Fault("/product_class", _choice("product class", product_class, product_classes(scheme)))
    elif document["bath"]["water_g"] == 0 and _needs_pickle(product_class, scheme):
        yield Fault(
            "/product_class",
            f"{product_class} counts a pickle, but the bath has no water; add water_g, or take a dry class.",
        )
    if document.get("pick_up_percent") is not None and document["food"].get("weight_after_g") is not None:
        yield Fault(
            "/pick_up_percent",
            "Both pick_up_percent and weight_after_g are given; the weights tell it: take one out.",
        )


def _needs_pickle(product_class: str | None, scheme: str) -> bool:
    if product_class is None:
        return False
    return limit_for(product_class, scheme=scheme).method in {"immersion", "pumped"}


def _choice(what: str, found: Any, known: Any) -> str:
    return f"There is no {what} {found!r}; take one of {', '.join(known)}."
