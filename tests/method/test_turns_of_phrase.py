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
