"""Reference values against the texts that set them."""

import pytest
from saltledger.nutrition.dietary_references import (
    daily_value,
    sodium_references,
    values_for,
)
from saltledger.nutrition.label_schemes import label_schemes

# 21 CFR 101.9(c)(8)(iv) and (c)(9), 2016 rule; the rows seen in FDA's chart of October 2021 or in quotations.
FDA = {
    "FAT": 78,
    "FASAT": 20,
    "CHOLE": 300,
    "NA": 2300,
    "CHOCDF": 275,
    "FIBTG": 28,
    "PROCNT": 50,
    "VITD": 20,
    "CA": 1300,
    "FE": 18,
    "K": 4700,
    "MG": 420,
    "VITA_RAE": 900,
    "VITC": 90,
    "TOCPHA": 15,
    "VITK": 120,
    "THIA": 1.2,
    "RIBF": 1.3,
    "NIA": 16,
    "FOLDFE": 400,
    "PANTAC": 5,
    "CHOLN": 550,
    "CU": 0.9,
    "MN": 2.3,
}
FDA_CHILD_1_3 = {"FAT": 39, "FASAT": 10, "CHOLE": 300, "NA": 1500, "CHOCDF": 150}
# Regulation (EU) No 1169/2011, Annex XIII parts A and B.
EU = {
    "ENERC": 2000,
    "ENERC_KJ": 8400,
    "FAT": 70,
    "FASAT": 20,
    "CHOAVL": 260,
    "SUGAR": 90,
    "PROCNT": 50,
    "SALT": 6,
    "K": 2000,
    "CA": 800,
    "P": 700,
    "MG": 375,
    "FE": 14,
    "ZN": 10,
    "CU": 1,
    "MN": 2,
    "SE": 55,
    "VITC": 80,
    "TOCPHA": 12,
    "VITA_RAE": 800,
    "VITD": 5,
    "VITK": 75,
    "FOL": 200,
    "VITB12": 2.5,
}
# National Academies, Dietary Reference Intakes for Sodium and Potassium (2019).
NASEM_AI = {
    "infant_0_6_months": 110,
    "infant_7_12_months": 370,
    "child_1_3": 800,
    "child_4_8": 1000,
    "boy_9_13": 1200,
    "girl_9_13": 1200,
    "girl_14_18": 1500,
    "man": 1500,
    "woman": 1500,
    "pregnancy": 1500,
    "lactation": 1500,
}


@pytest.mark.parametrize(("tag", "value"), FDA.items())
def test_fda_daily_value(tag, value):
    assert daily_value(tag) == value


@pytest.mark.parametrize(("tag", "value"), FDA_CHILD_1_3.items())
def test_fda_daily_value_of_small_children(tag, value):
    assert daily_value(tag, "child_1_3") == value


@pytest.mark.parametrize(("tag", "value"), EU.items())
def test_eu_reference_intake(tag, value):
    assert label_schemes()["eu"].reference(tag) == value


@pytest.mark.parametrize(("audience", "value"), NASEM_AI.items())
def test_adequate_intake_of_sodium(audience, value):
    found = {reference["id"]: reference["limit_mg"] for reference in sodium_references(audience)}
    assert found["nasem_ai"] == value


def test_sodium_of_an_adult_in_all_six_schemes():
    assert {reference["id"]: reference["limit_mg"] for reference in sodium_references()} == {
        "fda_daily_value": 2300,
        "eu_reference_intake": 2400,
        "who_adult": 2000,
        "nasem_ai": 1500,
        "nasem_cdrr": 2300,
        "uk_salt_target": 2400,
    }


@pytest.mark.parametrize(
    ("audience", "salt_g"),
    [("uk_child_1_3", 2), ("uk_child_4_6", 3), ("uk_child_7_10", 5), ("teen_11_14", 6), ("adult", 6)],
)
def test_the_salt_targets_of_the_united_kingdom(audience, salt_g):
    """Scientific Advisory Committee on Nutrition, Salt and Health (2003); sodium as salt over 2.5."""
    (found,) = [v.value for v in values_for(audience) if v.reference == "uk_salt_target"]
    assert found * 2.5 == salt_g * 1000


@pytest.mark.parametrize(
    ("audience", "g"), [("man", 56), ("woman", 46), ("child_4_8", 19), ("lactation", 71)]
)
def test_recommended_allowance_of_protein(audience, g):
    """Institute of Medicine, Dietary Reference Intakes for ... Protein (2005), from memory."""
    assert [v.value for v in values_for(audience) if (v.reference, v.tag) == ("iom_rda", "PROCNT")] == [g]


@pytest.mark.parametrize(("audience", "value"), [("man", 3400), ("woman", 2600)])
def test_adequate_intake_of_potassium(audience, value):
    assert [v.value for v in values_for(audience) if (v.reference, v.tag) == ("nasem_ai", "K")] == [value]
