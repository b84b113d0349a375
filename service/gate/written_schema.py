"""Recipes as they are written: lines and paragraphs, or schema.org; read before they are calculated."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from marshmallow import ValidationError, fields

from ..core.errors import Fault, InvalidRequest
from ..method.forms import MOST_LINES, is_written
from ..method.prose_documents import prepared
from .fields import Name, Number, Several, StrictField, said
from .strict_schema import StrictSchema

MOST_RAW_CHARACTERS = 60_000


class Prose(StrictField, fields.String):
    """Text as a CMS holds it: with line breaks, entities and tags, or with nothing in it."""

    wanted = "text"
    remedy = "put it in quotation marks"

    def __init__(self, most: int = MOST_RAW_CHARACTERS, **kwargs: Any) -> None:
        super().__init__(**kwargs)
        self.most = most

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> str:
        if not isinstance(value, str):
            raise self.refuse(value)
        if len(value) > self.most:
            raise ValidationError(
                f"Found {len(value):,} characters, wanted at most {self.most:,}; shorten it."
            )
        return value

    def json_schema(self) -> dict[str, Any]:
        return {"maxLength": self.most}


class Yield(StrictField):
    """Servings as a recipe says them: a number, or words with one in them; null where it does not say."""

    wanted = "a number, or text such as 4 to 6 servings"
    remedy = "write how many it serves"

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> Any:
        if value is None or (isinstance(value, str | int | float) and not isinstance(value, bool)):
            return value
        raise self.refuse(value)

    def json_schema(self) -> dict[str, Any]:
        return {"type": ["number", "string", "null"]}


class Answers(StrictField, fields.Dict):
    """Choices by the ids of questions."""

    wanted = "an object: the id of a question and the choice, as text"
    remedy = "send the id of each question with one of its choices"

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(keys=Name(), values=Prose(300), **kwargs)

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> dict[str, str]:
        if (
            not isinstance(value, dict)
            or len(value) > MOST_LINES
            or not all(isinstance(v, str) for v in value.values())
        ):
            raise self.refuse(value)
        return dict(value)


def written_fields() -> dict[str, fields.Field[Any]]:
    """The fields of a recipe in lines and paragraphs."""
    line = Prose(2_000, metadata=said("A line as it is written.", example="1/4 cup kosher salt"))
    paragraph = Prose(metadata=said("A paragraph of the method."))
    return {
        "title": Prose(1_000, allow_none=True, metadata=said("Title of the recipe.")),
        "servings": Yield(
            allow_none=True, metadata=said("How many it serves, as a number or as written.", example="4 to 6")
        ),
        "portion_g": Number(
            0.1,
            10_000_000,
            unit="g",
            metadata=said("In place of servings: what a portion weighs as served."),
        ),
        "ingredients": Several(
            line,
            least=1,
            most=MOST_LINES,
            required=True,
            metadata=said('Lines; "# For the brine" is a heading.'),
        ),
        "method": Several(
            paragraph, most=MOST_LINES, required=True, metadata=said('Paragraphs; "# …" is a heading.')
        ),
        "answers": Answers(metadata=said("Answers to questions of an earlier reading, by id.")),
    }


def read_first(data: Any, strict: StrictSchema) -> tuple[Any, dict[str, Any] | None]:
    """A recipe in prose as components and steps, with what it was; any other document as it is.

    strict: the schema of a recipe in lines and paragraphs. Raises ValidationError.
    """
    if not is_written(data):
        return data, None
    linked = isinstance(data, list) or not {"@type", "@graph", "@context"}.isdisjoint(data)
    try:
        return prepared(data if linked else strict.load(data))
    except InvalidRequest as refused:
        raise ValidationError(messages_of(refused.faults)) from refused


def messages_of(faults: tuple[Fault, ...]) -> dict[str, Any] | list[str]:
    """Faults as a tree of messages, the form that schemas raise."""
    tree: dict[str, Any] = {}
    for fault in faults:
        parts = fault.pointer.split("/")[1:] or ["_schema"]
        below = tree
        for part in parts[:-1]:
            below = below.setdefault(part, {})
        below.setdefault(parts[-1], []).append(fault.message)
    return tree


LINKED_JSON_SCHEMA: Mapping[str, Any] = {
    "type": "object",
    "description": "A schema.org/Recipe as JSON-LD: name, recipeYield, recipeIngredient, recipeInstructions; "
    "alone or in @graph. Other properties are ignored.",
    "anyOf": [{"required": ["@type"]}, {"required": ["@graph"]}],
    "additionalProperties": True,
}
