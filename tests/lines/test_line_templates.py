"""A line given another number is the line that is read with it, for every line of the benchmark's corpora."""

from __future__ import annotations

import re
from unittest.mock import Mock

import pytest
from hypothesis import given
from hypothesis import strategies as st
from saltledger.lines.line_reading import read_line, read_whole
from saltledger.lines.line_templates import LineTemplates

from ..bench.scoring import PARTS, read_rows

NUMBERS = ("0", "0.3", "1", "1.5", "2", "3", "7", "12.25", "14", "28", "80", "93", "250", "1000", "20000")
LEADING = re.compile(r"\d{1,6}(?:\.\d{1,5})?(?= )")
WORDS = sorted(
    {
        row.line[found.end() :]
        for part in PARTS
        for row in read_rows(part)
        if (found := LEADING.match(row.line))
    }
)

PIECES = re.split(
    " +",
    "g cup cups tbsp can large heaping packed of half a dozen salt lemon lemons juice zest or and plus more, "
    "to taste (softened) pieces x each per person about inch piece ginger eggs, beaten tin tins bunch "
    "handful pinch stick sticks bone-in no flour extra for dusting",
)


@pytest.mark.parametrize("first", ["0", "2"])
@pytest.mark.parametrize("number", NUMBERS)
def test_a_template_and_a_reading_are_one(first: str, number: str) -> None:
    templates = LineTemplates(read_whole)
    for words in WORDS:
        templates.line(first + words)
        assert templates.line(number + words) == read_whole(number + words)


def test_most_lines_are_read_once_whatever_their_number() -> None:
    assert len(WORDS) > 300
    read = Mock(side_effect=read_whole)
    templates = LineTemplates(read)
    for number in range(1, 11):
        for words in WORDS:
            templates.line(f"{number}{words}")
    assert read.call_count < (1 + 0.4 * 9) * len(WORDS)


@given(st.sampled_from(WORDS), st.decimals("0", "99999", places=3))
def test_whatever_the_number(words: str, number: object) -> None:
    assert read_line(f"{number}{words}") == read_whole(f"{number}{words}")


@given(st.lists(st.sampled_from(PIECES), min_size=1, max_size=7), st.sampled_from(NUMBERS))
def test_whatever_the_words(words: list[str], number: str) -> None:
    text = f"{number} {' '.join(words)}"
    assert read_line(text) == read_whole(text)


def test_the_second_number_reads_nothing() -> None:
    read = Mock(side_effect=read_whole)
    templates = LineTemplates(read)
    lines = [templates.line(f"{number} g table salt") for number in (1, 5, "2.5")]
    assert [line.amount.likely for line in lines if line and line.amount] == [1, 5, 2.5]
    assert [line.text for line in lines if line] == ["1 g table salt", "5 g table salt", "2.5 g table salt"]
    assert read.call_count == 1


@pytest.mark.parametrize(
    "text",
    [
        "2 to 3 carrots",
        "2 x 400 g tins",
        "2 cups half milk",
        "2 of a kind",
        "1/2 cup flour",
        "two eggs",
        "salt",
    ],
)
def test_where_another_number_may_count_the_line_is_read(text: str) -> None:
    read = Mock(side_effect=read_whole)
    templates = LineTemplates(read)
    assert [templates.line(text) for _ in range(3)] == [read_whole(text)] * 3
    assert read.call_count == 3
