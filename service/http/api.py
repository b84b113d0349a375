"""The API and its description: how routes read requests, and how the OpenAPI document is made of them."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, NoReturn, TypeVar

from flask import Flask, Request, Response
from flask_smorest import Api as SmorestApi
from flask_smorest import Blueprint as SmorestBlueprint
from marshmallow import Schema, ValidationError
from webargs.flaskparser import FlaskParser
from werkzeug.exceptions import HTTPException, UnsupportedMediaType

from .. import __version__
from ..errors import InvalidRequest
from . import problems
from .fields import StrictField, TextOr
from .reading import faults_of, parse_json
from .schemas.problem import ProblemSchema

View = TypeVar("View", bound=Callable[..., Any])

PROBLEMS = {
    400: ("Malformed", "The body is not JSON that can be read."),
    404: ("NotFound", "There is no such thing."),
    406: ("NotAcceptable", "None of the media types in Accept can be given."),
    413: ("TooLarge", "The body is too large."),
    415: ("UnsupportedMediaType", "The body has another media type than is read here."),
    422: ("Invalid", "The request was read but cannot be answered; every fault is named."),
}
"""Problems that routes name in the description: by status the component's name and what it means."""

ABOUT = """Nutrients and, above all, sodium per serving of a recipe whose salt moves: most of the salt of a brine is \
poured away, some goes into the food, some leaves it again in the pot.

Every amount carries its unit in its name or beside it. Nutrients are keyed by INFOODS tagname. Errors are problem \
details (RFC 9457) that point into the request. A range (low to high) is meant to hold the true value nine times \
in ten.

Figures are estimates for people who know food; they are no medical advice. Nitrite is poisonous in small amounts: \
weigh it, never substitute, and follow local codes and licensed practice first."""


class StrictParser(FlaskParser):
    """Reads bodies and query strings through our own gate, with unknown fields refused everywhere."""

    DEFAULT_UNKNOWN_BY_LOCATION: dict[str, str | None] = {}  # noqa: RUF012  # webargs' own form

    def load_json(self, req: Request, schema: Schema) -> Any:
        return json_body(req)

    def handle_error(self, error: ValidationError, req: Request, schema: Schema, **kwargs: Any) -> NoReturn:
        ((location, messages),) = error.normalized_messages().items()
        kind = InvalidRequest if location == "json" else problems.InvalidQuery
        raise kind(faults_of(messages)) from error


def json_body(req: Request) -> Any:
    """The JSON document in a request's body.

    Raises UnsupportedMediaType (415): another media type or charset; MalformedJson: see `reading`;
    RequestEntityTooLarge (413).
    """
    is_json = req.mimetype == "application/json" or req.mimetype.endswith("+json")
    charset = req.mimetype_params.get("charset", "utf-8").lower()
    if not is_json or charset not in ("utf-8", "utf8"):
        raise UnsupportedMediaType
    return parse_json(req.get_data(cache=False))


class Blueprint(SmorestBlueprint):
    """A blueprint whose routes are described, and read requests strictly."""

    ARGUMENTS_PARSER = StrictParser()

    def takes(self, schema: type[Schema], example: Any = None) -> Callable[[View], View]:
        """Decorate a view that takes a JSON body of `schema` as its argument."""

        def decorate(view: View) -> View:
            described = self.fails(400, 413, 415, 422)(view)
            read: View = self.arguments(schema, example=example)(described)
            return read

        return decorate

    def asks(self, schema: type[Schema]) -> Callable[[View], View]:
        """Decorate a view that takes query parameters of `schema` as its argument."""

        def decorate(view: View) -> View:
            read: View = self.arguments(schema, location="query")(self.fails(422)(view))
            return read

        return decorate

    def gives(
        self, schema: type[Schema] | Mapping[str, Any] | None, description: str, media_type: str = "application/json"
    ) -> Callable[[View], View]:
        """Decorate a view that answers 200 with `schema`: for the description, tests hold it to the answers."""
        decorate: Callable[[View], View] = self.alt_response(
            200, schema=schema, description=description, content_type=media_type, success=True
        )
        return decorate

    def fails(self, *statuses: int) -> Callable[[View], View]:
        """Decorate a view that may answer with these problems."""

        def decorate(view: View) -> View:
            for status in statuses:
                view = self.alt_response(status, PROBLEMS[status][0])(view)
            return view

        return decorate

    def _prepare_arguments_doc(self, doc: Any, doc_info: Any, **kwargs: Any) -> Any:
        # The name of this response would follow the Python release; `fails` states our own instead.
        doc_info.get("arguments", {}).get("responses", {}).clear()
        return super()._prepare_arguments_doc(doc, doc_info, **kwargs)


class Api(SmorestApi):
    """The API of this service, described as OpenAPI 3.1 at /openapi.json."""

    DEFAULT_ERROR_RESPONSE_NAME = "Problem"

    def __init__(self, app: Flask) -> None:
        app.config.update(
            API_TITLE="Saltledger",
            API_VERSION=__version__,
            OPENAPI_VERSION="3.1.0",
            OPENAPI_URL_PREFIX="/",
            API_SPEC_OPTIONS={"info": {"description": ABOUT, "license": {"name": "MIT", "identifier": "MIT"}}},
        )
        super().__init__(app)
        self.ma_plugin.converter.add_attribute_function(strict_properties)

    def handle_http_exception(self, error: HTTPException) -> Response | HTTPException:
        return error if error.code is None or error.code < 400 else problems.handle(error)

    def _register_responses(self) -> None:
        for status, (name, description) in PROBLEMS.items():
            self._problem_response(name, f"{description} ({status})")
        self._problem_response("Problem", "Any other problem.")

    def _problem_response(self, name: str, description: str) -> None:
        content = {problems.MEDIA_TYPE: {"schema": ProblemSchema}}
        self.spec.components.response(name, {"description": description, "content": content}, lazy=True)

    def _register_etag_headers(self) -> None:
        """Left out: entity tags are set by `answers`."""

    def _register_pagination_header(self) -> None:
        """Left out: nothing is paged by page number."""


def strict_properties(self: Any, field: Any, **kwargs: Any) -> dict[str, Any]:
    """What a strict field adds to its description (a converter function of apispec)."""
    if isinstance(field, TextOr):
        return {"anyOf": [self.field2property(form) for form in (field.text, field.other)]}
    return field.json_schema() if isinstance(field, StrictField) else {}


def operation_names(app: Flask) -> set[tuple[str, str]]:
    """Every (method, path) the app answers, in the form of the description; for the test that holds them equal."""
    return {
        (method.lower(), str(rule.rule).replace("<", "{").replace(">", "}"))
        for rule in app.url_map.iter_rules()
        for method in (rule.methods or set()) - {"HEAD", "OPTIONS"}
    }


