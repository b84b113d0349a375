"""Sodium in answers: its range, where it came from and went, claims."""

from __future__ import annotations

from marshmallow import validate

from ...recipe.completeness import WORDS
from .answer_shapes import (
    AnswerSchema,
    RangeSchema,
    count,
    flag,
    number,
    one,
    row_of_law,
    several,
    stated_by,
    text,
)


class ReferenceSchema(AnswerSchema):
    """Sodium per serving against a reference value."""

    id = text("Id of the reference.")
    name = text("Its name, for people.")
    limit_mg = number("Its sodium in mg.")
    per = text("What it is for: a day or a serving.")
    kind = text("What sort of value it is: a limit, enough, or a limit of the caller's own.")
    percent = number("Sodium of a serving, percent of it.")
    source = text("Where it comes from.")
    mark = text("How well that is known; empty where the caller states it.")
    row = row_of_law()
    checked_against = stated_by()
    note = text("What else there is to say of it.")


class MovementSchema(AnswerSchema):
    """Sodium of the whole recipe that went from one place to another."""

    source = text("Where it was.", data_key="from")
    target = text("Where it went.", data_key="to")
    step = count("Index of the step; null when the dish is served.", allow_none=True)
    mg = number("Most likely amount in mg.")
    low = number("Low end in mg.")
    high = number("High end in mg.")


class PlaceSchema(AnswerSchema):
    """Sodium of the whole recipe that ended in one place."""

    place = text("The place: eaten, poured_away, left_on_tray and so on.")
    mg = number("Most likely amount in mg.")
    low = number("Low end in mg.")
    high = number("High end in mg.")


class FatesSchema(AnswerSchema):
    """Where the sodium of the whole recipe ended."""

    eaten_mg = number("Eaten, in mg.")
    discarded_mg = number("Not eaten, in mg.")
    places = several(PlaceSchema, "The same by place.")


class OriginSchema(AnswerSchema):
    """Sodium of one component's own ingredients that ended in one place."""

    component = text("Id of the component whose ingredients brought it.")
    place = text("Where it ended.")
    mg = number("Likely, in mg for the whole recipe.")


class CarriedSchema(AnswerSchema):
    """An assumption that carries much of the range."""

    assumption = text("Its id.")
    share = number("Its share of the variance, 0 to 1.")
    measure = text("What to measure instead.")


class ConditionSchema(AnswerSchema):
    """One of the conditions of a claim, all of which have to hold."""

    basis = text("What the limit is for.")
    holds = text("How: below or at_most.")
    limit_mg = number("The limit in mg.")
    amount_mg = one(RangeSchema, "The amount on that basis; null where it cannot be told.", allow_none=True)


class ClaimSchema(AnswerSchema):
    """A label claim or limit on sodium, and whether it is met."""

    id = text("Id of the claim.")
    name = text("Its name.")
    scheme = text("Whose rule it is.")
    sort = text("claim (words that may be printed), disclosure or criterion.")
    limit_mg = number("Its limit in mg.")
    basis = text("What the limit is for.")
    amount_mg = one(RangeSchema, "The amount on that basis.")
    met = flag(
        "Met at the most likely amount; null where not all sodium was counted, or where it hangs on an open "
        "question about the method.",
        allow_none=True,
    )
    judgement = text("The same in words.", validate=validate.OneOf(("met", "not met", "cannot be assessed")))
    met_at_likely = flag("Met at the most likely amount; null as `met`.", allow_none=True)
    met_at_high = flag("Still met at the high end; null as `met`.", allow_none=True)
    misses_by_mg = number("How much the likely amount is over; null as `met`.", allow_none=True)
    misses_by_mg_at_high = number("How much the high end is over; null as `met`.", allow_none=True)
    conditions = several(ConditionSchema, "Every condition; `basis` is that of the one nearest to failing.")
    source = text("Where it comes from.")
    mark = text("How well that is known.")
    row = row_of_law()
    checked_against = stated_by()
    note = text("What else has to be seen to.")


class GapSchema(AnswerSchema):
    """Something whose sodium was not counted, in the whole recipe."""

    pointer = text("JSON Pointer to the line or component.")
    line = text("The line, or the component's id.")
    reason = text("Why it was not counted.", validate=validate.OneOf(tuple(WORDS)))
    why = text("The same in words.")
    kind = text("What it was taken for.")
    low_mg = number("The least sodium that it may hold, in mg.")
    likely_mg = number("The likely sodium, which the likely figure holds; 0 where none is likely.")
    high_mg = number("The most sodium that it may hold, in mg.")
    source = text("Where these come from.")


class EvidenceSchema(AnswerSchema):
    """Published measurements held against ranges of one kind; see /method."""

    kind = text("The kind of measurement.")
    label = text("The same in words.")
    inside = count("How many lay inside their range.")
    of = count("How many there are.")


class SodiumSchema(AnswerSchema):
    """Sodium, followed from the list to the plate."""

    per_serving_mg = one(
        RangeSchema, "Sodium of a serving in mg, with what is usual of what was not counted; see `complete`."
    )
    complete = flag(
        "Whether every line that could carry sodium was read, mapped and weighed, and every liquid's fate is "
        "known. If not, no claim is judged."
    )
    counted_per_serving_mg = number("Sodium of a serving in mg from what was counted alone.")
    uncounted = several(GapSchema, "What was not counted; empty where the figure is complete.")
    as_listed_per_serving_mg = number(
        "The plain sum over the ingredient list, in mg a serving, for contrast."
    )
    references = several(ReferenceSchema, "Against reference values.")
    carried_by = several(CarriedSchema, "The assumptions that carry most of the range.")
    evidence = one(
        EvidenceSchema,
        "How often published measurements of the kind that carries the range lay inside theirs.",
        allow_none=True,
    )
    ledger = several(MovementSchema, "Every movement, in order, for the whole recipe.")
    fates = one(FatesSchema, "Where it ended, for the whole recipe.")
    origins = several(OriginSchema, "Whose ingredients it came from, by where it ended.")
    claims = several(ClaimSchema, "Label claims and whether they are met.")
