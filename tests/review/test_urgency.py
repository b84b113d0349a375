from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from saltledger.review.urgency import Urgency, figures_differ, urgency_of

CALM = Urgency(0, 0, False, 0.0, False, False)


def answer(**more: Any) -> dict[str, Any]:
    sodium = {
        "per_serving_mg": {"low": 280.0, "likely": 300.0, "high": 330.0},
        "complete": True,
        "claims": [],
        **more.pop("sodium", {}),
    }
    return {
        "servings": 4,
        "notices": [],
        "ingredients": [{"confidence": 0.97, "sodium_mg": 1200.0}],
        "per_serving": {"nutrients": {"NA": {"amount": 300.0}}},
        "sodium": sodium,
        **more,
    }


def claim(likely: float, high: float, limit: float = 140.0) -> dict[str, Any]:
    return {
        "id": "low_sodium",
        "sort": "claim",
        "limit_mg": limit,
        "amount_mg": {"low": likely, "likely": likely, "high": high},
        "met_at_likely": likely <= limit,
        "met_at_high": high <= limit,
    }


def test_a_plain_answer_needs_nobody() -> None:
    assert urgency_of(answer()) == CALM
    assert CALM.rank == 0


@pytest.mark.parametrize(
    ("more", "field", "value"),
    [
        ({"notices": [{"severity": "stop"}, {"severity": "check"}]}, "stops", 1),
        ({"notices": [{"severity": "check"}, {"severity": "info"}]}, "checks", 1),
        ({"sodium": {"complete": False}}, "incomplete", True),
        ({"ingredients": [{"confidence": 0.79, "sodium_mg": 1200.0}]}, "doubtful_mg", 300.0),
        ({"ingredients": [{"confidence": 0.8, "sodium_mg": 1200.0}]}, "doubtful_mg", 0.0),
        ({"ingredients": [{"confidence": 0.5, "sodium_mg": None}]}, "doubtful_mg", 0.0),
        ({"reading": {"questions": [{"swing_mg_per_serving": 80.0}]}}, "doubtful_mg", 80.0),
        ({"sodium": {"claims": [claim(120, 150)]}}, "near_limit", True),
        ({"sodium": {"claims": [claim(146, 150)]}}, "near_limit", True),
        ({"sodium": {"claims": [claim(200, 220)]}}, "near_limit", False),
        ({"sodium": {"claims": [claim(100, 120)]}}, "near_limit", False),
    ],
)
def test_each_cause_is_seen(more, field, value) -> None:
    assert getattr(urgency_of(answer(**more)), field) == value


def test_a_part_of_a_line_counts_as_a_line() -> None:
    lines = [{"confidence": 0.97, "sodium_mg": 0, "parts": [{"confidence": 0.6, "sodium_mg": 400.0}]}]
    assert urgency_of(answer(ingredients=lines)).doubtful_mg == 100.0


def test_a_part_is_not_counted_a_second_time_in_its_line() -> None:
    lines = [{"confidence": 0.7, "sodium_mg": 2500.0, "parts": [{"confidence": 0.6, "sodium_mg": 2300.0}]}]
    assert urgency_of(answer(ingredients=lines)).doubtful_mg == 2500.0 / 4


def test_what_changed_since_it_was_signed_is_seen() -> None:
    moved = answer(sodium={"per_serving_mg": {"low": 280.0, "likely": 301.0, "high": 330.0}})
    assert urgency_of(moved, signed=answer()).changed_since_signing
    assert not urgency_of(answer(title="another"), signed=answer()).changed_since_signing
    assert not urgency_of(moved).changed_since_signing


def test_another_order_of_addition_is_no_change() -> None:
    other = answer(per_serving={"nutrients": {"NA": {"amount": 300.0000000001}}})
    assert not figures_differ(answer(), other)
    assert figures_differ(answer(), answer(per_serving={"nutrients": {"NA": {"amount": 300.1}}}))


ranks = st.builds(
    Urgency,
    st.integers(0, 3),
    st.integers(0, 3),
    st.booleans(),
    st.sampled_from([0.0, 19.0, 20.0, 99.0, 100.0, 4000.0]),
    st.booleans(),
    st.booleans(),
)


@given(ranks, ranks)
def test_an_earlier_cause_outweighs_all_later_ones(one: Urgency, other: Urgency) -> None:
    def causes(u: Urgency) -> tuple[Any, ...]:
        doubt = (u.doubtful_mg >= 20) + (u.doubtful_mg >= 100)
        return (u.stops > 0, u.incomplete, doubt, u.changed_since_signing, u.near_limit)

    assert (one.rank > other.rank) == (causes(one) > causes(other))
