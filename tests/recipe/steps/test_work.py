"""One step's work: how figures are named, and which measured value is taken."""

from __future__ import annotations

import pytest
from saltledger.core.notices import MEASURED, STATED
from saltledger.core.sourced import SourcedFigure
from saltledger.core.spread import Spread
from saltledger.core.step_kinds import step_kinds
from saltledger.recipe.pool_rows import SODIUM, WEIGHT
from saltledger.recipe.request import StepRequest
from saltledger.recipe.steps.work import Work, works

from tests.recipe import dishes
from tests.recipe.dishes import item, likely, part, recipe, step


@pytest.fixture
def work(state):
    def made(**measures):
        return Work(StepRequest(2, "roast", ("meat",), **measures), state, "meat")

    return made


def entries(work):
    return {a.id: (a.value.likely, a.source) for a in work.state.log}


@pytest.mark.parametrize(
    ("measures", "ratio", "source"),
    [
        ({"weight_before_g": 500, "weight_after_g": 400, "yield_fraction": 0.1}, 0.8, MEASURED),
        ({"weight_after_g": 700}, 0.7, MEASURED),
        ({"yield_fraction": 0.6, "pick_up_percent": 5}, 0.6, STATED),
        ({"pick_up_percent": 8}, 1.08, STATED),
    ],
)
def test_weighed_comes_before_stated(work, measures, ratio, source):
    made = work(**measures)
    assert made.weight_ratio("yield") == pytest.approx(ratio)
    assert entries(made) == {"step-2/meat/yield": (pytest.approx(ratio), source)}


def test_what_is_not_given_is_none_and_not_entered(work):
    made = work()
    assert made.weight_ratio("yield") is made.stated_factor() is made.discarded_share() is None
    assert made.sodium_after(made.pool[WEIGHT]) is None
    assert entries(made) == {}


@pytest.mark.parametrize(("grams", "share"), [(150, 0.15), (5000, 1.0)])
def test_a_weighed_part_is_a_share_of_what_is_there(work, grams, share):
    assert work(discarded_g=grams).discarded_share() == pytest.approx(share)


def test_a_laboratory_value_is_per_weight(work):
    made = work(sodium_after_mg_per_100g=600)
    assert made.sodium_after(made.pool[WEIGHT]) == pytest.approx(6000)


WET = ("brine", "marinate", "soak", "simmer", "boil", "inject", "drain", "press", "squeeze", "rinse")
HOT = ("steam", "roast", "fry", "sous_vide", "salt_crust")


@pytest.mark.parametrize("kind", [*WET, *HOT, "dry_cure"])
def test_a_laboratory_value_is_met_whatever_was_done(kind):
    found = step_kinds()[kind]
    brine = part("brine", item(dishes.WATER, 1000), item(dishes.SALT, 30), eaten_fraction=0)
    bath = "brine" if found.bath or kind in ("simmer", "boil", "inject", "dry_cure") else None
    more = {"pump_percent": 10} if kind == "inject" else {}
    done = step(kind, "loin", bath, sodium_after_mg_per_100g=100, **more)
    salted = part("loin", item(dishes.PORK, 500), item(dishes.SALT, 5), eaten_fraction=1)
    document = recipe([salted, brine] if bath else [salted], [done])
    assert 100 * likely(document) / likely(document, row=WEIGHT) == pytest.approx(100, rel=1e-6)


@pytest.mark.parametrize("mg_per_100g", [10, 39, 600])
def test_sodium_is_settled_out_of_and_back_from_the_rest(work, mg_per_100g):
    made = work(sodium_after_mg_per_100g=mg_per_100g)
    made.settle_sodium("pot")
    assert 100 * made.pool[SODIUM] == pytest.approx(mg_per_100g * made.pool[WEIGHT])
    assert made.pool[SODIUM] + made.state.pools.amounts["pot"][SODIUM] == pytest.approx(393.4 + 19670)


def test_figures_are_named_by_step_and_component(work):
    made = work()
    figure = SourcedFigure(Spread(1, 2, 3), "a table")
    assert made.assume("drip", figure, "fraction") is made.assume("drip", figure, "fraction")
    assert entries(made) == {"step-2/meat/drip": (2, "a table")}


def test_a_check_is_given_once(work):
    made = work()
    made.check("look", "Look here.")
    made.check("look", "Look here.")
    (notice,) = made.state.notices
    assert (notice.severity, notice.pointer) == ("check", "/steps/2")


def test_a_step_works_on_every_food_it_names(state):
    assert [w.name for w in works(StepRequest(0, "roast", ("meat", "pot")), state)] == ["meat", "pot"]
