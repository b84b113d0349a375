"""The book: each figure once, equal names move together, and the weightiest is named."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from saltledger.core.assumptions import AssumptionLog
from saltledger.core.errors import InvalidRequest
from saltledger.core.notices import Assumption
from saltledger.core.spread import DRAWS, Spread
from saltledger.core.tables import is_row

from tests.recipe.dishes import CANNED_BEANS, PORK, answered, brined, cooked, item, part, recipe, step
from tests.recipe.kitchens import recipes

WIDE, NARROW = Spread(1, 2, 4), Spread(9, 10, 11)


def test_a_figure_is_entered_once():
    log = AssumptionLog()
    first = log.take("a", WIDE, "g", "here")
    assert log.take("a", NARROW, "kg", "there") is first
    assert [(a.id, a.unit, a.source) for a in log] == [("a", "g", "here")]


def test_draws_hold_nine_in_ten_and_begin_with_the_likely_case():
    drawn = AssumptionLog().take("a", WIDE, "g", "here")
    assert drawn.shape == (DRAWS + 1,)
    assert drawn[0] == 2
    assert np.mean((drawn[1:] >= 1) & (drawn[1:] <= 4)) == pytest.approx(0.9, abs=0.01)


def test_figures_of_one_cause_move_together_and_others_do_not():
    log = AssumptionLog()
    warm, cold = (log.take(name, WIDE, "m2/s", "s", shared="pork/salt") for name in ("warm", "cold"))
    other = log.take("other", WIDE, "m2/s", "s")
    assert np.array_equal(warm, cold)
    assert abs(np.corrcoef(warm[1:], other[1:])[0, 1]) < 0.2


@pytest.mark.parametrize(("floor", "ceiling"), [(1.5, 3.0), (0.0, 2.0)])
def test_draws_are_kept_within_bounds(floor, ceiling):
    drawn = AssumptionLog().take("a", WIDE, "g", "here", floor=floor, ceiling=ceiling)
    assert floor <= drawn.min() <= drawn.max() <= ceiling


def test_the_weightiest_comes_first_and_shares_add_up_to_about_one():
    log = AssumptionLog()
    wide = log.take("wide", Spread(70, 100, 130), "g", "s")
    outcome = 3 * wide + log.take("narrow", Spread(90, 100, 110), "g", "s")
    (first, share), (second, rest) = log.shares_of_range(outcome)
    assert (first.id, second.id) == ("wide", "narrow")
    assert share == pytest.approx(81 / 82, abs=0.03)
    assert share + rest == pytest.approx(1, abs=0.15)


def test_a_known_figure_and_a_recorded_one_carry_nothing():
    log = AssumptionLog()
    log.take("known", Spread.exact(3), "g", "s")
    log.add(lambda: [Assumption("recorded", WIDE, "g", "s")])
    assert [a.id for a in log] == ["known", "recorded"]
    assert log.shares_of_range(np.arange(DRAWS + 1.0)) == []


def test_an_outcome_without_range_is_carried_by_nothing():
    log = AssumptionLog()
    log.take("wide", WIDE, "g", "s")
    assert log.shares_of_range(np.ones(DRAWS + 1)) == []


def test_causes_shared_by_several_figures_count_once():
    log = AssumptionLog()
    outcome = log.take("a", WIDE, "g", "s", shared="c") + log.take("b", WIDE, "g", "s", shared="c")
    assert [a.id for a, _ in log.shares_of_range(outcome)] == ["a"]


def test_a_row_of_the_tables_can_be_overruled_by_name():
    document = brined(thickness_cm=None, duration_h=None)
    own = {"row": "usual_times:brine/pork", "likely": 40, "low": 35, "high": 45}
    (found,) = [a for a in answered({**document, "figures": [own]})["assumptions"] if a["row"] == own["row"]]
    assert (found["low"], found["value"], found["high"]) == (35, 40, 45)
    assert found["source"].startswith("stated by the caller, beside: common practice")


def test_an_overruled_row_that_holds_several_figures_says_which():
    roast = recipe([part("meat", item(PORK, 1000))], [step("roast", "meat")])
    (row,) = {a["row"] for a in answered(roast)["assumptions"] if a["id"].endswith("/yield")}
    own = {**roast, "figures": [{"row": row, "of": "yield", "likely": 0.6}]}
    answer = answered(own)
    assert answer["per_serving"]["weight_g"] == pytest.approx(600)
    fats = [a for a in answer["assumptions"] if a["id"].endswith("/fat-kept")]
    assert fats
    assert not any(fat["source"].startswith("stated") for fat in fats)


def test_an_overruled_row_that_nothing_stands_on_is_told_and_one_that_is_none_is_refused():
    document = brined()
    told = answered({**document, "figures": [{"row": "drip:any/roast", "likely": 0.1}]})["notices"]
    assert [each["pointer"] for each in told if each["code"] == "figure-not-used"] == ["/figures/0"]
    for wrong in ({"row": "drip:nothing", "likely": 1}, {"row": "drip:any/roast", "likely": 1, "low": 2}):
        with pytest.raises(InvalidRequest):
            answered({**document, "figures": [wrong]})


LINES = (
    *(
        "2 tbsp parsley, chopped",
        "1 onion",
        "2 cloves garlic",
        "1 can tuna",
        "salt to taste",
        "a knob of butter",
    ),
    *(
        "3 slices bacon",
        "1 cup flour",
        "2 eggs",
        "1/2 bunch kale",
        "1 stock cube",
        "1 lemon",
        "2 tsp flaky salt",
    ),
)


def check_rows(document):
    """Each assumption is of a row of the tables, or what the caller said."""
    outcome = cooked(document)  # figures of what rides along are entered once somebody looks
    for each in outcome.state.log:
        said = "stated" in each.source or "measured" in each.source
        assert is_row(each.row) if each.row else said, (each.id, each.row, each.source)


def test_a_factor_that_only_may_lose_names_its_row_beside_food_that_is_cooked_already():
    parts = [part("meat", item(CANNED_BEANS, 500), item(PORK, 100))]
    check_rows(recipe(parts, [step("roast", "meat", duration_h=1)]))


@given(recipes())
@settings(max_examples=25, deadline=None)
def test_every_assumption_of_any_recipe_names_its_row(document):
    check_rows(document)


@pytest.mark.parametrize("line", LINES)
def test_every_weight_that_is_assumed_names_its_row(line):
    check_rows({"title": "t", "servings": 1, "ingredients": [line]})


def test_what_heat_leaves_is_a_row_that_the_caller_may_replace():
    document = recipe([part("greens", item("11457", 300))], [step("steam", "greens", duration_h=0.06)])
    kept = next(a for a in answered(document)["assumptions"] if a["id"].endswith("heat-kept/VITC"))
    assert kept["row"] == "retention_trials:leaf/steam/VITC"
    own = {"row": kept["row"], "low": 0.3, "likely": 0.4, "high": 0.5}
    told = answered({**document, "figures": [own]})
    found = next(a for a in told["assumptions"] if a["id"] == kept["id"])
    assert found["row"] == kept["row"]
    assert found["value"] < 0.6 * kept["value"]
    assert not [each for each in told["notices"] if each["code"] == "figure-not-used"]
