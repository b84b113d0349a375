"""Olives boiled in a pan with water, foods of two bowls, and what fries until it is dark brown."""

from __future__ import annotations

import pytest
from saltledger.method.forms import written_of
from saltledger.method.method_reading import read


def steps(lines: list[str], method: str) -> list[tuple[str, object]]:
    recipe = read(written_of({"title": "t", "servings": 4, "ingredients": lines, "method": [method]})).recipe
    return [(s["kind"], s["food"]) for s in recipe.get("steps", ())]


@pytest.mark.parametrize("pan", ["small pan", "saucepan", "pot"])
@pytest.mark.parametrize("water", ["with water", "of water", "with cold water"])
@pytest.mark.parametrize("ends", [", bring to the boil, drain.", ", bring to the boil and drain well."])
def test_olives_are_boiled_and_not_only_drained(pan: str, water: str, ends: str) -> None:
    lines = ["100 g green olives", "1 chicken, jointed", "1 onion"]
    method = f"Put the olives in a {pan} {water}{ends} Brown the chicken with the onion; add the olives."
    assert steps(lines, method) == [("boil", "green-olives")]


@pytest.mark.parametrize(
    "before", ["Rinse the preserved lemons.", "Quarter the preserved lemons. Rinse and slice."]
)
@pytest.mark.parametrize("bowl", ["a bowl", "a small bowl"])
def test_a_bowl_holds_what_is_put_there(before: str, bowl: str) -> None:
    lines = ["2 preserved lemons", "1 cup green olives", "8 chicken thighs"]
    method = f"{before} Put the olives in {bowl}, cover with boiling water and leave 10 minutes. Drain."
    assert ("soak", "green-olives") in steps(lines, method)


@pytest.mark.parametrize("brown", ["till dark brown", "until golden brown", "until deep brown and crisp"])
@pytest.mark.parametrize(
    "fry", ["Fry in deep oil", "Deep-fry in hot oil", "Fry in 5 cm of hot oil, in batches,"]
)
def test_brown_is_how_it_looks(fry: str, brown: str) -> None:
    lines = ["4 onions", "oil for frying", "1 cup lentils"]
    assert ("fry", "onions") in steps(lines, f"Slice the onions into rings. {fry} {brown}, 8 minutes.")


@pytest.mark.parametrize("fry", ["Brown the onions in a little oil.", "Fry the onions in oil until soft."])
def test_browned_in_a_film_of_oil(fry: str) -> None:
    assert steps(["4 onions", "oil for frying", "1 cup rice"], f"{fry} Add the rice.") == []
