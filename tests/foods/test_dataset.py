"""The table of foods, and a caller's own laid over it."""

import hashlib
import math

import pytest
from saltledger.core.errors import NotFound
from saltledger.core.tables import document, seed_foods
from saltledger.foods.dataset import FoodTable, bundled, custom_food, food_document
from saltledger.foods.nutrients import NUTRIENTS


def test_a_food_is_got_by_its_code():
    assert bundled().get("02047").name == "Salt, table"


@pytest.mark.parametrize("code", ["99999", "", "2047", "SL9999"])
def test_an_unknown_code_is_not_found(code):
    assert code not in bundled()
    with pytest.raises(NotFound):
        bundled().get(code)


def test_every_food_can_be_made():
    foods = bundled()
    assert len(foods) == len(foods.codes) == len(set(foods.codes))
    for code in foods.codes:
        assert foods.get(code).name == foods.names[code]


def test_what_is_not_known_is_not_zero():
    food = bundled().get("SL0030")
    assert food.per_100g("NA") is None
    assert math.isnan(food.values[[n.tag for n in NUTRIENTS].index("NA")])


def test_the_values_of_a_food_cannot_be_changed():
    with pytest.raises(ValueError, match="read-only"):
        bundled().get("02047").values[0] = 1.0


def test_an_overlay_overrules_and_leaves_the_rest_alone():
    own = custom_food("02047", "Our salt", {"NA": 30_000.0})
    foods = bundled().with_custom([own])
    assert foods.get("02047") is own
    assert foods.get("01001") is bundled().get("01001")
    assert bundled().get("02047").name == "Salt, table"
    assert foods.custom == (own,)
    assert foods.identity == bundled().identity


def test_no_foods_make_no_overlay():
    assert bundled().with_custom([]) is bundled()


def test_overlays_may_be_laid_over_overlays():
    one, two = custom_food("x1", "One", {}), custom_food("x2", "Two", {})
    foods = bundled().with_custom([one]).with_custom([two])
    assert foods.get("x1") is one
    assert foods.get("x2") is two


def test_a_table_of_just_some_foods():
    foods = FoodTable.of([custom_food("x1", "One", {})])
    assert foods.codes == ("x1",)
    assert "02047" not in foods


def test_the_identity_names_release_and_hash():
    identity = bundled().identity
    assert identity["release"]
    assert len(identity["sha256"]) == 64


def test_the_document_of_a_food_says_null_for_what_is_not_known():
    document = food_document(bundled().get("SL0030"))
    assert document["per_100g"]["NA"] is None
    assert set(document["per_100g"]) == {nutrient.tag for nutrient in NUTRIENTS}


def test_the_data_are_the_bytes_that_the_manifest_tells_of():
    """A value that is changed by hand, or by a merge, is not USDA's any more."""
    told = document("manifest")["files"]
    assert set(told) == {"data/foods.csv", "data/values.csv"}
    for name, each in told.items():
        content = seed_foods().joinpath(name).read_bytes()
        assert hashlib.sha256(content).hexdigest() == each["sha256"], f"{name} is not what the manifest says"
        assert content.count(b"\n") - 1 == each["rows"]
