"""Names as the weight tables key them."""

from __future__ import annotations

import pytest
from saltledger.foods.matching.headwords import HeadTable, Phrase

TABLE = HeadTable([("onion|red onion", "onion"), ("spring onion|scallion", "scallion"), ("potato", "potato")])


@pytest.mark.parametrize(
    ("words", "row"),
    [
        ("onions", "onion"),
        ("large red onions", "onion"),
        ("spring onions", "scallion"),
        ("Scallions", "scallion"),
        ("potatoes in brine", "potato"),
        ("sprinkling for potatoes", "potato"),
        ("potato chips", None),
        ("onion powder", None),
        ("", None),
    ],
)
def test_the_head_decides_and_the_most_words_win(words, row):
    assert TABLE.best(Phrase.of_line(words)) == row


def test_a_dataset_name_is_headed_by_its_first_part():
    assert TABLE.best(Phrase.of_name("Onions, spring or scallions (includes tops), raw")) == "scallion"
    assert TABLE.best(Phrase.of_name("Potatoes, flesh and skin, raw")) == "potato"
    assert TABLE.best(Phrase.of_name("Snacks, potato chips")) is None


def test_words_that_stand_beside_the_food_count_but_head_nothing():
    table = HeadTable([("onion", "onion"), ("grated onion", "grated"), ("potato", "potato")])
    assert table.best(Phrase.of_line("onion", ["grated"])) == "grated"
    assert table.best(Phrase.of_line("onion", ["boiled with a potato"])) == "onion"
