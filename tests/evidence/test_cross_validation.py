"""Every source left out in turn: what the others ask of the ranges."""

import math

import pytest
from saltledger.core.spread import Spread
from saltledger.evidence.cases import Case, Source
from saltledger.evidence.coverage import Held
from saltledger.evidence.cross_validation import cross_validated, off


def held(source, published, spread=(80.0, 100.0, 125.0), *, food="10060", rounding=0.0, kind="pots"):
    request = {"components": [{"ingredients": [{"food": food}]}]}
    case = Case("id", kind, Source(source, "fitting", "memory", ""), request, "p", published, "", rounding)
    return Held(case, Spread(*spread))


@pytest.mark.parametrize(
    ("published", "expected"), [(100, 0), (125, 1), (80, 1), (64, 2), (156.25, 2), (0, math.inf)]
)
def test_an_end_of_a_range_is_one_reach_off(published, expected):
    if published:
        assert off(held("a", published)) == pytest.approx(expected)
    else:
        assert off(held("a", published)) > 1


def test_rounding_is_taken_off_and_an_exact_range_has_no_reach():
    assert off(held("a", 103, rounding=0.05)) == 0
    assert off(held("a", 101, (100, 100, 100))) == math.inf


def test_one_source_far_off_stretches_the_others_but_not_itself():
    calm = [held(str(i), 101.0) for i in range(30)]
    (found,) = cross_validated([*calm, held("far", 1000.0)])
    assert (found.inside, found.of, found.sources) == (30, 31, 31)
    assert found.stretch < 0.1


def test_a_source_has_one_vote_however_much_it_measured():
    few = [held(str(i), 101.0) for i in range(20)]
    (found,) = cross_validated([*few, *(held("many", 1000.0) for _ in range(100))])
    assert found.stretch < 0.1
    assert found.inside == 20


def test_sources_of_many_foods_are_left_out_food_by_food_and_one_source_says_nothing():
    foods = [held(f"table-{part}", 101.0, food=str(i)) for i, part in enumerate(["fitting", "checking"] * 8)]
    (found,) = cross_validated(foods)
    assert found.sources == 16
    assert cross_validated([held("alone", 100.0)]) == []


def test_too_few_sources_ask_for_any_stretch():
    (found,) = cross_validated([held("a", 101.0), held("b", 102.0)])
    assert found.stretch == math.inf
    assert found.width is None
