"""The API's description: /openapi.json for programs, /docs for people, drawn from the same document."""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterator, Mapping
from functools import cache
from shlex import quote
from typing import Any
from urllib.parse import urlencode

from flask import Response, current_app, render_template, request
from markupsafe import Markup, escape

from ... import __version__
from ...core.tables import tables_sha256
from ...foods.dataset import bundled
from .. import media_types
from ..api import Api, Blueprint

blueprint = Blueprint("description", __name__, description="What this API is.")

Document = dict[str, Any]


START = {
    "name": "Saltledger",
    "docs": "/docs",
    "openapi": "/openapi.json",
    "calculations": "/v1/calculations",
    "review": "/review",
    "health": "/health/ready",
}
"""Where to go from the root."""


@blueprint.route("/")
@blueprint.gives({"type": "object"}, "Where what is.")
@blueprint.gives({"type": "string"}, "The same as a page.", "text/html")
@blueprint.fails(406)
def show_start() -> Response:
    """Say where to go: the description, the review pages, the endpoints"""
    return media_types.respond_as(START, RENDERERS)


RENDERERS: media_types.Renderers[dict[str, str]] = {
    "application/json": media_types.as_json,
    "text/html": lambda _: render_template("start.html"),
}


@blueprint.route("/openapi.json")
@blueprint.gives({"type": "object"}, "The OpenAPI document.")
@blueprint.may_hold
def show_description() -> Response:
    """Give this description as an OpenAPI document"""
    return media_types.respond_kept(description())


@blueprint.route("/docs")
@blueprint.gives({"type": "string"}, "The page.", "text/html")
@blueprint.may_hold
def show_docs() -> Response:
    """Give this description as a page for people"""
    document = description()
    page = render_template(
        "docs.html",
        document=document,
        operations=list(operations(document, request.host_url.rstrip("/"))),
        objects=document["components"]["schemas"],
        anchor=anchor,
        worded=worded,
        exemplified=exemplified,
    )
    response = Response(page, mimetype="text/html")
    response.add_etag()
    response.make_conditional(request)
    return response


@blueprint.route("/method")
@blueprint.gives({"type": "string"}, "The page.", "text/html")
@blueprint.may_hold
def show_method() -> Response:
    """Give the method as a page for people: equations, tables, measurements, limits and sources"""
    response = Response(_method_page(), mimetype="text/html")
    response.add_etag()
    response.make_conditional(request)
    return response


_SMALL = 1e-6
"""Below are diffusivities alone, in m2/s: a million million times as much are µm2/s."""


def _plainly(value: float) -> str:
    """A figure to three digits, without powers of ten."""
    return f"{value:.3g}" if abs(value) >= _SMALL or not value else f"{value * 1e12:.3g} µm²/s"


@cache
def _method_page() -> str:
    """Worked out once a process: it is the same for everybody."""
    from ...evidence.cases import sources  # noqa: PLC0415

    # seconds, for who asks
    from ...evidence.coverage import WHYS, coverages, explained, hold_all, kinds, measured  # noqa: PLC0415
    from ...evidence.figure_rows import MARK_WORDS, MARKS, SEEN, audit, figure_tables, law_tables  # noqa: PLC0415  # noqa: PLC0415
    from ...render.evidence_drawing import evidence_svg  # noqa: PLC0415

    held = hold_all()
    marks = Counter[str]()
    for counted in audit().values():
        marks += counted
    return render_template(
        "method.html",
        version=__version__,
        dataset=bundled().identity,
        tables_sha256=tables_sha256(),
        coverages=coverages(held),
        kinds=kinds(),
        plot=Markup(evidence_svg(measured(each for each in held if each.case.kind != "dataset"))),
        tables=figure_tables(),
        law=law_tables(),
        seen=SEEN,
        marks=[(mark, MARK_WORDS[mark], marks[mark]) for mark in MARKS],
        words=MARK_WORDS,
        sources=list(sources().values()),
        missed=explained(held),
        whys=WHYS,
        plainly=_plainly,
    )


def description() -> Document:
    """The OpenAPI document of the running app."""
    api: Api = current_app.extensions["saltledger-api"]
    return api.document()


def operations(document: Document, host: str) -> Iterator[Document]:
    """Each operation with all that the page tells of it."""
    for path, methods in document["paths"].items():
        for method, operation in methods.items():
            if method == "parameters":
                continue
            body = next(iter(operation.get("requestBody", {}).get("content", {}).items()), None)
            parameters = [*methods.get("parameters", ()), *operation.get("parameters", ())]
            yield {
                **operation,
                "method": method.upper(),
                "path": path,
                "parameters": parameters,
                "body": body,
                "curl": _curl(method.upper(), host + _filled(path, parameters), body, parameters),
                "answers": [_answer(document, *each) for each in sorted(operation["responses"].items())],
            }


def anchor(reference: str) -> str:
    """The name at the end of a reference within the document."""
    return reference.rsplit("/", 1)[-1]


def worded(text: str) -> Markup:
    """Text with what stands between backticks set as code."""
    parts = [escape(part) for part in text.split("`")]
    return Markup("").join(Markup("<code>{}</code>").format(p) if i % 2 else p for i, p in enumerate(parts))


def _answer(document: Document, status: str, response: Mapping[str, Any]) -> Document:
    if "$ref" in response:
        response = document["components"]["responses"][anchor(response["$ref"])]
    return {"content": {}, **response, "status": status}


def _filled(path: str, parameters: list[Document]) -> str:
    """The path with an example in place of each parameter that it needs."""
    query = {}
    for parameter in parameters:
        example = parameter.get("example", parameter["schema"].get("example"))
        if parameter["in"] == "path":
            path = path.replace(f"{{{parameter['name']}}}", str(example or parameter["name"]))
        elif parameter["in"] == "query" and parameter.get("required"):
            query[parameter["name"]] = example
    return f"{path}?{urlencode(query)}" if query else path


def exemplified(example: Any) -> str:
    """An example as text: as it is, or as JSON."""
    return example if isinstance(example, str) else json.dumps(example, ensure_ascii=False, indent=1)


def _curl(
    method: str, url: str, body: tuple[str, Mapping[str, Any]] | None, parameters: list[Document]
) -> str:
    words = [f"curl {quote(url)}" if method in ("GET", "POST") else f"curl -X {method} {quote(url)}"]
    words += [
        f"-H {quote(': '.join((each['name'], each['example'])))}"
        for each in parameters
        if each["in"] == "header" and (each.get("required") or each["name"] == "If-Match")
    ]
    if body is not None:
        media_type, content = body
        text = exemplified(content.get("example", ""))
        words += [f"-H 'Content-Type: {media_type}'", f"--data-binary {quote(text)}"]
    elif method == "POST":
        words += ["-X POST"]
    return " \\\n  ".join(words)
