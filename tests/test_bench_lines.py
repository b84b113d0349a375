"""The evaluation of lines is itself right: its files are whole and its scoring does what it says."""

from __future__ import annotations

import csv

import pytest
from saltledger.foods.dataset import bundled

from tests.bench.baselines import full_scan, full_text
from tests.bench.scoring import (
    COLUMNS,
    NO_MATCH,
    PARTS,
    Answer,
    Floor,
    Row,
    calibration,
    judge,
    part_path,
    read_rows,
    total,
)

FLOOR = Floor(first=0.5, weight=0.5, false_confident=0.25)


@pytest.mark.parametrize("part", PARTS)
def test_a_part_has_the_columns_it_states_and_enough_lines(part):
    text = part_path(part).read_text(encoding="utf-8")
    body = [line for line in text.splitlines() if not line.startswith("#")]
    cells = list(csv.reader(body))
    assert tuple(cells[0]) == COLUMNS
    assert all(len(row) == len(COLUMNS) for row in cells)
    assert len(cells) > 260


@pytest.mark.parametrize("part", PARTS)
def test_accepted_codes_are_foods_and_ranges_are_ranges(part):
    foods = bundled()
    for row in read_rows(part):
        unknown = {code for code in row.accepted if code != NO_MATCH and code not in foods}
        assert not unknown, row.line
        assert row.kind, row.line
        if row.grams:
            low, high = row.grams
            assert 0 < low < high, row.line


def test_no_line_stands_in_two_parts():
    parts = [{row.line.casefold() for row in read_rows(part)} for part in PARTS]
    assert len(set().union(*parts)) == sum(map(len, parts))


def test_every_part_holds_most_kinds_of_food():
    tuning, *others = ({row.kind.split()[0] for row in read_rows(part)} for part in PARTS)
    assert all(kinds <= tuning and len(kinds) > 0.8 * len(tuning) for kinds in others)


def test_about_one_line_in_ten_has_no_food_or_may_have_none():
    rows = [row for part in PARTS for row in read_rows(part)]
    assert 0.07 < sum(NO_MATCH in row.accepted for row in rows) / len(rows) < 0.13


def row(*accepted, grams=None):
    return Row("a line", frozenset(accepted), grams, "kind", "")


@pytest.mark.parametrize(
    ("accepted", "answer", "first", "among_three"),
    [
        ({"a"}, Answer("a"), True, True),
        ({"a"}, Answer("b", ("a",)), False, True),
        ({"a"}, Answer("b", ("c", "d", "a")), False, False),
        ({"a"}, Answer(None, ("c", "d", "a")), False, True),
        ({"a"}, Answer(None), False, False),
        ({NO_MATCH}, Answer(None, ("a",)), True, True),
        ({NO_MATCH}, Answer("a"), False, False),
        ({NO_MATCH, "a"}, Answer("a"), True, True),
    ],
)
def test_a_food_is_judged_first_and_among_three(accepted, answer, first, among_three):
    verdict = judge(row(*accepted), answer)
    assert (verdict.first, verdict.among_three) == (first, among_three)


@pytest.mark.parametrize(
    ("accepted", "answer", "weight"),
    [
        ({"a"}, Answer("a", grams=10), True),
        ({"a"}, Answer("a", grams=10.1), False),
        ({"a"}, Answer("b", grams=9), True),
        ({"a"}, Answer("a"), False),
        ({"a"}, Answer(None), False),
        ({NO_MATCH}, Answer(None), None),
        ({NO_MATCH}, Answer(None, grams=20), False),
    ],
)
def test_a_weight_is_judged_by_the_rows_range(accepted, answer, weight):
    assert judge(row(*accepted, grams=(8, 10)), answer).weight is weight
    assert judge(row(*accepted), answer).weight is None


def test_totals_count_wrong_and_sure_answers():
    verdicts = [
        judge(row("a"), Answer("a", confidence=0.99)),
        judge(row("a"), Answer("b", confidence=0.8)),
        judge(row("a", grams=(1, 2)), Answer("b", ("a",), confidence=0.79, grams=3)),
        judge(row("a", grams=(1, 2)), Answer("a", confidence=0.4, grams=1)),
    ]
    result = total(verdicts)
    assert (result.first, result.among_three) == (0.5, 0.75)
    assert (result.weighed, result.weight) == (2, 0.5)
    assert result.false_confident == 0.25
    assert result.wrong_confident == 0.25


def test_calibration_bins_hold_every_food_given_and_no_line_without():
    verdicts = [judge(row("a"), Answer("a", confidence=c)) for c in (0.0, 0.49, 0.5, 0.9, 0.95, 1.0)]
    verdicts += [judge(row("a"), Answer("b", confidence=0.9)), judge(row("a"), Answer(None, confidence=0.9))]
    table = calibration(verdicts)
    assert sum(bin_.count for bin_ in table) == 7
    assert [(bin_.low, bin_.count, bin_.right) for bin_ in table if bin_.count] == [
        (0.0, 2, 1.0),
        (0.5, 1, 1.0),
        (0.9, 2, 0.5),
        (0.95, 2, 1.0),
    ]


@pytest.mark.parametrize("baseline", [full_text, full_scan])
def test_the_baselines_find_a_name_that_is_there(baseline):
    search = baseline({"1": "Carrots, raw", "2": "Leeks, raw", "3": "Salt, table"})
    assert search("carrots").food == "1"
    assert search('table "salt').food == "3"
    assert len(search("raw").alternatives) <= 2


def test_full_text_search_says_when_nothing_matches():
    assert full_text({"1": "Carrots, raw"})("!!").food is None
    assert full_text({"1": "Carrots, raw"})("quartz").food is None


@pytest.mark.parametrize(
    ("answers", "missed"),
    [
        ((Answer("a", (), 0.9, 10), Answer("a", (), 0.9, 10)), ()),
        ((Answer("b", (), 0.5, 10), Answer("b", (), 0.5, 10)), ("top-1",)),
        ((Answer("b", (), 0.9, 10), Answer("a", (), 0.9, 10)), ("false-confident",)),
        ((Answer("a", (), 0.9, 99), Answer("a", (), 0.9, 99)), ("weight in range",)),
    ],
)
def test_a_part_below_its_floor_says_in_what(answers, missed):
    row = Row("x", frozenset({"a"}), (9.0, 11.0), "kind", "")
    told = FLOOR.missed(total([judge(row, answer) for answer in answers]))
    assert tuple(each.partition(" ")[0] for each in told) == tuple(each.partition(" ")[0] for each in missed)
