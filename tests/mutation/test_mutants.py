"""The faults that are put in: each changes one thing, and what they change still parses."""

import ast

import pytest

from .mutants import mutants_of
from .overlay import TOP
from .rooms import ROOMS
from .slips import slips_of

SOURCE = '''"""Words."""

def weigh(a: int, b: "str" = 2) -> int:
    """More words."""
    if a < b and not b:
        return a * 0.5
    check(a)
    raise ValueError("§ " + "no")
'''
OTHERS = ["bool(b)", "None", "(a) / (0.5)", "(0.5 * 1.1)", "pass"]


def test_each_mutant_is_one_change_that_parses():
    found = mutants_of(SOURCE)
    for mutant in found:
        changed = mutant.applied(SOURCE)
        ast.parse(changed)
        assert changed != SOURCE
    words = {" ".join(mutant.text.split()) for mutant in found}
    assert words == {*["3", "a <= b", "((a < b) or (not b))", "(not (a < b and not b))"], *OTHERS}


def test_a_slip_is_in_a_number_a_flag_or_a_row():
    told = [slip.where for slip in slips_of('# about\nid,value,flag\n"a, b",0,yes\nc,2.5,x\n')]
    assert told == [
        "a, b (line 3) dropped",
        "line 3, value: 0 -> 1",
        "line 3, flag: yes -> no",
        "c (line 4) dropped",
        "line 4, value: 2.5 -> 2.75",
    ]


@pytest.mark.parametrize("room", ROOMS)
def test_the_files_and_tests_of_a_room_are_there(room):
    assert all(list(TOP.glob(pattern)) for pattern in ROOMS[room].files)
    assert all((TOP / path).exists() for path in ROOMS[room].tests)
