"""States of foods by their names, and that tables fit the dataset."""

from __future__ import annotations

import pytest
from saltledger.foods.dataset import bundled
from saltledger.nutrition.retention import cooking_state, is_done, says_done


@pytest.mark.parametrize(
    ("name", "group", "state"),
    [
        ("Beef, brisket, flat half, separable lean only, cooked, braised", "1300", "cooked"),
        ("Beef, round, bottom round, roast, separable lean only, raw", "1300", "raw"),
        ("Rice, white, long-grain, parboiled, unenriched, cooked", "2000", "cooked"),
        ("Rice, white, long-grain, parboiled, unenriched, dry", "2000", "raw"),
        ("Chicken patty, frozen, uncooked", "0500", "raw"),
        ("Tomatoes, red, ripe, canned, packed in tomato juice", "1100", "canned"),
        ("Beans, kidney, all types, mature seeds, canned", "1600", "canned"),
        ("Ham, chopped, not canned", "0700", None),
        ("Potatoes, flesh and skin, raw", "1100", "raw"),
        ("Carrots, raw", "1100", None),
        ("Fish, salmon, chinook, smoked", "1500", None),
        ("Biscuits, plain or buttermilk, frozen, baked", "1800", None),
        ("Wheat flour, white, all-purpose, enriched, bleached", "2000", "raw"),
        ("", "", None),
    ],
)
def test_state(name: str, group: str, state: str | None) -> None:
    assert cooking_state(name, group) == state


def test_no_row_that_says_raw_alone_is_taken_for_cooked() -> None:
    foods = (bundled().get(code) for code in bundled().codes)
    raw = [food for food in foods if food.name.endswith(", raw")]
    assert len(raw) > 800
    assert [food.name for food in raw if is_done(food.name, food.group_code)] == []


def test_no_row_that_says_cooked_is_taken_for_raw() -> None:
    foods = (bundled().get(code) for code in bundled().codes)
    cooked = [food for food in foods if ", cooked, " in food.name]
    assert len(cooked) > 1000
    assert [food.name for food in cooked if cooking_state(food.name, food.group_code) == "raw"] == []


@pytest.mark.parametrize(
    ("line", "said"), [("2 cups cooked rice", True), ("400 g canned beans", True), ("500 g brisket", False)]
)
def test_lines_may_say_it(line: str, said: bool) -> None:
    assert says_done(line) is said
