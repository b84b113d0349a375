"""Derived factors of retention and yield by the handbook's method, against SR28's cooked rows.

These hold the tables of factors, not the engine: the arithmetic is `by_the_book`. The engine's own
dishes are in `test_dishes` and `test_recipes_against_sr28`.
"""

import numpy as np
import pytest
from saltledger.foods.dataset import bundled
from saltledger.foods.nutrients import INDEX, NUTRIENTS
from saltledger.nutrition.retention import alcohol_kept
from saltledger.seed_foods import derive_factors

from .by_the_book import Part, cooked_dish, kept_whole


def sodium_of(per_100g_mg, grams, retained):
    values = np.zeros(len(NUTRIENTS))
    values[INDEX["NA"]] = per_100g_mg
    return Part(grams, values, np.full(len(NUTRIENTS), retained))


def test_retention_is_of_an_ingredient_and_yield_of_the_recipe():
    """A consistency check of `by_the_book` itself (EuroFIR D2.2.9, 2008): carrots, butter and salt, 523
    g raw, 470 g cooked.

    Computed from SR28 figures: 327.75 + 128.6 + 1162.74 = 1619.1 mg. Without the yield it would be 309.6.
    """
    parts = [sodium_of(69, 500, 0.95), sodium_of(643, 20, 1), sodium_of(38758, 3, 1)]
    found = cooked_dish(parts, cooked_weight_g=470).per_100g[INDEX["NA"]]
    assert found == pytest.approx(344.5, abs=0.05)
    assert found != pytest.approx(309.6, abs=1)


# USDA Table of Nutrient Retention Factors, Release 6 (2007), as quoted.
ALCOHOL = [(0, 0.85), (15, 0.40), (30, 0.35), (60, 0.25), (90, 0.20), (120, 0.10), (150, 0.05), (300, 0.05)]


@pytest.mark.parametrize(("minutes", "kept"), ALCOHOL)
def test_published_retention_of_alcohol(minutes, kept):
    assert alcohol_kept(minutes).likely == pytest.approx(kept)


# Raw row, cooked row, kind, treatment, the food left out of the factors, and how far off each nutrient may
# be.
# The two rows of SR28 are different animals or plants. Minerals and B vitamins of one cut vary by about a
# tenth
# between samples (standard errors in SR28), so that two rows agree to about a quarter at best where
# nothing is
# wrong; the tolerances are well within that where the factors of the kind are narrow. Wider: the sodium
# that braised
# meat keeps is 0.40 to 0.87 of its own over 158 pairs.
DISHES = {
    "brisket, lean, braised": (
        "23596", "23595", "meat", "braise", "brisket",
        {"WATER": 0.05, "ENERC": 0.08, "PROCNT": 0.05, "FAT": 0.15, "K": 0.15, "P": 0.1, "FE": 0.1, "ZN": 0.1,
         "MG": 0.15, "THIA": 0.15, "RIBF": 0.15, "NIA": 0.1, "CHOLE": 0.1, "NA": 0.3},
    ),
    "chicken with skin, roasted": (
        "05006", "05009", "poultry", "roast", "Chicken, broilers or fryers, meat and skin",
        {"WATER": 0.1, "PROCNT": 0.1, "K": 0.15, "P": 0.1, "FE": 0.15, "ZN": 0.15, "MG": 0.1, "THIA": 0.15,
         "RIBF": 0.15, "NIA": 0.1, "CHOLE": 0.15, "NA": 0.15},
    ),
    "pork tenderloin, roasted": (
        "10060", "10061", "meat", "roast", "tenderloin",
        {"WATER": 0.05, "ENERC": 0.05, "PROCNT": 0.1, "K": 0.1, "P": 0.1, "FE": 0.15, "ZN": 0.1, "MG": 0.1,
         "THIA": 0.2, "RIBF": 0.15, "NIA": 0.1, "CHOLE": 0.2, "NA": 0.1},
    ),
    "rice, cooked": (
        "20044", "20045", "rice", "boil_with_liquid", "Rice, white, long",
        {"WATER": 0.02, "ENERC": 0.05, "PROCNT": 0.08, "CHOCDF": 0.05, "K": 0.2, "CA": 0.1, "P": 0.15,
        "THIA": 0.1,
         "NIA": 0.1, "FOL": 0.1},
    ),
    "broccoli, boiled": (
        "11090", "11091", "vegetable", "boil_drained", "Broccoli",
        {"WATER": 0.02, "ENERC": 0.1, "CHOCDF": 0.1, "K": 0.1, "CA": 0.15, "FE": 0.1, "P": 0.15, "MG": 0.1,
         "VITC": 0.1, "THIA": 0.1, "NA": 0.3},
    ),
    "potatoes, boiled": (
        "11352", "11367", "vegetable", "boil_drained", "Potatoes",
        {"WATER": 0.05, "ENERC": 0.15, "CHOCDF": 0.15, "K": 0.2, "MG": 0.15, "ZN": 0.15, "VITB6A": 0.1,
        "NA": 0.2},
    ),
}  # fmt: skip


@pytest.fixture(scope="module")
def pairs():
    return derive_factors.pairs(bundled())


def factors_without(pairs, left_out, kind, treatment):
    """Retention and yield of a kind and treatment from all pairs but those of the food that is tested."""
    rest = [each for each in pairs if left_out not in each.raw.name and left_out not in each.cooked.name]
    assert len(rest) < len(pairs)
    retained = kept_whole()
    for row in derive_factors.retention_rows(rest, "total"):
        if row[:2] == (kind, treatment):
            retained[INDEX[row[2]]] = float(row[4])
    gained = next(
        float(r[4]) for r in derive_factors.yield_rows(rest) if r[:3] == (kind, treatment, "weight")
    )
    return retained, gained


@pytest.mark.parametrize("dish", DISHES)
def test_a_dish_from_its_raw_row_agrees_with_its_cooked_row(dish, pairs):
    """Source of both rows: USDA SR28. The factors leave out every pair of the food that is tested."""
    raw_code, cooked_code, kind, treatment, left_out, tolerances = DISHES[dish]
    raw, cooked = bundled().get(raw_code), bundled().get(cooked_code)
    retained, gained = factors_without(pairs, left_out, kind, treatment)
    kcal_g = (raw.protein_kcal_g, raw.fat_kcal_g, raw.carbohydrate_kcal_g)
    found = cooked_dish([Part(100, raw.values, retained, kcal_g)], cooked_weight_g=100 * gained).per_100g
    off = {tag: abs(found[INDEX[tag]] / cooked.per_100g(tag) - 1) for tag in tolerances}
    assert {tag: round(share, 3) for tag, share in off.items() if share > tolerances[tag]} == {}


PANCAKES = [
    ("20081", 187.5), ("18369", 16.0), ("02047", 1.5), ("19335", 12.5), ("01079", 305.0),
    ("01123", 50.0), ("01001", 42.0),
]  # fmt: skip
"""Flour, baking powder, salt, sugar, milk, egg and butter in g: common practice, no source."""


def test_pancakes_from_a_recipe_agree_with_their_cooked_row():
    """SR28 18293, pancakes prepared from recipe. USDA's own recipe is not known: a quarter is allowed.

    The cooked weight is such that the water comes to that of the cooked row.
    """
    foods = bundled()
    cooked = foods.get("18293")
    parts = [Part(grams, foods.get(code).values, kept_whole()) for code, grams in PANCAKES]
    dry_g = sum(part.grams * (1 - part.values[INDEX["WATER"]] / 100) for part in parts)
    dish = cooked_dish(parts, cooked_weight_g=dry_g / (1 - cooked.per_100g("WATER") / 100))
    assert 0.8 < dish.cooked_weight_g / sum(part.grams for part in parts) < 0.95
    for tag in ("ENERC", "PROCNT", "FAT", "CHOCDF", "NA", "K", "CA", "P", "FE", "CHOLE"):
        assert dish.per_100g[INDEX[tag]] == pytest.approx(cooked.per_100g(tag), rel=0.25), tag


def test_the_range_of_retained_sodium_holds_for_foods_that_it_was_not_derived_from(pairs):
    """A range is meant to hold nine in ten; with one family of foods left out at a time it is 85 %."""
    held = []
    for group in derive_factors.grouped(pairs, with_any=False).values():
        kept = np.array([pair.total[INDEX["NA"]] for pair in group])
        family = np.array([", ".join(pair.raw.name.split(", ")[:2]) for pair in group])
        for name in sorted(set(family)):
            rest = kept[(family != name) & ~np.isnan(kept)]
            if len(rest) >= 10:
                low, _, high = derive_factors.spread(rest)
                held += [low <= share <= high for share in kept[family == name] if not np.isnan(share)]
    assert len(held) > 500
    assert np.mean(held) > 0.8
