"""What was done before, told behind the cooking: "roast the legs, which you marinated overnight"."""

from __future__ import annotations

import pytest
from saltledger.method.forms import written_of
from saltledger.method.method_reading import read

LEGS = ["6 duck legs", "120 ml tamari", "3 tbsp maple syrup", "2 tbsp cider vinegar"]
PLAICE = ["4 plaice fillets", "180 g flour", "1 tsp salt", "250 ml sparkling water", "1 litre corn oil"]
MIX = "Stir the tamari, maple syrup and vinegar together. "
BATTER = "Beat the flour, salt and sparkling water to a batter. "


def kinds(lines: list[str], method: str) -> list[tuple[str, float | None]]:
    document = {"title": "Ferry lunch", "servings": 4, "ingredients": lines, "method": [method]}
    steps = read(written_of(document)).recipe.get("steps", [])
    return [(each["kind"], each.get("duration_h")) for each in steps]


@pytest.mark.parametrize(
    "method",
    [
        "Roast the duck, which you marinated overnight in the tamari, maple syrup and vinegar.",
        "Roast the duck, marinated overnight in the tamari, maple syrup and vinegar.",
        "Grill the duck legs that have been marinating overnight in the tamari, maple syrup and vinegar.",
        MIX + "Roast the duck after marinating it overnight in this.",
        MIX + "Grill the duck, which should have marinated overnight.",
    ],
)
def test_what_lay_in_a_marinade_before_it_is_cooked(method: str) -> None:
    found = kinds(LEGS, method)
    assert [kind for kind, _ in found] == ["marinate", "roast"]
    assert found[0][1] == pytest.approx(12.0)


def test_the_time_behind_a_comma_is_that_of_the_oven() -> None:
    method = "Roast the duck, marinated overnight in the tamari, maple syrup and vinegar, for 50 minutes."
    assert kinds(LEGS, method) == [("marinate", pytest.approx(12.0)), ("roast", pytest.approx(0.8333))]


@pytest.mark.parametrize(
    "end",
    [
        "Fry the plaice after dipping it in the batter.",
        "Deep-fry the plaice, first dipping each piece in the batter.",
        "Fry the plaice, dipped in the batter, for 5 minutes.",
        "Dip the plaice in the batter before frying it in the hot oil.",
    ],
)
def test_what_is_coated_before_it_is_fried(end: str) -> None:
    assert [kind for kind, _ in kinds(PLAICE, BATTER + end)] == ["dredge", "fry"]


def test_words_beside_a_food_tell_nothing_new() -> None:
    method = MIX + "Marinate the duck in it for 8 hours. Roast the marinated duck for 50 minutes."
    assert [kind for kind, _ in kinds(LEGS, method)] == ["marinate", "roast"]
