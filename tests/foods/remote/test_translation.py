import pytest
from hypothesis import given
from hypothesis import strategies as st
from saltledger.foods.remote.kept import KeptFood
from saltledger.foods.remote.translation import UnusableFood, kept_food

from .shapes import food

DAY = "2026-11-25"


def with_figure(number: str, amount: object, unit: str) -> dict:
    document = food()
    document["foodNutrients"].append({"nutrient": {"number": number, "unitName": unit}, "amount": amount})
    return document


def test_a_food_in_full_becomes_tags_measures_and_where_it_is_from() -> None:
    kept = kept_food(food(), DAY)
    assert (kept.code, kept.name, kept.group, kept.published) == (
        "fdc:2700001",
        "Dulse paste",
        "Condiments",
        "2022-10-28",
    )
    assert kept.per_100g["NA"] == 2500.0
    assert kept.per_100g["ENERC"] == 198.0
    assert kept.household == (("1 tablespoon", 18.0),)
    assert kept.source == (
        "USDA FoodData Central, FDC 2700001 (Survey (FNDDS), published 2022-10-28), retrieved 2026-11-25"
    )


def test_what_is_not_told_is_not_known() -> None:
    taken = kept_food(food(), DAY).food()
    assert taken.per_100g("K") is None
    assert taken.per_100g("NITRI") == 0.0


def test_an_abridged_food_is_read_as_well() -> None:
    document = food()
    document["foodNutrients"] = [
        {**each["nutrient"], "amount": each["amount"]} for each in document["foodNutrients"]
    ]
    assert kept_food(document, DAY).per_100g["NA"] == 2500.0


@pytest.mark.parametrize(
    ("number", "amount", "unit", "tag", "wanted"),
    [
        ("306", 0.4, "G", "K", 400.0),
        ("317", 0.012, "mg", "SE", 12.0),
        ("317", 12, "UG", "SE", 12.0),
        ("318", 40, "IU", "VITA_IU", 40.0),
    ],
)
def test_a_unit_of_the_same_kind_is_turned_into_ours(number, amount, unit, tag, wanted) -> None:
    assert kept_food(with_figure(number, amount, unit), DAY).per_100g[tag] == pytest.approx(wanted)


def test_energy_in_kilojoules_is_turned_into_kilocalories() -> None:
    document = food()
    document["foodNutrients"][-1] = {"nutrient": {"number": "208", "unitName": "kJ"}, "amount": 836.8}
    assert kept_food(document, DAY).per_100g["ENERC"] == pytest.approx(200.0)


@pytest.mark.parametrize(
    ("number", "amount", "unit"),
    [("306", 400, "IU"), ("306", 400, "kcal"), ("306", -1, "mg"), ("306", "400", "mg"), ("306", 200, "g")],
)
def test_a_figure_that_cannot_be_taken_is_left_out_and_said_so(number, amount, unit) -> None:
    kept = kept_food(with_figure(number, amount, unit), DAY)
    assert "K" not in kept.per_100g
    assert [each.partition(":")[0] for each in kept.refused] == ["K"]


@pytest.mark.parametrize(
    ("change", "reason"),
    [
        ({"servingSizeUnit": "ml", "dataType": "Branded"}, "100 ml"),
        ({"foodNutrients": []}, "sodium is not known"),
        ({"fdcId": None}, "not described as published"),
        ({"foodNutrients": "none"}, "not described as published"),
        ({"description": ""}, "not described as published"),
        ({"publicationDate": "soon/never"}, "not described as published"),
    ],
)
def test_a_food_that_cannot_be_used_is_refused_whole(change, reason) -> None:
    with pytest.raises(UnusableFood, match=reason):
        kept_food({**food(), **change}, DAY)


def test_parts_that_sum_to_no_possible_food_are_refused() -> None:
    document = food()
    document["foodNutrients"][0]["amount"] = 90.0
    with pytest.raises(UnusableFood, match="sum to 146 g"):
        kept_food(document, DAY)


def test_more_energy_than_fat_is_refused() -> None:
    document = food()
    document["foodNutrients"][-1]["amount"] = 1980.0
    with pytest.raises(UnusableFood, match="pure fat"):
        kept_food(document, DAY)


def test_portions_without_a_description_are_labelled_by_measure_and_form() -> None:
    portions = [
        {"amount": 1, "gramWeight": 240, "measureUnit": {"name": "cup"}, "modifier": "chopped"},
        {"amount": 2, "gramWeight": 10, "measureUnit": {"name": "undetermined"}, "modifier": "slices"},
        {"amount": 1, "gramWeight": None, "measureUnit": {"name": "cup"}},
        {"amount": 1, "gramWeight": 5, "measureUnit": {"name": "undetermined"}},
    ]
    kept = kept_food({**food(), "foodPortions": portions}, DAY)
    assert kept.household == (("1 cup, chopped", 240.0), ("2 slices", 10.0))


def test_a_kept_food_comes_back_from_its_document() -> None:
    kept = kept_food(with_figure("306", 400, "IU"), DAY)
    assert KeptFood.from_document(kept.document()) == kept


def test_the_fingerprint_is_of_what_it_says_and_not_of_the_day() -> None:
    kept = kept_food(food(), DAY)
    assert kept_food(food(), "2027-01-01").sha256 == kept.sha256
    assert kept_food(food(sodium=2501.0), DAY).sha256 != kept.sha256


json_values = st.recursive(
    st.none() | st.booleans() | st.floats() | st.integers() | st.text(max_size=8),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(st.text(max_size=8), inner, max_size=4),
    max_leaves=12,
)


@given(st.dictionaries(st.sampled_from(sorted(food())), json_values, max_size=4))
def test_whatever_stands_in_a_document_it_is_taken_or_refused(changes) -> None:
    try:
        kept = kept_food({**food(), **changes}, DAY)
    except UnusableFood:
        return
    assert 0 <= kept.per_100g["NA"] <= 100_000


@given(json_values)
def test_whatever_comes_in_place_of_a_document_is_refused(value) -> None:
    with pytest.raises(UnusableFood):
        kept_food(value, DAY)
