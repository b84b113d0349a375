"""Marinades of which a part is kept back, or that are left with no word of throwing; salt that is tossed."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import eaten, step

WINGS = ["500 g wings", "100 ml soy sauce", "50 ml honey"]


@pytest.mark.parametrize(
    ("said", "share"),
    [
        ("Set half aside for serving. Marinate the wings in the remaining half for 2 hours, drain", 0.5),
        ("Set half aside for serving. Marinate the wings in the other half for 2 hours, drain", 0.5),
        ("Reserve a third. Marinate the wings in the remaining two thirds for 2 hours, drain", 2 / 3),
        ("Reserve a third. Marinate the wings in the rest for 2 hours, drain", 2 / 3),
    ],
)
def test_the_remaining_half_is_all_that_is_left(said: str, share: float) -> None:
    found = reading(WINGS, f"Whisk soy and honey. {said} and grill. Serve with the reserved sauce.")
    bath = next(each for each in found.recipe["components"] if each["id"] == step(found, "marinate")["bath"])
    assert [each["share"] for each in bath["ingredients"]] == [pytest.approx(share, abs=0.01)] * 2


@pytest.mark.parametrize(
    "said",
    [
        "Grill, without the marinade.",
        "Reserve the marinade for another use. Grill.",
        "Freeze the marinade for next time. Grill.",
        "Do not keep the marinade. Grill.",
    ],
)
def test_a_marinade_may_be_left_with_no_word_of_throwing(said: str) -> None:
    method = f"Marinate the chicken in the fish sauce for 1 hour. {said}"
    found = reading(["700 g chicken thighs", "6 tbsp fish sauce"], method)
    assert eaten(found, 1) == 0.0


def test_salt_that_is_tossed_with_boiled_potatoes_is_eaten() -> None:
    found = reading(["1 kg potatoes", "1 tsp salt"], "Boil the potatoes for 20 minutes. Toss with the salt.")
    assert eaten(found, 1) == 1.0


def test_salt_packed_round_a_chicken_does_not_cut_it_in_rounds() -> None:
    found = reading(
        ["1 chicken", "2 kg coarse salt"],
        "Pack the salt round the chicken and bake for 90 min. Break the crust.",
    )
    assert step(found, "dry_cure")["thickness_cm"] > 2
