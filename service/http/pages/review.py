"""The dietitian's pages: a list of what waits, one page for each save, forms to overrule, sign and send back.

They work without JavaScript; every form carries the token of its session.
"""

from __future__ import annotations

from collections.abc import Container, Mapping, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from flask import Blueprint, g, redirect, render_template, request, url_for
from flask.blueprints import BlueprintSetupState
from werkzeug.exceptions import HTTPException
from werkzeug.wrappers import Response

from ... import store as kept
from ...core.errors import Fault, InvalidRequest, NotFound, StoreUnavailable
from ...foods.food import Food
from ...review.overrides import Overrule, foods_at, targets
from ...store.expectations import DecidedMeanwhile, PreconditionFailed
from ...store.records import Heading, Signature, Verdict, Version
from .. import carrying
from ..problems import problem_of
from ..routes.measurements import keep_of_version
from ..routes.saves import cursor
from ..stores import store, workbench
from . import review_session
from .changing import candidates, sight_of, thing_at
from .form_tokens import masked
from .page_words import MOST_COUNTED, UNTYPED, WORDS
from .queue import Queue, place_in, queue_in, queue_of
from .review_forms import decision_of, foods_of, overrules_of, signature_of
from .review_page import page_of, stops_of
from .review_reading import answered_by
from .trade_words import FIELD_WORDS, component_words
from .trade_words import WORDS as PAGE_WORDS

if TYPE_CHECKING:
    from sqlalchemy import Connection

NO_SUCH_PLACE = "The recipe has no such line, part or step; go back to its page and choose one there."
NOTHING_DECIDED = "Nothing was decided; what you typed is still in the form. Look again, then decide."
ON_A_PAGE = 50
FOUND_FOODS = 12
SHOWN_MOVES = 12

blueprint = Blueprint("review", __name__)
review_session.register(blueprint)

ASKED = {
    "review.show_version": frozenset({"list", "done", "was", "reference"}),
    "review.print_version": frozenset({"list", "reference"}),
    "review.change": frozenset({"list", "at", "query", "searched", "reach", "reason", *FIELD_WORDS})
    | {f"packet_{name}" for name in ("g", *PAGE_WORDS["packet"])},
}
"""What the address of a page may ask for; the list reads its own."""
OF_NO_LIST = ("review.show_list", "review.login", "review.logout")


@blueprint.record_once
def _teach(state: BlueprintSetupState) -> None:
    state.app.jinja_env.globals.update(WORDS)
    state.app.jinja_env.filters["masked"] = masked


@blueprint.before_request
def _know_the_list() -> None:
    """Which list the visitor is going through."""
    on_list = request.endpoint == "review.show_list"
    g.queue = queue_of(request.args) if on_list else queue_in(request.args.get("list", ""))
    known = ASKED.get(request.endpoint or "")
    if known is not None and (unknown := sorted(request.args.keys() - known)):
        named = ", ".join(repr(name[:40]) for name in unknown[:5])
        message = f"The address of this page asks for {named}, which it does not know; take it out."
        raise InvalidRequest([Fault("address", message)])


@blueprint.url_defaults
def _keep_the_list(endpoint: str, values: dict[str, Any]) -> None:
    """Let every address on a page speak of the list that one came from."""
    if endpoint not in OF_NO_LIST and g and g.get("queue") and g.queue.text:
        values.setdefault("list", g.queue.text)


@blueprint.get("/review")
def show_list() -> str | tuple[str, int]:
    """What waits for review, what needs a person first; or what a filter asks for."""
    queue: Queue = g.queue
    wanted = queue.wanted(review_session.visitor().handle)
    shown: dict[str, Any] = {"queue": queue, "done": PAGE_WORDS["done"].get(request.args.get("done", ""))}
    with store().database.read() as connection:
        shown["was"] = _was(connection)
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
        shown = _version_page(connection, version)
    done = PAGE_WORDS["done"].get(request.args.get("done", ""))
    return _page("version", **shown, done=done)


def _version_page(connection: Connection, version: Version) -> dict[str, Any]:
    """All that the page of a version shows, its place in the list with it."""
    page = page_of(connection, version, request.args.get("reference"))
    before, after = _neighbours(connection, version.key)
    words = component_words(version.request)
    return {"page": page, "words": words, "before": before, "next": after, "was": _was(connection)}


def _neighbours(connection: Connection, key: str) -> tuple[Heading | None, Heading | None]:
    """The recipes before and after one in the list that the visitor goes through."""
    wanted = g.queue.wanted(review_session.visitor().handle)
    here = kept.listing.place_of(kept.recipes.history(connection, key, limit=1)[0], wanted.order)
    before = kept.listing.page(connection, wanted, here, 1, back=True)
    after = kept.listing.page(connection, wanted, here, 1)
    return (before[0] if before else None), (after[0] if after else None)


def _was(connection: Connection) -> Heading | None:
    """The version that the page before decided on."""
    name = request.args.get("was", "")
    return kept.recipes.heading(connection, name) if name else None


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
        raise InvalidRequest([Fault("at", NO_SUCH_PLACE)])
    query = form.get("query", "")
    thing = thing_at(version, pointer)
    found = _found(version, query)
    shown: dict[str, Any] = {
        "version": version,
        "pointer": pointer,
        "kind": target.kind,
        "form": {**thing.present, **form},
        "thing": thing,
        "foods": candidates(version, pointer, form.get("food", ""), found),
        "none_found": bool(query.strip()) and not found,
        "reaches": _reaches(version, pointer) if target.kind == "ingredient" else {},
        "words": component_words(version.request),
    }
    action = form.get("action")
    if action == "enter":
        action = "search" if query.strip() and query != form.get("searched") else "try"
    if request.method == "GET" or action == "search":
        return _page("change", **shown)
    try:
        made = overrules_of(version, pointer, form, thing.present, with_reason=action == "keep")
        reached, seen = carrying.reached_by(made, version.key), sight_of(made)
        if action == "keep" and (not reached or form.get("seen") == seen):
            review_session.remember(made[0].reviewer)
            written = workbench().overrule(version.save_id, made)
            carrying.carry(reached, Signature(review_session.actor(), made[0].reviewer))
            return redirect(url_for("review.show_version", name=written.save_id, done="overruled"), 303)
        answer, _ = workbench().preview(version, standing, made)
        moves = list(kept.reaching.moves(workbench(), made, reached[:SHOWN_MOVES]))
    except InvalidRequest as refused:
        return _page("change", **shown, faults=refused.faults), 422
    look_first = action == "keep"
    return _page(
        "change", **shown, tried=answer, reached=len(reached), moves=moves, seen=seen, look_first=look_first
    )


@blueprint.post("/review/<string:name>/answer")
def answer(name: str) -> Response:
    """Answer a question about the method; the answer holds for later saves as long as its sentence stands."""
    version, _ = _current_version(name)
    document = answered_by(version, request.form)
    saved = workbench().save(version.key, document, review_session.actor())
    return redirect(url_for("review.show_version", name=saved.version.save_id, done="answered"), 303)


@blueprint.post("/review/<string:name>/recalculation")
def recalculate(name: str) -> Response:
    """Work a recipe out again, on the recipes in it, the foods and the tables as they are today."""
    version, _ = _current_version(name)
    found = workbench().recalculate(version.key, 0.0)
    if found.fault is not None:
        raise InvalidRequest([Fault("", found.fault)])
    with store().database.read() as connection:
        newest = kept.recipes.current(connection, version.key) or version
    done = "recalculated" if found.moved else "fresh"
    return redirect(url_for("review.show_version", name=newest.save_id, done=done), 303)


@blueprint.post("/review/<string:name>/withdraw")
def withdraw(name: str) -> Response:
    """Take an overrule back."""
    number = request.form.get("overrule", "")
    if not number.isdecimal():
        raise NotFound("overrule", number)
    by = signature_of(request.form)
    version, standing = _current_version(name)
    reached = carrying.reached_by([each for each in standing if each.id == int(number)], version.key)
    written = workbench().withdraw(name, int(number), by)
    carrying.carry(reached, by)
    return redirect(url_for("review.show_version", name=written.save_id, done="withdrawn"), 303)


@blueprint.post("/review/<string:name>/decision")
def decide(name: str) -> str | Response | tuple[str, int]:
    """Sign a version off or send it back, and go on to the next of the list.

    What was typed comes back where it cannot be done: something is missing, or there is a newer version.
    """
    with store().database.read() as connection:
        version = _named(connection, name)
        _, following = _neighbours(connection, version.key)
    verdict: Verdict = "signed" if request.form.get("verdict") == "signed" else "sent_back"
    try:
        missing = [gap["line"] for gap in version.uncounted]
        name_given, note = decision_of(request.form, stops=stops_of(version) > 0, missing=missing)
        review_session.remember(name_given)
        confirmed = {gap["pointer"] for gap in version.uncounted} if verdict == "signed" else ()
        by = Signature(review_session.actor(), name_given)
        seen = request.form.get("seen_verdicts", type=int)
        workbench().decide(version.save_id, verdict, by, note, confirmed, seen_verdicts=seen)
    except InvalidRequest as refused:
        return _again(version, refused.faults), 422
    except PreconditionFailed as newer:
        if newer.current is None:
            raise
        return _again(newer.current, [_newer(newer.current)], ("name", "note")), 412
    except DecidedMeanwhile as decided:
        message = f"{decided} {NOTHING_DECIDED}"
        return _again(version, [Fault("version", message)], ("name", "note")), 412
    told: dict[str, Any] = {"done": verdict, "was": version.save_id}
    if following is None:
        return redirect(url_for("review.show_list", **g.queue.asked, **told), 303)
    return redirect(url_for("review.show_version", name=following.save_id, **told), 303)


def _again(version: Version, faults: Sequence[Fault], fields: Container[str] | None = None) -> str:
    """The page of a version with what was typed, and why it was not done. fields: what of it; None: all."""
    typed = {name: value for name, value in request.form.items() if fields is None or name in fields}
    with store().database.read() as connection:
        shown = _version_page(connection, version)
    return _page("version", **shown, faults=faults, form=typed)


def _newer(version: Version) -> Fault:
    message = (
        f"There is a newer version: {version.saved_by} saved version {version.number} meanwhile, and it is "
        f"shown here. {NOTHING_DECIDED}"
    )
    return Fault("version", message)


@blueprint.post("/review/<string:name>/measure")
def measure(name: str) -> str | Response | tuple[str, int]:
    """Keep what was measured of this version; it is worked out again on the kitchen's own figures."""
    with store().database.read() as connection:
        version = _named(connection, name)
    try:
        learned = keep_of_version(version, request.form)
    except InvalidRequest as refused:
        return _again(version, refused.faults), 422
    with store().database.read() as connection:
        newest = kept.recipes.current(connection, version.key) or version
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
    typed = {name: value for name, value in request.form.items() if name not in UNTYPED and value.strip()}
    detail = error.description if isinstance(error, HTTPException) else str(error)
    if isinstance(error, StoreUnavailable):
        detail = problem_of(error)["detail"]
    return render_template("review/error.html", title=title, detail=detail, newer=newer, typed=typed), status


def _page(name: str, **shown: Any) -> str:
    defaults = {"visitor": review_session.visitor(), "queue": g.queue, "faults": (), "form": {}}
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
        return version, kept.override_records.in_force(connection, version.key)


def _reaches(version: Version, pointer: str) -> dict[str, int]:
    """How many other recipes have the line, and the food, of an ingredient, counted up to MOST_COUNTED."""
    line = targets(version.request)[pointer].line_key
    food = foods_at(version.request, version.answer).get(pointer)
    most = MOST_COUNTED + 1
    with store().database.read() as connection:
        found = {
            "line": kept.listing.count_with(connection, most, line=line) if line else 0,
            "food": kept.listing.count_with(connection, most, food=food) if food else 0,
        }
    return {reach: max(count - 1, 0) for reach, count in found.items()}  # but for this one


def _found(version: Version, words: str) -> list[Food]:
    return foods_of(version).search(words[:200], FOUND_FOODS) if words.strip() else []
