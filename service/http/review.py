"""The dietitian's pages: a list of what waits, one page for each save, forms to overrule, sign and send back.

They work without JavaScript; every form carries the token of its session.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Any

from flask import Blueprint, redirect, render_template, request, url_for
from flask.blueprints import BlueprintSetupState
from sqlalchemy import Connection
from werkzeug.exceptions import HTTPException
from werkzeug.wrappers import Response

from ..errors import Fault, InvalidRequest, NotFound
from ..foods.dataset import bundled
from ..review.overrules import FIELDS, Overrule, at, targets
from ..store import overrules, recipes
from ..store.database import StoreUnavailable
from ..store.recipes import Version, Wanted
from ..store.saving import PreconditionFailed
from . import review_session
from .review_page import (
    FIELD_WORDS,
    PLACE_WORDS,
    assumption_words,
    component_words,
    milligrams,
    page_of,
    quantity,
    signed,
    worded,
)
from .reviews import SHARES, overrule_of
from .saves import cursor, place_of
from .schemas.saves import MOST_NAME_CHARACTERS, MOST_REASON_CHARACTERS
from .stores import store, workbench

ON_A_PAGE = 50
FOUND_FOODS = 12

blueprint = Blueprint("review", __name__)
review_session.register(blueprint)

STATUS_WORDS = {"open": "Waits for review", "signed": "Signed off", "sent_back": "Sent back"}
CAUSE_WORDS = {
    "saved": "saved",
    "overruled": "changed by a reviewer",
    "recalculated": "moved by new data",
}
DONE = {
    "signed": "You signed this version off.",
    "sent_back": "You sent this version back.",
    "overruled": "Your change is kept, and the recipe was worked out again. It now waits for a sign-off.",
    "withdrawn": "The change was taken back, and the recipe was worked out again.",
}


WORDS = {
    "about": assumption_words,
    "mg": milligrams,
    "quantity": quantity,
    "signed_mg": signed,
    "worded": worded,
    "FIELD_WORDS": FIELD_WORDS,
    "STATUS_WORDS": STATUS_WORDS,
    "CAUSE_WORDS": CAUSE_WORDS,
    "MOST_REASON": MOST_REASON_CHARACTERS,
    "MOST_NAME": MOST_NAME_CHARACTERS,
}
"""What every template of the pages knows, the parts they share too."""


@blueprint.record_once
def _teach(state: BlueprintSetupState) -> None:
    state.app.jinja_env.globals.update(WORDS)


@blueprint.get("/review")
def show_list() -> str:
    """What waits for review, the most sodium a serving first."""
    status = request.args.get("status", "open")
    above = _number(request.args.get("above_mg"))
    wanted = Wanted(status if status in STATUS_WORDS else None, above, "sodium")  # type: ignore[arg-type]
    after = place_of(request.args["after"]) if request.args.get("after") else None
    with store().database.read() as connection:
        found = recipes.listing(connection, wanted, after, ON_A_PAGE + 1)
        counts = recipes.count_by_status(connection)
    more = cursor(found[ON_A_PAGE - 1]) if len(found) > ON_A_PAGE else None
    return _page(
        "list",
        headings=found[:ON_A_PAGE],
        more=more,
        counts=counts,
        status=status,
        above_mg=request.args.get("above_mg"),
    )


@blueprint.get("/review/<string:name>")
def show_version(name: str) -> str | Response:
    """One version: what is in a serving, why, and what can be done about it."""
    with store().database.read() as connection:
        version = _found(connection, name)
        if version.save_id != name:
            return redirect(url_for("review.show_version", name=version.save_id), 303)
        page = page_of(connection, version, request.args.get("reference"))
    done = DONE.get(request.args.get("done", ""))
    return _page("version", page=page, done=done, words=component_words(version.request))


@blueprint.get("/review/<string:name>/print")
def print_version(name: str) -> str:
    """One version on paper."""
    with store().database.read() as connection:
        page = page_of(connection, _found(connection, name), request.args.get("reference"))
    return _page("printed", page=page, words=component_words(page.version.request))


@blueprint.route("/review/<string:name>/change", methods=["GET", "POST"])
def change(name: str) -> str | Response | tuple[str, int]:
    """Change what the service took something to be; see what comes of it; keep it."""
    version, standing = _current_version(name)
    form: Mapping[str, str] = request.form if request.method == "POST" else request.args
    pointer = form.get("at", "")
    target = targets(version.request).get(pointer)
    if target is None:
        raise NotFound("place in the recipe", pointer)
    shown: dict[str, Any] = {
        "version": version,
        "pointer": pointer,
        "kind": target.kind,
        "form": form,
        "thing": _thing(version, pointer),
        "found": _search(form.get("query", "")),
        "words": component_words(version.request),
    }
    action = form.get("action")
    if request.method == "GET" or action == "search":
        return _page("change", **shown)
    try:
        made = _overrules(version, pointer, form, with_reason=action == "keep")
        if action == "keep":
            written = workbench().overrule(version.save_id, made)
            return redirect(url_for("review.show_version", name=written.save_id, done="overruled"), 303)
        answer, _ = workbench().preview(version, standing, made)
    except InvalidRequest as refused:
        return _page("change", **shown, faults=refused.faults), 422
    return _page("change", **shown, tried=answer)


@blueprint.post("/review/<string:name>/withdraw")
def withdraw(name: str) -> Response:
    """Take an overrule back."""
    number = request.form.get("overrule", "")
    if not number.isdecimal():
        raise NotFound("overrule", number)
    written = workbench().withdraw(name, int(number), _signature(request.form))
    return redirect(url_for("review.show_version", name=written.save_id, done="withdrawn"), 303)


@blueprint.post("/review/<string:name>/decision")
def decide(name: str) -> str | Response | tuple[str, int]:
    """Sign a version off or send it back."""
    with store().database.read() as connection:
        page = page_of(connection, _found(connection, name))
    verdict = request.form.get("verdict", "")
    try:
        name_given, note = _decision(request.form, stops=bool(page.stops))
    except InvalidRequest as refused:
        words = component_words(page.version.request)
        return _page("version", page=page, words=words, faults=refused.faults, form=request.form), 422
    workbench().decide(name, "signed" if verdict == "signed" else "sent_back", name_given, note)
    return redirect(url_for("review.show_version", name=name, done=verdict), 303)


@blueprint.errorhandler(Exception)
def _told(error: Exception) -> tuple[str, int]:
    """An error as a page."""
    match error:
        case NotFound():
            status, title = 404, "Not here"
        case PreconditionFailed():
            status, title = 412, "There is a newer version"
        case InvalidRequest():
            status, title = 422, "This cannot be done as it stands"
        case StoreUnavailable():
            status, title = 503, "Not available just now"
        case HTTPException():
            status, title = error.code or 500, error.name
        case _:
            raise error
    newer = error.current if isinstance(error, PreconditionFailed) else None
    detail = error.description if isinstance(error, HTTPException) else str(error)
    return render_template("review/error.html", title=title, detail=detail, newer=newer), status


def _page(name: str, **shown: Any) -> str:
    defaults = {"visitor": review_session.visitor(), "faults": (), "form": {}, "place_words": PLACE_WORDS}
    return render_template(f"review/{name}.html", **{**defaults, **shown})


def _found(connection: Connection, name: str) -> Version:
    """The version that a save's id or a calculation's id names. Raises NotFound."""
    found = recipes.by_save_id(connection, name) or recipes.by_calculation_id(connection, name)
    if found is None:
        raise NotFound("saved recipe", name)
    return found


def _current_version(name: str) -> tuple[Version, list[Overrule]]:
    with store().database.read() as connection:
        version = _found(connection, name)
        current = recipes.current(connection, version.key)
        if current is None or current.save_id != version.save_id:
            raise PreconditionFailed(version.key, current)
        return version, overrules.standing(connection, version.key)


def _thing(version: Version, pointer: str) -> dict[str, Any]:
    """What stands at a pointer: as sent, and as the answer took it where it is an ingredient."""
    sent = at(version.request, pointer)
    with store().database.read() as connection:
        page = page_of(connection, version)
    for row in page.rows:
        if row.pointer == pointer:
            return {"sent": sent, "row": row}
    for each in (*page.components, *page.steps):
        if each["pointer"] == pointer:
            return {"sent": sent, **each}
    return {"sent": sent}


def _search(words: str) -> list[Any]:
    return list(bundled().search(words[:200], FOUND_FOODS)) if words.strip() else []


def _overrules(
    version: Version, pointer: str, form: Mapping[str, str], *, with_reason: bool
) -> list[Overrule]:
    """The overrules that a filled-in form makes. Raises InvalidRequest, each fault at the field's name."""
    kind = targets(version.request)[pointer].kind
    faults: list[Fault] = []
    values: dict[str, str | float] = {}
    for field in FIELDS[kind]:
        given = _said(form, field)
        if not given:
            continue
        try:
            values[field] = given if field == "food" else _amount(field, given)
        except ValueError as fault:
            faults.append(Fault(field, str(fault)))
    reason = _said(form, "reason")
    name = review_session.visitor().name or _said(form, "name")
    if with_reason:
        faults += [
            *_too_much("reason", reason, MOST_REASON_CHARACTERS, "Say why, for those who come after you.")
        ]
        faults += [*_too_much("name", name, MOST_NAME_CHARACTERS, "Give your name.")]
    if not values and not faults:
        faults.append(Fault("values", "Nothing is changed yet; choose a food or write a figure."))
    if "food" in values and values["food"] not in bundled():
        faults.append(Fault("food", f"There is no food {values['food']!r}; choose one from the list."))
    if faults:
        raise InvalidRequest(faults)
    asked = {"pointer": pointer, "reason": reason, "reviewer": name}
    return [
        overrule_of(version, {**asked, "field": field, "value": value}) for field, value in values.items()
    ]


def _amount(field: str, given: str) -> float:
    """A figure of a form; shares are written in percent. Raises ValueError in words."""
    value = _number(given)
    if value is None:
        raise ValueError(f"Found {given[:20]!r}, wanted a number of 0 or more.")
    if field in SHARES and value > 100:
        raise ValueError(f"Found {value:g} %, wanted 0 to 100.")
    if field == "grams" and value > 10_000_000:
        raise ValueError("That is more than ten tonnes.")
    return value / 100 if field in SHARES or field == "yield_fraction" else value


def _said(form: Mapping[str, str], field: str) -> str:
    """What was written in a field, without what cannot be seen."""
    return "".join(each for each in form.get(field, "") if each.isprintable() or each == "\n").strip()


def _number(given: str | None) -> float | None:
    try:
        value = float((given or "").strip().replace(",", "."))
    except ValueError:
        return None
    return value if math.isfinite(value) and value >= 0 else None


def _decision(form: Mapping[str, str], *, stops: bool) -> tuple[str, str]:
    name = review_session.visitor().name or _said(form, "name")
    note = _said(form, "note")
    faults = [*_too_much("name", name, MOST_NAME_CHARACTERS, "Give the name that stands under this.")]
    faults += [*_too_much("note", note or "-", MOST_REASON_CHARACTERS, "")]
    if form.get("verdict") not in ("signed", "sent_back"):
        faults.append(Fault("verdict", "Choose to sign off or to send back."))
    if form.get("verdict") == "sent_back" and not note:
        faults.append(Fault("note", "Say what is to be corrected."))
    if form.get("verdict") == "signed" and stops and not form.get("read_stops"):
        faults.append(Fault("read_stops", "There are stop notices; confirm that you have dealt with them."))
    if faults:
        raise InvalidRequest(faults)
    return name, note


def _too_much(field: str, text: str, most: int, missing: str) -> list[Fault]:
    if not text:
        return [Fault(field, missing)]
    return [Fault(field, f"At most {most} characters; shorten it.")] if len(text) > most else []


def _signature(form: Mapping[str, str]) -> str:
    return review_session.visitor().name or _said(form, "name")[:MOST_NAME_CHARACTERS] or "a reviewer"
