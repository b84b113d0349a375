"""The built tables: held to each other, and read food by food."""

from __future__ import annotations

import math

import pytest
from saltledger.core.errors import BrokenTable
from saltledger.core.tables import seed_foods
from saltledger.foods.bundle import Shelf
from saltledger.foods.nutrients import INDEX

FOODS = "".join(seed_foods().joinpath("data/foods.csv").read_text("utf-8").splitlines(keepends=True)[:3])
CODES = [line.partition(",")[0] for line in FOODS.splitlines()[1:]]
HEAD = ",".join(["code", *INDEX])
BLANK = "," * (len(INDEX) - 1)


def shelf(*lines: str, head: str = HEAD) -> Shelf:
    return Shelf(FOODS, "\n".join([head, *lines]) + "\n")


def test_a_blank_cell_is_not_known_and_a_nought_is_nought():
    made = shelf(f"{CODES[0]},0{BLANK}", f"{CODES[1]},1.5{',0' * (len(INDEX) - 1)}")
    first, second = (made[code].values for code in CODES)
    assert first[0] == 0.0
    assert all(math.isnan(value) for value in first[1:])
    assert second.tolist() == [1.5] + [0.0] * (len(INDEX) - 1)


def test_a_food_is_made_once():
    made = shelf(*(f"{code},{BLANK}" for code in CODES))
    assert made[CODES[0]] is made[CODES[0]]
    assert list(made) == CODES


@pytest.mark.parametrize(
    ("lines", "head"),
    [
        (CODES[:1], HEAD),
        (CODES[::-1], HEAD),
        (CODES, HEAD.replace("NA", "SODIUM", 1)),
    ],
)
def test_tables_that_do_not_belong_together_are_refused(lines, head):
    with pytest.raises(BrokenTable, match="build it again"):
        shelf(*(f"{code},{BLANK}" for code in lines), head=head)


def test_a_line_of_another_length_is_refused():
    made = shelf(*(f"{code},1,2" for code in CODES))
    with pytest.raises(BrokenTable, match="has 2 figures"):
        made[CODES[0]]
