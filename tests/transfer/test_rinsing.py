"""Loose food gives up its salt under the tap by the minute."""

import math

import pytest
from saltledger.foods.dataset import bundled
from saltledger.transfer.handling_figures import rinse_rate_per_min


@pytest.mark.parametrize(("code", "kept"), [("15121", 0.20), ("01012", 0.37)])
def test_three_minutes_under_the_tap(code, kept):
    """J Am Diet Assoc 82:394 (1983): water-packed tuna keeps 20 %, cottage cheese 37 % of its sodium."""
    figure = rinse_rate_per_min(bundled().get(code))
    assert math.exp(-3 * figure.spread.likely) == pytest.approx(kept, abs=0.01)


@pytest.mark.parametrize("code", ["10060", "15015", "11124"])
def test_whole_pieces_have_no_rate(code):
    assert rinse_rate_per_min(bundled().get(code)) is None
    assert rinse_rate_per_min(None) is None
