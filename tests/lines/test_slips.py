"""What scanners misread and what is written without a space."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from saltledger.lines import read_line
from saltledger.lines.cleaning import as_printed, parted


@pytest.mark.parametrize(
    ("line", "printed"),
    [
        ("2 Ibs. veal", "2 lbs. veal"),
        ("1 1b stewing veal", "1 lb stewing veal"),
        ("I cup cream", "1 cup cream"),
        ("l tbsp oil", "1 tbsp oil"),
        ("Iceberg lettuce", "Iceberg lettuce"),
        ("I like it hot", "I like it hot"),
        ("1 rib of celery", "1 rib of celery"),
    ],
)
def test_a_scanner_s_slips_are_set_right_and_words_left_alone(line: str, printed: str) -> None:
    assert as_printed(line) == printed


@pytest.mark.parametrize("spoon", ["tahlespoons", "tablespons", "tablesspoons", "tabelspoons"])
def test_a_misspelt_spoon_is_still_a_spoon(spoon: str) -> None:
    line = read_line(f"2 {spoon} flour")
    assert (line.unit, line.food_words) == ("tablespoon", "flour")


def test_a_unit_is_parted_from_the_word_behind_it_the_longest_unit_first() -> None:
    assert next(parted("2tbspcocoa powder")) == "2tbsp cocoa powder"
    assert "200g plain flour" in list(parted("200gplain flour"))
    assert list(parted("2 carrots")) == list(parted("200 g flour")) == []


@given(st.text(max_size=80))
def test_parting_only_adds_one_space(text: str) -> None:
    for each in parted(text):
        assert each.replace(" ", "") == text.replace(" ", "")
        assert len(each) == len(text) + 1
