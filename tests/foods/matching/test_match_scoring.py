"""How a food is chosen and how sure of it one is, on a small index of our own."""

from __future__ import annotations

import pytest
from saltledger.foods.matching.everyday_names import Name, NameIndex
from saltledger.foods.matching.folding import fold
from saltledger.foods.matching.match_scoring import MatchScorer, head_of
from saltledger.foods.matching.qualifiers import states
from saltledger.foods.matching.row_index import RowIndex

ROWS = {
    "a": "Butter, salted",
    "b": "Butter, without salt",
    "c": "Peanut butter, smooth style, with salt",
    "d": "Beans, kidney, all types, mature seeds, raw",
    "e": "Beans, kidney, all types, mature seeds, cooked, boiled, without salt",
    "f": "Spinach, raw",
    "g": "Spinach, frozen, chopped",
    "h": "Milk, whole",
    "i": "Candies, milk chocolate",
    "j": "Fish, cod, Atlantic, raw",
    "k": "Fish, cod, Atlantic, dried and salted",
    "l": "Basil, fresh",
    "m": "Spices, basil, dried",
    "n": "Molasses",
    "p": "Lettuce, butterhead, raw",
}
SODIUM_MG = {"a": 643.0, "b": 11.0, "j": 54.0, "k": 7027.0}


def named(text: str, code: str, doubt: float = 0.0, others: tuple[str, ...] = ()) -> Name:
    words = fold(text)
    return Name(words, states(words), code, f"everyday name {text!r}", doubt, others)


NAMES = [
    named("butter", "a"),
    named("unsalted butter", "b"),
    named("peanut butter", "c"),
    named("milk", "h"),
    named("milk chocolate", "i"),
    named("cod", "j"),
    named("spinach", "f"),
    named("basil", "l"),
    named("molasses", "n"),
    named("pink salt", "a", doubt=1.5, others=("b",)),
    named("moss", ""),
]
CHOOSER = MatchScorer(RowIndex(ROWS), NameIndex(NAMES), SODIUM_MG.get)


def choose(text: str, *told: str):
    return CHOOSER.choose(fold(text), told)


@pytest.mark.parametrize(
    ("text", "code", "confidence"),
    [
        pytest.param("butter", "a", 0.97, id="an everyday name"),
        pytest.param("unsalted butter", "b", 0.97, id="the longer name"),
        pytest.param("salted butter", "a", 0.97, id="a state that the food has"),
        pytest.param("pink salt", "a", 0.77, id="a name that is in doubt by 1.5"),
        pytest.param("acme butter", "a", 0.71, id="a make: 2"),
        pytest.param("acme quay butter", "a", 0.61, id="a make of two words: 2 and 0.8"),
        pytest.param("acme quay tern butter", "a", 0.56, id="of three: 2, 0.8 and 0.32"),
        pytest.param("french butter", "a", 0.88, id="a place: 0.7"),
        pytest.param("buter", "a", 0.89, id="a slip: 0.6"),
        pytest.param("peanutbutter", "c", 0.97, id="two words run together"),
        pytest.param("chocolate milk", "i", 0.75, id="turned round: 1.7"),
        pytest.param("kidney beans", "d", 0.85, id="by a row's own words"),
        pytest.param("cooked kidney beans", "e", 0.81, id="a row's words and its state"),
        pytest.param("salted cod", "k", 0.94, id="the food's other row"),
        pytest.param("frozen spinach", "g", 0.94, id="the same, frozen"),
        pytest.param("dried basil", "m", 0.94, id="the same, dried"),
    ],
)
def test_a_food_and_how_sure_it_is(text, code, confidence):
    """0.97 less 0.13 for each unit of what speaks against it."""
    found = choose(text)
    assert found.code == code
    assert found.confidence == pytest.approx(confidence, abs=0.006)


@pytest.mark.parametrize(
    ("text", "why", "nearest"),
    [
        ("butter lettuce", "no food is near enough", ("p", "a", "b")),
        ("smoked cod", "no food is near enough", ("j", "k")),
        ("butter in milk", "no food is near enough", ("b", "a", "h")),
        ("moss", "everyday name 'moss'", ()),
        ("beans", "it says only a kind of food", ("d", "e")),
        ("zzz", "no food is named by any of these words", ()),
        ("", "the line names no food", ()),
        ("for butter", "the line names no food", ()),
        ("bath salt", "the line names no food", ()),
    ],
)
def test_no_food_and_why(text, why, nearest):
    found = choose(text)
    assert (found.code, found.why, found.others) == (None, why, nearest)
    assert found.confidence < 0.5


def test_what_preparation_tells_leads_to_the_row_as_words_do():
    for state in ("frozen", "dried", "salted"):
        food = {"frozen": "spinach", "dried": "basil", "salted": "cod"}[state]
        told, said = choose(food, state), choose(f"{state} {food}")
        assert (told.code, told.confidence) == (said.code, said.confidence)
    assert choose("butter", "unsalted").code == "b"


def test_the_reason_names_the_state_that_was_asked_for():
    assert choose("dried basil").why == "everyday name 'basil', in the row that is dried"
    assert choose("kidney beans").why == "words of the dataset's name"


def test_what_else_may_be_meant_is_told_nearest_first_and_never_the_food_itself():
    assert choose("pink salt").others == ("b",)
    assert choose("acme butter").others == ("b", "c")
    assert choose("kidney beans").others == ("e",)


def test_what_is_salted_is_never_a_food_without_its_salt():
    """Only the row that holds salted cod's sodium is taken; where it is unknown to be salty, none is."""
    bare = MatchScorer(RowIndex({"j": ROWS["j"]}), NameIndex([named("cod", "j")]), {"j": 54.0}.get)
    assert bare.choose(fold("salted cod"), ()).code is None
    unknown = MatchScorer(RowIndex({"j": ROWS["j"]}), NameIndex([named("cod", "j")]))
    assert unknown.choose(fold("cured cod"), ()).code in (None, "j")


@pytest.mark.parametrize(
    ("text", "head"),
    [
        ("spinach with butter", "spinach"),
        ("butter from milk", "butter"),
        ("peanut butter", "butter"),
        ("in milk", "milk"),
        ("", ""),
    ],
)
def test_the_head_is_the_last_word_before_what_it_goes_with(text, head):
    assert head_of(fold(text)) == head


def test_a_slip_takes_the_salt_out_of_no_word():
    scorer = MatchScorer(RowIndex({"x": "Fish, sablefish, raw"}), NameIndex([named("sablefish", "x")]))
    assert scorer.spelled("sabelfish") == "sablefish"
    assert scorer.spelled("saltfish") == "saltfish"


def test_a_name_whose_row_is_not_there_is_passed_over():
    scorer = MatchScorer(RowIndex({"a": ROWS["a"]}), NameIndex([named("butter", "gone")]))
    found = scorer.choose(fold("butter"), ())
    assert (found.code, found.why) == ("a", "words of the dataset's name")
