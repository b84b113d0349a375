"""Where flesh goes in the heat: by its core, by its size, and cooked through where nobody sized it."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from saltledger.recipe.pool_rows import ROW, WEIGHT

from tests.recipe import dishes
from tests.recipe.dishes import cooked, item, likely, part, recipe, step

BEEF = "13864"
"""SR28: beef round, raw."""

FEW = settings(max_examples=12, deadline=None)
HOURS = st.floats(min_value=0.02, max_value=3.0)
POTS = ("simmer", "boil")


def eaten(document):
    return cooked(document).eaten


def weight(*steps, food=dishes.CHICKEN):
    pot = part("pot", item(dishes.WATER, 3000), eaten_fraction=0)
    return eaten(recipe([part("piece", item(food, 1000)), pot], list(steps)))[WEIGHT]


def heated(kind, **measures):
    return step(kind, "piece", "pot" if kind in POTS else None, **measures)


@FEW
@given(
    kind=st.sampled_from(("boil", "steam", "roast", "fry", "sous_vide")),
    core_c=st.floats(min_value=45, max_value=95),
    hours=HOURS,
)
def test_a_core_that_was_measured_decides_whatever_the_time(kind, core_c, hours):
    once, long = (weight(heated(kind, core_temperature_c=core_c, duration_h=h)) for h in (0.1, 0.1 + hours))
    assert once == pytest.approx(long, rel=6e-3)


@FEW
@given(kind=st.sampled_from(("simmer", "steam", "roast", "fry")), hours=HOURS)
def test_the_warmer_the_core_the_less_it_weighs(kind, hours):
    weights = [weight(heated(kind, core_temperature_c=c, duration_h=hours))[0] for c in (55, 65, 75, 85)]
    assert all(np.diff(weights) < 0)


@FEW
@given(kind=st.sampled_from(("simmer", "steam", "roast", "fry")), hours=HOURS, share=st.floats(0.1, 0.9))
def test_parts_of_a_step_make_the_whole_cooked_through_or_to_a_core(kind, hours, share):
    for told in ({}, {"core_temperature_c": 72}):
        whole = weight(heated(kind, duration_h=hours, **told))
        parts = (heated(kind, duration_h=hours * each, **told) for each in (share, 1 - share))
        assert weight(*parts) == pytest.approx(whole, rel=1e-5)


@pytest.mark.parametrize("told", [{}, {"core_temperature_c": 75}, {"thickness_cm": 2.0}])
def test_no_time_is_nothing(told):
    assert weight(heated("simmer", duration_h=0.0, **told)) == pytest.approx(1000.0)


def test_five_minutes_cook_what_nobody_sized_and_not_what_is_stated_to_be_thick():
    unsized = weight(heated("boil", duration_h=0.08))
    assert unsized[0] < 850
    assert weight(heated("boil", duration_h=0.08, thickness_cm=6))[0] > 950
    spread = np.percentile(unsized, 95) / np.percentile(unsized, 5)
    assert spread > 1.1


def test_what_is_only_browned_has_lost_less_by_then_than_what_is_fried_alone():
    def on_the_tray(*after):
        made = recipe([part("piece", item(BEEF, 1000)), *POT], [heated("fry", duration_h=0.08), *after])
        return cooked(made).state.pools.amounts["left_on_tray"][WEIGHT, 0]

    alone, browned = on_the_tray(), on_the_tray(heated("simmer", duration_h=2))
    assert browned < 0.8 * alone
    assert on_the_tray(heated("simmer", duration_h=1e-6)) == pytest.approx(alone, rel=1e-3)


POT = [part("pot", item(dishes.WATER, 3000), eaten_fraction=0)]


def test_browned_meat_that_goes_on_in_another_component_counts_as_browned():
    def on_the_tray(*after):
        stew = part("stew", item(dishes.CARROTS, 200), item(dishes.WATER, 500))
        parts = [part("piece", item(BEEF, 1000)), stew]
        made = recipe(parts, [heated("fry", duration_h=0.08), *after])
        return cooked(made).state.pools.amounts["left_on_tray"][WEIGHT, 0]

    joined = step("combine", "piece", into="stew"), step("simmer", "stew", duration_h=2)
    assert on_the_tray(*joined) < 0.8 * on_the_tray()


def test_a_bag_decides_by_its_temperature():
    bags = (heated("sous_vide", duration_h=4, temperature_c=c) for c in (54, 80))
    rare, done = (weight(bag, food=BEEF)[0] for bag in bags)
    assert done < 750
    assert rare > 880


def test_potassium_goes_with_the_juice_of_tenders_as_was_measured():
    """Boiled five minutes in ten parts of water they keep 63 % (Nakamura Gakuen 15:229, 1982)."""
    parts = [part("piece", item("05062", 100)), part("pot", item(dishes.WATER, 1000), eaten_fraction=0)]
    raw = likely(recipe(parts[:1], []), row=ROW["K"])
    held = (
        eaten(recipe(parts, [step("boil", "piece", "pot", duration_h=5 / 60, temperature_c=92)]))[ROW["K"]]
        / raw
    )
    assert np.percentile(held, 5) < 0.626 < np.percentile(held, 95)
