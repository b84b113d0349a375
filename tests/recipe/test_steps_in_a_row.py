"""What holds of steps in a row, for every kind and in every draw: nothing in no time, halves make the
whole, one end point, no order, no size, no jumps."""

from __future__ import annotations

import copy
from itertools import pairwise
from typing import Any

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from saltledger.recipe.pool_rows import ROW, SODIUM, WATER, WEIGHT

from . import dishes
from .dishes import cooked, item, part, recipe, step

FOODS = ("10060", "05062", "15076", "15018", "11124", "11457", "11352", "20120", "16032", "01123")
FOODS += ("12061", "11260")
"""Pork, chicken, salmon, salt cod, carrots, spinach, potatoes, pasta, beans, eggs, almonds, mushrooms."""

BATHS = ("brine", "marinate", "soak", "dry_cure", "simmer", "boil")
DRY = ("steam", "roast", "fry", "sous_vide", "rest", "rinse", "dry", "smoke")
TIMED = (*BATHS, *DRY, "ferment")

QUIET = settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])


def dish(kind: str, food: str, hours: float | None, **more: Any) -> dict[str, Any]:
    """A piece through one step, in a salted bath where the kind has one; all ends on the plate or is poured
    away."""
    bath = [item(dishes.SALT, 40), item(dishes.SUGAR, 10)]
    if kind != "dry_cure":
        bath.append(item(dishes.WATER, 1500))
    parts = [part("piece", item(food, 500), eaten_fraction=1), part("bath", *bath, eaten_fraction=0)]
    if kind == "fry":
        parts[1] = part("bath", item(dishes.OIL, 300), eaten_fraction=0)
    measures = {} if hours is None else {"duration_h": hours}
    with_bath = "bath" if kind in (*BATHS, "fry", "ferment") else None
    return recipe(parts, [step(kind, "piece", with_bath, **measures, **more)])


def eaten(document: dict[str, Any]) -> np.ndarray:
    return cooked(document).eaten


def split(document: dict[str, Any], shares: list[float]) -> dict[str, Any]:
    """The same first step, in parts one after another."""
    first, *rest = document["steps"]
    parts = [{**first, "duration_h": first["duration_h"] * share} for share in shares]
    return {**document, "steps": [*parts, *rest]}


def agree(one: np.ndarray, other: np.ndarray, rel: float) -> None:
    """Every nutrient in every draw, as a share of the most there is of it."""
    scale = np.maximum(np.abs(one).max(axis=1), np.abs(other).max(axis=1))[:, np.newaxis]
    off = np.abs(one - other) / np.maximum(scale, 1e-9)
    off[ROW["ENERC"]] /= 500  # what leaves has the energy of the whole, be it frying fat or the food's own
    row = int(off.max(axis=1).argmax())
    assert off.max() < rel, (list(ROW)[row], off.max())


@pytest.mark.parametrize("kind", TIMED)
@QUIET
@given(food=st.sampled_from(FOODS))
def test_no_time_moves_nothing(kind, food):
    still = dish(kind, food, 0.0)
    agree(eaten(still), eaten({**still, "steps": []}), 1e-8)


@pytest.mark.parametrize("kind", TIMED)
@QUIET
@given(food=st.sampled_from(FOODS), hours=st.floats(0.01, 60.0), share=st.floats(0.05, 0.95))
def test_halves_make_the_whole(kind, food, hours, share):
    if kind not in ("brine", "marinate", "soak", "dry_cure", "rest", "dry", "smoke", "ferment"):
        hours /= 20
    whole = dish(kind, food, hours)
    agree(eaten(whole), eaten(split(whole, [share, 1 - share])), 1e-5)


def _lent(amounts):
    """Energy over that of the macronutrients by the general factors, in every draw."""
    protein, fat, carbohydrate, fibre, alcohol, energy = (
        amounts[ROW[tag]] for tag in ("PROCNT", "FAT", "CHOCDF", "FIBTG", "ALC", "ENERC")
    )
    return energy / (4 * protein + 9 * fat + 4 * np.maximum(carbohydrate - fibre, 0) + 7 * alcohol)


@pytest.mark.parametrize("kind", TIMED)
@QUIET
@given(food=st.sampled_from(FOODS), hours=st.floats(0.01, 5.0))
def test_energy_follows_its_macronutrients(kind, food, hours):
    """What a piece holds of energy, over its protein, fat, available carbohydrate and alcohol, stays as the
    dataset has it, or goes towards that of what it takes up."""
    document = dish(kind, food, hours)
    raw = _lent(eaten({**document, "steps": []}))[0]
    ends = [raw, 9 / 9 if kind == "fry" else 3.87 / 4]
    found = _lent(eaten(document))
    assert (found > min(ends) - 0.02).all()
    assert (found < max(ends) + 0.02).all()


@QUIET
@given(kinds=st.lists(st.sampled_from(("fry", "roast", "simmer", "steam")), min_size=2, max_size=5))
def test_meat_comes_to_one_end_whatever_the_heat(kinds):
    """Weight falls, and never below where the hardest of the ways used would leave it alone, much later. By
    some hundredths it may rise: heat that is to come tells of a larger piece, not cooked through yet."""

    def weight(*steps):
        pot = part("pot", item(dishes.WATER, 3000), eaten_fraction=0)
        made = [step(k, "piece", "pot" if k == "simmer" else None, duration_h=h) for k, h in steps]
        return eaten(recipe([part("piece", item("13346", 1000)), pot], made))[WEIGHT]

    so_far = [weight(*((k, 1.0) for k in kinds[: n + 1])) for n in range(len(kinds))]
    ends = [weight((k, 200.0)) for k in set(kinds)]
    for before, after in pairwise(so_far):
        assert (after <= before * (1 + 4e-2)).all()
    assert (so_far[-1] >= np.min(ends, axis=0) * 0.97).all()


def test_three_soaks_swell_once():
    waters = [part(f"water{i}", item(dishes.WATER, 4000), eaten_fraction=0) for i in range(3)]
    parts = [part("cod", item(dishes.SALT_COD, 800)), *waters]
    soaks = [step("soak", "cod", f"water{i}", duration_h=8, thickness_cm=2) for i in range(3)]
    changed = step("soak", "cod", "water0", duration_h=24, thickness_cm=2, water_changes=2)
    thrice, once = eaten(recipe(parts, soaks)), eaten(recipe(parts[:2], [changed]))
    assert thrice[WEIGHT, 0] == pytest.approx(once[WEIGHT, 0], rel=0.03)
    assert thrice[WEIGHT, 0] < 1700
    assert thrice[SODIUM, 0] == pytest.approx(once[SODIUM, 0], rel=0.1)


def test_beans_swell_to_one_end_in_the_cold_and_in_the_heat():
    beans = [part("beans", item("16032", 500)), part("pot", item(dishes.WATER, 3000), eaten_fraction=0)]
    soaked, boiled = (step("soak", "beans", "pot", duration_h=12), step("boil", "beans", "pot", duration_h=1))
    assert 1.7 < eaten(recipe(beans, [soaked]))[WEIGHT, 0] / 500 < 2.2
    chains = ([boiled] * 3, [boiled] * 5, [soaked, *[boiled] * 3])
    alone, again, after = (eaten(recipe(beans, steps))[WEIGHT, 0] for steps in chains)
    assert again == pytest.approx(alone, rel=0.01)
    assert after == pytest.approx(alone, rel=0.05)


def test_a_rest_in_air_evens_out_what_a_bath_left_at_the_surface():
    brine = part("brine", item(dishes.WATER, 2000), item(dishes.SALT, 200))
    water = part("water", item(dishes.WATER, 5000), eaten_fraction=0)

    def left(*steps):
        brined = step("brine", "loin", "brine", duration_h=6, thickness_cm=4)
        document = recipe([part("loin", item(dishes.PORK, 1000)), brine, water], [brined, *steps])
        return eaten(document)[SODIUM, 0]

    rinsed = step("soak", "loin", "water", duration_h=1, thickness_cm=4)
    rested = step("rest", "loin", duration_h=72, thickness_cm=4)
    assert left(rinsed) < 0.95 * left(rested, rinsed) < left()


SHUFFLED = recipe(
    [
        part("loin", item(dishes.PORK, 700), "2 tbsp soy sauce"),
        part("roots", item(dishes.CARROTS, 300), item(dishes.POTATOES, 300), "1 tsp coarse salt"),
        part("pot", item(dishes.WATER, 3000), "2 tbsp coarse salt", eaten_fraction=0.5),
    ],
    [
        step("fry", "loin", duration_h=0.1),
        step("simmer", ["loin", "roots"], "pot", duration_h=0.5),
        step("boil", ["roots"], "pot", duration_h=0.1),
    ],
)


@QUIET
@given(order=st.permutations([0, 1, 2]), lines=st.booleans(), foods=st.booleans())
def test_the_order_of_a_list_changes_nothing(order, lines, foods):
    other = copy.deepcopy(SHUFFLED)
    other["components"] = [other["components"][i] for i in order]
    if lines:
        for component in other["components"]:
            component["ingredients"].reverse()
    if foods:
        other["steps"][1]["food"].reverse()
    agree(eaten(SHUFFLED), eaten(other), 1e-8)


def test_one_loin_as_two_components_is_the_same_loin():
    one = dishes.brined()
    two = dishes.brined(loin_g=400)
    two["components"].append(part("other", item(dishes.PORK, 600)))
    two["steps"][0]["food"] = ["loin", "other"]
    agree(eaten(one), eaten(two), 1e-8)


@pytest.mark.parametrize("kind", TIMED)
@QUIET
@given(food=st.sampled_from(FOODS))
def test_ten_times_everything_is_ten_times_everything(kind, food):
    once = dish(kind, food, 2.0)
    tenfold = copy.deepcopy(once)
    for component in tenfold["components"]:
        for each in component["ingredients"]:
            each["grams"] *= 10
    agree(10 * eaten(once), eaten(tenfold), 1e-7)


@pytest.mark.parametrize("kind", TIMED)
@QUIET
@given(
    food=st.sampled_from(FOODS),
    what=st.sampled_from(("duration_h", "temperature_c", "salt", "bath", "food")),
    base=st.floats(0.1, 60.0),
)
def test_a_small_change_changes_the_answer_a_little(kind, food, what, base):
    document = dish(kind, food, min(base, 3.0), temperature_c=base)
    other = copy.deepcopy(document)
    nudge = 1 + 1e-6
    if what in ("duration_h", "temperature_c"):
        other["steps"][0][what] *= nudge
    else:
        place = 0 if what == "food" else 1
        for each in other["components"][place]["ingredients"][: 1 if what == "salt" else None]:
            each["grams"] *= nudge
    agree(eaten(document), eaten(other), 1e-3)


@pytest.mark.parametrize("water_g", [180, 370, 371, 372, 550, 555, 560])
def test_there_is_no_edge_of_covered(water_g):
    def held(grams):
        brine = part("brine", item(dishes.WATER, grams), item(dishes.SALT, 20))
        document = [part("loin", item(dishes.PORK, 1000)), brine]
        return eaten(recipe(document, [step("brine", "loin", "brine", duration_h=24)]))

    agree(held(water_g), held(water_g + 0.01), 1e-3)


def test_a_grain_of_sugar_changes_nothing_else():
    def energy(grams):
        brine = part("brine", item(dishes.WATER, 2000), item(dishes.SALT, 120), item(dishes.SUGAR, grams))
        loin = part("loin", item(dishes.PORK, 1000))
        return eaten(recipe([loin, brine], [step("brine", "loin", "brine", duration_h=96)]))[ROW["ENERC"]]

    assert energy(0.001) == pytest.approx(energy(0), rel=1e-4)


def test_potassium_chloride_goes_into_food_in_the_cold():
    def potassium(salt):
        brine = part("brine", item(dishes.WATER, 2000), item(salt, 100))
        brined = step("brine", "loin", "brine", duration_h=48, thickness_cm=3)
        return eaten(recipe([part("loin", item(dishes.PORK, 1000)), brine], [brined]))[ROW["K"], 0]

    assert potassium("SL0011") > potassium(dishes.SALT) + 5000


@pytest.mark.parametrize("food", ["18069", "12061"])
def test_what_loses_only_steam_loses_no_salt(food):
    document = recipe([part("piece", item(food, 500), item(dishes.SALT, 5))], [])
    roasted = {**document, "steps": [step("roast", "piece", duration_h=0.5)]}
    assert eaten(roasted)[SODIUM] == pytest.approx(eaten(document)[SODIUM])
    assert (eaten(roasted)[WATER] <= eaten(document)[WATER]).all()
