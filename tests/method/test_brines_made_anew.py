"""A second brine, of the rest of the salt, for what the first was poured off; and brine of nuts and fruit."""

from __future__ import annotations

import pytest

from .test_method_reading import component, reading
from .test_plain_recipes import kinds, step

FIRST = "Dissolve half the salt in 1.5 litres of water, pour over the {0} in a crock. Leave for 5 days."


@pytest.mark.parametrize("food", ["walnuts", "plums", "cucumbers", "green walnuts", "almonds", "shallots"])
@pytest.mark.parametrize(
    "again",
    [
        "Drain, make up a fresh brine with the remaining salt and the same amount of water, and leave a "
        "further 7 days.",
        "Drain. Make a fresh brine with the rest of the salt and 1.5 litres of water, and leave for 7 days.",
        "Drain. Make a new brine with the other half of the salt and the same quantity of water, pour over "
        "and leave for a week.",
    ],
)
def test_a_fresh_brine(food: str, again: str) -> None:
    found = reading([f"1 kg {food}", "340 g salt"], f"{FIRST.format(food)} {again} Drain, discard the brine.")
    steps = found.recipe["steps"]
    assert [each["kind"] for each in steps] == ["brine", "brine"]
    assert [each["duration_h"] for each in steps] == [120.0, 168.0]
    baths = {each["id"]: each for each in found.recipe["components"]}
    for each in steps:
        salt, water = baths[each["bath"]]["ingredients"]
        assert (salt["share"], baths[each["bath"]]["eaten_fraction"]) == (0.5, 0.0)
        assert water["line"].startswith("1.5 l")


@pytest.mark.parametrize("food", ["walnuts", "plums", "apricots", "almonds"])
def test_nuts_and_fruit_lie_in_brine(food: str) -> None:
    found = reading(
        [f"1 kg {food}", "100 g salt"],
        f"Dissolve the salt in 2 litres of water and pour over the {food}. Leave for 5 days. Drain.",
    )
    assert kinds(found) == ["brine"]
    assert component(found, "100 g salt") == (step(found, "brine")["bath"], 0.0)


def test_green_walnuts_are_pickled() -> None:
    found = reading(
        ["1 kg green walnuts", "1 litre malt vinegar", "200 g sugar"],
        "Boil the vinegar and sugar for ten minutes. Pack the walnuts in jars, fill to the brim with the hot "
        "vinegar and seal. Wait six weeks before you open the first one.",
    )
    assert step(found, "brine")["duration_h"] == 1008.0
    assert component(found, "1 litre malt vinegar")[1] == 0.0


def test_bread_lies_in_none() -> None:
    found = reading(
        ["1 stale loaf", "10 g salt"],
        "Dissolve the salt in 1 litre of water and pour over the bread. Leave for 10 minutes.",
    )
    assert kinds(found) == []
