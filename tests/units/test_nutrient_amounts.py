"""Amounts with a unit: what fits is converted, what does not is refused with what does."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from saltledger.units.nutrient_amounts import (
    UnitRefused,
    fitting_units,
    grams_of,
    in_own_unit,
    own_units,
    substances,
)

TAGS = sorted(own_units())


def of(amount, unit):
    return {"amount": amount, "unit": unit}


@pytest.mark.parametrize(
    ("tag", "amount", "unit", "wanted"),
    [
        ("NA", 20, "mmol", 459.7954),
        ("NA", 1, "mEq", 22.98977),
        ("K", 10, "mmol", 390.983),
        ("CA", 2, "mEq", 40.078),
        ("MG", 1, "mmol", 24.305),
        ("NA", 0.4, "g", 400),
        ("NA", 1, "oz", 28_349.523),
        ("ENERC", 418.4, "kJ", 100),
        ("ENERC_KJ", 100, "kcal", 418.4),
        ("ENERC", 5, "Cal", 5),
        ("SALT", 1200, "mg", 1.2),
        ("VITD", 3, "mcg", 3),
        ("SE", 3, "ug", 3),
        ("K", 7, "MG", 7),
    ],
)
def test_a_unit_that_fits_is_converted(tag, amount, unit, wanted):
    assert in_own_unit(tag, of(amount, unit)) == pytest.approx(wanted, rel=1e-6)


@pytest.mark.parametrize(
    ("tag", "unit"),
    [
        ("NA", "kcal"), ("FE", "mmol"), ("NA", "cm"), ("VITD_IU", "g"), ("NA", "g**99"), ("NA", "xyzzyqwv"),
        ("NA", ""), ("ENERC", "g"), ("NA", "cup"), ("FAT", "mEq"), ("NA", "g" * 500), ("NA", "mg/kg"),
    ],
)  # fmt: skip
def test_a_unit_that_does_not_fit_is_refused_with_those_that_do(tag, unit):
    with pytest.raises(UnitRefused) as refused:
        in_own_unit(tag, of(1, unit))
    assert refused.value.fitting == fitting_units(tag)
    assert all(fitting in str(refused.value) for fitting in fitting_units(tag))


@given(st.sampled_from(TAGS), st.floats(0, 1e6))
def test_every_fitting_unit_fits_and_a_plain_number_is_in_the_nutrients_own(tag, amount):
    assert in_own_unit(tag, amount) == amount
    for unit in fitting_units(tag):
        assert in_own_unit(tag, of(2.0, unit)) == pytest.approx(2 * in_own_unit(tag, of(1.0, unit)))


def test_amounts_of_substance_are_for_the_four_of_medicine():
    assert set(substances()) == {"NA", "K", "CA", "MG"}


@pytest.mark.parametrize(
    ("stated", "grams"),
    [
        (12, 12.0),
        ({"amount": 2, "unit": "oz"}, 56.699),
        ({"amount": 10, "unit": "grain"}, 0.648),
        ({"amount": 1, "unit": "kg"}, 1000),
    ],
)
def test_a_weight_may_have_any_unit_of_mass(stated, grams):
    assert grams_of(stated) == pytest.approx(grams, rel=1e-4)


@pytest.mark.parametrize("unit", ["ml", "floz", "kcal", "mmol", "nonsense", "g*g"])
def test_a_weight_in_another_unit_is_refused(unit):
    with pytest.raises(UnitRefused, match="a weight: g, kg"):
        grams_of({"amount": 1, "unit": unit})
