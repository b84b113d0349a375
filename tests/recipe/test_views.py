"""Claims, labels and the allergen prompt of an outcome."""

from __future__ import annotations

import pytest
from saltledger.recipe.views import allergens, claims, label

from . import dishes
from .dishes import cooked, item, part, recipe


def plain(*ingredients, **more):
    return cooked({"servings": 1, "ingredients": list(ingredients), **more})


def claim(outcome, id):
    return next(each for each in claims(outcome) if each["id"] == id)


def row(document, tag):
    return next(r for column in document["columns"] for r in column["rows"] if r["tag"] == tag)


def test_claims_hang_on_the_high_figure_too():
    sure = claim(plain(item(dishes.CARROTS, 100)), "low_sodium")
    assert sure["met_at_likely"]
    assert sure["met_at_high"]
    unsure = claim(cooked(dishes.brined(salt_g=12, thickness_cm=None) | {"servings": 10}), "low_sodium")
    assert unsure["met_at_likely"]
    assert not unsure["met_at_high"]


def test_nothing_to_eat_claims_nothing():
    assert claims(cooked(recipe([part("a", item(dishes.SALT, 5), eaten_fraction=0)], []))) == []


def test_the_us_label_declares_rounded_sodium():
    assert (
        row(label(plain(item(dishes.CARROTS, 100), item(dishes.SALT, 2)), "fda"), "NA")["declared"]
        == "840 mg"
    )


def test_the_eu_label_declares_salt():
    salt = row(label(plain(item(dishes.CARROTS, 98), item(dishes.SALT, 2)), "eu"), "SALT")
    assert salt["declared"] == "2.1 g"


def test_added_sugars_are_told_where_every_line_is_read():
    known = row(label(plain(item(dishes.CARROTS, 100), item(dishes.SUGAR, 20)), "fda"), "ADDED_SUGARS")
    assert known["amount"] == pytest.approx(20, abs=0.5)
    unread = row(label(plain("xyzzyqwv", item(dishes.SUGAR, 20)), "fda"), "ADDED_SUGARS")
    assert unread["amount"] is None


def test_what_nobody_tells_is_not_on_the_label():
    own = {"code": "own", "name": "Own", "per_100g": {"NA": 10, "ENERC": 5}}
    assert row(label(plain(item("own", 100), custom_foods=[own]), "fda"), "FAT")["amount"] is None


@pytest.mark.parametrize(
    ("code", "allergen"),
    [(dishes.CHEESE, "milk"), (dishes.PEANUT_BUTTER, "peanuts"), (dishes.PINK_SALMON, "fish"),
     (dishes.FLOUR, "wheat"), (dishes.SOY_SAUCE, "soy")],
)  # fmt: skip
def test_allergens_are_prompted_for(code, allergen):
    found = allergens(plain(item(code, 10)))
    assert any(allergen in each["allergen"] for each in found["allergens"])
    assert "not an allergen declaration" in found["statement"]


def test_a_line_without_a_food_is_named_as_unread_or_read_by_its_words():
    assert allergens(plain("2 cups xyzzyqwv"))["unread"]
