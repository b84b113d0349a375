"""Who is at the review pages: login, session cookie, and the token that every form carries.

Where nobody was ever added as a reviewer and no key was ever made, a browser on the service's own machine
comes in without a login and signs by the name it gives. Everybody else needs one.
"""

from __future__ import annotations

import hmac
import secrets
from dataclasses import dataclass
from typing import TYPE_CHECKING
from urllib.parse import urlsplit

from flask import Blueprint, Response, g, make_response, redirect, render_template, request, url_for
from werkzeug.exceptions import Forbidden
from werkzeug.wrappers import Response as AnyResponse

from .. import store as kept
from ..review.chain import Actor
from . import auth
from .stores import store

if TYPE_CHECKING:
    from ..store.reviewers import Session

LOGIN_COOKIE = "saltledger-login"


@dataclass(frozen=True, slots=True)
class Visitor:
    """Who is here. name: what they sign with, None where they are asked for it. login: None without one."""

    name: str | None
    login: str | None
    form_token: str


def register(blueprint: Blueprint) -> None:
    """Let only those in to a blueprint's pages who may review, and take only its own forms."""
    blueprint.before_request(_admit)
    blueprint.after_request(_own_headers)
    blueprint.add_url_rule("/review/login", "login", _login, methods=["GET", "POST"])
    blueprint.add_url_rule("/review/logout", "logout", _logout, methods=["POST"])


def visitor() -> Visitor:
    """Who is at the page that is being made."""
    found: Visitor = g.visitor
    return found


def actor() -> Actor:
    """Who is at the page, as it goes on record."""
    here = visitor()
    return Actor("login", here.login, here.name or "") if here.login else Actor("local")


def _admit() -> AnyResponse | None:
    if request.method == "POST":
        _check_origin()
    if request.endpoint == "review.login":
        return None
    session = _session()
    if session is None:
        if not _needs_no_login():
            return redirect(url_for("review.login", next=_here()), 303)
        session = _come_in()
    g.visitor = _visitor(session)
    if request.method == "POST":
        _check_form(session.form_token)
    return None


def _visitor(session: Session) -> Visitor:
    reviewer = session.reviewer
    if reviewer is None:
        return Visitor(None, None, session.form_token)
    return Visitor(reviewer.name, reviewer.login, session.form_token)


def _needs_no_login() -> bool:
    if not auth.is_open_at_home():
        return False
    with store().database.read() as connection:
        return not kept.reviewers.any_made(connection)


def _session() -> Session | None:
    token = request.cookies.get(_cookie_name())
    if not token:
        return None
    with store().database.read() as connection:
        found = kept.reviewers.session(connection, token)
    # A session without a login ends when a login becomes needed.
    return found if found is None or found.reviewer is not None or _needs_no_login() else None


def _come_in() -> Session:
    with store().database.write() as connection:
        token = kept.reviewers.open_session(connection)
        session = kept.reviewers.session(connection, token)
    assert session is not None
    g.new_session = token
    return session


def _login() -> AnyResponse:
    fault = None
    if request.method == "POST":
        if not _same(request.form.get("form_token"), request.cookies.get(LOGIN_COOKIE)):
            raise Forbidden(
                "The login form was not sent from this page. Open it again; cookies must be allowed."
            )
        login, password = request.form.get("login", ""), request.form.get("password", "")
        token = kept.reviewers.log_in(store().database, login, password)
        if token is not None:
            g.new_session = token
            return redirect(_safe(request.form.get("next")), 303)
        fault = "That login and password do not belong together. After five tries, wait half a minute."
    with store().database.read() as connection:
        nobody = not kept.reviewers.any_active(connection)
    form_token = secrets.token_urlsafe(24)
    page = render_template(
        "review/login.html",
        fault=fault,
        nobody=nobody,
        form_token=form_token,
        next=_safe(request.args.get("next")),
    )
    response = make_response(page, 200 if fault is None else 403)
    response.set_cookie(LOGIN_COOKIE, form_token, secure=request.is_secure, httponly=True, samesite="Strict")
    return response


def _logout() -> AnyResponse:
    token = request.cookies.get(_cookie_name(), "")
    with store().database.write() as connection:
        kept.reviewers.log_out(connection, token)
    response = redirect(url_for("review.login"), 303)
    response.delete_cookie(_cookie_name(), secure=request.is_secure, httponly=True, samesite="Lax")
    return response


def _own_headers(response: Response) -> Response:
    response.headers["Cache-Control"] = "no-store"
    # Forms must say where they come from, to this service and no other.
    response.headers["Referrer-Policy"] = "same-origin"
    token = g.pop("new_session", None)
    if token is not None:
        response.set_cookie(
            _cookie_name(),
            token,
            max_age=kept.reviewers.SESSION_HOURS * 3600,
            secure=request.is_secure,
            httponly=True,
            samesite="Lax",
        )
    return response


def _cookie_name() -> str:
    """Under https a name that browsers keep to this host and to encrypted connections."""
    return "__Host-saltledger" if request.is_secure else "saltledger"


def _check_origin() -> None:
    origin = request.headers.get("Origin")
    if origin is not None and urlsplit(origin).netloc != request.host:
        raise Forbidden("This form was sent from another site.")


def _check_form(form_token: str) -> None:
    if not _same(request.form.get("form_token"), form_token):
        raise Forbidden("This form is out of date or was not sent from its page. Open the page again.")


def _same(given: str | None, wanted: str | None) -> bool:
    return bool(given and wanted) and hmac.compare_digest(str(given).encode(), str(wanted).encode())


def _here() -> str:
    return request.full_path.rstrip("?") if request.method == "GET" else url_for("review.show_list")


def _safe(target: str | None) -> str:
    """A page of ours to go on to; never another site's."""
    path = target or ""
    return path if path.startswith("/review") and "//" not in path and "\\" not in path else "/review"
