"""Meat and fish that a line calls thin, with no figure."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import step

SAID = "Mix the soy sauce and sugar. Marinate the {} in it for 4 hours. Discard the marinade and fry."


def _thickness(line: str, food: str) -> float:
    found = step(reading([line, "150 ml soy sauce", "2 tbsp sugar"], SAID.format(food)), "marinate")
    return float(found["thickness_cm"])  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("plain", "said", "food", "times"),
    [
        ("4 beef steaks", "4 thin beef steaks", "steaks", 0.5),
        ("4 pork chops", "4 thin pork chops", "chops", 0.5),
        ("4 pork chops", "4 thick pork chops", "chops", 1.0),
    ],
)
def test_what_a_line_calls_thin_is_so(plain: str, said: str, food: str, times: float) -> None:
    assert _thickness(said, food) == pytest.approx(times * _thickness(plain, food), abs=0.01)


def test_thin_slices_are_no_thinner_for_it() -> None:
    assert _thickness("600 g beef in thin slices", "beef") >= 0.2


def test_a_person_may_still_say_how_thick_they_are() -> None:
    found = reading(
        ["4 thin beef steaks", "150 ml soy sauce"], SAID.format("steaks").replace(" and sugar", "")
    )
    asked = next(each for each in found.questions if each.id.startswith("thickness"))
    assert asked.taken == "thinner"
