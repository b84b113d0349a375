"""Curing salts are known by their usual names, numbers and languages; each read as what it holds."""

import pytest
from saltledger.foods.dataset import bundled
from saltledger.recipe.ingredients import ReadSettings, resolve

TYPE_1, TYPE_2, NITRITE_SALT = "SL0001", "SL0002", "SL0003"
SODIUM_NITRITE, POTASSIUM_NITRATE, POTASSIUM_NITRITE, SODIUM_NITRATE = "SL0006", "SL0007", "SL0008", "SL0009"


@pytest.mark.parametrize(
    ("name", "code"),
    [
        ("pink curing salt", TYPE_1),
        ("curing salt #1", TYPE_1),
        ("prague powder no. 1", TYPE_1),
        ("sal de cura nº 1", TYPE_1),
        ("curing salt #2", TYPE_2),
        ("prague powder #2", TYPE_2),
        ("sal de cura n.º 2", TYPE_2),
        ("Nitritpökelsalz", NITRITE_SALT),
        ("sel nitrité", NITRITE_SALT),
        ("sale nitritato", NITRITE_SALT),
        ("colorozozout", NITRITE_SALT),
        ("nitritsalt", NITRITE_SALT),
        ("peklosól", NITRITE_SALT),
        ("E249", POTASSIUM_NITRITE),
        ("E 250", SODIUM_NITRITE),
        ("E-251", SODIUM_NITRATE),
        ("E252", POTASSIUM_NITRATE),
        ("saltpetre", POTASSIUM_NITRATE),
        ("Salpeter", POTASSIUM_NITRATE),
        ("salnitro", POTASSIUM_NITRATE),
        ("salitre", POTASSIUM_NITRATE),
        ("Himalayan pink salt", "02047"),
    ],
)
def test_names_of_curing_salts(name, code):
    found = resolve(f"5 g {name}", bundled(), ReadSettings())
    assert found.food is not None
    assert found.food.code == code


@pytest.mark.parametrize(
    ("code", "tag", "mg"),
    [(POTASSIUM_NITRITE, "NITRI", 81072), (POTASSIUM_NITRITE, "K", 45941), (SODIUM_NITRATE, "NA", 27048)],
)
def test_amounts_by_molar_mass(code, tag, mg):
    """KNO2 85.104, NaNO2 68.995, NaNO3 84.995, K 39.098, Na 22.990 g/mol."""
    masses = {"NITRI": 68.995 / 85.104, "K": 39.098 / 85.104, "NA": 22.990 / 84.995}
    assert bundled().get(code).per_100g(tag) == pytest.approx(mg, abs=1)
    assert mg == pytest.approx(100_000 * masses[tag], rel=1e-4)
