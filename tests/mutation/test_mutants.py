"""The faults that are put in: each changes one thing, and what they change still parses."""

import ast
from pathlib import Path

import pytest

from .equal import equal
from .mutants import mutants_of
from .overlay import TOP
from .rooms import ROOMS
from .slips import slips_of
from .swapping import change_of, changed_function

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


def test_mutants_that_are_called_equal_are_still_there():
    found = {
        (file, mutant.within, mutant.told)
        for file in {file for file, _, _ in equal()}
        for mutant in mutants_of((TOP / file).read_text(encoding="utf-8"))
    }
    assert set(equal()) - found == set()
    assert all(equal().values())


MODULE = """
X = 1
def f(a):
    return [a + each for each in range(2)]
class K:
    def g(self):
        return 3
"""


def test_a_mutant_is_put_into_the_function_that_it_is_in():
    before = MODULE
    was, becomes = changed_function(before, before.replace("a + each", "a - each"), "x.py")
    assert (was.co_name, becomes.co_name, was.co_firstlineno) == ("f", "f", 3)
    was, _ = changed_function(before, before.replace("return 3", "return 4"), "x.py")
    assert was.co_name == "g"
    assert changed_function(before, before.replace("X = 1", "X = 2"), "x.py") is None


def test_a_value_of_a_module_is_changed_wherever_it_was_imported(monkeypatch):
    from saltledger.foods.weights import weight  # noqa: PLC0415

    monkeypatch.setattr(weight, "BROAD", weight.BROAD)
    text = Path(weight.__file__).read_text(encoding="utf-8")
    before = weight.BROAD
    assert not change_of(weight.__file__, text + "\n\nNEW = 3\n").put_in()
    assert change_of(weight.__file__, text.replace("BROAD = 3.0", "BROAD = 9.0")).put_in()
    assert (before, weight.BROAD) == (3.0, 9.0)
