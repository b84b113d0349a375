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
        "Store in the refrigerator for up to five days.",
        "Store it chilled for as long as a week.",
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


@pytest.mark.parametrize(
    ("line", "said"),
    [
        (
            "300 g salt cod, or 600 g fresh haddock",
            "If using fresh haddock, pack it in salt overnight and rinse.",
        ),
        (
            "300 g salt cod or 600 g hake fillets",
            "If you are using hake, cover it with salt for 8 hours, rinse.",
        ),
        (
            "300 g salt cod (or 500 g fresh cod)",
            "If you have fresh cod, bury it in salt overnight and rinse it.",
        ),
        (
            "300 g salt cod or fresh ling",
            "When using ling, rub it with a handful of salt and leave overnight.",
        ),
    ],
)
def test_what_is_said_of_another_choice_is_not_done(line: str, said: str) -> None:
    soaked = "If using salt cod, soak it in cold water for 24 hours."
    found = reading([line, "1 onion"], said, soaked, "Simmer it with the onion.")
    assert [step["kind"] for step in found.recipe["steps"]] == ["soak"]


def test_beans_from_cans_are_not_soaked_and_dry_ones_not_rinsed() -> None:
    method = [
        "If using dried beans, soak them overnight in cold water.",
        "If using canned beans, rinse them.",
    ]
    dry = reading(["250 g dried beans or 2 tins beans", "1 onion"], *method, "Stew with the onion.")
    assert [step["kind"] for step in dry.recipe["steps"]] == ["soak"]
    tins = reading(["2 tins beans or 250 g dried beans", "1 onion"], *method, "Stew with the onion.")
    assert [step["kind"] for step in tins.recipe["steps"]] == ["drain"]


@pytest.mark.parametrize("said", ["Dump in the pasta.", "Throw in the pasta.", "Tip in the pasta."])
def test_what_is_dumped_in_is_the_food(said: str) -> None:
    found = reading(
        ["400 g pasta"], "Bring a pot of salted water to the boil.", said, "Cook for 5 minutes. Drain."
    )
    assert [(step["kind"], round(step["duration_h"], 2)) for step in found.recipe["steps"]] == [
        ("boil", 0.08)
    ]


def test_water_by_its_formula_makes_a_brine() -> None:
    lines = ["Brine", "200 g salt", "4 litres H2O", "5 cloves garlic", "Meat", "2 kg brisket"]
    found = reading(lines, "Brine for 6 days. Rinse and roast.")
    (step,) = (s for s in found.recipe["steps"] if s["kind"] == "brine")
    assert component(found, "4 litres H2O") == (step["bath"], 0.0)


@pytest.mark.parametrize("said", ["S&P", "s&p", "S+P"])
def test_salt_and_pepper_by_their_letters_are_salt(said: str) -> None:
    found = reading(
        ["60 g flour", f"2 tsp {said}", "600 g pork chops", "1 litre oil"],
        f"Mix the flour and the {said} in a bowl. Coat the chops in the flour mix and deep-fry them.",
    )
    (step,) = (s for s in found.recipe["steps"] if s["kind"] == "dredge")
    assert component(found, f"2 tsp {said}") == (step["bath"], 0.0)


@pytest.mark.parametrize("line", ["500 g salt cod", "400 g salt pork", "100 g salted anchovies"])
def test_salt_alone_is_none_of_the_salted_food_of_the_list(line: str) -> None:
    found = reading([line, "1 kg potatoes"], "Boil the potatoes in water with salt for 20 minutes. Drain.")
    assert [s["food"] for s in found.recipe["steps"] if s["kind"] == "boil"] == ["potatoes"]
    texts = [i["line"] for c in found.recipe["components"] for i in c["ingredients"] if isinstance(i, dict)]
    assert any(text.endswith("g salt") for text in texts)
