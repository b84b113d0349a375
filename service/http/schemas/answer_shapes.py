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


def several(of: type[Schema], description: str, *, required: bool = True) -> fields.List[Any]:
    return fields.List(fields.Nested(of), required=required, metadata=said(description))


def one(of: type[Schema], description: str, *, required: bool = True, **options: Any) -> fields.Nested:
    return fields.Nested(of, required=required, metadata=said(description), **options)


class RangeSchema(AnswerSchema):
    """A figure and its range: low to high is meant to hold the true value nine times in ten."""

    low = number("Low end.")
    likely = number("Most likely value.")
    high = number("High end.")
