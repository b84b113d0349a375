"""Household measures as USDA writes them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from saltledger.foods.dataset import bundled
from saltledger.foods.food import Household, parse


@pytest.mark.parametrize(
    ("label", "amount", "unit", "form"),
    [
        ("1 cup", 1.0, "cup", ""),
        (".5 cup, slices", 0.5, "cup", "slices"),
        ("1 cup, chopped or diced", 1.0, "cup", "chopped or diced"),
        ("1 large (2-1/4 per lb)", 1.0, "large", "(2-1/4 per lb)"),
        ("1 cup (8 fl oz)", 1.0, "cup", "(8 fl oz)"),
        ("0.25 tsp", 0.25, "tsp", ""),
        ("3 oz", 3.0, "oz", ""),
        ("steak", 1.0, "steak", ""),
        ("", 1.0, "", ""),
    ],
)
def test_a_label_is_read(label, amount, unit, form):
    measure = Household(label, 10.0)
    assert (measure.amount, measure.unit, measure.form) == (amount, unit, form)


def test_every_label_of_the_dataset_has_an_amount_and_a_unit():
    foods = (bundled().get(code) for code in bundled().codes)
    measures = [measure for food in foods for measure in food.household]
    assert [m.label for m in measures if not (m.amount > 0 and m.unit and m.grams > 0)] == []


@given(st.text(max_size=40))
def test_any_label_is_read(label):
    amount, unit, form = parse(label)
    assert amount >= 0
    assert unit == unit.strip()
    assert form == form.strip()
