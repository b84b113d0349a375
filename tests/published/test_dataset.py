"""The bundled dataset against what USDA has published about it, and against the atomic weights.

These hold the data and the builder's reading of its columns; no calculation of the service runs in them.
"""

import csv

import pytest
from saltledger.core.tables import document, seed_foods
from saltledger.foods.dataset import bundled
from saltledger.foods.hand_kept import SODIUM_IN_NACL
from saltledger.foods.nutrients import INDEX, NUTRIENTS
from saltledger.recipe.pools import SALT_PER_SODIUM

SODIUM_U, CHLORINE_U = 22.98977, 35.453
"""Standard atomic weights, IUPAC."""


def test_table_salt_holds_38758_mg_sodium():
    """USDA SR28, NDB 02047."""
    assert bundled().get("02047").per_100g("NA") == 38_758


def test_a_teaspoon_of_table_salt_holds_2325_mg_sodium():
    """USDA SR28, NDB 02047: 1 tsp weighs 6 g."""
    salt = bundled().get("02047")
    teaspoon = next(measure for measure in salt.household if measure.unit == "tsp")
    assert teaspoon.grams == 6.0
    assert salt.per_100g("NA") * teaspoon.grams / 100 == pytest.approx(2325, abs=0.5)


def test_sodium_chloride_is_39_34_percent_sodium():
    assert pytest.approx(SODIUM_U / (SODIUM_U + CHLORINE_U), rel=1e-5) == SODIUM_IN_NACL
    assert pytest.approx((SODIUM_U + CHLORINE_U) / SODIUM_U, rel=1e-5) == SALT_PER_SODIUM


def test_table_salt_is_close_to_pure_sodium_chloride():
    """SR28's figure is 98.5 % of what pure NaCl would hold."""
    pure_mg = 100_000 * SODIUM_U / (SODIUM_U + CHLORINE_U)
    assert bundled().get("02047").per_100g("NA") / pure_mg == pytest.approx(0.985, abs=0.001)


def test_the_brisket_pair_keeps_56_percent_of_its_sodium():
    """USDA SR28, NDB 13346 (raw) and 13347 (cooked; its household weight is the yield of 1 lb raw)."""
    raw, cooked = bundled().get("13346"), bundled().get("13347")
    assert raw.per_100g("NA") == 1217
    assert cooked.per_100g("NA") == 973
    pound = next(m.grams for m in raw.household if m.unit == "lb")
    yielded = next(m.grams for m in cooked.household if "yield from 1 lb" in m.label)
    assert (pound, yielded) == (453.6, 320)
    assert cooked.per_100g("NA") * yielded / (raw.per_100g("NA") * pound) == pytest.approx(0.564, abs=0.001)


def test_release_28_has_8789_foods_in_25_groups():
    """SR28 documentation: 8,789 food items."""
    groups = {row["group"] for row in csv.DictReader(_data("foods.csv").splitlines())}
    assert len(list(csv.DictReader(_data("foods.csv").splitlines()))) == 8_789
    assert len(groups) == 25


def test_the_abbreviated_file_has_46_nutrients():
    """SR28 documentation: fields 3 to 48 of ABBREV."""
    assert [n.source_column for n in NUTRIENTS if n.source_column is not None] == list(range(2, 48))
    assert [entry["tag"] for entry in document("manifest")["nutrients"]] == list(INDEX)


def test_vitamin_d_units_agree():
    """1 µg vitamin D is 40 IU (21 CFR 101.9(c)(8)(iv)): holds the column order of the source."""
    figures = _columns("VITD", "VITD_IU")
    assert len(figures) > 3000
    assert sum(abs(iu - 40 * mcg) <= 2.5 for mcg, iu in figures) / len(figures) > 0.98


def test_food_folate_and_folic_acid_add_up():
    """Folate in dietary equivalents = food folate + 1.7 folic acid (SR28 documentation)."""
    figures = _columns("FOLFD", "FOLAC", "FOLDFE")
    assert sum(abs(food + 1.7 * acid - dfe) <= 1.5 for food, acid, dfe in figures) / len(figures) > 0.98


def test_fatty_acids_stay_within_total_fat():
    figures = _columns("FASAT", "FAMS", "FAPU", "FAT")
    assert sum(a + b + c <= fat + 0.6 for a, b, c, fat in figures) / len(figures) > 0.99


def test_alcohol_by_difference_comes_near_the_printed_strength():
    """SR28, NDB 14037, 80 proof spirits: 40 % by volume is 33.4 g in 100 g (SR28 prints 33.4)."""
    assert bundled().get("14037").per_100g("ALC") == pytest.approx(33.4, abs=0.1)
    assert bundled().get("14096").per_100g("ALC") == pytest.approx(10.6, abs=0.1)


def _data(name: str) -> str:
    return seed_foods().joinpath("data", name).read_text("utf-8")


def _columns(*tags: str) -> list[tuple[float, ...]]:
    table = csv.DictReader(_data("values.csv").splitlines())
    cells = ([row[tag] for tag in tags] for row in table)
    return [tuple(map(float, row)) for row in cells if all(row)]
