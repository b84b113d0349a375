"""Pumped, poured together, divided, pressed, skimmed and dried: what goes where, and what stays."""

from __future__ import annotations

import numpy as np
import pytest
from saltledger.core.errors import InvalidRequest
from saltledger.foods.dataset import bundled
from saltledger.recipe.pool_rows import FAT, ROW, SODIUM, WATER, WEIGHT
from saltledger.recipe.pools import salt_g
from saltledger.recipe.target_search import target_answer

from tests.recipe.dishes import CARROTS, PORK, SALT, answered, codes, cooked, item, likely, part, recipe, step
from tests.recipe.dishes import WATER as TAP

STOCK, CABBAGE, TYPE_1 = "06170", "11109", "SL0001"


def pumped(percent=10.0, *, salt_g=200.0, water_g=1800.0, more=(), **measures):
    """A kilo of pork loin and two kilos of pickle."""
    pickle = part("pickle", item(TAP, water_g), item(SALT, salt_g), *more)
    stated = {"pump_percent": percent} | measures
    given = {key: value for key, value in stated.items() if value is not None}
    return recipe([part("ham", item(PORK, 1000)), pickle], [step("inject", "ham", "pickle", **given)])


def held(document, place, row=SODIUM):
    return cooked(document).state.pools.leading[place][row]


def salt_of_pork():
    return likely(recipe([part("ham", item(PORK, 1000))], []))


def test_a_pumped_ham_holds_the_salt_that_was_pumped_in():
    """192 g of salt in 2,000 g of pickle, 20 % pumped into a kilo: 19.2 g (387.58 mg of sodium in a gram)."""
    gained_mg = likely(pumped(20, salt_g=192, water_g=1808)) - salt_of_pork()
    assert gained_mg / 387.58 == pytest.approx(19.2, rel=1e-3)
    eaten = held(pumped(20, salt_g=192, water_g=1808), "eaten")
    assert eaten.min() < 0.95 * eaten[0]
    assert eaten.max() <= eaten[0] * (1 + 1e-9)


def test_a_weighing_says_what_stays_and_nothing_drips():
    weighed = pumped(None, weight_after_g=1120)
    assert likely(weighed, row=WEIGHT) == pytest.approx(1120)
    assert np.ptp(held(weighed, "eaten")) == pytest.approx(0, abs=1e-6)
    assert likely(pumped(None, pick_up_percent=12)) == pytest.approx(likely(weighed))


def test_a_pump_of_nothing_moves_nothing_and_ten_times_all_is_ten_times_all():
    assert likely(pumped(0)) == pytest.approx(salt_of_pork())
    tenfold = pumped(12)
    for component in tenfold["components"]:
        for ingredient in component["ingredients"]:
            ingredient["grams"] *= 10
    assert held(tenfold, "eaten") == pytest.approx(10 * held(pumped(12), "eaten"))


def test_two_pieces_are_pumped_alike_in_any_order():
    def both(names):
        document = pumped(10)
        document["components"].insert(1, part("other", item(PORK, 500)))
        document["steps"][0]["food"] = names
        return held(document, "eaten")

    assert both(["ham", "other"]) == pytest.approx(both(["other", "ham"]), rel=1e-9)
    assert both(["ham", "other"])[0] == pytest.approx(1.5 * likely(pumped(10)), rel=1e-6)


def test_a_pump_that_wants_more_than_there_is_takes_all_and_says_so():
    document = pumped(60, water_g=200, salt_g=20)
    assert codes(answered(document))["pickle-too-little"] == "check"
    assert likely(document, "poured_away") == pytest.approx(0, abs=1e-6)


def test_the_nitrite_of_a_pump_is_held_to_the_class_of_pumped_products():
    """10 % of a pickle of 2,000 g: 3.2 g of nitrite give 160 ppm, 4.4 g give 220 (200 is the limit)."""
    within, over = (pumped(10, salt_g=200 - g, more=[item(TYPE_1, g)]) for g in (51.2, 70.4))
    assert "cure-nitrite-over-limit" not in codes(answered(within))
    found = answered(over)
    assert codes(found)["cure-nitrite-over-limit"] == "stop"
    (notice,) = [n for n in found["notices"] if n["code"] == "cure-nitrite-over-limit"]
    assert "220 ppm (counted by the pickle pumped in)" in notice["message"]


def test_injected_meat_is_cooked_as_ground_meat_is():
    document = pumped(10)
    document["steps"].append(step("roast", "ham", temperature_c=62.8, duration_h=1))
    assert codes(answered(document))["cooked-by-time"] == "check"


def test_to_pump_less_is_offered_where_less_sodium_is_wanted():
    asked = {
        "recipe": pumped(20),
        "target": {"sodium_mg_per_serving": 4000},
        "vary": "/components/1/ingredients/1",
    }
    offered = {each["pointer"]: each for each in target_answer(asked, bundled())["levers"]}
    assert "/steps/0/pump_percent" in offered


@pytest.mark.parametrize(
    ("measures", "pointer"),
    [
        ({"pump_percent": None}, "/steps/0"),
        ({"into": "ham"}, "/steps/0/into"),
        ({"share": 0.5}, "/steps/0/share"),
        ({"duration_h": 2}, "/steps/0/duration_h"),
        ({"rinsed": True}, "/steps/0/rinsed"),
    ],
)
def test_a_pump_wants_its_percent_and_nothing_else(measures, pointer):
    document = pumped(10)
    document["steps"][0] = {k: v for k, v in (document["steps"][0] | measures).items() if v is not None}
    with pytest.raises(InvalidRequest) as refused:
        answered(document)
    assert pointer in [fault.pointer for fault in refused.value.faults]


def two_dishes(share):
    """A stock, a quarter of which goes to the sauce and the rest to the soup."""
    parts = [
        part("stock", item(STOCK, 1000)), part("sauce", item(CARROTS, 50)), part("soup", item(CARROTS, 200)),
    ]  # fmt: skip
    steps = [step("divide", "stock", into="sauce", share=share), step("combine", "stock", into="soup")]
    return recipe(parts, steps)


def test_a_stock_in_two_dishes():
    pools = cooked(two_dishes(0.25)).state.pools
    entries = {(m.source, m.target): m.sodium_mg[0] for m in pools.ledger}
    whole = entries["stock", "sauce"] + entries["stock", "soup"]
    assert entries["stock", "sauce"] / whole == pytest.approx(0.25)
    assert likely(two_dishes(0.25)) == pytest.approx(likely(two_dishes(0.9)))


@pytest.mark.parametrize("share", [0.0, 0.5, 1.0])
def test_a_share_in_two_goes_is_the_share_in_one(share):
    once, twice = two_dishes(share), two_dishes(share / 2)
    rest = share / 2 / (1 - share / 2) if share < 2 else 0.0
    twice["steps"].insert(1, step("divide", "stock", into="sauce", share=rest))
    first, second = (cooked(d).state.pools.ledger for d in (once, twice))

    def into_sauce(ledger):
        return sum(float(m.sodium_mg[0]) for m in ledger if m.target == "sauce")

    assert into_sauce(first) == pytest.approx(into_sauce(second), abs=1e-9)


@pytest.mark.parametrize(
    ("bad", "pointer"),
    [
        ({"kind": "divide", "food": "stock", "into": "sauce"}, "/steps/0/share"),
        ({"kind": "divide", "food": "stock", "share": 0.5}, "/steps/0/into"),
        ({"kind": "combine", "food": "stock"}, "/steps/0/into"),
        ({"kind": "combine", "food": "stock", "into": "stock"}, "/steps/0/into"),
        ({"kind": "combine", "food": "stock", "into": "nowhere"}, "/steps/0/into"),
        ({"kind": "dry", "food": "stock", "into": "sauce"}, "/steps/0/into"),
    ],
)
def test_where_a_share_goes_is_asked(bad, pointer):
    with pytest.raises(InvalidRequest) as refused:
        answered(two_dishes(0.5) | {"steps": [bad]})
    assert [fault.pointer for fault in refused.value.faults] == [pointer]


def salted_cabbage(kind, **measures):
    return recipe(
        [part("cabbage", item(CABBAGE, 1000), item(SALT, 20)), part("juice")],
        [step(kind, "cabbage", **measures)],
    )


@pytest.mark.parametrize("kind", ["press", "squeeze"])
def test_pressed_juice_takes_its_salt_along(kind):
    weighed = salted_cabbage(kind, weight_after_g=720)
    assert likely(weighed, row=WEIGHT) == pytest.approx(720)
    before = salted_cabbage(kind, discarded_g=0)
    strength = likely(before) / likely(before, row=WATER)
    assert likely(weighed, "poured_away") / likely(weighed, "poured_away", WATER) == pytest.approx(
        strength, rel=0.02
    )
    assert codes(answered(salted_cabbage(kind)))["press-assumed"] == "check"
    kept = salted_cabbage(kind, weight_after_g=720, into="juice")
    assert likely(kept) == pytest.approx(likely(before))


def test_what_takes_juice_remembers_the_grams_that_it_had():
    """A loin that was brined, with the juice of cabbage poured over it: its brine is still so many grams."""
    brine = part("brine", item(TAP, 2000), item(SALT, 100), eaten_fraction=0)
    parts = [part("loin", item(PORK, 1000)), brine, part("cabbage", item(CABBAGE, 1000), eaten_fraction=0)]
    brined, juice = step("brine", "loin", "brine", duration_h=48), {"yield_fraction": 0.7, "into": "loin"}

    def remembered_g(*then):
        outcome = cooked(recipe(parts, [brined, *then]))
        return outcome.state.histories["loin"].water * outcome.eaten[WEIGHT], outcome.eaten[WEIGHT, 0]

    (before, lighter_g), (after, heavier_g) = (
        remembered_g(),
        remembered_g(step("squeeze", "cabbage", **juice)),
    )
    assert heavier_g > lighter_g + 250
    np.testing.assert_allclose(after, before, rtol=1e-9)


def test_what_was_pressed_or_dried_is_not_lost_once_more_in_the_heat():
    """Heat takes a food to one end, whether part of its water has left before or not."""
    fry = step("fry", "cabbage", duration_h=2)

    def fried_g(*before):
        document = salted_cabbage("press", yield_fraction=1)
        return likely(document | {"steps": [*before, fry]}, row=WEIGHT)

    plain_g = fried_g()
    for before in (
        step("squeeze", "cabbage", yield_fraction=0.8),
        step("dry", "cabbage", yield_fraction=0.8),
    ):
        assert fried_g(before) == pytest.approx(plain_g, rel=0.03)


def test_two_presses_are_one():
    twice = salted_cabbage("press", yield_fraction=0.9)
    twice["steps"] *= 2
    once = salted_cabbage("press", yield_fraction=0.81)
    assert likely(twice) == pytest.approx(likely(once), rel=1e-3)


def test_skimming_takes_fat_and_no_salt():
    def skimmed(**measures):
        return recipe(
            [part("stock", item(STOCK, 1000), item("04542", 40))], [step("skim", "stock", **measures)]
        )

    half, none = skimmed(share=0.5), skimmed(share=0.0)
    assert likely(half) == pytest.approx(likely(none))
    assert likely(half, row=FAT) == pytest.approx(likely(none, row=FAT) / 2)
    lost_kcal = likely(none, row=ROW["ENERC"]) - likely(half, row=ROW["ENERC"])
    assert lost_kcal == pytest.approx(9 * likely(half, row=FAT), rel=0.05)
    assert held(skimmed(), "eaten", FAT).min() < likely(skimmed(), row=FAT)


def dried(kind="dry", **measures):
    usual = {"duration_h": 240, "temperature_c": 12, "thickness_cm": 4}
    given = {key: value for key, value in (usual | measures).items() if value is not None}
    return recipe([part("loin", item(PORK, 1000), item(SALT, 25))], [step(kind, "loin", **given)])


@pytest.mark.parametrize("kind", ["dry", "smoke"])
def test_what_dries_keeps_its_salt(kind):
    fresh, later = dried(kind, duration_h=0), dried(kind)
    assert held(later, "eaten") == pytest.approx(held(fresh, "eaten"))
    assert likely(later, row=WEIGHT) < 0.9 * likely(fresh, row=WEIGHT)
    assert likely(fresh, row=WEIGHT) == pytest.approx(1025)
    assert likely(later, "evaporated") == 0
    assert codes(answered(later))["drying-assumed"] == "check"
    assert likely(dried(kind, weight_after_g=700), row=WEIGHT) == pytest.approx(700)
    assert codes(answered(dried(kind, duration_h=None)))["drying-not-known"] == "check"


def test_hot_smoke_cooks_and_a_weighing_tells_both():
    drips = [likely(dried("smoke", temperature_c=c, duration_h=3), "left_on_tray") for c in (30, 80)]
    assert drips[0] == 0 < drips[1]
    weighed = dried("smoke", temperature_c=80, duration_h=3, weight_after_g=700)
    assert likely(weighed, row=WEIGHT) == pytest.approx(700)
    assert likely(weighed, "left_on_tray") == 0


def test_drying_in_halves_is_drying_in_one():
    halves = dried(duration_h=120)
    halves["steps"] *= 2
    assert held(halves, "eaten", WEIGHT)[0] == pytest.approx(held(dried(), "eaten", WEIGHT)[0])


def test_salt_is_never_made():
    assert float(salt_g(cooked(dried()).state.pools.leading["eaten"])[0]) == pytest.approx(26.3, abs=1.0)


def test_two_fried_halves_put_together_remember_the_frying_fat_as_one_piece():
    """What heat melts out is the food's own fat; in a mixture too the frying fat stays."""
    belly, oil = "10098", "04053"
    pot = part("pot", item(TAP, 2000), eaten_fraction=0)
    fat = part("fat", item(oil, 400), eaten_fraction=0)
    simmered = step("simmer", "one", "pot", duration_h=1)

    def document(parts, *steps):
        return recipe([*parts, fat, pot], [*steps, simmered])

    whole = document([part("one", item(belly, 800))], step("fry", "one", "fat", duration_h=0.2))
    halves = document(
        [part("one", item(belly, 400)), part("other", item(belly, 400))],
        step("fry", ["one", "other"], "fat", duration_h=0.2),
        step("combine", "other", into="one"),
    )
    plain = document([part("one", item(belly, 800))])
    one, two, raw = (cooked(each) for each in (whole, halves, plain))
    np.testing.assert_allclose(two.eaten, one.eaten, rtol=1e-6, atol=1e-6)
    taken = one.state.histories["one"].acids_taken
    assert 0 < taken.max() < 1
    np.testing.assert_allclose(two.state.histories["one"].acids_taken, taken, rtol=1e-6, atol=1e-9)
    assert one.eaten[ROW["FAMS"], 0] / one.eaten[FAT, 0] > raw.eaten[ROW["FAMS"], 0] / raw.eaten[FAT, 0]
