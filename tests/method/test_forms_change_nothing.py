"""However a recipe is written, it is read alike: numbers, bullets, spelling, small talk, and who speaks."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from saltledger.method.blanks import places_before, single_blanks
from saltledger.method.forms import written_of
from saltledger.method.list_marks import in_small_letters, without_bullet, without_number, without_numbers
from saltledger.method.method_reading import read
from saltledger.method.parts_headed import parts_headed

from ..bench.method_forms import differences, shape_of
from ..bench.recipe_forms import FORMS

RECIPES: dict[str, dict[str, Any]] = {
    "a brined joint": {
        "ingredients": ["1.5 kg pork leg", "2 litres water", "120 g salt", "50 g sugar", "2 tbsp oil"],
        "method": [
            "Dissolve the salt and sugar in the water. Put the pork in it and refrigerate for 24 hours.",
            "Discard the brine, then rinse the pork and dry it. Rub the pork with the oil.",
            "Roast for 2 hours at 170 °C. Rest the meat for 20 minutes. Carve it.",
        ],
    },
    "a potato salad": {
        "ingredients": ["1 kg potatoes", "1 tbsp salt", "1 onion", "3 tbsp vinegar", "4 tbsp oil"],
        "method": [
            "Peel the potatoes. Boil the potatoes in 3 litres of water with the salt for 20 minutes.",
            "Drain the potatoes and slice them while they are warm. Chop the onion finely.",
            "Mix the onion with the vinegar and oil. Pour it over the potatoes and toss gently.",
        ],
    },
    "salt cod with chickpeas": {
        "ingredients": ["600 g salt cod", "250 g dried chickpeas", "1 bay leaf", "1 leek", "80 ml oil"],
        "method": [
            "Soak the cod in cold water for 36 hours. Change the water 3 times. Discard the water.",
            "Soak the chickpeas in plenty of water for 12 hours. Drain the chickpeas.",
            "Simmer the chickpeas with the bay leaf in fresh water for 90 minutes, then drain them.",
            "Poach the cod in simmering water for 8 minutes. Lift it out and flake it.",
            "Fry the leek in the oil. Add the chickpeas and the cod and warm everything through.",
        ],
    },
    "salted aubergines, fried": {
        "ingredients": ["800 g aubergines", "1 tbsp coarse salt", "100 g flour", "500 ml frying oil"],
        "method": [
            "Slice the aubergines. Sprinkle the slices with the salt and leave for 30 minutes.",
            "Rinse the slices and pat them dry. Dredge them in the flour and shake off the excess.",
            "Heat the oil to 180 °C. Fry the slices for 3 minutes and drain on paper.",
        ],
    },
}  # fmt: skip


def document(name: str) -> dict[str, Any]:
    return {"title": name, "servings": 4, **RECIPES[name]}


def test_the_recipes_are_read_with_their_steps() -> None:
    """What is alike is no empty reading."""
    kinds = [{step[0] for step in shape_of(document(name))[1]} for name in RECIPES]
    assert kinds == [
        {"brine", "rinse", "roast"},
        {"boil"},
        {"soak", "simmer", "boil"},
        {"dry_cure", "rinse", "dredge", "fry"},
    ]


@pytest.mark.parametrize("name", [*RECIPES])
def test_a_form_changes_nothing(name: str) -> None:
    before = shape_of(document(name))
    wrong = {}
    for form, change in FORMS.items():
        written = change(document(name))
        if written is not None and (told := differences(before, shape_of(written))):
            wrong[form] = told
    assert not wrong


_MIXED = [
    form
    for form in FORMS
    if form not in ("one text", "lines backwards") and not form.startswith(("JSON-LD", "HTML", "list headed"))
]


@given(st.sampled_from([*RECIPES]), st.lists(st.sampled_from(_MIXED), min_size=2, max_size=2, unique=True))
def test_two_forms_at_once_change_nothing(name: str, forms: list[str]) -> None:
    written = document(name)
    for form in forms:
        written = FORMS[form](written) or written
    assert not differences(shape_of(document(name)), shape_of(written))


@pytest.mark.parametrize(
    ("said", "bare"),
    [
        ("1. Drain it.", "Drain it."),
        ("(2) Drain it.", "Drain it."),
        ("3 - Drain it.", "Drain it."),
        ("STEP 4 Drain it.", "Drain it."),
        ("Step 5 of 6 – Drain it.", "Drain it."),
        ("Step 6", ""),
        ("2 hours later drain it.", "2 hours later drain it."),
        ("2 - 3 hours later drain it.", "2 - 3 hours later drain it."),
    ],
)
def test_numbers_of_steps(said: str, bare: str) -> None:
    assert without_number(said).strip() == bare


@pytest.mark.parametrize(
    ("said", "bare"),
    [
        ("- 2 eggs", "2 eggs"),
        ("-2 eggs", "2 eggs"),
        ("☐ 2 eggs", "2 eggs"),
        ("- [ ] 2 eggs", "2 eggs"),
        ("•salt", "salt"),
        ("-- dressing --", "-- dressing --"),
        ("[For the dressing]", "[For the dressing]"),
        ("*Dressing*", "*Dressing*"),
        ("- **Dressing**", "**Dressing**"),
    ],
)
def test_bullets(said: str, bare: str) -> None:
    assert without_bullet(said) == bare


def test_numbers_of_lines_count_on_from_one() -> None:
    assert [*without_numbers(["1. 2 eggs", "2. 1 l milk", "3. salt"])] == ["2 eggs", "1 l milk", "salt"]
    for lines in (["1. 2 eggs", "2 onions", "3. salt"], ["2. eggs", "3. milk", "4. salt"]):
        assert without_numbers(lines) is lines


def test_a_list_in_capitals_has_its_headings_and_its_spoons() -> None:
    small = in_small_letters(("BRINE", "2 T SALT", "1 L WATER", "FISH", "4 TROUT", "DILL"))
    assert small == ("Brine", "2 T salt", "1 L water", "Fish", "4 trout", "Dill")
    assert parts_headed(small) == {0: "Brine", 3: "Fish"}
    usual = ("BRINE", "2 tbsp salt", "1 l water")
    assert in_small_letters(usual) is usual


def test_a_list_in_capitals_tells_each_line_as_its_recipe_does() -> None:
    lines = ["4 TROUT", "2 TBSP SALT", "1 L WATER"]
    method = ["Lay the trout in the salt and water for 2 hours and drain."]
    found = read(written_of({"servings": 4, "ingredients": lines, "method": method}))
    told = {line["text"] for line in found.lines if line["index"] is not None}
    assert told == {"4 trout", "2 tbsp salt", "1 L water"}
    assert told <= {line for each in found.recipe["components"] for line in each["ingredients"]}


def test_what_is_to_taste_heads_nothing() -> None:
    assert parts_headed(["# Base", "4 tomatoes", "Salt to taste", "1 tbsp butter"]) == {0: "Base"}


@pytest.mark.parametrize("text", ["Ingredients", "INGREDIENTS:", "You will need (serves 4)"])
def test_a_heading_over_the_whole_list_makes_no_part(text: str) -> None:
    assert parts_headed([text, "2 eggs", "For the sauce:", "1 l milk"]) == {0: "", 2: "For the sauce"}


@given(st.text(alphabet="ab  ", max_size=20))
def test_places_are_those_of_the_text_as_written(text: str) -> None:
    (single,) = single_blanks((text,))
    assert "  " not in single
    at = places_before(text, range(len(single) + 1))
    assert [text[i] for i in at[:-1]] == [*single]


def test_a_step_is_told_as_it_was_written() -> None:
    text = "Wash  them.  Soak the  beans in   water for  12 hours,  then drain."
    found = read(written_of({"servings": 4, "ingredients": ["500 g dried beans"], "method": [text]}))
    step = next(each for each in found.steps if "Soak" in each["text"])
    assert text[step["start"] : step["end"]] == step["text"]


def test_an_amount_that_ends_a_method_is_read() -> None:
    lines = ["500 g leeks", "60 g butter"]
    found = read(written_of({"servings": 4, "ingredients": lines, "method": ["Melt butter 50 g"]}))
    assert found.recipe["components"]


def test_titles_of_steps_and_notes_are_no_steps() -> None:
    method = [
        "Step 1 – Boil\nCook the macaroni in salted water for 8 minutes and drain it.",
        "Notes",
        "You can boil it in stock for 10 minutes instead.",
        "They can be kept in salted water for 2 days.",
    ]
    found = read(written_of({"servings": 4, "ingredients": ["400 g macaroni"], "method": method}))
    assert [(step["kind"], step["duration_h"]) for step in found.recipe["steps"]] == [("boil", 0.1333)]


def test_a_text_of_small_letters_stays_jotted_down() -> None:
    lines = ["chop the leeks", "fry them in the butter with the lid on for 10 min", "add the cream", "eat"]
    written = {"servings": 4, "ingredients": ["500 g leeks"], "method": ["Wash your hands.", *lines]}
    assert written_of(written).paragraphs[1:] == (*lines,)


def test_a_recipe_without_a_method_is_read() -> None:
    found = read(written_of({"servings": 4, "ingredients": ["500 g leeks"], "method": []}))
    assert found.recipe["components"]
