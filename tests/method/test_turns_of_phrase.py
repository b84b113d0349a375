"""Other voices: kitchen shorthand, chat, old books and second languages, each class by several wordings."""

from __future__ import annotations

from typing import Any

import pytest
from saltledger.method.forms import written_of
from saltledger.method.method_reading import Reading, read


def _read(lines: list[str], *method: str) -> Reading:
    return read(written_of({"title": "", "servings": 4, "ingredients": lines, "method": list(method)}))


def _steps(reading: Reading, *kinds: str) -> list[dict[str, Any]]:
    return [step for step in reading.recipe.get("steps", ()) if step["kind"] in kinds]


@pytest.mark.parametrize(
    "said",
    [
        "Hold in brine 12 hr.",
        "Pork in, 12 hours.",
        "In goes the pork. 12 hours.",
        "Leave the pork in the brine for 12 hours.",
        "The pork sits in the brine for 12 hours.",
        "Give the pork a 12-hour soak in the brine.",
        "Pork, brine, hotel pan, 12 hr, walk-in.",
        "Make the pork rest in the brine for 12 hours.",
        "Let repose the pork in the brine 12 hours.",
        "Into this put the pork and let it be for 12 hours.",
    ],
)
def test_food_lies_in_a_brine_however_that_is_said(said: str) -> None:
    lines = ["1.5 kg pork loin", "2 l water", "120 g salt"]
    reading = _read(lines, "Dissolve the salt in the water.", said, "Roast the pork at 180 °C for 1 hour.")
    (brine,) = _steps(reading, "brine", "marinate", "soak")
    assert brine["kind"] == "brine"
    assert brine["duration_h"] == pytest.approx(12)
    assert not any("clearly" in question.message for question in reading.questions)


@pytest.mark.parametrize(
    "said",
    [
        "Out, rinse, dry.",
        "Give it a good rinse.",
        "Hose off the salt.",
        "It must be washed.",
        "Let it be well rinsed.",
        "Pass under running water.",
        "Dunk it in cold water to remove the salt.",
        "Let the tap run over it.",
    ],
)
def test_salt_is_rinsed_off_however_that_is_said(said: str) -> None:
    lines = ["1.5 kg pork belly", "150 g salt", "50 g sugar"]
    rub = "Rub the pork with the salt and sugar and refrigerate for 24 hours."
    assert len(_steps(_read(lines, rub, said, "Roast at 180 °C for 1 hour."), "rinse")) == 1


def test_what_other_people_do_is_not_done() -> None:
    lines = ["2 cucumbers", "1 tbsp salt", "100 ml sour cream"]
    salt = "Slice the cucumbers, salt them and walk away for half an hour. Squeeze them."
    for aside in ("Some people rinse first; I don't.", "My aunt would rinse them.", "Rinse them?"):
        assert not _steps(_read(lines, salt, aside, "Add the sour cream."), "rinse")
    kept = "Some people find them too salty, so rinse them well."
    assert _steps(_read(lines, "Salt the cucumbers and wait half an hour.", kept, "Squeeze them."), "rinse")


@pytest.mark.parametrize("said", ["Get rid of the marinade.", "Lose the marinade.", "Out with the marinade."])
def test_a_marinade_is_thrown_away_however_that_is_said(said: str) -> None:
    lines = ["1 kg chicken thighs", "100 ml soy sauce", "2 tbsp honey"]
    mix = "Mix the soy sauce and honey, add the chicken and marinate for 4 hours."
    reading = _read(lines, mix, said, "Grill the chicken.")
    marinade = next(c for c in reading.recipe["components"] if c["id"] == "marinade")
    assert marinade["eaten_fraction"] < 0.2


def test_a_subject_to_which_something_is_done_begins_a_clause() -> None:
    lines = ["500 g cod", "300 g potatoes", "salt"]
    said = "Flake the cod, and the potatoes get boiled in salted water for 20 minutes, drained and mashed."
    (boil,) = _steps(_read(lines, said), "boil")
    assert boil["duration_h"] == pytest.approx(1 / 3, rel=0.01)


@pytest.mark.parametrize(
    ("said", "hours"),
    [
        ("Steep the cod in water from Friday night to Sunday morning.", 35),
        ("Soak the cod in cold water for a night and a day.", 24),
        ("Soak the cod in cold water for forty-eight hours.", 48),
        ("Soak the cod in cold water for three hours and a half.", 3.5),
        ("Soak the cod in cold water 24 hours, changing it three times a day.", 24),
        ("Two days before, the cod is put in plenty of cold water.", 48),
        ("Put the cod to soak in cold water for 1½h.", 1.5),
        ("Draw the salt out of the cod in cold water for a day.", 24),
    ],
)
def test_times_in_many_voices(said: str, hours: float) -> None:
    (soak,) = _steps(_read(["800 g salt cod", "2 onions"], said, "Flake the cod and fry the onions."), "soak")
    assert soak["duration_h"] == pytest.approx(hours)


def test_a_week_day_in_another_sentence_tells_how_long_food_lies() -> None:
    lines = ["1 turkey, 12 lb", "60 g salt", "1 tbsp brown sugar"]
    said = "On the Monday mix the salt and sugar and rub it in. Then it sits in the fridge till Thursday."
    (cure,) = _steps(_read(lines, said, "Rinse. Roast for 3 hours."), "dry_cure")
    assert cure["duration_h"] == pytest.approx(72, abs=1)


def test_a_filled_dough_boils_whole_though_no_word_names_it() -> None:
    lines = ["500 g flour", "1 egg", "1/2 tsp salt", "600 g potatoes", "1 onion"]
    first = "Knead the flour, egg and salt with water. Fry the onion and mix with the mashed potatoes."
    shape = "Roll out the dough, cut circles, a spoon of filling in each, fold and pinch shut."
    reading = _read(lines, first, shape, "Boil in a wide pot of salted water, 3 minutes. Lift out.")
    (boil,) = _steps(reading, "boil")
    boiled = {
        line for c in reading.recipe["components"] if c["id"] in boil["food"] for line in c["ingredients"]
    }
    assert {"500 g flour", "600 g potatoes"} <= boiled


def test_salted_water_of_the_list_takes_the_salt_that_fits_it() -> None:
    lines = ["Salt, 200 g", "Water, 20 L", "Green beans, 5 kg", "Butter, 250 g", "Fine salt, 15 g"]
    reading = _read(
        lines, "Rolling boil, salted water. Blanch beans, 3 min. Shock. Drain.", "Toss in butter."
    )
    water = next(c for c in reading.recipe["components"] if c["id"].startswith("water"))
    assert "Salt, 200 g" in water["ingredients"]
    assert "Fine salt, 15 g" not in water["ingredients"]


@pytest.mark.parametrize(
    ("lines", "said", "kind", "hours"),
    [
        (
            ["Chicken thigh, 5 kg", "Yoghurt, 1 kg", "Lemon juice, 200 mL", "Salt, 75 g"],
            ["Marinade: yoghurt, lemon, salt. Thighs in, 24 hr.", "Drain off excess. 200 °C, 35 min."],
            "marinate",
            24,
        ),
        (
            ["Carrots, 1 kg", "Rice vinegar, 600 mL", "Water, 400 mL", "Sugar, 120 g", "Salt, 30 g"],
            ["Pickle: all except carrots to the boil. Over carrots hot. Cool, 12 hr minimum."],
            "brine",
            12,
        ),
        (
            ["Red onion, 1.5 kg", "Cider vinegar, 750 mL", "Water, 250 mL", "Salt, 40 g"],
            ["Boil liquids with the salt. Pour over onion. Hold 24 hr before use. Drain to order."],
            "brine",
            24,
        ),
        (
            ["1 leg of mutton, 10 lb", "1/2 lb salt", "1 oz saltpetre"],
            [
                "Rub the meat with the salt and saltpetre daily for a month. Wipe it, and hang it a week.",
                "When used it must be steeped a night, and boiled slowly two hours and a half.",
            ],
            "soak",
            12,
        ),
    ],
)
def test_steps_that_no_verb_or_no_liquid_names(
    lines: list[str], said: list[str], kind: str, hours: float
) -> None:
    (step,) = _steps(_read(lines, *said), kind)
    assert step["duration_h"] == pytest.approx(hours)


@pytest.mark.parametrize(
    "offers",
    [
        "Alternatively, boil the potatoes for 20 minutes and drain.",
        "You could also boil the potatoes.",
        "If you prefer, boil the potatoes in salted water instead.",
        "Another way is to boil the potatoes in salted water.",
    ],
)
def test_another_way_to_cook_is_not_done_as_well(offers: str) -> None:
    found = _read(
        ["1 kg potatoes", "50 g butter"], f"Roast the potatoes for an hour. {offers} Add the butter."
    )
    assert "steps" not in found.recipe


@pytest.mark.parametrize(
    "says",
    [
        "You can boil the potatoes or steam them.",
        "Fry the onion. You will also have to boil the potatoes.",
        "Bring water to the boil. You can also add a leaf of bay. Boil the potatoes.",
    ],
)
def test_what_is_also_done_or_may_be_done_first_is_done(says: str) -> None:
    found = _read(["1 kg potatoes", "1 onion", "50 g butter"], f"{says} Mash with the butter.")
    assert [each["kind"] for each in found.recipe["steps"]] == ["boil"]


@pytest.mark.parametrize(
    "bids",
    [
        "You will have to boil the potatoes.",
        "The potatoes need to boil for 20 minutes.",
        "It is best to boil the potatoes.",
        "Make sure to boil the potatoes.",
        "Make sure that you boil the potatoes.",
    ],
)
def test_what_is_to_be_done_is_done(bids: str) -> None:
    found = _read(["1 kg potatoes", "50 g butter"], f"{bids} Mash with the butter.")
    assert [each["kind"] for each in found.recipe["steps"]] == ["boil"]


@pytest.mark.parametrize(
    "bids",
    [
        "There is no need to boil the potatoes.",
        "You don't have to boil the potatoes.",
        "Make sure the oven is hot.",
    ],
)
def test_what_need_not_be_done_is_not(bids: str) -> None:
    found = _read(["1 kg potatoes", "50 g butter"], f"{bids} Fry the potatoes in the butter.")
    assert "steps" not in found.recipe


def test_bread_alone_heads_what_follows_and_crumbs_nothing() -> None:
    lines = ["1 tsp yeast", "300 ml water", "2 tsp salt", "500 g flour", "500 g roast pork"]
    found = _read(lines, "Bread", "Combine the bread ingredients and knead. Bake.", "Slice the pork on it.")
    assert "steps" not in found.recipe


def test_what_is_squeezed_dry_after_a_while_is_what_stood() -> None:
    method = "Slice the cucumbers thin and knead with the salt; after 10 minutes squeeze dry."
    found = _read(["2 cucumbers", "1/2 tsp salt", "2 tbsp rice vinegar"], method)
    assert [each["kind"] for each in found.recipe["steps"]] == ["dry_cure", "squeeze"]
