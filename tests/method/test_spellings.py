"""Words that are known but for a letter."""

import pytest
from saltledger.method.spellings import respelt

from .test_method_reading import reading


@pytest.mark.parametrize(
    ("said", "meant"),
    [
        ("refridgerator", "refrigerator"),
        ("refridgerate", "refrigerate"),
        ("refrigirated", "refrigerated"),
        ("marrinating", "marinating"),
        ("immersion", "immersion"),
        ("preserving", "preserving"),
        ("seasonings", "seasonings"),
        ("chocolate", "chocolate"),
        ("soka", "soka"),
    ],
)
def test_a_word_is_told_by_all_but_one_of_its_letters(said: str, meant: str) -> None:
    assert respelt(said) == meant


@pytest.mark.parametrize(
    "sentence",
    ["refridgerate overnight", "leave it in the refridgerator for 12 hours", "let it refrigirate overnight"],
)
def test_a_bath_of_a_misspelt_method_is_read(sentence: str) -> None:
    found = reading(
        ["1 kg pork loin", "2 l water", "100 g salt"],
        f"Dissolve the salt in the water. Put the pork in and {sentence}. Drain and roast it.",
    )
    (step,) = (s for s in found.recipe["steps"] if s["kind"] == "brine")
    assert (step["duration_h"], step["temperature_c"]) == (12, 4)


@pytest.mark.parametrize("name", ["spagetti", "linguini", "noodels", "fettucini"])
def test_pasta_is_known_by_its_common_misspellings(name: str) -> None:
    found = reading([f"300 g {name}", "2 eggs"], f"Cook the {name} in salted water for 8 minutes. Drain.")
    assert [step["kind"] for step in found.recipe["steps"]] == ["boil"]


def test_a_misspelt_vegetable_of_no_amount_is_no_heading() -> None:
    found = reading(["Brocolli", "1 egg"], "Steam it and add the egg.")
    assert {line["component"] for line in found.lines} == {"dish"}
