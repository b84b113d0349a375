"""Cans of beans of which nobody says whether they are drained: they are, and it is asked."""

from __future__ import annotations

import pytest
from saltledger.method.forms import written_of
from saltledger.method.method_reading import Reading, read

from .test_method_reading import reading

LINES = ["2 cans chickpeas", "2 eggs", "1 onion", "300 g penne"]


def drained(found: Reading) -> bool:
    return any(step["kind"] == "drain" for step in found.recipe.get("steps", ()))


@pytest.mark.parametrize(
    "method",
    [
        "Mash the chickpeas with the rest, shape patties and fry.",
        "Fry the onion. Stir in the chickpeas, then the eggs.",
        "Brown the onion, add the chickpeas and stew for 20 minutes.",
        "Mash the chickpeas with the eggs and some lemon juice. Boil the penne, drain.",
    ],
)
def test_a_can_is_drained_and_asked_about(method: str) -> None:
    document = {"title": "Patties, Tern Quay", "servings": 4, "ingredients": LINES, "method": [method]}
    found = read(written_of(document))
    assert drained(found)
    (question,) = (each for each in found.questions if each.id.startswith("can-"))
    assert question.taken == "drained"
    document["answers"] = {question.id: "with_liquid"}
    assert not drained(read(written_of(document)))


@pytest.mark.parametrize(
    ("line", "method"),
    [
        ("2 cans chickpeas", "Mash the chickpeas with some of their liquid."),
        ("2 cans chickpeas", "Do not drain the chickpeas. Mash them."),
        ("2 cans chickpeas, undrained", "Stir the chickpeas in."),
        ("2 cans baked beans", "Warm the beans."),
        ("1 can chilli beans in sauce", "Warm the beans."),
        ("500 g cooked chickpeas", "Mash the chickpeas."),
        ("2 cans chickpeas", "Fry the onion."),
    ],
)
def test_what_is_said_or_sold_otherwise_is_not(line: str, method: str) -> None:
    assert not drained(reading([line, *LINES[1:]], method))
