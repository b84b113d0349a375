"""Bones to stock: gelatine, fat and minerals go into the pot, nothing is lost, and bones keep their lime."""

from __future__ import annotations

import numpy as np
import pytest
from saltledger.foods.dataset import bundled
from saltledger.recipe.pool_rows import FAT, ROW, SODIUM, WEIGHT

from tests.recipe.dishes import CARROTS, PORK, answered, codes, cooked, item, part, recipe, step
from tests.recipe.dishes import WATER as TAP

BONES = {
    "beef": "SL0170",
    "marrow": "SL0171",
    "pork": "SL0172",
    "chicken": "SL0173",
    "fish": "SL0174",
    "lamb": "SL0175",
}
BEEF_STOCK, CHICKEN_STOCK, FISH_STOCK = "06170", "06172", "06174"
PROTEIN, CALCIUM, MAGNESIUM = ROW["PROCNT"], ROW["CA"], ROW["MG"]


def stock(kind="beef", *hours, bones_g=1000, water_g=2000, more=(), **measures):
    """Bones in water that is eaten, the bones thrown away; boiled down to three quarters at the end."""
    parts = [
        part("bones", item(BONES[kind], bones_g), eaten_fraction=0),
        part("stock", item(TAP, water_g), eaten_fraction=1),
    ]
    simmered = [step("simmer", "bones", "stock", duration_h=each, **measures) for each in hours]
    return recipe(parts, [*simmered, *more])


def per_100g(document, row, place="eaten"):
    held = cooked(document).state.pools.amounts[place]
    return 100 * held[row] / held[WEIGHT]


BOILED_DOWN = (step("skim", "stock", share=0.95), step("reduce", "stock", yield_fraction=0.75))


@pytest.mark.parametrize(
    ("kind", "hours", "code"),
    [("beef", 8, BEEF_STOCK), ("chicken", 4, CHICKEN_STOCK), ("fish", 1, FISH_STOCK)],
)
def test_home_made_stocks_hold_the_protein_of_the_datasets(kind, hours, code):
    """SR28's home-made stocks (1.97, 2.52 and 2.26 g in 100 g), which are of bones and shreds of meat."""
    found = per_100g(stock(kind, hours, more=BOILED_DOWN), PROTEIN)
    measured = bundled().get(code).per_100g("PROCNT")
    assert found.min() < measured < found.max() or found[0] == pytest.approx(measured, rel=0.6)
    assert 0.3 < found[0] < 5


def test_a_serving_of_broth_holds_little_calcium():
    """Hsu et al., Food Nutr Res 61:1347478 (2017): 14 to 39 mg of calcium, 14 to 17 of magnesium."""
    pools = cooked(stock("pork", 8, bones_g=2000, water_g=4000)).state.pools.amounts["eaten"] / 8
    assert 5 < pools[CALCIUM, 0] < 60
    assert 5 < pools[MAGNESIUM, 0] < 30


@pytest.mark.parametrize("kind", BONES)
def test_nothing_of_bones_is_made_or_lost_and_most_lime_stays(kind):
    pools = cooked(stock(kind, 3, more=BOILED_DOWN)).state.pools
    np.testing.assert_allclose(sum(pools.amounts.values()), pools.brought, rtol=1e-9, atol=1e-9)
    thrown, eaten = pools.amounts["not_eaten"], pools.amounts["eaten"]
    assert (thrown[CALCIUM] > 0.99 * (thrown + eaten)[CALCIUM]).all()
    assert (eaten[PROTEIN] > 0).all()


def test_halves_of_the_time_are_the_whole_and_none_is_none():
    whole, halves = (cooked(stock("beef", *hours)).eaten for hours in ((6.0,), (2.5, 3.5)))
    scale = np.maximum(whole.max(axis=1, keepdims=True), 1e-9)
    assert (np.abs(whole - halves) / scale).max() < 2e-5
    none = cooked(stock("beef", 0.0)).eaten
    assert none[PROTEIN].max() == pytest.approx(0, abs=1e-9)


def test_gelatine_goes_on_and_on_and_more_slowly_in_a_cool_pot():
    so_far = [per_100g(stock("beef", hours), PROTEIN)[0] for hours in (1, 3, 9, 27)]
    assert so_far == sorted(so_far)
    assert so_far[3] - so_far[2] < so_far[2] - so_far[1]
    assert per_100g(stock("beef", 3, temperature_c=75), PROTEIN)[0] < 0.5 * so_far[1]


def test_energy_follows_what_the_pot_took():
    eaten = cooked(stock("marrow", 6)).eaten[:, 0]
    protein, fat, kcal = (eaten[ROW[tag]] for tag in ("PROCNT", "FAT", "ENERC"))
    assert kcal == pytest.approx(4 * protein + 9 * fat, rel=0.02)
    assert eaten[FAT] > 50


def test_a_stock_used_in_two_dishes_is_in_both_together_what_it_was_alone():
    alone = cooked(stock("chicken", 4)).eaten
    shared = stock("chicken", 4)
    shared["components"] += [part("soup", item(CARROTS, 200)), part("sauce", item(PORK, 100))]
    shared["steps"] += [
        step("divide", "stock", into="soup", share=0.4),
        step("combine", "stock", into="sauce"),
    ]
    rest = recipe([part("soup", item(CARROTS, 200)), part("sauce", item(PORK, 100))], [])
    np.testing.assert_allclose(cooked(shared).eaten, alone + cooked(rest).eaten, rtol=1e-9, atol=1e-9)


def test_bones_browned_first_give_the_same_lime_and_less_juice():
    roasted = stock("beef", 6)
    roasted["steps"].insert(0, step("roast", "bones", duration_h=0.8, temperature_c=200))
    brown, raw = cooked(roasted).state.pools.amounts, cooked(stock("beef", 6)).state.pools.amounts
    assert brown["left_on_tray"][CALCIUM, 0] < 100
    assert brown["eaten"][SODIUM, 0] <= raw["eaten"][SODIUM, 0] * 1.001


def test_bones_that_are_eaten_are_asked_about():
    document = stock("pork", 2)
    assert "bones-eaten" not in codes(answered(document))
    del document["components"][0]["eaten_fraction"]
    assert codes(answered(document))["bones-eaten"] == "check"


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ("2 kg beef bones", "SL0170"),
        ("4 marrow bones", "SL0171"),
        ("1 kg pork neck bones", "SL0172"),
        ("1 chicken carcass", "SL0173"),
        ("800 g fish bones", "SL0174"),
        ("1 kg bones for stock", None),
    ],
)
def test_bones_are_known_by_their_animal(line, code):
    (found,) = cooked(recipe([part("bones", line)], [])).listed
    assert (found.ingredient.food and found.ingredient.food.code) == code
