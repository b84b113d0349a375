"""The dataset's names as an index."""

import numpy as np
import pytest
from saltledger.foods.matching.name_parts import naming_words, part_words
from saltledger.foods.matching.row_index import RowIndex, best

NAMES = {
    "a": "Spinach, raw",
    "b": "Spinach, cooked, boiled, drained, without salt",
    "c": "Spinach souffle",
    "d": "Spices, basil, dried",
    "e": "GREENMAKE, Spinach, raw",
    "f": "Cookies, cookies",
}


@pytest.fixture(scope="module")
def index():
    return RowIndex(NAMES)


def first(index, **weights):
    return index.codes[best(index.score(weights))[0]]


def test_the_generic_raw_row_is_preferred(index):
    assert first(index, spinach=3.0) == "a"


def test_a_state_that_is_asked_for_prevails(index):
    assert first(index, spinach=3.0, cooked=2.5) == "b"


def test_a_make_is_put_off(index):
    scores = index.score({"spinach": 3.0})
    assert scores[index.places["e"]] < scores[index.places["a"]] - 2


def test_groups_that_are_seldom_meant_are_put_off_by_how_their_codes_begin():
    kinds = RowIndex({"11080": "Beets", "03111": "Beets", "22401": "Beets"})
    usual, for_babies, dinner = kinds.score({"beet": 3.0})
    assert usual - for_babies > usual - dinner > 0


def test_a_word_that_stands_twice_counts_once(index):
    assert index.score({"cookie": 3.0})[index.places["f"]] == pytest.approx(3.0)


def test_rows_that_have_all_words(index):
    assert [index.codes[place] for place in index.having(("spinach", "raw"))] == ["a", "e"]
    assert index.having(()).size == index.having(("nothing",)).size == 0


def test_words_by_their_beginning(index):
    assert index.beginning("sp") == ["spice", "spinach"]


def test_a_head_that_says_only_the_group_names_no_food(index):
    assert naming_words("Spices, basil, dried") == ("basil",)
    assert naming_words("Spices") == ("spice",)
    assert "basil" in index.heads


def test_words_imply_others():
    assert set(part_words("boiled")) == {"boiled", "cooked"}


def test_ties_go_by_the_order_of_rows():
    assert best(np.array([1, 2, 2, 0, 2], np.float32), count=2) == [1, 2]
    assert best(np.array([1, 2], np.float32), count=9) == [1, 0]
    assert best(np.array([1, 2, 3], np.float32), among=[0, 1]) == [1, 0]


def test_no_names_make_an_empty_index():
    empty = RowIndex({})
    assert empty.score({"salt": 3.0}).size == 0
    assert "salt" not in empty


def test_words_cost_most_in_the_part_that_names_the_food():
    """1.5 in the part that names it, 0.5 in the next, 0.3 later; what is asked for costs nothing."""
    rows = RowIndex({"a": "Quinoa", "b": "Quinoa flakes", "c": "Quinoa, flakes", "d": "Quinoa, flakes, zum"})
    whole = rows.score({"quinoa": 3.0})
    assert whole[0] == pytest.approx(3.0)
    assert whole[0] - whole[1] == pytest.approx(1.5, rel=1e-3)
    assert whole[0] - whole[2] == pytest.approx(0.5, rel=1e-3)
    assert whole[2] - whole[3] == pytest.approx(0.3, rel=1e-3)
    asked = rows.score({"quinoa": 3.0, "flake": 2.0})
    assert asked[1] == asked[2] == pytest.approx(5.0)
