"""Plain acts come to the same steps, whichever way they are said: plain_acts/."""

from __future__ import annotations

import pytest

from .plain_acts.grid import Act, acts, cells, faults, files

EACH = 12
"""Cells of a saying that are drawn; `python -m tests.method.plain_acts` draws more."""
SAYINGS = [
    pytest.param(act, saying, id=f"{path.stem}-{act.name}-{i}")
    for path in files()
    for act in acts(path)
    for i, saying in enumerate(act.said)
]


@pytest.mark.parametrize(("act", "saying"), SAYINGS)
def test_it_comes_to_the_same_steps_in_all_words(act: Act, saying: str) -> None:
    wrong = {cell.text: found for cell in cells(saying, EACH) if (found := faults(act, cell))}
    assert not wrong


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
