"""What a problem looks like (RFC 9457)."""

from __future__ import annotations

from marshmallow import INCLUDE, Schema, fields

from ...gate.fields import said


class FaultSchema(Schema):
    """One thing wrong with a request."""

    pointer = fields.String(
        required=True, metadata=said('JSON Pointer (RFC 6901) into the request; "" for all of it.')
    )
    message = fields.String(required=True, metadata=said("What was found, what was wanted, what to do."))


class ProblemSchema(Schema):
    """Why a request was not answered."""

    class Meta:
        unknown = INCLUDE

    type = fields.String(required=True, metadata=said("about:blank: the status says it all."))
    title = fields.String(required=True, metadata=said("The phrase of the status."))
    status = fields.Integer(required=True, metadata=said("The HTTP status."))
    detail = fields.String(required=True, metadata=said("What happened, in a sentence."))
    instance = fields.String(metadata=said("Id of the entry in the service's log."))
    errors = fields.List(fields.Nested(FaultSchema), metadata=said("Every fault found, at most 51."))
