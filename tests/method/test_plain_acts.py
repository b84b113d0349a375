"""Plain acts come to the same steps, whichever way they are said: plain_acts/."""

from __future__ import annotations

import pytest

from .plain_acts.grid import Act, acts, cells, faults, files, forms, out_of_line

EACH = 12
"""Cells of a saying that are drawn; `python -m tests.method.plain_acts` draws more."""
SAYINGS = [
    pytest.param(act, saying, id=f"{path.stem}-{act.name}-{i}")
    for path in files()
    for act in acts(path)
    for i, saying in enumerate(act.said)
]
WITH_SODIUM = [
    pytest.param(act, id=f"{path.stem}-{act.name}")
    for path in files()
    for act in acts(path)
    if act.sodium is not None
]


@pytest.mark.parametrize(("act", "saying"), SAYINGS)
def test_it_comes_to_the_same_steps_in_all_words(act: Act, saying: str) -> None:
    grid = cells(saying, EACH, len(act.lists))
    wrong = {(cell.text, cell.listed): found for cell in grid if (found := faults(act, cell))}
    assert not wrong


@pytest.mark.parametrize("act", WITH_SODIUM)
def test_it_comes_to_the_same_sodium_in_all_words_and_forms(act: Act) -> None:
    assert not out_of_line(act, [cell for grid in act.cells(EACH) for cell in grid])


def test_every_choice_of_every_slot_is_drawn() -> None:
    drawn = cells("{a|b|c} {d|e}{|, f}.", EACH)
    assert {cell.choices[0] for cell in drawn} == {"a", "b", "c"}
    assert all(
        {cell.choices[i] for cell in drawn} == set(slot) for i, slot in ((1, ("d", "e")), (2, ("", ", f")))
    )
    assert drawn == cells("{a|b|c} {d|e}{|, f}.", EACH)


def test_what_is_missing_made_up_and_of_another_length_is_told() -> None:
    (said,) = cells("Boil the peas in salted water for 4 minutes and drain.", 1)
    peas = ("300 g peas", "salt")
    assert not faults(Act("peas", peas, ("boil~ | peas | 4m",), ()), said)
    assert faults(Act("peas", peas, ("boil~ | peas | 4h",), ()), said)
    assert faults(Act("peas", peas, ("boil= | peas",), ()), said) == [
        "missing: boil= | peas",
        "made up: boil~ of 300 g peas",
    ]


def test_a_line_that_is_not_poured_or_eaten_as_it_should_is_told() -> None:
    (said,) = cells(
        "Boil the peas in the water with the salt for 4 minutes and drain. Stir in the butter.", 1
    )
    lines = ("300 g peas", "2 l water", "20 g salt", "30 g butter")
    steps = ("boil~ | peas | 4m",)
    assert not faults(Act("peas", lines, steps, (), ("20 g salt",), ("peas", "butter")), said)
    assert faults(Act("peas", lines, steps, (), ("butter",), ("20 g salt", "chives")), said) == [
        "100% eaten of: butter",
        "0% eaten of: 20 g salt",
        "nowhere: chives",
    ]


def test_sodium_that_hangs_on_the_words_is_told() -> None:
    said = "{Stir in the salt|Mix in the salt|Boil in water with the salt, drain}. Serve the peas."
    act = Act("peas", ("300 g peas", "20 g salt"), (), (said,), sodium=0.05)
    grid = cells(said, 3)
    (apart,) = out_of_line(act, grid)
    assert apart.choices == ("Boil in water with the salt, drain",)


def test_lists_of_an_act_are_drawn_as_often_as_each_other() -> None:
    drawn = cells("{Boil|Cook} the peas.", 6, 3)
    assert {cell.listed for cell in drawn} == {0, 1, 2}


def test_lines_below_headings_keep_their_order() -> None:
    names = [name for name, *_ in forms(["# Sauce", "20 g salt"], ["Stir.", "Serve."])]
    assert "with lines turned about" not in names
    assert "with lines turned about" in [name for name, *_ in forms(["20 g salt"], ["Stir."])]
