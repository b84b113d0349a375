"""The dietitian's pages: a list of what waits, one page for each save, forms to overrule, sign and send back.

They work without JavaScript; every form carries the token of its session.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from flask import Blueprint, redirect, render_template, request, url_for
from flask.blueprints import BlueprintSetupState
from werkzeug.exceptions import HTTPException
from werkzeug.wrappers import Response

from ... import store as kept
from ...core.errors import InvalidRequest, NotFound, StoreUnavailable
from ...foods.food import Food
from ...lines import read_line
from ...review.overrides import Overrule, at, targets
from ...store.expectations import PreconditionFailed
from ...store.records import Signature, Verdict, Version
from ..problems import problem_of
from ..routes.measurements import keep_of_version
from ..routes.saves import cursor
from ..schemas.saves import MOST_NAME_CHARACTERS, MOST_REASON_CHARACTERS
from ..stores import store, workbench
from . import review_session
from .queue import ONLY_WORDS, ORDER_WORDS, STATUS_WORDS, place_in, queue_of
from .review_forms import decision_of, foods_of, overrules_of, signature_of
from .review_page import (
    FIELD_WORDS,
    PACKET_FIELDS,
    PLACE_WORDS,
    assumption_words,
    component_words,
    milligrams,
    offered,
    page_of,
    quantity,
    signed,
    worded,
)
from .review_reading import answered_by

if TYPE_CHECKING:
    from sqlalchemy import Connection

ON_A_PAGE = 50
FOUND_FOODS = 12

blueprint = Blueprint("review", __name__)
review_session.register(blueprint)

CAUSE_WORDS = {
    "saved": "saved",
    "overruled": "changed by a reviewer",
    "recalculated": "moved by new data",
}
DONE = {
    "signed": "You signed this version off.",
    "sent_back": "You sent this version back.",
    "overruled": "Your change is kept, and the recipe was worked out again. It now waits for a sign-off.",
    "answered": "Your answer is kept, and the recipe was worked out again.",
    "measured": "The measurement is kept, and the recipe was worked out again on the kitchen's own figures.",
    "contradicted": "The measurement is kept. It contradicts the calculation and is not used: see whether "
    "the dish, its weights and the value are right, and if they are, enter it again and say so.",
    "withdrawn": "The change was taken back, and the recipe was worked out again.",
}


WORDS = {
    "about": assumption_words,
    "mg": milligrams,
    "offered": offered,
    "quantity": quantity,
    "signed_mg": signed,
    "worded": worded,
    "FIELD_WORDS": FIELD_WORDS,
    "PACKET_FIELDS": PACKET_FIELDS,
    "ONLY_WORDS": ONLY_WORDS,
    "ORDER_WORDS": ORDER_WORDS,
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
def show_list() -> str | tuple[str, int]:
    """What waits for review, what needs a person first; or what a filter asks for."""
    queue = queue_of(request.args)
    wanted = queue.wanted(review_session.visitor().handle)
    shown: dict[str, Any] = {"queue": queue, "done": DONE.get(request.args.get("done", ""))}
    with store().database.read() as connection:
        shown["counts"] = kept.listing.count_by_status(connection)
        try:
            place, back = place_in(request.args, wanted)
        except InvalidRequest as refused:
            queue = replace(queue, faults=(*queue.faults, *refused.faults))
        if queue.faults:
            return _page("list", **{**shown, "queue": queue}), 422
        found = kept.listing.page(connection, wanted, place, ON_A_PAGE + 1, back=back)
    further = len(found) > ON_A_PAGE
    headings = found[-ON_A_PAGE:] if back else found[:ON_A_PAGE]
    if headings and (further if back else place is not None):
        shown["earlier"] = cursor(headings[0], wanted)
    if headings and (back or further):
        shown["more"] = cursor(headings[-1], wanted)
    return _page("list", headings=headings, **shown)


@blueprint.get("/review/<string:name>")
def show_version(name: str) -> str | Response:
    """One version: what is in a serving, why, and what can be done about it."""
    with store().database.read() as connection:
        version = _named(connection, name)
        if version.save_id != name:
            return redirect(url_for("review.show_version", name=version.save_id), 303)
        page = page_of(connection, version, request.args.get("reference"))
    done = DONE.get(request.args.get("done", ""))
    return _page("version", page=page, done=done, words=component_words(version.request))


@blueprint.get("/review/<string:name>/print")
def print_version(name: str) -> str:
    """One version on paper."""
    with store().database.read() as connection:
        page = page_of(connection, _named(connection, name), request.args.get("reference"))
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
    query = form.get("query", "")
    found = _found(version, query)
    shown: dict[str, Any] = {
        "version": version,
        "pointer": pointer,
        "kind": target.kind,
        "form": form,
        "thing": _thing(version, pointer),
        "foods": [*_foods(version, form, found), *_offered(version, pointer)],
        "none_found": bool(query.strip()) and not found,
        "words": component_words(version.request),
    }
    action = form.get("action")
    if request.method == "GET" or action == "search":
        return _page("change", **shown)
    try:
        made = overrules_of(version, pointer, form, with_reason=action == "keep")
        if action == "keep":
            written = workbench().overrule(version.save_id, made)
            return redirect(url_for("review.show_version", name=written.save_id, done="overruled"), 303)
        answer, _ = workbench().preview(version, standing, made)
    except InvalidRequest as refused:
        return _page("change", **shown, faults=refused.faults), 422
    return _page("change", **shown, tried=answer)


@blueprint.post("/review/<string:name>/answer")
def answer(name: str) -> Response:
    """Answer a question about the method; the answer holds for later saves as long as its sentence stands."""
    version, _ = _current_version(name)
    document = answered_by(version, request.form)
    saved = workbench().save(version.key, document, review_session.actor())
    return redirect(url_for("review.show_version", name=saved.version.save_id, done="answered"), 303)


@blueprint.post("/review/<string:name>/withdraw")
def withdraw(name: str) -> Response:
    """Take an overrule back."""
    number = request.form.get("overrule", "")
    if not number.isdecimal():
        raise NotFound("overrule", number)
    written = workbench().withdraw(name, int(number), signature_of(request.form))
    return redirect(url_for("review.show_version", name=written.save_id, done="withdrawn"), 303)


@blueprint.post("/review/<string:name>/decision")
def decide(name: str) -> str | Response | tuple[str, int]:
    """Sign a version off or send it back."""
    with store().database.read() as connection:
        page = page_of(connection, _named(connection, name))
    verdict = request.form.get("verdict", "")
    try:
        missing = [gap["line"] for gap in page.gaps]
        name_given, note = decision_of(request.form, stops=bool(page.stops), missing=missing)
    except InvalidRequest as refused:
        words = component_words(page.version.request)
        return _page("version", page=page, words=words, faults=refused.faults, form=request.form), 422
    confirmed = {gap["pointer"] for gap in page.gaps} if verdict == "signed" else ()
    review_session.remember(name_given)
    given: Verdict = "signed" if verdict == "signed" else "sent_back"
    workbench().decide(name, given, Signature(review_session.actor(), name_given), note, confirmed)
    return redirect(url_for("review.show_version", name=name, done=verdict), 303)


@blueprint.post("/review/<string:name>/measure")
def measure(name: str) -> str | Response | tuple[str, int]:
    """Keep what was measured of this version; it is worked out again on the kitchen's own figures."""
    with store().database.read() as connection:
        page = page_of(connection, _named(connection, name))
    try:
        learned = keep_of_version(page.version, request.form)
    except InvalidRequest as refused:
        words = component_words(page.version.request)
        return _page("version", page=page, words=words, faults=refused.faults, form=request.form), 422
    with store().database.read() as connection:
        newest = kept.recipes.current(connection, page.version.key) or page.version
    done = "measured" if learned.used else "contradicted"
    return redirect(url_for("review.show_version", name=newest.save_id, done=done), 303)


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
    if isinstance(error, StoreUnavailable):
        detail = problem_of(error)["detail"]
    return render_template("review/error.html", title=title, detail=detail, newer=newer), status


def _page(name: str, **shown: Any) -> str:
    defaults = {"visitor": review_session.visitor(), "faults": (), "form": {}, "place_words": PLACE_WORDS}
    return render_template(f"review/{name}.html", **{**defaults, **shown})


def _named(connection: Connection, name: str) -> Version:
    """The version that a save's id or a calculation's id names. Raises NotFound."""
    found = kept.recipes.by_save_id(connection, name) or kept.recipes.by_calculation_id(connection, name)
    if found is None:
        raise NotFound("saved recipe", name)
    return found


def _current_version(name: str) -> tuple[Version, list[Overrule]]:
    with store().database.read() as connection:
        version = _named(connection, name)
        current = kept.recipes.current(connection, version.key)
        if current is None or current.save_id != version.save_id:
            raise PreconditionFailed(version.key, current)
        return version, kept.override_records.standing(connection, version.key)


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


def _foods(version: Version, form: Mapping[str, str], found: list[Food]) -> list[Food]:
    """The foods to choose from: the one chosen, those of the recipe itself, those that were searched for."""
    foods = foods_of(version)
    chosen = [form["food"]] if form.get("food") in foods else []
    own = [each["code"] for each in version.request.get("custom_foods", ())]
    return [foods.get(code) for code in dict.fromkeys([*chosen, *own])] + found


def _offered(version: Version, pointer: str) -> list[Food]:
    """The foods that the second source was found to have for a line, also since the version was saved."""
    sent = at(version.request, pointer)
    line = sent if isinstance(sent, str) else sent.get("line", "")
    foods = foods_of(version)
    codes = foods.second.offered(read_line(line).food_words) if line else ()
    return [foods.get(code) for code in codes]


def _found(version: Version, words: str) -> list[Food]:
    return foods_of(version).search(words[:200], FOUND_FOODS) if words.strip() else []
