"""What was worked out for other recipes changes no answer."""

from __future__ import annotations

from typing import Any

from hypothesis import given, settings
from saltledger.calculator import answer_recipe
from saltledger.core.remembered import Remembered
from saltledger.core.spread import draw
from saltledger.foods.dataset import MOST_LINES, MOST_MATCHES, bundled
from saltledger.recipe import contents, request, safety_checks

from .kitchens import recipes


def forget() -> None:
    """Forget every line, step and figure of the recipes so far."""
    foods = bundled()
    foods.lines, foods.matches = Remembered(MOST_LINES), Remembered(MOST_MATCHES)
    for remembered in (draw, contents.per_g, request._own_faults, safety_checks._item):
        remembered.cache_clear()


@settings(max_examples=12, deadline=None)
@given(recipes(), recipes())
def test_an_answer_is_the_same_whatever_was_asked_before(one: dict[str, Any], other: dict[str, Any]) -> None:
    forget()
    alone = answer_recipe(one)
    answer_recipe(other)
    assert answer_recipe(one) == alone
