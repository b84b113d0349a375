"""Salt and flour of a coating: what lies there, and what only the bath before it holds."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import eaten, kinds

LIST = ["600 g turkey steaks", "150 g flour", "2 tsp salt", "1 tsp paprika", "1 l sunflower oil"]


@pytest.mark.parametrize(
    "method",
    [
        "Dredge the turkey in the flour, salt and paprika. Deep-fry it in the oil.",
        "Turn the turkey in flour and salt, then deep-fry in the oil.",
        "Dip the steaks in a mixture of salt, pepper and flour and deep-fry them.",
    ],
)
def test_salt_in_one_list_with_the_flour_lies_in_the_coating(method: str) -> None:
    assert eaten(reading(LIST, method), 2) == 0.0


@pytest.mark.parametrize(
    "method",
    [
        "Rub the salt into the turkey and dredge it in flour. Deep-fry it in the oil.",
        "Dredge the turkey in flour, season with the salt and deep-fry it in the oil.",
    ],
)
def test_salt_that_is_rubbed_in_or_strewn_on_is_eaten(method: str) -> None:
    assert eaten(reading(LIST, method), 2) == 1.0


def test_a_pinch_more_for_the_flour_takes_nothing_out_of_the_buttermilk() -> None:
    lines = ["800 g chicken legs", "200 g flour", "500 ml buttermilk", "3 tsp salt", "1 l oil"]
    method = (
        "Stir the salt into the buttermilk and lay the chicken in it for 4 hours. Give the flour a pinch of "
        "salt, dredge the chicken in it and deep-fry."
    )
    found = reading(lines, method)
    by_line = {(each["index"], each["component"]): each.get("share", 1.0) for each in found.lines}
    assert by_line[2, "marinade"] == 1.0
    assert (2, "coating") not in by_line


@pytest.mark.parametrize(
    "method",
    [
        "Brown the mince. Pour in enough oil for the garlic and put the garlic in the hot oil. Mix.",
        "Add plenty of oil, then the cumin to the hot oil. Stir in the mince and the onion, cook gently.",
        "Brown it all. Add enough oil to cook garlic in and drop the garlic into the hot oil.",
    ],
)
def test_garlic_and_spices_in_hot_oil_make_no_fryer_of_the_pan(method: str) -> None:
    lines = ["500 g minced lamb", "olive oil as needed", "6 cloves garlic", "1 onion", "1 tsp cumin seeds"]
    assert kinds(reading(lines, method)) == []


@pytest.mark.parametrize(
    "coats",
    [
        "Dredge the turkey in the flour, then the buttermilk, then the flour again.",
        "Dip each steak in flour, followed by buttermilk and once more in flour.",
        "Put the flour in one dish, the buttermilk in a second. Turn the turkey in the flour, then in the "
        "buttermilk, then in the flour.",
        "Roll the steaks in flour and dunk them in the buttermilk.",
    ],
)
def test_milk_between_two_coats_is_part_of_the_coating(coats: str) -> None:
    found = reading(["600 g turkey steaks", "150 g flour", "500 ml buttermilk"], f"{coats} Fry in hot oil.")
    assert "coating" in {each["component"] for each in found.lines if each["index"] == 2}


def test_cream_for_the_sauce_is_no_coat() -> None:
    method = "Dredge the turkey in the flour and fry it in butter. Pour in the cream, then simmer and serve."
    assert eaten(reading(["600 g turkey steaks", "150 g flour", "200 ml cream"], method), 2) == 1.0
