"""Explanations: the data add up, and the sentences say the same."""

import pytest
from saltledger.render.sentences import Movement, Source, Subject, explain

SODIUM = Subject("NA", "Sodium", "mg")
SALT = Source(
    "150 g salt",
    "brine",
    "Salt, table",
    "02047",
    150.0,
    38758.0,
    {"eaten": 4000.0, "poured_away": 54137.0},
)
LOIN = Source(
    "1.4 kg pork loin", "loin", "Pork, loin, raw", "10060", 1400.0, 50.0, {"eaten": 600.0, "trimmed": 100.0}
)
HERBS = Source("a sprig of woodruff", "brine", None, None, None, None)
UNKNOWN = Source("2 g spice", "brine", "Spices, mixed", "02999", 2.0, None)


def explained(**changes):
    wishes = {"eaten": 4600.0, "servings": 8, "movements": [Movement("brine", "loin", 0, 4000.0)]} | changes
    return explain(SODIUM, [SALT, LOIN, HERBS, UNKNOWN], **wishes)


def test_the_data_add_up():
    found = explained()
    assert found["listed"] == pytest.approx(58137 + 700)
    assert found["per_serving"] == 575
    assert found["daily_value_percent"] == 25
    assert [each["listed"] for each in found["inputs"]] == pytest.approx([58137.0, 700.0, None, None])
    assert sum(each["share_of_listed"] or 0 for each in found["inputs"]) == pytest.approx(1)


def test_the_sentences_tell_the_chain():
    assert explained()["sentences"] == [
        "“150 g salt” (brine): 150 g of Salt, table, 38758 mg in 100 g, brings 58137 mg. Of that 4000 mg is "
        "eaten; 54137 mg is poured away.",
        "“1.4 kg pork loin” (loin): 1400 g of Pork, loin, raw, 50 mg in 100 g, brings 700 mg. Of that 600 "
        "mg is eaten; 100 mg is trimmed off.",
        "“a sprig of woodruff” (brine) was matched to no food, so that its sodium is not known and is "
        "left out.",
        "“2 g spice” (brine): the dataset does not know the sodium of Spices, mixed; it is left out.",
        "The list as written holds 58837 mg of sodium, not counting 2 of 4 lines.",
        "In step 1, 4000 mg goes from “brine” to “loin”.",
        "4600 mg is eaten, 8 % of the list.",
        "Over 8 servings that is 575 mg each.",
        "That is 25 % of the daily value of 2300 mg.",
    ]


def test_a_nutrient_without_a_daily_value_has_no_last_sentence():
    found = explain(Subject("SUGAR", "Sugars, total", "g"), [LOIN], eaten=0.0, servings=4)
    assert found["daily_value"] is None
    assert found["sentences"][-1] == "Over 4 servings that is 0 g each."


def test_places_have_plain_names():
    sentences = explained(movements=[Movement("brine", "poured_away", None, 54137.0)])["sentences"]
    assert "When the dish is served, 54137 mg goes from “brine” to what is poured away." in sentences


def test_what_is_eaten_of_the_lines_adds_up():
    found = explained()
    assert sum(each["eaten"] or 0 for each in found["inputs"]) == found["eaten"]
    assert sum(each["eaten_per_serving"] or 0 for each in found["inputs"]) == found["per_serving"]


def test_what_no_line_tells_is_not_known_and_never_nought():
    found = explain(SODIUM, [HERBS], eaten=0.0, servings=1)
    assert found["inputs"][0]["share_of_listed"] is None
    assert [found[key] for key in ("listed", "eaten", "per_serving", "daily_value_percent")] == [None] * 4
    assert found["sentences"][-1] == "No line tells its sodium, so that of the dish is not known."


def test_small_movements_are_data_without_a_sentence():
    found = explained(movements=[Movement("brine", "loin", 0, 1e-3)])
    assert len(found["movements"]) == 1
    assert not [sentence for sentence in found["sentences"] if "goes from" in sentence]


def test_names_keep_their_capitals():
    source = Source("2 g spice", "brine", "Spices, mixed", "02999", 2.0, None)
    found = explain(Subject("VITC", "Vitamin C, total", "mg"), [source], eaten=0.0, servings=1)
    assert "the vitamin C, total of" in found["sentences"][0]
