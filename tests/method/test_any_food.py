"""Plain acts come to the same steps with any food, whatever is told beside: any_food/."""

from __future__ import annotations

import pytest

from .any_food.crossing import Crossed, crossed, families
from .plain_acts.grid import Act, Cell

EACH = 80
"""Texts of a family that are drawn; `python -m tests.method.any_food` draws more."""
MOST_WRONG = 1


@pytest.mark.parametrize("family", families())
def test_an_act_is_read_with_any_food(family: str) -> None:
    drawn = crossed(family, EACH)
    wrong = {each.cell.text: found for each in drawn if (found := each.faults())}
    assert len(wrong) <= MOST_WRONG, wrong


def test_texts_are_the_same_for_the_same_seed_and_others_for_another() -> None:
    first, again, other = ([each.cell.text for each in crossed("brined", 20, seed)] for seed in (1, 1, 2))
    assert first == again != other
    assert not any("{" in text for text in first)


def test_a_text_that_comes_to_other_steps_is_told() -> None:
    act = Act("peas", ("300 g peas", "1 onion"), ("boil~ | peas",), ())
    wrong = Crossed("none", act, Cell("Fry the peas with the onion.", ()), ("peas",))
    assert wrong.faults() == ["missing: boil~ | peas"]
