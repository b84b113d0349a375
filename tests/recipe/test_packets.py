"""A packet's figures in place of the dataset's, in a request and as custom foods."""

import pytest
from saltledger.core.errors import InvalidRequest

from .dishes import answered, item


def plain(*lines, **more):
    return answered({"servings": 1, "ingredients": list(lines), **more})


def nutrients(answer):
    return {tag: each["amount"] for tag, each in answer["per_serving"]["nutrients"].items()}


def test_the_packet_takes_the_place_of_the_dataset_and_the_rest_stays():
    own, packet = plain("30 g ketchup"), plain({"line": "30 g ketchup", "per_100g": {"NA": 620}})
    assert nutrients(packet)["NA"] == pytest.approx(186)
    assert nutrients(packet)["K"] == nutrients(own)["K"]
    assert packet["ingredients"][0]["food"] == own["ingredients"][0]["food"]
    assert packet["ingredients"][0]["packet_per_100g"] == {"NA": 620}
    assert packet["sodium"]["complete"]


def test_a_serving_of_a_packet_and_a_unit_of_ones_own():
    stated = {"weight_g": 15, "nutrients": {"calories": 20, "sodium": {"amount": 5, "unit": "mmol"}}}
    answer = plain({"line": "30 g xyzzyqwv", "per_serving": stated})
    assert nutrients(answer)["NA"] == pytest.approx(2 * 5 * 22.98977)
    assert answer["ingredients"][0]["food"]["code"] == "packet"
    assert "no-match" not in {notice["code"] for notice in answer["notices"]}


def test_a_packet_that_does_not_tell_sodium_leaves_it_uncounted():
    sodium = plain({"line": "30 g xyzzyqwv", "per_100g": {"ENERC": 20}})["sodium"]
    assert [gap["reason"] for gap in sodium["uncounted"]] == ["sodium_not_known"]


def test_added_sugars_are_given_or_not_known():
    told = {"line": "30 g ketchup", "per_100g": {"sugars": 22, "added_sugars": 20}}
    silent = {"line": "30 g ketchup", "per_100g": {"sugars": 22}}
    assert nutrients(plain(told))["ADDED_SUGARS"] == pytest.approx(6)
    assert "ADDED_SUGARS" not in nutrients(plain(silent))


def test_custom_foods_take_output_tags_and_tell_no_added_sugars_by_their_name():
    own = {"code": "own", "name": "Own sugar syrup", "per_100g": {"SALT": 1, "SUGAR": 10, "ENERC_KJ": 418.4}}
    found = nutrients(plain(item("own", 50), custom_foods=[own]))
    assert (found["NA"], found["ENERC"]) == (pytest.approx(200), pytest.approx(50))
    assert "ADDED_SUGARS" not in found


def test_a_fault_points_into_the_packet():
    with pytest.raises(InvalidRequest) as refused:
        plain({"line": "30 g ketchup", "per_100g": {"NA": 620, "SALT": 3}})
    assert refused.value.faults[0].pointer == "/ingredients/0/per_100g/SALT"
