"""Lines read in their recipe: the others decide what a doubtful one means."""

from __future__ import annotations

import pytest
from saltledger.core.errors import InvalidRequest
from saltledger.foods.dataset import bundled
from saltledger.recipe.ingredients import ReadSettings
from saltledger.recipe.line_context import read_together

CURRY = ("1 tsp turmeric", "1 tsp garam masala", "1 tsp ground cumin")
STEW = ("1 onion", "2 carrots", "500 g chicken thighs")


def read(*lines):
    pointers = [f"/lines/{i}" for i in range(len(lines))]
    return read_together(lines, pointers, bundled(), ReadSettings())


def last(*lines):
    return read(*lines)[-1]


@pytest.mark.parametrize(
    ("line", "others", "code"),
    [
        ("3 cloves", CURRY, "02011"),
        ("3 cloves", STEW, "11215"),
        ("1 tsp coriander", CURRY, "02013"),
        ("1 bunch coriander", CURRY, "11165"),
        ("1 tsp chilli powder", CURRY, "02031"),
        ("1 tsp chilli powder", ("1 tsp cumin", "1 can kidney beans"), "02009"),
        ("red pepper", ("1 pinch thyme", "1 bay leaf", "1 tsp cumin"), "02031"),
        ("1 red pepper", CURRY, "11821"),
        ("1 tsp ginger", CURRY, "02021"),
        ("20 g ginger", CURRY, "11216"),
    ],
)
def test_the_other_lines_tell_what_is_meant(line, others, code):
    assert last(*others, line).food.code == code


def test_cloves_of_garlic_weigh_as_such():
    assert last(*STEW, "3 cloves").grams.likely == pytest.approx(9)


def test_a_guess_from_the_company_is_not_sure():
    assert last(*STEW, "3 cloves").confidence < 0.8


def test_order_changes_nothing():
    lines = (*CURRY, "2 cloves", "1 tsp chilli powder")
    forward = {each.line: each.food.code for each in read(*lines)}
    backward = {each.line: each.food.code for each in read(*lines[::-1])}
    assert forward == backward


def test_all_faults_are_told_where_they_stand():
    with pytest.raises(InvalidRequest) as refused:
        read("1 onion", "x" * 501, "y" * 501)
    assert [fault.pointer for fault in refused.value.faults] == ["/lines/1", "/lines/2"]
