"""The order of rows: every nutrient once, and each group where its slice says."""

from __future__ import annotations

import numpy as np
from saltledger.foods.nutrients import NUTRIENTS
from saltledger.nutrition.retention import heat_labile
from saltledger.recipe import rows
from saltledger.salt.pots import mobile_share

TAGS = tuple(rows.ROW)


def test_every_nutrient_and_the_weight_have_one_row() -> None:
    assert sorted(TAGS) == sorted(["WEIGHT", *(nutrient.tag for nutrient in NUTRIENTS)])
    assert np.array(TAGS)[rows.NUTRIENT_ROWS].tolist() == [nutrient.tag for nutrient in NUTRIENTS]


def test_what_leads_is_named() -> None:
    assert TAGS[: rows.LEAD] == rows.LEADING
    named = (rows.SUGAR, rows.SODIUM, rows.NITRITE, rows.NITRATE, rows.WATER, rows.WEIGHT, rows.FAT)
    assert [TAGS[row] for row in (*named, rows.ALCOHOL)] == list(rows.LEADING)
    assert TAGS[rows.SOLUTES] == ("SUGAR", "NA", "NITRI", "NITRA")
    assert TAGS[rows.SOLUTION] == (*TAGS[rows.SOLUTES], "WATER")


def test_groups_hold_all_that_moves_together() -> None:
    free = {nutrient.tag for nutrient in NUTRIENTS if mobile_share(nutrient.tag)}
    assert {*TAGS[rows.FREE], *TAGS[rows.SOLUTES]} == free
    assert set(TAGS[rows.LABILE]) == heat_labile()
    assert TAGS[rows.WITH_SOLUTES] == ("ASH", "CHOCDF", "ENERC", *TAGS[rows.FREE])
    assert TAGS[rows.FATTY_ACIDS] == ("FASAT", "FAMS", "FAPU")
    assert (TAGS[rows.ASH], TAGS[rows.CARBOHYDRATE], TAGS[rows.ENERGY]) == ("ASH", "CHOCDF", "ENERC")


def test_heat_and_coatings_leave_alone_what_leads_but_solutes() -> None:
    assert heat_labile().isdisjoint(rows.LEADING)
    assert not any(mobile_share(tag) for tag in ("WATER", "FAT", "ALC"))
