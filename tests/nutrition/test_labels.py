"""Label views: the rows of each scheme, what is not known, and percent that agree with what is declared."""

import pytest
from saltledger.core.errors import InvalidRequest
from saltledger.nutrition.label_schemes import label_schemes
from saltledger.nutrition.labels import label_view

SERVING = {
    "ENERC": 208.4, "NA": 612.2, "FAT": 4.9, "FASAT": 0.49, "CHOLE": 3.0, "CHOCDF": 20.0, "FIBTG": 0.7,
    "SUGAR": 2.0,
    "PROCNT": 22.0, "CA": 310.0, "FE": 1.9, "K": 300.0, "VITD": 0.0, "VITC": 1.0, "ADDED_SUGARS": 1.2,
}  # fmt: skip
WEIGHT_G = 250.0
HUNDRED = {tag: amount * 100 / WEIGHT_G for tag, amount in SERVING.items()}


def view(scheme, serving=SERVING, **wishes):
    hundred = {tag: amount * 100 / WEIGHT_G for tag, amount in serving.items()}
    return label_view(scheme, serving, hundred, serving_weight_g=WEIGHT_G, **wishes)


def rows(document, basis):
    column = next(column for column in document["columns"] if column["basis"] == basis)
    return {row["tag"]: row for row in column["rows"]}


def test_a_us_label_declares_a_serving():
    found = rows(view("fda"), "per_serving")
    declared = {tag: (row["declared"], row["percent"]) for tag, row in found.items()}
    assert declared["ENERC"] == ("210", None)
    assert declared["NA"] == ("610 mg", 27)
    assert declared["CHOLE"] == ("less than 5 mg", 1)
    assert declared["FIBTG"] == ("less than 1 g", 3)
    assert declared["CA"] == ("310 mg", 25)
    assert declared["FE"] == ("1.9 mg", 10)
    assert declared["VITD"] == ("0 mcg", 0)


def test_the_order_is_that_of_the_regulation():
    tags = list(rows(view("fda"), "per_serving"))
    assert tags[:6] == ["ENERC", "FAT", "FASAT", "FATRN", "CHOLE", "NA"]
    assert [tag for tag in tags if tag in ("CHOCDF", "FIBTG", "SUGAR", "ADDED_SUGARS", "PROCNT")] == [
        "CHOCDF", "FIBTG", "SUGAR", "ADDED_SUGARS", "PROCNT"
    ]  # fmt: skip


def test_nothing_declared_is_no_percent():
    """0.49 g of saturated fat is 2.45 % of the daily value, and is declared as 0 g."""
    row = rows(view("fda"), "per_serving")["FASAT"]
    assert (row["declared"], row["percent"]) == ("0 g", 0)


def test_percent_is_of_the_amount_before_rounding():
    """264.6 mg are declared as 260 mg (11.3 %), but are 11.504 % of 2,300 mg."""
    row = rows(view("fda", SERVING | {"NA": 264.6}), "per_serving")["NA"]
    assert (row["declared"], row["percent"]) == ("260 mg", 12)


def test_what_is_not_known_is_never_nothing():
    row = rows(view("fda"), "per_serving")["FATRN"]
    assert (row["declared"], row["amount"], row["percent"], row["note"]) == (None, None, None, "not known")
    unknown_energy = rows(view("eu", {"NA": 600.0}), "per_100g")["ENERC_KJ"]
    assert unknown_energy["declared"] is None


def test_a_voluntary_row_needs_a_known_amount():
    found = rows(view("fda"), "per_serving")
    assert "VITC" in found
    assert "VITK" not in found


def test_a_dish_class_adds_the_reference_amount():
    document = view("fda", dish_class="mixed_dish")
    assert [column["basis"] for column in document["columns"]] == ["per_serving", "per_reference_amount"]
    assert rows(document, "per_reference_amount")["NA"]["amount"] == pytest.approx(HUNDRED["NA"] * 1.4)
    assert document["serving"]["reference_amount"]["servings_in_it"] == pytest.approx(0.56)


def test_a_reference_amount_by_volume_adds_no_column():
    document = view("fda", dish_class="mixed_dish_cup")
    assert [column["basis"] for column in document["columns"]] == ["per_serving"]
    assert document["serving"]["reference_amount"]["measure"] == "1 cup"


def test_an_eu_label_has_its_own_salt_energy_and_carbohydrate():
    found = rows(view("eu"), "per_serving")
    # 17 kJ x (19.3 + 22) + 37 x 4.9 + 8 x 0.7
    assert found["ENERC_KJ"]["amount"] == pytest.approx(889.0)
    assert found["ENERC"]["amount"] == pytest.approx(4 * (19.3 + 22) + 9 * 4.9 + 2 * 0.7)
    assert found["CHOAVL"]["declared"] == "19 g"
    assert (found["SALT"]["declared"], found["SALT"]["percent"]) == ("1.5 g", 26)
    assert "NA" not in found


def test_an_eu_vitamin_stands_there_where_it_is_significant():
    """15 % of the NRV in 100 g: 124 mg of calcium are 15.5 % of 800 mg, 0.4 mg of vitamin C are 0.5 %."""
    found = rows(view("eu"), "per_100g")
    assert found["CA"]["declared"] == "124 mg"
    assert "VITC" not in found


def test_a_uk_front_of_pack_has_numbers_and_no_colours():
    document = view("uk")
    assert list(rows(document, "per_serving")) == ["ENERC_KJ", "ENERC", "FAT", "FASAT", "SUGAR", "SALT"]
    assert list(rows(document, "per_100g")) == ["ENERC_KJ", "ENERC"]
    assert "colour" not in {key for row in rows(document, "per_serving").values() for key in row}


def test_small_children_have_their_own_daily_values():
    assert rows(view("fda", audience="child_1_3"), "per_serving")["NA"]["percent"] == 41


def test_an_amount_that_covers_part_of_the_weight_is_listed():
    document = view("eu", coverage={"NA": 0.8, "FAT": 1.0})
    assert document["incomplete"] == [{"tag": "SALT", "coverage": 0.8}]
    assert rows(document, "per_100g")["SALT"]["coverage"] == 0.8


def test_each_row_of_a_us_label_names_its_tolerance():
    row = rows(view("fda"), "per_serving")["NA"]
    assert row["tolerance"]["high"] == pytest.approx(732)


def test_binary_noise_below_nothing_is_nothing():
    assert rows(view("fda", SERVING | {"NA": -1e-12}), "per_serving")["NA"]["declared"] == "0 mg"


@pytest.mark.parametrize("scheme", label_schemes())
def test_every_view_says_what_it_decided(scheme):
    document = view(scheme)
    assert any("before rounding" in text for text in document["conventions"])
    assert document["source"]


@pytest.mark.parametrize(
    ("wish", "pointer"), [({"dish_class": "stew"}, "/dish_class"), ({"audience": "cats"}, "/audience")]
)
def test_an_unknown_wish_is_named(wish, pointer):
    with pytest.raises(InvalidRequest) as refused:
        view("fda", **wish)
    assert refused.value.faults[0].pointer == pointer


def test_an_unknown_label_is_named():
    with pytest.raises(InvalidRequest, match="There is no label 'mars'; choose one of: fda, eu, uk"):
        view("mars")


@pytest.mark.parametrize(("in_100g", "is_shown"), [(120.0, True), (119.9, False), (110.0, False)])
def test_a_mineral_is_significant_from_fifteen_per_cent_of_its_value_in_a_hundred_grams(in_100g, is_shown):
    """Regulation (EU) No 1169/2011, Annex XIII part A, point 2: 15 % of 800 mg of calcium are 120 mg."""
    found = rows(view("eu", SERVING | {"CA": in_100g * WEIGHT_G / 100}), "per_100g")
    assert ("CA" in found) is is_shown
