"""Small words that say what a clause is about: what is poured in, taken off, stored, or meant by "canned"."""

from __future__ import annotations

import pytest

from .test_method_reading import component, reading

_STEW = ["500 g mushrooms", "1 onion", "2 cloves garlic", "150 ml red wine", "2 tbsp oil"]


@pytest.mark.parametrize(
    "said",
    [
        "Pour in the wine through a fine sieve.",
        "Pour the wine into the pan through a strainer to catch the grit.",
        "Strain the wine into the mushrooms.",
    ],
)
def test_what_is_strained_on_its_way_into_the_pan_leaves_the_rest_there(said: str) -> None:
    found = reading(_STEW, "Fry the mushrooms, onion and garlic in the oil.", said, "Simmer for 20 minutes.")
    assert {component(found, line)[0] for line in _STEW[:3]} == {"dish"}


@pytest.mark.parametrize(
    "said",
    [
        "Store in the fridge for up to a week.",
        "Keep in an airtight box for up to 5 days.",
        "Chill, and store the salad in the fridge up to 3 days.",
    ],
)
def test_what_is_stored_when_it_is_done_lies_in_no_cure(said: str) -> None:
    found = reading(
        ["500 g prawns, cooked", "1/4 tsp salt", "2 spring onions"],
        "Sprinkle the prawns with the salt and the spring onions.",
        said,
    )
    assert not [step for step in found.recipe.get("steps", ()) if step["kind"] == "dry_cure"]


@pytest.mark.parametrize("said", ["Cook and drain", "Cook & drain", "Boil and drain", "Boil, drain"])
def test_a_verb_shares_the_food_of_the_next(said: str) -> None:
    found = reading(
        ["400 g green beans", "3 tbsp dressing"], f"{said} the green beans. Mix with the dressing."
    )
    assert [step["kind"] for step in found.recipe["steps"]] == ["boil"]


@pytest.mark.parametrize("word", ["canned", "tinned"])
def test_canned_beans_are_those_in_cans(word: str) -> None:
    lines = ["400 g green beans", "1 can red beans", "1 can chickpea beans", "3 tbsp dressing"]
    found = reading(lines, f"Boil and drain the green beans. Rinse and drain the {word} beans. Mix.")
    (drain,) = (step for step in found.recipe["steps"] if step["kind"] == "drain")
    assert component(found, "1 can red beans")[0] == drain["food"]
    assert component(found, "400 g green beans")[0] != drain["food"]


def test_salt_that_is_strewn_on_both_sides_stands_for_both_times() -> None:
    found = reading(
        ["1 aubergine, in slices", "3 tbsp salt", "60 g all purpose flour"],
        "Sprinkle salt all over the aubergine. Leave it for 30 minutes. Turn it over and sprinkle with salt.",
        "Leave it for another 30 minutes. Hold it under the cold tap and rub it to remove the salt.",
    )
    (cure,) = (step for step in found.recipe["steps"] if step["kind"] == "dry_cure")
    assert cure["duration_h"] == 1.0
    assert component(found, "60 g all purpose flour")[0] == "dish"
