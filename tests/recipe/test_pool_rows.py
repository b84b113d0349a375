"""The order of rows: every nutrient once, and each group where its slice says."""

from __future__ import annotations

import numpy as np
from saltledger.foods.nutrients import NUTRIENTS
from saltledger.nutrition.retention import heat_labile
from saltledger.recipe import pool_rows
from saltledger.transfer.pots import mobile_share

TAGS = tuple(pool_rows.ROW)


def test_every_nutrient_and_the_weight_have_one_row() -> None:
    assert sorted(TAGS) == sorted(["WEIGHT", "CLD", *(nutrient.tag for nutrient in NUTRIENTS)])
    assert np.array(TAGS)[pool_rows.NUTRIENT_ROWS].tolist() == [nutrient.tag for nutrient in NUTRIENTS]


def test_what_leads_is_named() -> None:
    assert TAGS[: pool_rows.LEAD] == pool_rows.LEADING
    named = (
        pool_rows.SUGAR,
        pool_rows.SODIUM,
        pool_rows.POTASSIUM,
        pool_rows.NITRITE,
        pool_rows.NITRATE,
        pool_rows.WATER,
        pool_rows.WEIGHT,
        pool_rows.FAT,
    )
    assert [TAGS[row] for row in (*named, pool_rows.ALCOHOL)] == list(pool_rows.LEADING)
    assert TAGS[pool_rows.SOLUTES] == ("SUGAR", "NA", "K", "NITRI", "NITRA")
    assert TAGS[pool_rows.SOLUTION] == (*TAGS[pool_rows.SOLUTES], "WATER")


def test_groups_hold_all_that_moves_together() -> None:
    free = {tag for tag in TAGS if mobile_share(tag)}
    assert "CLD" in free
    assert {*TAGS[pool_rows.FREE], *TAGS[pool_rows.SOLUTES]} == free
    assert set(TAGS[pool_rows.LABILE]) == heat_labile()
    assert TAGS[pool_rows.WITH_SOLUTES] == ("ASH", "CHOCDF", "ENERC", *TAGS[pool_rows.FREE])
    assert TAGS[pool_rows.FATTY_ACIDS] == ("FASAT", "FAMS", "FAPU")
    assert (TAGS[pool_rows.ASH], TAGS[pool_rows.CARBOHYDRATE], TAGS[pool_rows.ENERGY]) == (
        "ASH",
        "CHOCDF",
        "ENERC",
    )


def test_heat_and_coatings_leave_alone_what_leads_but_solutes() -> None:
    assert heat_labile().isdisjoint(pool_rows.LEADING)
    assert not any(mobile_share(tag) for tag in ("WATER", "FAT", "ALC"))
