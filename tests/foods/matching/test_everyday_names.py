"""Everyday names, found inside a line's words."""

import pytest
from saltledger.core.tables import rows
from saltledger.foods.dataset import bundled
from saltledger.foods.matching.everyday_names import (
    BESIDE,
    Name,
    NameIndex,
    companions,
    depends_on_company,
    everyday_names,
    marks,
    warnings_of,
)
from saltledger.foods.matching.folding import fold


def plain(text, code):
    return Name(fold(text), (), code, "")


@pytest.fixture
def index():
    return NameIndex([plain("butter", "1"), plain("peanut butter", "2"), plain("butter lettuce", "3")])


def codes(names):
    return {name.code for name in names}


def test_names_are_found_whatever_stands_between_their_words(index):
    assert codes(index.inside(frozenset(fold("peanut and apple butter")))) == {"1", "2"}


def test_a_name_with_a_word_that_is_not_there_is_not_found(index):
    assert codes(index.inside(frozenset(fold("lettuce")))) == set()


def test_of_names_alike_the_first_counts():
    index = NameIndex([plain("pink salt", "1"), plain("pink salts", "2")])
    assert index.by_words["pink", "salt"].code == "1"


def test_a_name_without_words_is_left_out():
    assert NameIndex([plain("!!!", "1")]).by_words == {}


def test_names_know_the_states_they_say_and_imply():
    assert set(everyday_names().by_words[fold("roasted red pepper")].states) == {"roasted", "cooked"}


def test_an_ambiguous_name_goes_before_a_plain_one():
    pink = everyday_names().by_words["pink", "salt"]
    assert pink.doubt > 0
    assert "02047" in pink.others


@pytest.mark.parametrize("table", ["ambiguous_names", "food_companions"])
def test_the_tables_name_foods_that_exist(table):
    cells = [row[column] for row in rows(table) for column in ("code", "codes", "others") if row.get(column)]
    assert {code for cell in cells for code in cell.split("|")} <= set(bundled().codes)


def test_the_marks_are_units_or_counts_or_what_other_lines_tell():
    units = {row["unit"] for row in rows("unit_names")}
    company = {row["mark"] for row in rows("line_company")}
    peeled = {mark for mark in marks() if mark.startswith(("peeled", "hard-boiled"))}
    assert marks() <= units | company | peeled | {"counted"}
    assert all(mark.startswith(BESIDE) for mark in company)
    assert {code for row in rows("line_company") for code in row["codes"].split("|")} <= set(bundled().codes)


@pytest.mark.parametrize("row", rows("salty_words"))
def test_words_that_say_a_food_is_salty_say_how_salty(row):
    assert 50 <= float(row["least_sodium_mg"]) <= 1000


def test_companions_stand_with_their_foods_only():
    assert "11233" in companions()["leaf"], "a kale leaf is kale"
    assert "09040" not in companions()["leaf"], "a banana leaf is no banana"


@pytest.mark.parametrize(("kind", "word"), [("never", "epsom"), ("changes", "vegan"), ("alone", "fish")])
def test_warnings_are_kept_by_kind(kind, word):
    assert word in warnings_of(kind)


def test_only_names_that_other_lines_tell_apart_depend_on_them():
    told = {
        text for row in rows("ambiguous_names") for text in row["names"].split("|") if BESIDE in row["when"]
    }
    others = {
        text
        for row in rows("ambiguous_names")
        for text in row["names"].split("|")
        if BESIDE not in row["when"]
    }
    assert told
    assert all(map(depends_on_company, told))
    assert not any(map(depends_on_company, others - told))
    assert not depends_on_company("butter")
