"""What the schemas of answers are made of: an open object, its fields, and a figure with its range."""

from __future__ import annotations

from typing import Any

from marshmallow import INCLUDE, Schema, fields

from ...gate.fields import said


class AnswerSchema(Schema):
    """An object of an answer, to which later versions may add."""

    class Meta:
        unknown = INCLUDE


def number(description: str, *, required: bool = True, **options: Any) -> fields.Float:
    return fields.Float(required=required, metadata=said(description), **options)


def text(description: str, *, required: bool = True, **options: Any) -> fields.String:
    return fields.String(required=required, metadata=said(description), **options)


def row_of_law() -> fields.String:
    return text("The row of the tables that it is, as /method has it; null where of none.", allow_none=True)


def stated_by() -> fields.List[Any]:
    return fields.List(
        fields.String(),
        required=True,
        metadata=said(
            "Who states the row besides the tables: texts of law and advice, each with how it was seen; "
            "empty: nobody outside holds it."
        ),
    )


def count(description: str, *, required: bool = True, **options: Any) -> fields.Integer:
    return fields.Integer(required=required, metadata=said(description), **options)


def flag(description: str, *, required: bool = True, **options: Any) -> fields.Boolean:
    return fields.Boolean(required=required, metadata=said(description), **options)


def texts(description: str, *, required: bool = True, **options: Any) -> fields.List[Any]:
    return fields.List(fields.String(), required=required, metadata=said(description), **options)


def several(of: type[Schema], description: str, *, required: bool = True) -> fields.List[Any]:
    return fields.List(fields.Nested(of), required=required, metadata=said(description))


def one(of: type[Schema], description: str, *, required: bool = True, **options: Any) -> fields.Nested:
    return fields.Nested(of, required=required, metadata=said(description), **options)


class RangeSchema(AnswerSchema):
    """A figure and its range: low to high is meant to hold the true value nine times in ten."""

    low = number("Low end.")
    likely = number("Most likely value.")
    high = number("High end.")


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
