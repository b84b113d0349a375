import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from saltledger.core.documents import (
    assumption_documents,
    figure,
    figures,
    notice_document,
    range_document,
)
from saltledger.core.notices import Assumption, Notice
from saltledger.core.spread import Spread


def test_figures_have_twelve_significant_digits():
    assert figure(1234.567890123456) == 1234.56789012
    assert figure(1.234567890123456e-10) == 1.23456789012e-10
    assert figure(0) == 0


def test_a_range_an_assumption_and_a_notice():
    spread = Spread(1, 2, 3.0000000000049)
    assert range_document(spread) == {"low": 1, "likely": 2, "high": 3}
    assert assumption_documents([Assumption("a", spread, "g", "measured", 0)])[0] == {
        "id": "a",
        "value": 2,
        "low": 1,
        "high": 3,
        "unit": "g",
        "source": "measured",
        "row": None,
        "step": 0,
        "checked_against": [],
    }
    assert notice_document(Notice("c", "check", "Look.", "/x")) == {
        "code": "c",
        "severity": "check",
        "message": "Look.",
        "pointer": "/x",
    }


@given(st.lists(st.floats(allow_nan=False, allow_infinity=False, max_value=1e15, min_value=-1e15)))
def test_many_figures_at_once_are_those_one_by_one(values: list[float]):
    for value, at_once in zip(values, figures(np.array(values, dtype=float)).tolist(), strict=True):
        assert math.isclose(at_once, figure(value), rel_tol=2e-12, abs_tol=1e-22)


@given(st.integers(-(10**12) + 1, 10**12 - 1), st.integers(-10, 2))
def test_what_has_twelve_digits_stays_to_the_last_bit(digits: int, power: int):
    value = float(f"{digits}e{power}")
    assert figures(np.array([value])).tolist() == [value] == [figure(value)]


@pytest.mark.parametrize("wrong", [math.nan, math.inf, -math.inf])
def test_no_figure_is_other_than_finite(wrong: float):
    with pytest.raises(ValueError, match="finite"):
        figure(wrong)
    with pytest.raises(ValueError, match="finite"):
        figures(np.array([1.0, wrong]))
