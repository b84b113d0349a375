"""What a reading looks like: the recipe that was read, and where every part of it stands in the text."""

from __future__ import annotations

from marshmallow import fields

from ...gate.fields import said
from .answer_shapes import AnswerSchema, count, flag, number, several, text, texts
from .answers import NoticeSchema


class ReadLineSchema(AnswerSchema):
    """A line, and where in the recipe it went; `index` is null for what only the method names."""

    index = count("Number of the line, headings counted.", allow_none=True)
    component = text("Id of its component; null where it is none's.", allow_none=True)
    ingredient = count("Its place among the component's ingredients.", required=False)
    share = number("Share of the line's amount that went here, where it was split.", required=False)
    assumed = flag("True for what no line names.", required=False)
    reason = text("Why it is in no component.", required=False)
    text = text("The line.")


class ReadStepSchema(AnswerSchema):
    """A step, and the words it was read from."""

    pointer = text("The step in the recipe.")
    method = count("Number of the paragraph.")
    start = count("First character in it.")
    end = count("Character after the last.")
    text = text("The words.")
    confidence = number("0 to 1.")
    stated = texts("Fields that the method states.")
    assumed = texts("Fields that were assumed.")


class ChoiceSchema(AnswerSchema):
    """One way to settle a question."""

    choice = text("What to send back.")
    label = text("What it means.")
    sodium_mg_per_serving = number("mg of sodium a serving with it.", allow_none=True)


class QuestionSchema(AnswerSchema):
    """Something that a person knows better than the text."""

    id = text("Send it back in answers; the same as long as the sentence stands.")
    pointer = text("Where in the recipe the answer lands.")
    message = text("The question.")
    swing_mg_per_serving = number("How many mg of sodium a serving hang on it.")
    choices = several(ChoiceSchema, "What can be answered.")
    taken = text("The choice that the reading went on with.")
    answered = flag("Whether a person chose it.")


class ReadingSchema(AnswerSchema):
    """A recipe in prose, read."""

    recipe = fields.Dict(required=True, metadata=said("A body for POST /v1/calculations."))
    lines = several(ReadLineSchema, "Where each line went.")
    steps = several(ReadStepSchema, "Where each step was read.")
    questions = several(QuestionSchema, "What to ask, most sodium first.")
    notices = several(NoticeSchema, "What the reader should know.")
    method = texts("The paragraphs that places count in.")
