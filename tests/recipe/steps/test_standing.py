"""Rinsed, rested, fermented, cooked in a bag; drippings and coats: what goes where, what is remembered."""

from __future__ import annotations

import numpy as np
import pytest
from saltledger.core.errors import InvalidRequest
from saltledger.recipe.pool_rows import FAT, ROW, SODIUM, WEIGHT

from tests.recipe.dishes import (
    CARROTS,
    CHICKEN,
    FLOUR,
    OIL,
    PORK,
    SALT,
    answered,
    codes,
    cooked,
    item,
    likely,
    part,
    recipe,
    step,
)
from tests.recipe.dishes import WATER as TAP

CABBAGE, TUNA, COTTAGE_CHEESE, BREAD = "11109", "15121", "01012", "18069"


def cured(*after, hours=12, thickness=4):
    """A loin under salt for a while, so that its salt is near the surface."""
    return recipe(
        [part("loin", item(PORK, 1000)), part("rub", item(SALT, 60))],
        [
            step("dry_cure", "loin", "rub", duration_h=hours, thickness_cm=thickness, temperature_c=3),
            *({"thickness_cm": thickness, **each} for each in after),
        ],
    )


def rinsed(minutes, **more):
    return step("rinse", "loin", duration_h=minutes / 60, **more)


@pytest.mark.parametrize(("code", "kept"), [(TUNA, 0.20), (COTTAGE_CHEESE, 0.37)])
def test_loose_food_gives_its_salt_to_the_tap(code, kept):
    """J Am Diet Assoc 82:394 (1983): three minutes leave 20 % in tuna, 37 % in cottage cheese."""
    raw, washed = (
        recipe([part("f", item(code, 200))], steps) for steps in ([], [step("rinse", "f", duration_h=0.05)])
    )
    assert likely(washed) / likely(raw) == pytest.approx(kept, abs=0.02)


def test_a_rinse_takes_what_is_near_the_surface_first():
    whole = likely(cured())
    short, long = (whole - likely(cured(rinsed(minutes))) for minutes in (1, 4))
    assert 0 < short < long < 0.3 * whole
    assert long / short == pytest.approx(2, abs=0.4)


def test_a_rest_before_the_rinse_saves_salt_and_moves_none():
    rest = step("rest", "loin", duration_h=48, temperature_c=4)
    np.testing.assert_allclose(cooked(cured(rest)).eaten, cooked(cured()).eaten, rtol=1e-9, atol=1e-9)
    assert likely(cured(rest, rinsed(10))) > 1.02 * likely(cured(rinsed(10)))
    assert codes(answered(cured(step("rest", "loin"))))["rest-not-known"] == "check"


def test_a_rinse_without_a_time_takes_a_usual_one_and_says_so():
    found = answered(cured(step("rinse", "loin")))
    (minutes,) = (a["value"] for a in found["assumptions"] if a["id"].endswith("rinse-time"))
    assert likely(cured(step("rinse", "loin"))) == pytest.approx(likely(cured(rinsed(minutes))))


def kraut(salt=20.0, bath=False, **measures):
    parts = [part("cabbage", item(CABBAGE, 1000), *([] if bath else [item(SALT, salt)]))]
    if bath:
        parts.append(part("brine", item(TAP, 1000), item(SALT, salt)))
    return recipe(parts, [step("ferment", "cabbage", "brine" if bath else None, **measures)])


def test_a_ferment_in_its_own_juice_loses_nothing():
    own = kraut(temperature_c=20, duration_h=500)
    assert likely(own) == pytest.approx(likely(recipe(own["components"], [])))
    assert codes(answered(own))["ferment-juice-kept"] == "info"


def test_a_ferment_in_brine_evens_out_and_the_brine_is_eaten_or_not():
    bathed = kraut(60, bath=True, temperature_c=20, duration_h=500)
    listed_mg = answered(bathed)["sodium"]["as_listed_per_serving_mg"]
    assert 0.35 < likely(bathed) / listed_mg < 0.65
    bathed["components"][1]["eaten_fraction"] = 1.0
    assert likely(bathed) == pytest.approx(listed_mg)


def kraut_with_brine_apart(**measures):
    document = kraut(25, temperature_c=20, duration_h=500, into="juice", **measures)
    document["components"].append(part("juice", item(TAP, 0.001), eaten_fraction=0))
    return document


@pytest.mark.parametrize(
    ("measures", "left_g"), [({"weight_after_g": 900}, 900), ({"yield_fraction": 0.9}, 0.9 * 1025)]
)
def test_a_ferment_whose_own_brine_goes_is_held_to_its_weight_and_sodium(measures, left_g):
    found = cooked(kraut_with_brine_apart(sodium_after_mg_per_100g=700, **measures))
    weight_g = found.serving_weight_g * found.request.servings
    assert 100 * found.sodium_per_serving_mg[0] / found.serving_weight_g == pytest.approx(700, rel=1e-6)
    assert weight_g == pytest.approx(left_g, rel=1e-6)


def test_a_weighed_ferment_loses_salt_with_its_brine():
    half, most = (likely(kraut_with_brine_apart(yield_fraction=share)) for share in (0.9, 0.7))
    assert most < half < likely(kraut(25, temperature_c=20, duration_h=500))


@pytest.mark.parametrize(
    "field", ["weight_after_g", "yield_fraction", "pick_up_percent", "sodium_after_mg_per_100g"]
)
def test_nothing_is_measured_of_a_ferment_that_keeps_its_brine(field):
    with pytest.raises(InvalidRequest, match=f"/steps/0/{field}: Without bath or into"):
        cooked(kraut(25, temperature_c=20, **{field: 1.0}))


@pytest.mark.parametrize(
    ("document", "code", "severity"),
    [
        (kraut(10, temperature_c=20), "ferment-weak-salt", "stop"),
        (kraut(25, temperature_c=20), "ferment-weak-salt", None),
        (kraut(25, temperature_c=30), "ferment-too-warm", "check"),
        (kraut(25, temperature_c=22), "ferment-too-warm", None),
        (kraut(25, temperature_c=8), "ferment-slow", "info"),
        (kraut(25, temperature_c=18), "ferment-slow", None),
        (kraut(20, bath=True), "ferment-weak-salt", "stop"),
        (kraut(50, bath=True), "ferment-weak-salt", None),
    ],
)
def test_ferments_are_salt_enough_and_cool_enough(document, code, severity):
    assert codes(answered(document)).get(code) == severity


def test_fermented_meat_needs_a_process_and_dough_needs_no_salt():
    salami = recipe(
        [part("mix", item(PORK, 1000), item(SALT, 28))], [step("ferment", "mix", temperature_c=20)]
    )
    assert codes(answered(salami))["ferment-of-flesh"] == "check"
    dough = recipe(
        [part("dough", item(FLOUR, 500), item(TAP, 300))], [step("ferment", "dough", temperature_c=24)]
    )
    assert not {"ferment-weak-salt", "ferment-of-flesh"} & codes(answered(dough)).keys()


def bagged(*steps):
    return recipe(
        [part("breast", item(CHICKEN, 600), item(SALT, 6)), part("gravy", item(TAP, 50))], list(steps)
    )


def test_in_a_bag_nothing_goes_into_the_air_and_the_juice_is_kept_or_not():
    poured = bagged(step("sous_vide", "breast", temperature_c=64, duration_h=2))
    kept = bagged(step("sous_vide", "breast", temperature_c=64, duration_h=2, into="gravy"))
    pools = cooked(poured).state.pools.amounts
    assert pools["evaporated"][WEIGHT, 0] == pytest.approx(0, abs=1e-9)
    assert likely(kept) == pytest.approx(likely(recipe(kept["components"], [])))
    assert 0.7 * likely(kept) < likely(poured) < likely(kept)
    assert likely(poured, row=WEIGHT) < likely(kept, row=WEIGHT)


def test_a_bag_at_low_heat_hardly_shrinks_what_is_in_it():
    def weight_g(celsius):
        document = bagged(step("sous_vide", "breast", temperature_c=celsius, duration_h=2))
        return likely(document, row=WEIGHT)

    assert weight_g(85) < 0.9 * weight_g(55)


def test_chicken_in_a_bag_is_held_by_time():
    held = bagged(step("sous_vide", "breast", temperature_c=60, duration_h=2))
    assert codes(answered(held))["cooked-by-time"] == "check"
    assert (
        codes(answered(bagged(step("sous_vide", "breast", temperature_c=60, duration_h=0.2))))[
            "cooked-too-short"
        ]
        == "stop"
    )


@pytest.mark.parametrize("kind", ["roast", "fry", "steam"])
def test_drippings_become_gravy(kind):
    lost, kept = (bagged(step(kind, "breast", duration_h=0.7, **more)) for more in ({}, {"into": "gravy"}))
    assert likely(kept) == pytest.approx(likely(recipe(kept["components"], [])))
    assert likely(lost) < likely(kept)
    assert likely(lost, row=FAT) <= likely(kept, row=FAT)
    entries = {(m.source, m.target) for m in cooked(kept).state.pools.ledger}
    assert ("breast", "gravy") in entries


def test_trimmings_and_poured_juice_can_be_kept():
    trimmed = bagged(step("trim", "breast", yield_fraction=0.8, into="gravy"))
    assert likely(trimmed) == pytest.approx(likely(recipe(trimmed["components"], [])))


@pytest.mark.parametrize("kind", ["boil", "brine", "reduce", "dry", "rinse"])
def test_a_step_that_nothing_is_kept_of_refuses_into(kind):
    document = bagged(
        step(kind, "breast", "gravy" if kind == "brine" else None, into="gravy", yield_fraction=0.9)
    )
    with pytest.raises(InvalidRequest) as refused:
        answered(document)
    assert "/steps/0/into" in [fault.pointer for fault in refused.value.faults]


def floured(set_out_g, *after, thickness=1.5):
    return recipe(
        [
            part("cutlets", item(CHICKEN, 600)),
            part("flour", item(FLOUR, set_out_g), item(SALT, set_out_g / 50)),
            part("oil", item(OIL, 500), eaten_fraction=0.0),
        ],
        [step("dredge", "cutlets", "flour", thickness_cm=thickness), *after],
    )


def test_a_coat_goes_by_the_surface_and_not_by_what_is_set_out():
    bare = likely(floured(0.001), row=WEIGHT)
    little, much = (likely(floured(grams), row=WEIGHT) - bare for grams in (200, 1000))
    assert little == pytest.approx(much, rel=1e-3)
    assert 0.02 < little / 600 < 0.07
    thin = likely(floured(200, thickness=0.75), row=WEIGHT) - bare
    assert thin == pytest.approx(2 * little, rel=0.1)
    all_of_it = likely(floured(5), row=WEIGHT) - bare
    assert all_of_it == pytest.approx(0.95 * 5.1, rel=0.01)


def test_a_coated_food_takes_more_fat_than_a_bare_one():
    fry = step("fry", "cutlets", "oil", duration_h=0.2)
    coated, bare = floured(200, fry), floured(200, fry)
    del bare["steps"][0]

    def taken(document):
        return 500 - float(cooked(document).state.pools.amounts["poured_away"][ROW["FAT"], 0])

    assert taken(coated) > 1.3 * taken(bare)
    hardly = floured(1e-6, fry)
    assert taken(hardly) == pytest.approx(taken(bare), rel=0.01)


def test_a_mash_of_two_components_is_cooked_as_one():
    mash = recipe(
        [part("roots", item(CARROTS, 500)), part("more", item(CARROTS, 300), item(SALT, 4))],
        [
            step("combine", "more", into="roots"),
            step("roast", "roots", duration_h=0.5),
        ],
    )
    one = recipe([part("roots", item(CARROTS, 800), item(SALT, 4))], [step("roast", "roots", duration_h=0.5)])
    for row in (SODIUM, WEIGHT):
        assert likely(mash, row=row) == pytest.approx(likely(one, row=row), rel=1e-6)


def test_a_pumped_piece_gives_its_pickle_to_the_pot():
    pumped = recipe(
        [
            part("ham", item(PORK, 1000)),
            part("pickle", item(TAP, 900), item(SALT, 100)),
            part("pot", item(TAP, 3000)),
        ],
        [
            step("inject", "ham", "pickle", pump_percent=15),
            step("simmer", "ham", "pot", duration_h=2, thickness_cm=8),
        ],
    )
    held = likely(recipe(pumped["components"], pumped["steps"][:1]))
    assert 0.2 * held < likely(pumped) < 0.95 * held
