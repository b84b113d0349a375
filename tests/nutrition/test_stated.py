"""What a packet says, in US and EU form, as the dataset has it."""

import pytest
from saltledger.core.errors import InvalidRequest
from saltledger.nutrition.stated import accepted_names, stated_food
from saltledger.units.nutrient_amounts import own_units

US = {
    "calories": 110,
    "total_fat": 2,
    "sodium": 620,
    "total_carbohydrate": 20,
    "total_sugars": 5,
    "added_sugars": 4,
    "protein": 3,
}
EU = {"energy_kj": 500, "fat": 2, "salt": 1.2, "carbohydrate": 20, "fibre": 3, "protein": 3}


def test_a_us_serving_is_made_into_100_g():
    found = stated_food(US, of_g=30)
    assert found.per_100g["NA"] == pytest.approx(2066.667, rel=1e-6)
    assert found.per_100g["ENERC"] == pytest.approx(366.667, rel=1e-6)
    assert found.added_sugars_g == pytest.approx(13.333, rel=1e-4)


def test_an_eu_packet_tells_salt_and_kilojoules():
    found = stated_food(EU)
    assert found.per_100g["NA"] == pytest.approx(480)
    assert found.per_100g["ENERC"] == pytest.approx(119.5, rel=1e-3)
    assert found.per_100g["CHOCDF"] == 23
    assert found.added_sugars_g is None


def test_every_name_means_a_tag_that_has_a_unit():
    assert set(accepted_names().values()) <= set(own_units())


@pytest.mark.parametrize(
    ("stated", "pointer"),
    [
        ({"NA": 620, "SALT": 3}, "/SALT"),
        ({"sodium": 620, "NA": 620}, "/NA"),
        ({"calories": 100, "energy_kj": 900}, "/energy_kj"),
        ({"sugars": 2, "added_sugars": 9}, "/added_sugars"),
        ({"fat": 1, "saturates": 5}, "/saturates"),
        ({"FAT": {"amount": 1, "unit": "kcal"}}, "/FAT/unit"),
        ({"Sodium": 1}, "/Sodium"),
    ],
)
def test_what_cannot_stand_is_refused_where_it_stands(stated, pointer):
    with pytest.raises(InvalidRequest) as refused:
        stated_food(stated)
    assert [fault.pointer for fault in refused.value.faults] == [pointer]


def test_rounding_on_packets_is_let_be():
    assert stated_food({"NA": 620, "SALT": 1.6}).per_100g["NA"] == 620
