"""What a usual amount says of itself in an answer that rests on it."""

from __future__ import annotations

import pytest
from saltledger.nutrition.usual_amounts import usual


def test_an_answer_that_rests_on_a_usual_amount_gives_its_range_unit_and_row():
    """What a main dish may weigh: 140 g is the least reference amount of mixed dishes, 9 CFR 381.412(b)."""
    said = usual("serving_g").assumption
    assert (said.id, said.value, said.unit) == ("usual/serving_g", usual("serving_g").spread, "g")
    assert said.value.low == 140
    assert "9 CFR 381.412(b)" in said.source
    assert said.row == "usual_amounts:serving_g"


def test_an_amount_that_the_table_lacks_is_refused():
    with pytest.raises(KeyError):
        usual("no_such_amount")
