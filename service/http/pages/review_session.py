"""Who is at the review pages: login, session cookie, and the token that every form carries.

Where nobody was ever added as a reviewer and no key was ever made, a browser on the service's own machine
comes in without a login and signs by the name it gives. Everybody else needs one.
"""

from __future__ import annotations

import secrets
from dataclasses import dataclass
from urllib.parse import quote, unquote, urlsplit

from flask import (
    Blueprint,
    Response,
    current_app,
    g,
    make_response,
    redirect,
    render_template,
    request,
    url_for,
)
from flask.blueprints import BlueprintSetupState
from werkzeug.exceptions import Forbidden
from werkzeug.wrappers import Response as AnyResponse

from ... import store as kept
from ...review.chain import Actor
from ...store.records import Signature
from .. import auth
from ..login_throttle import LoginThrottle
from ..schemas.saves import MOST_NAME_CHARACTERS
from ..stores import store
from .form_tokens import is_masked

LOGIN_COOKIE, HOME_COOKIE, NAME_COOKIE = "saltledger-login", "saltledger-home", "saltledger-name"
CARRIED = "carried-"
EXPIRED = "Your login has ended. What you had written is kept: log in, then send it."
OUT_OF_DATE = "This form was out of date, or was not sent from its own page."
NAME_KEPT_SECONDS = 365 * 24 * 3600


@dataclass(frozen=True, slots=True)
class Visitor:
    """Who is here. name: what they sign with, None where they are asked for it. login: None without one.

    remembered: the name that was given in this browser last.
    """

    name: str | None
    login: str | None
    form_token: str
    remembered: str = ""

    @property
    def called(self) -> str:
        """The name they sign with, or signed with last; '' where none is known."""
        return self.name or self.remembered

    @property
    def handle(self) -> str:
        """How the store knows what they have done; '' where they have no name yet."""
        return Signature(actor(), self.called).handle if self.called else ""


def register(blueprint: Blueprint) -> None:
    """Let only those in to a blueprint's pages who may review, and take only its own forms."""
    blueprint.record_once(_count_logins)
    blueprint.before_request(_admit)
    blueprint.after_request(_own_headers)
    blueprint.add_url_rule("/review/login", "login", _login, methods=["GET", "POST"])
    blueprint.add_url_rule("/review/logout", "logout", _logout, methods=["POST"])


def _count_logins(state: BlueprintSetupState) -> None:
    state.app.extensions["saltledger-logins"] = LoginThrottle()


def visitor() -> Visitor:
    """Who is at the page that is being made."""
    found: Visitor = g.visitor
    return found


def actor() -> Actor:
    """Who is at the page, as it goes on record."""
    here = visitor()
    return Actor("login", here.login, here.name or "") if here.login else Actor("local")


def remember(name: str) -> None:
    """Keep a name in this browser that was given for want of a login."""
    if visitor().login is None and name:
        g.new_name = name


def _admit() -> AnyResponse | None:
    if request.method == "POST":
        _check_origin()
    if request.endpoint == "review.login":
        return None
    found = _by_login()
    if found is None:
        if not _needs_no_login():
            if request.method == "POST":
                return _login_page(403, fault=EXPIRED, carried=_typed(), send_to=request.full_path)
            return redirect(url_for("review.login", next=_here()), 303)
        found = _at_home()
    g.visitor = found
    if request.method == "POST" and not is_masked(request.form.get("form_token"), found.form_token):
        return _again(OUT_OF_DATE, _typed(), request.full_path, found.form_token, 403)
    return None


def _typed() -> dict[str, str]:
    """What a form holds that was sent and cannot be taken, but for its token."""
    return {name: value for name, value in request.form.items() if name != "form_token"}


def _again(why: str, typed: dict[str, str], send_to: str, form_token: str, status: int) -> AnyResponse:
    """A page that holds what was written in a form, to be sent again."""
    shown = {"why": why, "typed": typed, "send_to": send_to.rstrip("?"), "form_token": form_token}
    return make_response(render_template("review/again.html", **shown), status)


def _needs_no_login() -> bool:
    if not auth.is_open_at_home():
        return False
    with store().database.read() as connection:
        return not kept.reviewers.any_made(connection)


def _by_login() -> Visitor | None:
    token = request.cookies.get(_cookie_name())
    if not token:
        return None
    with store().database.read() as connection:
        found = kept.reviewers.session(connection, token)
    if found is None or found.reviewer is None:
        return None
    return Visitor(found.reviewer.name, found.reviewer.login, found.form_token)


def _at_home() -> Visitor:
    """A visitor without a login. Nothing is kept of them: their browser holds the token of their forms."""
    token = request.cookies.get(HOME_COOKIE)
    if not token:
        g.new_home = token = secrets.token_urlsafe(24)
    return Visitor(None, None, token, unquote(request.cookies.get(NAME_COOKIE, ""))[:MOST_NAME_CHARACTERS])


def _login() -> AnyResponse:
    fault = None
    if request.method == "POST":
        if not is_masked(request.form.get("form_token"), request.cookies.get(LOGIN_COOKIE)):
            raise Forbidden(
                "The login form was not sent from this page. Open it again; cookies must be allowed."
            )
        login, password = request.form.get("login", ""), request.form.get("password", "")
        token = _try(login, password)
        if token is not None:
            g.new_session = token
            return _carry_on(token)
        fault = "That login and password do not belong together. After five tries, wait half a minute."
    carried, send_to = _carried()
    return _login_page(200 if fault is None else 403, fault=fault, carried=carried, send_to=send_to)


def _carried() -> tuple[dict[str, str], str]:
    """What a login form carries along of another that was sent too late, and where that was to go."""
    form = request.form
    typed = {name.removeprefix(CARRIED): form[name] for name in form if name.startswith(CARRIED)}
    return typed, _safe(form.get("send_to"))


def _carry_on(token: str) -> AnyResponse:
    """Where one goes after the login: to the page that was wanted, or to what was sent before it."""
    typed, send_to = _carried()
    if not typed:
        return redirect(_safe(request.form.get("next")), 303)
    with store().database.read() as connection:
        found = kept.reviewers.session(connection, token)
    return _again("You are logged in again.", typed, send_to, found.form_token if found else "", 200)


def _login_page(status: int, *, fault: str | None, carried: dict[str, str], send_to: str) -> AnyResponse:
    with store().database.read() as connection:
        nobody = not kept.reviewers.any_active(connection)
    form_token = secrets.token_urlsafe(24)
    page = render_template(
        "review/login.html",
        fault=fault,
        nobody=nobody,
        form_token=form_token,
        next=_safe(request.args.get("next")),
        carried=carried,
        send_to=send_to,
    )
    response = make_response(page, status)
    response.set_cookie(LOGIN_COOKIE, form_token, secure=request.is_secure, httponly=True, samesite="Strict")
    return response


def _try(login: str, password: str) -> str | None:
    throttle: LoginThrottle = current_app.extensions["saltledger-logins"]
    address = request.remote_addr or ""
    if throttle.is_closed(address, login):
        return None
    token = kept.reviewers.log_in(store().database, login, password)
    if token is None:
        throttle.failed(address, login)
    else:
        throttle.succeeded(address, login)
    return token


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
    home = g.pop("new_home", None)
    if home is not None:
        response.set_cookie(HOME_COOKIE, home, secure=request.is_secure, httponly=True, samesite="Strict")
    name = g.pop("new_name", None)
    if name is not None:
        response.set_cookie(
            NAME_COOKIE,
            quote(name),
            max_age=NAME_KEPT_SECONDS,
            secure=request.is_secure,
            httponly=True,
            samesite="Strict",
        )
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


def _here() -> str:
    return request.full_path.rstrip("?") if request.method == "GET" else url_for("review.show_list")


def _safe(target: str | None) -> str:
    """A page of ours to go on to; never another site's."""
    path = target or ""
    return path if path.startswith("/review") and "//" not in path and "\\" not in path else "/review"
