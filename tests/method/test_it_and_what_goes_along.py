"""What "it" and "them" mean where spices, onions or a can are spoken of beside; liquors too salty to use."""

from __future__ import annotations

import pytest
from saltledger.method.method_reading import Reading

from .test_method_reading import reading
from .test_plain_recipes import kinds, step


def eaten_of(found: Reading, component: str) -> float:
    shares = {each["id"]: each.get("eaten_fraction", 1.0) for each in found.recipe["components"]}
    return float(shares[component])


GAMMON = ["1 gammon joint, 1.5 kg", "6 peppercorns", "1 tbsp pickling spices", "1 onion"]


@pytest.mark.parametrize(
    "along", ["the peppercorns", "the spices", "a bay leaf and the peppercorns", "the onion"]
)
@pytest.mark.parametrize("cover", ["cover with 4 litres of water", "cover with cold water"])
def test_it_boils_with_the_spices_that_go_along(along: str, cover: str) -> None:
    found = reading(
        GAMMON,
        f"Rinse the gammon. Put it in a big pot with {along} and {cover}. Simmer for 2 hours. Lift it out."
        " Throw away the water.",
    )
    pot = step(found, "boil")
    assert "gammon-joint" in pot["food"]
    assert pot["duration_h"] == 2.0
    assert eaten_of(found, "water") == 0.0


def test_spices_that_are_soaked_are_no_meat() -> None:
    found = reading(
        ["1 kg pork", "4 dried chillies"], "Toast the chillies. Cover with hot water for 20 minutes. Drain."
    )
    assert "boil" not in kinds(found)


@pytest.mark.parametrize(
    "said",
    [
        "The broth is too salty for anything, away with it.",
        "The broth is too salty for anything.",
        "The water will be too salty to use.",
    ],
)
def test_a_liquor_that_is_too_salty_is_thrown_away(said: str) -> None:
    found = reading(
        ["1 salted ham, 3 kg", "1 onion, 1 carrot"],
        f"Cover with cold water, add onion and carrot. Boil and simmer for 2 hours. Lift it out. {said}",
    )
    assert step(found, "boil")["duration_h"] == 2.0
    assert eaten_of(found, "water") == 0.0


@pytest.mark.parametrize(
    "between", ["", "Drain the tuna. ", "Drain the tuna. Fry the garlic in the oil. Add the tuna. "]
)
@pytest.mark.parametrize(
    ("end", "hours"),
    [
        ("When the penne are done (10 minutes for mine) drain them.", 1 / 6),
        ("When the penne are cooked (about 10 minutes), drain them.", 1 / 6),
        ("When the penne are done drain them.", None),
    ],
)
def test_what_is_drained_at_last_boiled_in_the_pot_that_is_on(
    between: str, end: str, hours: float | None
) -> None:
    found = reading(
        ["300 g penne", "1 can of tuna", "2 cloves garlic", "olive oil"],
        f"Boil a big pot of salted water and throw in the penne. {between}{end} Mix.",
    )
    pots = [each for each in found.recipe["steps"] if each["kind"] == "boil"]
    assert [each["food"] for each in pots] == ["penne"]
    assert pots[0].get("duration_h") == (None if hours is None else pytest.approx(hours, abs=1e-3))


@pytest.mark.parametrize(
    "dressed",
    [
        "Pour the hot broth, the vinegar, salt and the onion in dice over them. Leave for half an hour.",
        "Pour the hot broth, the vinegar and the salt over them. Leave for half an hour.",
    ],
)
def test_a_dressing_with_onions_is_no_brine_of_onions(dressed: str) -> None:
    found = reading(
        ["1.5 kg waxy potatoes", "1 onion", "250 ml hot meat broth", "5 tbsp vinegar", "1 tsp salt"],
        f"Cook the potatoes in salted water for 25 min. Drain, peel and cut into slices. {dressed}",
    )
    assert kinds(found) == ["boil"]


@pytest.mark.parametrize(
    "said",
    ["No more salt!", "It needs no more salt.", "I add no further salt.", "It wants no more salt, really."],
)
def test_no_more_salt_is_none(said: str) -> None:
    found = reading(["1 chicken", "50 g butter"], f"Roast the chicken with the butter for 1 hour. {said}")
    assert "salt" not in str(found.recipe)


def test_a_limit_denies_nothing() -> None:
    found = reading(
        ["300 g peas", "1 tbsp salt"], "Boil the peas with the salt for two minutes, no more. Drain."
    )
    assert step(found, "boil")["duration_h"] == pytest.approx(1 / 30, abs=1e-3)


@pytest.mark.parametrize(
    "before",
    [
        "Lay the pork in a brine of the salt and water for 5 days.",
        "Bring the water to the boil with the salt, let it cool, lay the pork in it for 5 days.",
    ],
)
def test_meat_that_was_cured_for_days_boils_like_bought_ham(before: str) -> None:
    found = reading(
        ["1.5 kg pork shoulder", "100 g salt", "2 litres water", "1 onion", "2 carrots", "500 g potatoes"],
        f"{before} Rinse it. Put it in a pot, cover with fresh water, and add the onion and carrots."
        " Simmer for 3 hours. Take out the meat. Boil the potatoes in the broth for 20 minutes.",
    )
    assert kinds(found) == ["brine", "rinse", "boil", "boil"]
    assert eaten_of(found, "water") == 0.0


def test_meat_that_was_salted_overnight_is_stewed_with_its_roots() -> None:
    found = reading(
        ["1 kg beef shin", "2 tsp salt", "1 onion", "2 carrots"],
        "Salt the beef and leave it overnight. Put it in a pot, cover with water, add the onion and carrots."
        " Simmer for 3 hours. Serve.",
    )
    assert all(share > 0.5 for share in (eaten_of(found, each["id"]) for each in found.recipe["components"]))


@pytest.mark.parametrize(
    "said",
    [
        "Put a pot of water on, not too much salt. Cook the pasta",
        "Cook the pasta in water with not too much salt",
    ],
)
def test_water_with_not_too_much_salt_is_salted(said: str) -> None:
    found = reading(["400 g spaghetti", "80 g pecorino"], f"{said} for 9 minutes, drain.")
    assert "g salt" in str(found.recipe)


def test_wine_in_which_mussels_open_is_no_marinade() -> None:
    found = reading(
        ["1 kg mussels", "1 glass white wine", "2 shallots", "30 g butter"],
        "Sweat the shallots in the butter, add the wine and the mussels, lid on, 4 minutes. Lift them out."
        " Boil the liquor down and pour it over.",
    )
    assert kinds(found) == []
