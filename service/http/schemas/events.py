"""What happened to saved recipes: what may be asked, and what is told."""

from __future__ import annotations

from typing import Any

from marshmallow import ValidationError, validate

from ...gate.fields import QueryWhole, Text, said
from ...gate.keyed_lines import MOST_KEY_CHARACTERS
from ...gate.strict_schema import StrictSchema
from ...store.records import KINDS
from .answer_shapes import AnswerSchema, count, flag, number, one, several, text, texts
from .saves import (
    GapKeptSchema,
    key_field,
)


class Kinds(Text):
    """Kinds of events, joined by commas."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(most=400, wanted="kinds of events joined by commas", **kwargs)

    def _deserialize(self, value: Any, attr: str | None, data: Any, **kwargs: Any) -> Any:
        kinds = tuple(
            dict.fromkeys(each.strip() for each in super()._deserialize(value, attr, data).split(","))
        )
        if unknown := [kind for kind in kinds if kind not in KINDS]:
            known = ", ".join(KINDS)
            raise ValidationError([f'There is no kind "{k[:40]}"; kinds are {known}.' for k in unknown])
        return kinds


class EventsQuerySchema(StrictSchema):
    """From where on, which, and how long to wait for something to happen."""

    after = QueryWhole(
        0, 999_999_999, load_default=0, metadata=said("Only events with a higher number than this.")
    )
    kind = Kinds(
        metadata=said("Only these kinds, joined by commas.", example="recipe.signed,recipe.completed")
    )
    key = Text(
        most=MOST_KEY_CHARACTERS, wanted="a recipe's key", metadata=said("Only events of this recipe.")
    )
    wait = QueryWhole(
        0, 30, load_default=0, metadata=said("Seconds to wait for an event where there is none yet.")
    )
    limit = QueryWhole(1, 1000, load_default=100, metadata=said("How many at most."))


class EntrySchema(AnswerSchema):
    """The newest entry of the journal; keep it, and nobody can cut the journal off behind it unseen."""

    number = count("Its number, from 1.")
    sha256 = text("Hash over it and, through it, over all before.")


class EventSchema(AnswerSchema):
    """Something that happened to a recipe."""

    id = count("Its number; later events have higher ones.")
    kind = text(
        "What happened. One change may be told by several: recipe.saved, then recipe.figure_changed where "
        "the sodium of a serving moved, and recipe.incomplete where not all of it is counted any more.",
        validate=validate.OneOf(KINDS),
    )
    created_at = text("When, in UTC.")
    key = key_field()
    version = count("Number of the version it is about.")
    save_id = text("Name of that version.")
    calculation_id = text("Id of its calculation.")
    sodium_per_serving_mg = number("Its sodium of a serving in mg.")
    record = one(EntrySchema, "The newest entry of the journal then.", required=False, allow_none=True)
    complete = flag(
        "Whether all its sodium was counted; false: the figure is incomplete.",
        required=False,
        allow_none=True,
    )
    uncounted = several(GapKeptSchema, "What a signer confirmed was not counted.", required=False)
    by = text("Who did it.", required=False)
    note = text("What a reviewer wrote to it.", required=False)
    reason = text("Why a reviewer overruled.", required=False)
    withdrawn = count("Number of the overrule that was taken back.", required=False)
    because = text("Of recipe.stale: the key of the recipe that changed.", required=False)
    path = texts("Of recipe.stale: the keys that lead from this recipe to that one.", required=False)
    renamed_from = text("Of recipe.renamed: the key before.", required=False)
    words = text("Of recipe.completed: the words whose food was found.", required=False)
    before_mg = number("Sodium of a serving before, in mg, where it is another now.", required=False)
    kept = flag(
        "Of recipe.signed: true where no figure moved and the signature of before stands.", required=False
    )


class EventsAnswerSchema(AnswerSchema):
    """What happened, the oldest first."""

    events = several(EventSchema, "The oldest first.")
    earliest_id = count(
        "Number of the oldest event that is kept; 0 for none. Where it is more than one above your `after`, "
        "events may have been taken out for their age since: read the lists anew."
    )
    latest_id = count("Number of the newest event there is; 0 for none.")
