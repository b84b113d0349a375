"""The picture: heights in proportion, bands that meet their bars, nothing outside the frame."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given, settings
from saltledger.render.flow_drawing import TALL, picture

from tests.review.kitchens import answer, ingredient, kitchens, loin


def test_the_loin() -> None:
    drawn = picture(loin()["sodium"]["origins"])
    assert [bar.name for bar in drawn.origins] == ["loin", "brine"]
    assert {bar.name for bar in drawn.places} == {"eaten", "poured_away"}
    brine = drawn.origins[1]
    assert brine.height == pytest.approx(TALL * 10_000 / 10_400)
    assert sum(bar.percent for bar in drawn.places) == pytest.approx(100)
    assert {(band.origin, band.place, band.eaten) for band in drawn.bands} == {
        ("loin", "eaten", True),
        ("loin", "poured_away", False),
        ("brine", "eaten", True),
        ("brine", "poured_away", False),
    }


def test_nothing_to_draw() -> None:
    assert picture(answer([ingredient("recipe", "water", 0)], [])["sodium"]["origins"]).bands == ()


@settings(max_examples=50, deadline=None)
@given(kitchens())
def test_everything_stays_inside(kitchen: dict[str, Any]) -> None:
    drawn = picture(kitchen["sodium"]["origins"])
    for bar in (*drawn.origins, *drawn.places):
        assert bar.y >= 0
        assert bar.y + bar.height <= drawn.height
        assert 0 < bar.x < drawn.width
    assert sum(band.mg for band in drawn.bands) == pytest.approx(sum(bar.mg for bar in drawn.places))
