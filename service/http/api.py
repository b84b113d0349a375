"""The API and its description: how routes read requests, and how the OpenAPI document is made of them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial, wraps
from threading import Lock
from typing import Any, TypeVar, cast

from apispec.ext.marshmallow import MarshmallowPlugin
from apispec.ext.marshmallow.openapi import OpenAPIConverter
from flask import Flask, Request, Response, request
from flask_smorest import Api as SmorestApi
from flask_smorest import Blueprint as SmorestBlueprint
from marshmallow import Schema, ValidationError
from werkzeug.exceptions import HTTPException, UnsupportedMediaType

from .. import __version__
from ..core.checkpoint import watched
from ..core.errors import Fault
from ..core.tables import document as table_document
from ..gate.fields import StrictField, TextOr
from ..gate.problem_details import InvalidQuery
from ..gate.reading import faults_of, load, parse_json
from ..gate.strict_schema import StrictSchema
from ..gate.written_schema import LINKED_JSON_SCHEMA
from . import entity_tags, problems
from .kept_answers import given_again
from .schemas.answer_shapes import ProblemSchema
from .watch import watch_of_request

View = TypeVar("View", bound=Callable[..., Any])

PROBLEMS = {
    400: ("Malformed", "The body is not JSON that can be read."),
    401: ("KeyNeeded", "An API key is needed, or this one is not known."),
    403: ("ScopeMissing", "This API key may not do this."),
    404: ("NotFound", "There is no such thing."),
    406: ("NotAcceptable", "None of the media types in Accept can be given."),
    408: ("TooSlow", "The body did not come in time."),
    412: ("PreconditionFailed", "The recipe is not in the state that If-Match or If-None-Match names."),
    413: ("TooLarge", "The body is too large."),
    415: ("UnsupportedMediaType", "The body has another media type than is read here."),
    422: ("Invalid", "The request was read but cannot be answered; every fault is named."),
    428: ("PreconditionRequired", "The request must say with If-Match which version it is about."),
    507: ("NoRoom", "There is no room to take so much just now; send less, or send it later."),
    429: ("TooMany", "Too many requests in a minute; Retry-After says when to send again."),
    503: ("Unavailable", "The store is not available, or the work took too long; it may be sent again."),
}
"""Problems that routes name in the description: by status the component's name and what it means."""

PUBLIC = frozenset({"health", "metrics", "description"})
"""Blueprints that tell nothing of recipes and ask nobody for a key."""

API_KEY = {
    "type": "http",
    "scheme": "bearer",
    "description": "An API key, made with `saltledger keys create`; needed once there is one.",
}

GUARDED = {
    "security": [{"apiKey": []}, {}],
    "responses": {str(status): PROBLEMS[status][0] for status in (401, 403, 429)},
}
"""What is said of every route that may ask for a key."""

LICENSE = {"name": "MIT", "identifier": "MIT"}
ABOUT = """
Nutrients and, above all, sodium per serving of a recipe whose salt moves: most of the salt of a brine is
poured away, some goes into the food, some leaves it again in the pot.

Every amount carries its unit in its name or beside it. Nutrients are keyed by INFOODS tagname. Errors are
problem details (RFC 9457) that point into the request. A range (low to high) is meant to hold the true value
nine times in ten.

Figures are estimates for people who know food; they are no medical advice. Nitrite is poisonous in small
amounts: weigh it, never substitute, and follow local codes and licensed practice first.
""".strip()


def json_body(req: Request) -> Any:
    """The JSON document in a request's body.

    Raises UnsupportedMediaType (415): another media type or charset; MalformedJson: see `reading`;
    RequestEntityTooLarge (413).
    """
    charset = req.mimetype_params.get("charset", "utf-8").lower()
    if not req.is_json or charset not in ("utf-8", "utf8"):  # application/ld+json is JSON as well
        raise UnsupportedMediaType(
            f"Found Content-Type {req.content_type or '(none)'}, wanted application/json in UTF-8; "
            "with curl add -H 'Content-Type: application/json'."
        )
    return parse_json(req.get_data(cache=False))


_TAKES, _ASKS = "takes_body", "asks_for"
"""The attributes of a view that hold the schemas of its body and of its query parameters."""


class NothingAsked(StrictSchema):
    """The query parameters of a route that has none."""


def _query(schema: Schema) -> Any:
    """The query parameters of the request. Raises InvalidQuery."""
    twice = [name for name, values in request.args.lists() if len(values) > 1]
    if twice:
        raise InvalidQuery(Fault(f"/{name}", "This stands there twice; keep one of them.") for name in twice)
    try:
        return schema.load(request.args.to_dict())
    except ValidationError as error:
        raise InvalidQuery(faults_of(error.messages)) from error


def _reading(view: View) -> View:
    """A view that is given its body, then its query parameters; its work on a body is watched."""
    body, asked = getattr(view, _TAKES, None), getattr(view, _ASKS, None)
    refused = NothingAsked()

    @wraps(view)
    def wrapper(**named: Any) -> Any:
        read = [] if body is None else [load(body, json_body(request))]
        if asked is not None:
            read.append(_query(asked))
        elif request.query_string:
            _query(refused)
        if body is None:
            return view(*read, **named)
        with watched(watch_of_request()):
            return view(*read, **named)

    return cast(View, wrapper)


def _told(decorate: Callable[[View], View]) -> Callable[[View], View]:
    """What a decorator of flask-smorest tells the description, without its wrapper around the view."""

    def tell(view: View) -> View:
        view._apidoc = decorate(view)._apidoc  # type: ignore[attr-defined]
        return view

    return tell


class Blueprint(SmorestBlueprint):  # type: ignore[misc]
    """A blueprint whose routes are described, and read requests strictly."""

    def route(self, rule: str, *, again: bool = False, **options: Any) -> Callable[[View], View]:
        """As Flask's, and described; see there. A view that asks for no query parameters refuses all.

        again: whether its answers may be given again to equal requests; see `kept_answers`.
        """
        decorate: Callable[[View], View] = super().route(rule, **options)

        def described(view: View) -> View:
            if not hasattr(view, _ASKS):
                self.fails(422)(view)
            return decorate(given_again(_reading(view)) if again else _reading(view))

        return described

    def takes(self, schema: type[Schema], example: Any = None) -> Callable[[View], View]:
        """Decorate a view that takes a JSON body of `schema` as its argument."""

        def decorate(view: View) -> View:
            setattr(view, _TAKES, schema())
            self.fails(400, 413, 415, 422, 503)(view)
            described: View = _told(self.arguments(schema, example=example))(view)
            return described

        return decorate

    def asks(self, schema: type[Schema]) -> Callable[[View], View]:
        """Decorate a view that takes query parameters of `schema` as its argument, behind a body."""

        def decorate(view: View) -> View:
            setattr(view, _ASKS, schema())
            described: View = _told(self.arguments(schema, location="query"))(self.fails(422)(view))
            return described

        return decorate

    def gives(
        self,
        schema: type[Schema] | Mapping[str, Any],
        description: str,
        media_type: str = "application/json",
        *,
        status: int = 200,
    ) -> Callable[[View], View]:
        """Decorate a view that answers `status` so: this describes, and tests hold the answers to it."""
        return _told(
            self.alt_response(
                status, schema=schema, description=description, content_type=media_type, success=True
            )
        )

    def may_hold(self, view: View) -> View:
        """Decorate a view whose answer a caller may keep, with its entity tag: 304 where it still holds."""
        _told(self.alt_response(304, description="The copy that is held still holds; no body."))(view)
        return self.said(parameters=[entity_tags.IF_CHANGED])(view)

    def said(self, **parts: Any) -> Callable[[View], View]:
        """Decorate a view with parts of its description that nothing else tells."""
        return _told(self.doc(**parts))

    def fails(self, *statuses: int) -> Callable[[View], View]:
        """Decorate a view that may answer with these problems."""

        def decorate(view: View) -> View:
            for status in statuses:
                _told(self.alt_response(status, PROBLEMS[status][0]))(view)
            return view

        return decorate

    def register_views_in_doc(self, api: Api, *args: Any, **options: Any) -> None:
        """Left until the description is asked for, since most processes never are: see `Api.document`."""
        api.undescribed.append(partial(super().register_views_in_doc, api, *args, **options))

    def _store_endpoint_docs(self, endpoint: str, obj: Any, *args: Any, **options: Any) -> None:
        super()._store_endpoint_docs(endpoint, obj, *args, **options)
        for method in set(self._docs[endpoint]) - {"parameters"}:
            said = self._docs[endpoint][method].setdefault("manual_doc", {})
            said.setdefault("operationId", endpoint)
            if self.name not in PUBLIC:
                said.update(GUARDED)

    def _prepare_arguments_doc(self, doc: Any, doc_info: Any, **kwargs: Any) -> Any:
        # The name of this response would follow the Python release; `fails` states our own instead.
        doc_info.get("arguments", {}).get("responses", {}).clear()
        return super()._prepare_arguments_doc(doc, doc_info, **kwargs)


class _Converter(OpenAPIConverter):
    """Describes every schema in the words of its docstring."""

    def schema2jsonschema(self, schema: Any) -> dict[str, Any]:
        made: dict[str, Any] = super().schema2jsonschema(schema)  # type: ignore[no-untyped-call]
        about = (type(schema).__doc__ or "").strip()
        described = {"type": made.pop("type"), "description": about, **made}
        forms: list[Any] = [self.resolve_nested_schema(form) for form in getattr(schema, "forms", ())]  # type: ignore[no-untyped-call]
        if not forms:
            return described
        own = [described] if schema.fields else []
        return {"description": about, "anyOf": [*own, *forms, dict(LINKED_JSON_SCHEMA)]}


class _Plugin(MarshmallowPlugin):
    Converter = _Converter


class Api(SmorestApi):  # type: ignore[misc]
    """The API of this service and its description as OpenAPI 3.1 (`document`).

    undescribed: the blueprints that are not yet in `spec`, each as what puts it there.
    """

    DEFAULT_ERROR_RESPONSE_NAME = "Problem"

    def __init__(self, app: Flask) -> None:
        app.extensions["saltledger-api"] = self
        self.undescribed: list[Callable[[], None]] = []
        self._describing = Lock()
        app.config.update(
            API_TITLE="Saltledger",
            API_VERSION=__version__,
            OPENAPI_VERSION="3.1.0",
            API_SPEC_OPTIONS={
                "info": {"description": ABOUT, "license": {"name": "MIT", "identifier": "MIT"}}
            },
        )
        super().__init__(app, spec_kwargs={"marshmallow_plugin": _Plugin()})
        self.ma_plugin.converter.add_attribute_function(strict_properties)
        self.spec.components.security_scheme("apiKey", API_KEY)

    def document(self) -> dict[str, Any]:
        """The OpenAPI document, its parts in the order in which people read them."""
        with self._describing:
            while self.undescribed:
                self.undescribed.pop(0)()
        made = _with_examples(self.spec.to_dict())
        info = {key: made["info"][key] for key in ("title", "version", "description", "license")}
        parts = {key: made[key] for key in ("tags", "paths", "components")}
        return {"openapi": made["openapi"], "info": info, **parts}

    def handle_http_exception(self, error: HTTPException) -> Response | HTTPException:
        return error if error.code is None or error.code < 400 else problems.handle(error)

    def _register_responses(self) -> None:
        for name, description in PROBLEMS.values():
            self._problem_response(name, description)
        self._problem_response("Problem", "Any other problem.")

    def _problem_response(self, name: str, description: str) -> None:
        content = {problems.MEDIA_TYPE: {"schema": ProblemSchema}}
        self.spec.components.response(name, {"description": description, "content": content}, lazy=True)

    def _register_doc_blueprint(self) -> None:
        """Left out: `docs` serves the description."""

    def _register_etag_headers(self) -> None:
        """Left out: entity tags are set by `answers`."""

    def _register_pagination_header(self) -> None:
        """Left out: nothing is paged by page number."""


def _with_examples(made: dict[str, Any]) -> dict[str, Any]:
    """The document with an example of each answer (example_answers.json), in the media type it comes in."""
    known = table_document("example_answers")
    for methods in made["paths"].values():
        for name, operation in methods.items():
            if name == "parameters":
                continue
            for status, example in known.get(operation["operationId"], {}).items():
                content = operation["responses"][status]["content"]
                media_type = "application/json" if "application/json" in content else next(iter(content))
                content[media_type]["example"] = example
    return made


def strict_properties(self: Any, field: Any, **kwargs: Any) -> dict[str, Any]:
    """What a strict field adds to its description (a converter function of apispec)."""
    if isinstance(field, TextOr):
        return {"anyOf": [self.field2property(form) for form in (field.text, field.other)]}
    return field.json_schema() if isinstance(field, StrictField) else {}
