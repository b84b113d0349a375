"""Vegetables put up in hot vinegar, coats that are told as a list, and meat mixed with its marinade."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import eaten, kinds, step


@pytest.mark.parametrize(
    "said",
    [
        "Slice the cucumbers into jars. Heat the vinegar and salt and pour over.",
        "Put the cucumbers in jars. Heat the vinegar and salt and pour over.",
        "Pack the cucumbers in jars. Heat the vinegar with the salt and pour it over the cucumbers. Seal.",
        "Pack the cucumbers in jars. Boil up the vinegar with the salt. Pour over. Close the jars.",
    ],
)
def test_vegetables_in_jars_stay_in_the_hot_vinegar_that_is_poured_over(said: str) -> None:
    found = reading(["1 kg cucumbers", "500 ml vinegar", "2 tsp salt"], said)
    assert (step(found, "brine")["food"], step(found, "brine")["duration_h"]) == ("cucumbers", 336.0)
    assert eaten(found, 2) == 0.0


@pytest.mark.parametrize(
    "said",
    [
        "Slice the cucumbers. Heat the vinegar and salt and pour over. Serve.",
        "Cook the cucumbers in the vinegar with the salt. Spoon into jars.",
    ],
)
def test_vegetables_that_are_in_no_jar_are_eaten_with_their_vinegar(said: str) -> None:
    assert eaten(reading(["1 kg cucumbers", "500 ml vinegar", "2 tsp salt"], said), 2) == 1.0


@pytest.mark.parametrize(
    "said",
    [
        "Flour, egg, crumbs, in that order.",
        "Coat the chops: flour, egg, crumbs.",
        "Flour the chops, then egg, then crumbs.",
        "Dip the chops in the flour, egg and crumbs.",
    ],
)
def test_coats_that_are_told_as_a_list_are_coats(said: str) -> None:
    lines = ["4 pork chops", "100 g flour", "2 eggs", "150 g breadcrumbs", "1 tsp salt"]
    found = reading(lines, f"Season the flour with the salt. {said} Fry in oil.")
    assert "dredge" in kinds(found)
    coating = next(each for each in found.recipe["components"] if each["id"] == "coating")
    assert set(lines[1:]) <= {
        each if isinstance(each, str) else each["line"] for each in coating["ingredients"]
    }


@pytest.mark.parametrize(
    "said",
    [
        "Cut the meat, mix with onions, salt and kefir and leave 8 hours.",
        "Cut the meat. Mix it with onions, salt and kefir. Leave 8 hours.",
        "Cut the meat. Mix with kefir and salt and leave 8 hours.",
    ],
)
def test_meat_that_is_mixed_with_onions_and_kefir_lies_in_them(said: str) -> None:
    lines = ["1 kg pork neck", "1 l kefir", "1 tbsp salt", "3 onions"]
    found = reading(lines, f"{said} Take the meat out, throw the rest away.")
    assert step(found, "marinate")["food"] == "pork-neck"
    assert eaten(found, 2) == 0.0


@pytest.mark.parametrize("said", ["Salt it only if needed.", "Salt it if necessary."])
def test_a_sauce_that_may_be_salted_cures_nothing(said: str) -> None:
    found = reading(["6 carrots", "300 ml milk"], f"Make the white sauce. {said} Drain the carrots.")
    assert "dry_cure" not in kinds(found)
