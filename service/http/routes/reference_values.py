"""GET /v1/reference-values: what amounts are measured against, each with its source."""

from __future__ import annotations

from typing import Any

from flask import Response

from ...gate.fields import Text, said
from ...gate.strict_schema import StrictSchema
from ...nutrition import dietary_references as values
from .. import media_types
from ..api import Blueprint
from ..schemas.food_answers import ReferenceValuesSchema

blueprint = Blueprint("reference values", __name__, description="What amounts are measured against.")


class AudienceQuerySchema(StrictSchema):
    """For whom."""

    audience = Text(most=64, wanted="an audience", metadata=said("For whom; adults where not stated."))


@blueprint.route("/v1/reference-values")
@blueprint.asks(AudienceQuerySchema)
@blueprint.gives(ReferenceValuesSchema, "The values, each with its source.")
@blueprint.may_hold
@blueprint.fails(406)
def list_reference_values(query: dict[str, Any]) -> Response:
    """List reference values, each with its source"""
    found = values.reference_values(query.get("audience"))
    return media_types.respond_kept({"reference_values": found, "audiences": values.audience_documents()})
