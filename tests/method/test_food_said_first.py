"""Food that is named with "first" or "now" before a colon is what the sentence works on."""

from __future__ import annotations

import pytest
from saltledger.method.forms import written_of
from saltledger.method.method_reading import read


def steps(lines: list[str], method: str) -> list[tuple[str, object]]:
    made = read(written_of({"title": "t", "servings": 4, "ingredients": lines, "method": [method]})).recipe
    return [(s["kind"], s["food"]) for s in made.get("steps", ())]


@pytest.mark.parametrize("lead", ["First the", "Now the", "Next the", "Then the", "The", "First your"])
@pytest.mark.parametrize(
    ("line", "said", "step"),
    [
        ("1 kg potatoes", "potatoes: boil in salted water for 20 minutes, drain", ("boil", "potatoes")),
        ("1 cucumber", "cucumber: slice, salt, leave for 20 minutes and squeeze", ("dry_cure", "cucumber")),
        ("200 g salted capers", "capers: soak for an hour in cold water", ("soak", "salted-capers")),
        ("200 g salted capers", "capers: half an hour in cold water, then rinse", ("soak", "salted-capers")),
    ],
)
def test_what_is_named_first_is_worked_on(line: str, said: str, step: tuple[str, str], lead: str) -> None:
    assert step in steps([line, "300 g pork fillet", "salt"], f"{lead} {said}. Fry the pork.")


def test_a_part_that_is_named_first_is_no_food() -> None:
    found = steps(
        ["1 cucumber", "1 tsp salt"], "First the salad: slice the cucumber, salt, leave an hour and drain."
    )
    assert found == [("dry_cure", "cucumber")]


@pytest.mark.parametrize("begins", ["Begin with the capers", "Start with the capers"])
def test_begun_with_in_water(begins: str) -> None:
    lines = ["200 g salted capers", "300 g pork fillet"]
    assert ("soak", "salted-capers") in steps(
        lines, f"{begins}: an hour in cold water, changed twice. Fry the pork."
    )
