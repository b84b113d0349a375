"""A kitchen's own measurements: what they say of the figures behind a dish, and where they say nothing."""

from __future__ import annotations

import pytest
from saltledger.core.assumptions import local_rows
from saltledger.evidence.local import Local, Measured, learn, local_of
from saltledger.foods.dataset import bundled

from tests.recipe.dishes import CARROTS, SALT, WATER, answered, brined, item, part, recipe, step

BRINED = brined(thickness_cm=None, duration_h=None)
POT = recipe(
    [part("roots", item(CARROTS, 500)), part("pot", item(WATER, 1500), item(SALT, 15), eaten_fraction=0)],
    [step("boil", "roots", "pot")],
)


def per_100g(document):
    found = answered(document)["per_100g"]["nutrients"]["NA"]
    return found["low"], found["amount"], found["high"]


def measured(amount, document=BRINED, **more):
    return Measured(document, "sodium_mg_per_100g", amount, 0.05, **more)


def after(*measurements):
    return local_of([(each, False) for each in measurements], bundled())


def test_without_measurements_nothing_changes():
    with local_rows(None):
        assert answered(BRINED)["sodium"] == answered(BRINED)["sodium"]


@pytest.mark.parametrize("document", [BRINED, POT])
@pytest.mark.parametrize("off", [0.8, 1.0, 1.25])
def test_after_three_measurements_the_range_is_half_and_holds_the_fourth(document, off):
    low, likely, high = per_100g(document)
    truth = likely * off
    kitchen = after(*(measured(truth * each, document) for each in (0.97, 1.02, 1.01)))
    with local_rows(kitchen):
        own_low, own_likely, own_high = per_100g(document)
    assert own_high - own_low <= (high - low) / 2
    assert own_low < truth * 0.99 < own_high
    assert own_likely == pytest.approx(truth, rel=0.05)


def test_a_figure_says_that_it_is_the_kitchens_own_and_beside_what():
    kitchen = after(measured(per_100g(BRINED)[1]))
    with local_rows(kitchen):
        (reached,) = [a for a in answered(BRINED)["assumptions"] if a["id"].endswith("/duration")]
    assert reached["source"].startswith("the kitchen's own measurements, beside: common practice")
    assert reached["row"] == "usual_times:brine/pork"


def test_another_dish_that_stands_on_the_same_row_follows():
    other = brined(thickness_cm=None, duration_h=None, loin_g=2500, salt_g=300)
    before = per_100g(other)
    with local_rows(after(*[measured(per_100g(BRINED)[1] * 1.3)] * 3)):
        assert per_100g(other)[1] > before[1] * 1.1


def test_a_dish_that_shares_nothing_stays_as_it_was():
    before = answered(POT)["sodium"]["per_serving_mg"]
    with local_rows(after(measured(per_100g(BRINED)[1] * 1.2))):
        found = answered(POT)["sodium"]["per_serving_mg"]
    assert found["likely"] == pytest.approx(before["likely"])
    assert found["high"] - found["low"] == pytest.approx(before["high"] - before["low"], rel=0.3)


def test_one_that_contradicts_is_told_and_changes_nothing_until_it_is_confirmed():
    far = measured(per_100g(BRINED)[2] * 4)
    local, learned = learn(Local(), far, bundled(), confirmed=False)
    assert learned.contradicts
    assert not learned.used
    assert local.keys == ()
    _, learned = learn(Local(), far, bundled(), confirmed=True)
    assert learned.contradicts
    assert learned.used
    assert learned.after.likely > learned.before.likely


def test_what_was_measured_can_be_a_component_on_its_way():
    half = Measured(POT, "weight_g", 450.0, 0.02, component="roots", after_step=0)
    _, learned = learn(Local(), half, bundled(), confirmed=False)
    assert learned.before.low < learned.before.likely < learned.before.high
    assert learned.after.likely == pytest.approx(450, rel=0.03)
    assert any(key.startswith("cooking_yields:vegetable") for key, _ in learned.figures)


def test_an_answer_by_a_kitchens_figures_has_an_id_of_its_own():
    plain = answered(BRINED)["id"]
    with local_rows(after(measured(per_100g(BRINED)[1]))):
        assert answered(BRINED)["id"] != plain
