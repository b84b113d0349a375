"""The ranges of the stratified design, held to plain random sampling, worked out apart.

Errors are told as shares of the range's own width, and shrink with the root of the number of draws: the
limits are written so. Over many sets of names the design has no lean (BIAS) and strays no more than as many
plain draws do: with a standard deviation, times that root, of 0.1 to 1.1 in whole recipes (0.6 and less for
most, more where one end is a long tail), and of 0.5 to 1.7 in bare sums and products of wide spreads. The
recipes asked alone are each within TOLERANCE.
"""

from __future__ import annotations

import math
import zlib
from statistics import NormalDist

import numpy as np
import pytest
from saltledger.core.spread import DRAWS, Spread, draw, summarise
from saltledger.foods.dataset import bundled
from saltledger.foods.hand_kept import POTASSIUM_IN_KCL
from saltledger.recipe.pools import SALT_PER_SODIUM
from saltledger.transfer.diffusivity import effective_diffusivity
from saltledger.transfer.food_kinds import partition_at_rest
from saltledger.transfer.usual import lot_pace
from saltledger.transfer.water_uptake import pick_up

from tests.diffusion.pieces import mean_reached

from . import dishes
from .dishes import answered, brined, cooked, item, part, recipe, step

MANY = 20_000
ROOT = math.sqrt(DRAWS)
TOLERANCE = 0.9 / ROOT
BIAS = 0.5 / ROOT
STRAY, STRAY_OF_RECIPES = 1.75 / ROOT, 1.1 / ROOT
FIGURE = 0.005
"""Near equilibrium a range is a few percent of its figure, all of it tail: there, a share of the figure."""

NINETY_FIVE = NormalDist().inv_cdf(0.95)


def sampled(spread, rng, count=MANY):
    """Plain random draws of a spread: half on each side of likely, 5 % beyond each end, on logarithms where
    all is above 0. Written anew, apart from units.spread."""
    z = rng.standard_normal(count) / NINETY_FIVE
    if spread.low > 0:
        reach = np.where(z < 0, np.log(spread.likely / spread.low), np.log(spread.high / spread.likely))
        return spread.likely * np.exp(z * reach)
    return spread.likely + z * np.where(z < 0, spread.likely - spread.low, spread.high - spread.likely)


def holds(found, draws):
    """Whether a range agrees with the 5th and 95th percentile of plain draws, within TOLERANCE."""
    low, high = np.quantile(draws, [0.05, 0.95])
    assert found["low"] == pytest.approx(low, abs=max(TOLERANCE * (high - low), FIGURE * low))
    assert found["high"] == pytest.approx(high, abs=max(TOLERANCE * (high - low), FIGURE * high))


WIDE = (Spread(0.5, 1.0, 1.8), Spread(0.7, 1.0, 1.3), Spread(0.2, 1.0, 2.5))


def errors(combine, ends_of_one, sets=60):
    """Errors of low and high over many sets, as shares of the true width, shape (sets, 2)."""
    rng = np.random.default_rng(4)
    truth = np.quantile(combine(*(sampled(spread, rng) for spread in WIDE)), [0.05, 0.95])
    return (np.array([ends_of_one(combine, i) for i in range(sets)]) - truth) / (truth[1] - truth[0])


def stratified(combine, i):
    found = summarise(combine(*(draw(spread, f"set-{i}/{k}") for k, spread in enumerate(WIDE))))
    return found.low, found.high


def plain(combine, i):
    rng = np.random.default_rng(100 + i)
    return np.quantile(combine(*(sampled(spread, rng)[:DRAWS] for spread in WIDE)), [0.05, 0.95])


@pytest.mark.parametrize(
    "combine",
    [
        lambda a, b, c: a + b + c,
        lambda a, b, c: a * b * c,
        lambda a, b, c: a * b / c,
        lambda a, b, c: np.minimum(a, 1.2 * b) + 0.1 * c,
        lambda a, b, c: a * (1 - np.exp(-b * c)),
    ],
)
def test_the_design_has_no_lean_and_strays_no_more_than_plain_draws(combine):
    ours = errors(combine, stratified)
    assert np.abs(ours.mean(axis=0)).max() < BIAS
    assert ours.std(axis=0).max() < STRAY
    assert ours.std(axis=0).max() < 1.1 * errors(combine, plain).std(axis=0).max()


def columns_by_set(document, drawn, monkeypatch, sets=60):
    """A recipe's sodium, shape (sets, DRAWS + 1), with figures of the book by `drawn(set, spread, name)`."""
    columns = []
    for i in range(sets):

        def drawn_here(spread, name, *, floor, ceiling, i=i):
            return np.clip(drawn(i, spread, name), floor, ceiling)

        monkeypatch.setattr("saltledger.core.assumptions.draw", drawn_here)
        columns.append(cooked(document).sodium_per_serving_mg)
    return np.stack(columns)


def by_design(i, spread, name):
    return draw(spread, f"set-{i}/{name}")


def plainly(i, spread, name):
    """The likely value, then DRAWS plain draws, the same for the same name of a set."""
    rng = np.random.default_rng([i, zlib.crc32(name.encode())])
    return np.append(spread.likely, sampled(spread, rng, DRAWS))


def salted_supper():
    """A brined loin simmered in salted water, beside carrots salted by the spoon."""
    document = brined(salt_g=150, thickness_cm=6)
    document["components"] += [
        part("pot", item(dishes.WATER, 3000), "2 tsp coarse salt"),
        part("side", item(dishes.CARROTS, 500), "1 tsp coarse salt", "2 tbsp soy sauce"),
    ]
    document["steps"].append(step("simmer", "loin", "pot", duration_h=1.5))
    return document


def two_meats():
    document = brined()
    document["components"].append(part("breast", item(dishes.CHICKEN, 500)))
    document["steps"][0]["food"] = ["loin", "breast"]
    return document


WHOLE = {
    "a brined loin": brined(),
    "two meats in a brine": two_meats(),
    "a supper": salted_supper(),
    "spoons": {"servings": 2, "ingredients": ["2 tsp coarse salt", "3 tbsp soy sauce", "1 tbsp capers"]},
    "carrots": recipe(
        [
            part("carrots", item(dishes.CARROTS, 400)),
            part("pot", item(dishes.WATER, 3000), "2 tbsp coarse salt"),
        ],
        [step("boil", "carrots", "pot", duration_h=0.25)],
    ),
    "salt cod": recipe(
        [part("cod", item(dishes.SALT_COD, 500)), part("water", item(dishes.WATER, 3000))],
        [step("soak", "cod", "water", duration_h=36, thickness_cm=1.5, temperature_c=4, water_changes=2)],
    ),
    "a dry cure": recipe(
        [part("loin", item(dishes.PORK, 1000)), part("rub", item(dishes.SALT, 25))],
        [step("dry_cure", "loin", "rub", duration_h=48, thickness_cm=5, temperature_c=3)],
    ),
    "a roast": recipe([part("beef", item("13346", 1000))], [step("roast", "beef")]),
}


@pytest.mark.parametrize("name", WHOLE)
def test_whole_recipes_have_no_lean_and_stray_no_more_than_plain_draws(name, monkeypatch):
    ours, theirs = (columns_by_set(WHOLE[name], drawn, monkeypatch) for drawn in (by_design, plainly))
    truth = np.quantile(theirs[:, 1:], [0.05, 0.95])
    ends = (np.array([(found.low, found.high) for found in map(summarise, each)]) for each in (ours, theirs))
    ours, theirs = ((each - truth) / (truth[1] - truth[0]) for each in ends)
    assert np.abs(ours.mean(axis=0)).max() < BIAS
    assert ours.std(axis=0).max() < STRAY_OF_RECIPES
    assert (ours.std(axis=0) < 1.25 * theirs.std(axis=0)).all()


def test_one_spread_gives_its_own_ends():
    for spread in (Spread(0.5, 1, 3), Spread(-2, 0, 1), Spread(0, 0.3, 0.4)):
        found = summarise(draw(spread, "alone"))
        assert found.low == pytest.approx(spread.low, abs=4 / DRAWS * (spread.high - spread.low))
        assert found.high == pytest.approx(spread.high, abs=4 / DRAWS * (spread.high - spread.low))


@pytest.mark.parametrize(
    ("hours", "thickness_cm", "salt_g"), [(72, 5, 120), (24, 5, 120), (400, 3, 60), (6, 2, 200)]
)
def test_a_brined_loin(hours, thickness_cm, salt_g):
    """Uptake over its time by Crank's curve, and where it comes to rest, from the tables' own spreads, of
    which the first hours have that of the pace alone: the loin gains the weight of its salt at rest, and so
    draws in no brine."""
    loin = bundled().get(dishes.PORK)
    water_g = 1000 * loin.per_100g("WATER") / 100
    rng = np.random.default_rng(11)
    diffusivity = sampled(effective_diffusivity("pork", "salt", 3).spread, rng)
    diffusivity = diffusivity * sampled(lot_pace("brine", "pork").spread, rng)
    thickness = sampled(Spread.within(thickness_cm, 0.1), rng)
    bath_water_g = 2000 * bundled().get(dishes.WATER).per_100g("WATER") / 100
    rest = partition_at_rest("pork").spread
    at_rest = sampled(rest, rng)
    room_g = water_g * at_rest
    fourier = diffusivity * hours * 3600 / (thickness / 200 * at_rest / rest.likely) ** 2
    reached = mean_reached(fourier, bath_water_g / room_g, "sheet")
    bath_mg, own_mg = dishes.sodium_mg(dishes.SALT, salt_g), dishes.sodium_mg(dishes.PORK, 1000)
    bath_mg += dishes.sodium_mg(dishes.WATER, 2000)
    at_rest_mg = (bath_mg + own_mg) * room_g / (room_g + bath_water_g)
    likely_mg = (bath_mg + own_mg) * water_g / (water_g + bath_water_g)
    salt_gained_g = (likely_mg - own_mg) / 1000 * SALT_PER_SODIUM
    # Potassium goes the other way, with its chloride.
    loose_g = 0.98 * loin.per_100g("K") / 100 / POTASSIUM_IN_KCL
    salt_gained_g -= loose_g * bath_water_g / (water_g + bath_water_g)
    asked = brined(
        salt_g=salt_g, duration_h=hours, thickness_cm=thickness_cm, pick_up_percent=salt_gained_g / 10
    )
    found = summarise(cooked(asked).sodium_per_serving_mg)
    holds(found.as_dict(), own_mg + (at_rest_mg - own_mg) * reached)


def test_two_lines_weighed_by_spoon():
    """Two independent weights and their sum, as read from the lines."""
    document = {"servings": 2, "ingredients": ["2 tsp coarse salt", "3 tbsp soy sauce", "1 tbsp capers"]}
    answer = answered(document)
    rng = np.random.default_rng(5)
    whole = np.zeros(MANY)
    for each in answer["ingredients"]:
        grams = sampled(Spread(each["grams_low"], each["grams"], each["grams_high"]), rng)
        whole += grams * bundled().get(each["food"]["code"]).per_100g("NA") / 100 / 2
    holds(answer["sodium"]["per_serving_mg"], whole)


def test_weight_after_a_brine():
    """The pick-up alone carries the weight of a serving, and with it sodium per 100 g."""
    answer = answered({**brined(), "servings": 1})
    rng = np.random.default_rng(8)
    percent = 100 * (120 / (2000 * 0.999 + 120))
    weights = 1000 * (1 + sampled(pick_up("pork", percent, "brine").spread, rng) / 100)
    sodium = answer["sodium"]["per_serving_mg"]
    narrow = sodium["likely"] / weights * 100
    found = answer["per_100g"]["nutrients"]["NA"]
    assert found["high"] - found["low"] >= 0.9 * (np.quantile(narrow, 0.95) - np.quantile(narrow, 0.05))


def test_equal_requests_have_equal_ranges():
    document = {"servings": 1, "ingredients": [item(dishes.PORK, 100), "1 tsp coarse salt"]}
    assert answered(document) == answered(document)
