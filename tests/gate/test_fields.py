"""The strict fields: what each takes, and what it says where it refuses."""

from __future__ import annotations

from typing import Any

import pytest
from marshmallow import ValidationError
from saltledger.gate.fields import (
    Amounts,
    Choice,
    Flag,
    Name,
    Number,
    Part,
    QueryFlag,
    QueryWhole,
    Several,
    StrictField,
    Text,
    TextOr,
    Whole,
    shown,
)
from saltledger.gate.strict_schema import StrictSchema


class Inner(StrictSchema):
    grams = Number(0, 10, required=True)
    label = Text(most=5)


LINE_OR_INNER = TextOr(Text(most=5, wanted="a line"), Part(Inner))


def refusal(field: StrictField, value: Any) -> Any:
    with pytest.raises(ValidationError) as refused:
        field.deserialize(value)
    return refused.value.messages


@pytest.mark.parametrize(
    ("field", "value", "made"),
    [
        (Text(most=5), "🧂é", "🧂é"),
        (Text(most=5, blank=True), "", ""),
        (Text(most=9), "a\tb\nc", "a\tb\nc"),
        (Name(), "brine-1.a_b", "brine-1.a_b"),
        (Choice(("a", "b")), "b", "b"),
        (Number(0, 10), 0, 0),
        (Number(0, 10), 10.0, 10),
        (Number(0, 10), 2.5, 2.5),
        (Number(-5, 10), -0.0, 0),
        (Whole(0, 3), 3.0, 3),
        (QueryWhole(1, 100), "20", 20),
        (Flag(), False, False),
        (QueryFlag(), "true", True),
        (QueryFlag(), "false", False),
        (Several(Whole(0, 9), most=2), [1, 2], [1, 2]),
        (LINE_OR_INNER, "salt", "salt"),
        (LINE_OR_INNER, {"grams": 1}, {"grams": 1}),
        (Amounts(Number(0, 9), {"NA": "sodium"}), {"NA": 1}, {"NA": 1.0}),
    ],
)
def test_what_is_wanted_is_taken(field: StrictField, value: Any, made: Any) -> None:
    taken = field.deserialize(value)
    assert taken == made
    assert type(taken) is type(made)


@pytest.mark.parametrize(
    ("field", "value", "message"),
    [
        (Text(most=5), 8, "Found the number 8, wanted text; put it in quotation marks."),
        (Text(most=5), "abcdef", "Found 6 characters, wanted at most 5; shorten it."),
        (
            Text(most=5),
            " ",
            "Found text with nothing in it, wanted text; write something or leave the field out.",
        ),
        (Text(most=5), "a\x00", "Found the control character U+0000, wanted plain text; take it out."),
        (Text(most=5), "a\x1b", "Found the control character U+001B, wanted plain text; take it out."),
        (
            Name(wanted="an id"),
            "a b",
            'Found the text "a b", wanted an id; '
            "use letters, digits, dot, underscore and hyphen, a letter or digit first.",
        ),
        (Choice(("a", "b")), "c", 'Found the text "c", wanted one of a, b; choose one of these.'),
        (Choice(("a", "b")), ["a"], "Found a list of 1, wanted one of a, b; choose one of these."),
        (
            Number(0, 10, unit="g"),
            "8",
            'Found the text "8", wanted a number from 0 to 10 g; '
            "write it without quotation marks and inside this range.",
        ),
        (
            Number(0, 10),
            True,
            "Found true, wanted a number from 0 to 10; "
            "write it without quotation marks and inside this range.",
        ),
        (
            Number(0, 10),
            None,
            "Found null, wanted a number from 0 to 10; leave the field out where there is nothing to say.",
        ),
        (
            Whole(0, 3),
            1.5,
            "Found the number 1.5, wanted a whole number from 0 to 3; "
            "write a whole number without quotation marks.",
        ),
        (
            QueryWhole(1, 9),
            "1.0",
            'Found the text "1.0", wanted a whole number from 1 to 9; write it in digits.',
        ),
        (
            Flag(),
            "true",
            'Found the text "true", wanted true or false; write it without quotation marks.',
        ),
        (Flag(), 1, "Found the number 1, wanted true or false; write it without quotation marks."),
        (
            Several(Whole(0, 9), most=2),
            "ab",
            'Found the text "ab", wanted a list of at most 2; put the items in square brackets.',
        ),
        (
            Several(Whole(0, 9), most=2),
            [1, "x", 3],
            "Found a list of 3, wanted at most 2; split the request.",
        ),
        (
            Several(Whole(0, 9), least=1, most=2),
            [],
            "Found a list of 0, wanted at least 1; add what is missing.",
        ),
        (Part(Inner), [], "Found a list of 0, wanted an object; put its fields in braces."),
        (LINE_OR_INNER, 4, "Found the number 4, wanted a line or an object; see the API description."),
    ],
)
def test_a_refusal_says_found_wanted_and_the_remedy(field: StrictField, value: Any, message: str) -> None:
    assert refusal(field, value) == [message]


@pytest.mark.parametrize("value", [10**400, -(10**400), 1e308 * 10, float("nan")])
def test_numbers_beyond_reason_are_refused_without_being_printed(value: float) -> None:
    for field in (Number(0, 10), Whole(0, 10)):
        (message,) = refusal(field, value)
        assert message.startswith("Found a number that is too large")


def test_unknown_fields_are_named_with_a_hint_in_a_steady_order() -> None:
    assert refusal(Part(Inner), {"lable": "x", "zzz": 1}) == {
        "grams": ["This field is missing; add it: a number from 0 to 10."],
        "lable": ["There is no such field here; did you mean label?"],
        "zzz": ["There is no such field here; take it out, or use one of: grams, label."],
    }


def test_a_flood_of_unknown_fields_is_counted() -> None:
    flood = {f"x{i}": 1 for i in range(5_000)}
    assert refusal(Part(Inner), {"grams": 1} | flood) == {
        "_schema": ["Found 5001 fields, wanted at most 200; send known fields only."]
    }


def test_amounts_are_refused_by_name() -> None:
    field = Amounts(Number(0, 9), {"NA": "sodium", "K": "potassium"})
    assert refusal(field, {"NA": -1, "Na": 1}) == {
        "NA": [
            "Found the number -1, wanted a number from 0 to 9; "
            "write it without quotation marks and inside this range."
        ],
        "Na": ['There is no "Na" here; take it out, or use one of: NA, K.'],
    }
    assert refusal(field, {str(i): 1 for i in range(1_000)}) == [
        "Found 1000 names, wanted at most 2; send known names only."
    ]


def test_long_text_is_shown_short() -> None:
    assert shown("x" * 500) == f'the text "{"x" * 40}…" (500 characters)'
