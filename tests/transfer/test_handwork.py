"""Figures of work by hand: shares, by food, with their words."""

import pytest
from saltledger.core.tables import rows
from saltledger.transfer.handwork import by_hand, cure_brine, pressed


@pytest.mark.parametrize(
    "figure", [by_hand("pump_drip"), pressed("press", None), pressed("squeeze", "leaf"), by_hand("skim")]
)
def test_shares_are_shares(figure):
    assert 0 <= figure.spread.low <= figure.spread.likely <= figure.spread.high <= 1
    assert figure.source


def test_a_squeeze_takes_more_than_a_press():
    for kind in ("leaf", "vegetable", "potato", "no such"):
        assert pressed("squeeze", kind).spread.likely > pressed("press", kind).spread.likely


def test_a_pump_likely_puts_in_what_it_is_said_to():
    assert by_hand("pump_drip").spread.likely == 0


def test_every_row_is_read():
    ids = {row["id"] for row in rows("handwork")}
    known = {
        "pump_drip",
        "press",
        "squeeze",
        "skim",
        "rinse_min",
        "pot_time",
        "wetted",
        "crust_wet",
        "colour_shows",
        "heat_goes_on",
        "swelling_pace",
    }
    assert {each.split("/")[0] for each in ids} == known


def test_what_a_dry_cure_draws_stays_by_the_food_and_how_it_lies():
    meat, fish, leaf = (
        cure_brine(*each) for each in (("pork", ""), ("fish_fatty", "salmon"), ("vegetable", ""))
    )
    assert meat.stays.spread.likely < fish.stays.spread.likely < leaf.stays.spread.likely
    assert meat.drips.spread.likely < fish.drips.spread.likely <= leaf.drips.spread.likely
    assert (
        cure_brine("fish_fatty", "Fish, anchovy, european, raw").stays.spread.likely
        > fish.stays.spread.likely
    )
