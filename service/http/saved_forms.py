"""A saved version in the forms of a calculation: JSON, a spreadsheet, structured data, a panel; with a label.

What is kept is shown as it is kept. A label and explanations are worked out when they are asked for, on the
foods that the version rests on, and only where that gives the kept answer again.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from flask import Response, request

from ..calculator import Calculated, calculated
from ..core.errors import Fault
from ..gate.problem_details import InvalidQuery
from ..recipe.packets import custom_foods
from ..recipe.request import RecipeRequest
from ..review.overrides import as_worked_out
from ..store.records import Version
from . import known_foods, media_types
from .routes.calculations import RENDERERS, asked_scale, scaled_too
from .saved_documents import version_document
from .stores import workbench

JSON = "application/json"


def respond_with(version: Version, query: dict[str, Any]) -> Response:
    """The response that shows a version in the form that is asked for.

    query: as `CalculationQuerySchema` gives it. Raises NotAcceptable, InvalidQuery.
    """
    media_type = media_types.negotiate(RENDERERS)
    wish = asked_scale(query, media_type)
    if media_type == JSON and not query and wish is None:
        return _as_kept(version)
    shown = _shown(version, query)
    if media_type == JSON:
        told = replace(version, answer=scaled_too(shown.document, wish))
        return _varied(media_types.as_json(version_document(told)), JSON)
    return _varied(RENDERERS[media_type](shown), media_type)


def _as_kept(version: Version) -> Response:
    response = _varied(media_types.as_json(version_document(version)), JSON)
    response.cache_control.no_cache = True
    response.cache_control.private = True
    response.set_etag(version.etag)
    response.make_conditional(request)
    return response


def _varied(text: str | bytes, media_type: str) -> Response:
    response = Response(text, mimetype=media_type)
    response.vary.add("Accept")
    return response


def _shown(version: Version, query: dict[str, Any]) -> Calculated:
    """The kept answer, with what was asked for besides. Raises InvalidQuery."""
    document = as_worked_out(version.request, version.overrules)
    foods = known_foods.foods().pinned(workbench().pins(version))
    if not query:
        asked = RecipeRequest.from_document(document)
        return Calculated(asked, version.answer, foods.with_custom(custom_foods(asked.custom_foods)))
    with workbench().made_of(version.key, version):
        found = calculated(document, foods, **query)
    if found.document["id"] != version.answer["id"]:
        message = (
            "This version was worked out with other data than the service has today, so no more than what is "
            "kept can be told of it. Leave this out, or work the recipe out again by saving it."
        )
        raise InvalidQuery(Fault(f"/{name}", message) for name in query)
    return found
