"""What was written in the forms of the review pages, read strictly; what cannot stand is told in words."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from typing import Any, get_args

from ...core.errors import Fault, Faults, InvalidRequest
from ...core.numbers import shown
from ...foods.dataset import FoodTable
from ...nutrition.stated import stated_food
from ...recipe.packets import custom_foods
from ...review.overrides import FIELDS, PACKET, Overrule, Reach, foods_at, targets
from ...store.records import Signature, Version
from .. import known_foods
from ..routes.reviews import SHARES, overrule_of
from ..schemas.saves import MOST_NAME_CHARACTERS, MOST_REASON_CHARACTERS
from . import review_session
from .trade_words import WORDS

HEAVIEST_G = 10_000_000


def foods_of(version: Version) -> FoodTable:
    """The foods that a recipe may name: the dataset's, and its own."""
    return known_foods.foods().with_custom(custom_foods(version.request.get("custom_foods", ())))


def overrules_of(
    version: Version, pointer: str, form: Mapping[str, str], present: Mapping[str, str], *, with_reason: bool
) -> list[Overrule]:
    """The overrules that a filled-in form makes; what says what is there already (`present`) makes none.

    Raises InvalidRequest, each fault at the field's name.
    """
    kind = targets(version.request)[pointer].kind
    faults = Faults()
    values: dict[str, Any] = {}
    names = [f"packet_{name}" for name in WORDS["packet"]]
    changed = any(_said(form, name) != present.get(name, "") for name in names)
    if kind == "ingredient" and changed and (packet := _packet(form, faults)):
        values[PACKET] = packet
    for field in FIELDS[kind]:
        given = _said(form, field)
        if not given or given == present.get(field):
            continue
        try:
            values[field] = given if field == "food" else _amount(field, given)
        except ValueError as fault:
            faults.add(field, str(fault))
    reason = _said(form, "reason")
    name = review_session.visitor().name or _said(form, "name")
    if with_reason:
        faults += _too_much(
            "reason", reason, MOST_REASON_CHARACTERS, "Say why, for those who come after you."
        )
        faults += _too_much("name", name, MOST_NAME_CHARACTERS, "Give your name.")
    if not values and not faults:
        faults.add("values", "Nothing is changed yet; choose a food or write a figure.")
    if "food" in values and values["food"] not in foods_of(version):
        faults.add("food", f"There is no food {values['food']!r}; choose one from the list.")
    faults.refuse()
    reach = form.get("reach") or "recipe"
    if reach not in get_args(Reach):
        raise InvalidRequest([Fault("reach", "Choose where the change holds.")])
    asked = {"pointer": pointer, "reason": reason, "reviewer": name, "reach": reach}
    aims, foods = targets(version.request), foods_at(version.request, version.answer)
    return [
        overrule_of(aims, {**asked, "field": field, "value": value}, review_session.actor(), "", foods)
        for field, value in values.items()
    ]


def _packet(form: Mapping[str, str], faults: Faults) -> dict[str, float]:
    """What was copied from a packet, made into 100 g; faults are added at the fields' names."""
    written = {name: given for name in WORDS["packet"] if (given := _said(form, f"packet_{name}"))}
    size = number_of(_said(form, "packet_g") or "100")
    if written and not size:
        faults.add("packet_g", "Write the weight in g that the packet's figures are for, above 0.")
        return {}
    stated: dict[str, float] = {}
    for name, given in written.items():
        value = number_of(given)
        if value is None:
            faults.add(f"packet_{name}", f"Found {given[:20]!r}, wanted a number of 0 or more.")
        else:
            stated[name] = float(f"{value * 100 / (size or 100):.6g}")
    try:
        stated_food(stated)
    except InvalidRequest as refused:
        faults += [
            Fault(f"packet{fault.pointer.replace('/', '_')}", fault.message) for fault in refused.faults
        ]
    return stated


def _amount(field: str, given: str) -> float:
    """A figure of a form; shares are written in percent. Raises ValueError in words."""
    value = number_of(given)
    if value is None:
        raise ValueError(f"Found {given[:20]!r}, wanted a number of 0 or more.")
    if field in SHARES and value > 100:
        raise ValueError(f"Found {shown(value, 6)} %, wanted 0 to 100.")
    if field == "grams" and value > HEAVIEST_G:
        raise ValueError("That is more than ten tonnes.")
    return value / 100 if field in SHARES or field == "yield_fraction" else value


def _said(form: Mapping[str, str], field: str) -> str:
    """What was written in a field, without what cannot be seen."""
    return "".join(each for each in form.get(field, "") if each.isprintable() or each == "\n").strip()


def number_of(given: str | None) -> float | None:
    """A number of 0 or more as people write it, with a point or a comma; None where it is none."""
    try:
        value = float((given or "").strip().replace(",", "."))
    except ValueError:
        return None
    return value if math.isfinite(value) and value >= 0 else None


def decision_of(form: Mapping[str, str], *, stops: bool, missing: Sequence[str] = ()) -> tuple[str, str]:
    """Name and note of a verdict. stops: whether there are stop notices; missing: lines that were not
    counted. Raises InvalidRequest, each fault at the field's name."""
    name = review_session.visitor().name or _said(form, "name")
    note = _said(form, "note")
    faults = Faults(_too_much("name", name, MOST_NAME_CHARACTERS, "Give the name that stands under this."))
    faults += _too_much("note", note or "-", MOST_REASON_CHARACTERS, "")
    if form.get("verdict") not in ("signed", "sent_back"):
        faults.add("verdict", "Choose to sign off or to send back.")
    if form.get("verdict") == "sent_back" and not note:
        faults.add("note", "Say what is to be corrected.")
    if form.get("verdict") == "signed" and stops and not form.get("read_stops"):
        faults.add("read_stops", "There are stop notices; confirm that you have dealt with them.")
    if form.get("verdict") == "signed" and missing and not form.get("read_missing"):
        named = "; ".join(missing)
        message = f"The sodium is incomplete; confirm that you sign it without: {named}."
        faults.add("read_missing", message)
    faults.refuse()
    return name, note


def _too_much(field: str, text: str, most: int, missing: str) -> list[Fault]:
    if not text:
        return [Fault(field, missing)]
    return [Fault(field, f"At most {most} characters; shorten it.")] if len(text) > most else []


def signature_of(form: Mapping[str, str]) -> Signature:
    """Who acts, where a form does not insist on a name."""
    name = review_session.visitor().name or _said(form, "name")[:MOST_NAME_CHARACTERS] or "a reviewer"
    return Signature(review_session.actor(), name)
