"""What a method says only for a case that is not this one, and what it pours off by another name."""

from __future__ import annotations

from typing import Any

import pytest
from saltledger.method.forms import written_of
from saltledger.method.method_reading import Reading, read


def reading_of(lines: list[str], *method: str) -> Reading:
    return read(written_of({"title": "Supper", "servings": 4, "ingredients": lines, "method": list(method)}))


def kinds(reading: Reading) -> list[tuple[str, Any]]:
    return [(s["kind"], s["food"]) for s in reading.recipe.get("steps", ())]


def salts(reading: Reading) -> list[Any]:
    dish = next(c for c in reading.recipe["components"] if c["id"] == "dish")
    found = (i if isinstance(i, str) else i["line"] for i in dish["ingredients"])
    return [line for line in found if "salt" in line]


@pytest.mark.parametrize("condition", ["if it's still bland", "if needed", "if it needs it", "if necessary"])
@pytest.mark.parametrize(
    ("beside", "goes_in"), [("2 tbsp soy sauce", []), ("1 tbsp vinegar", ["1 tsp salt"])]
)
def test_salt_at_need_is_asked_about(condition: str, beside: str, goes_in: list[str]) -> None:
    name = beside.split()[2]
    reading = reading_of(
        ["600 g cooked rice", beside], f"Fry the rice. Add the {name}, 1 tsp salt {condition}."
    )
    assert salts(reading) == goes_in
    assert [q.taken for q in reading.questions if q.id.startswith("at-need")] == [
        "all" if goes_in else "none"
    ]


def test_salt_without_a_condition_goes_in_unasked() -> None:
    reading = reading_of(
        ["600 g cooked rice", "2 tbsp soy sauce"], "Fry the rice. Add the soy and 1 tsp salt."
    )
    assert salts(reading) == ["1 tsp salt"]
    assert not [q for q in reading.questions if q.id.startswith("at-need")]


@pytest.mark.parametrize(
    "told", ["It has plenty of salt already", "It is salty already", "It has enough salt"]
)
def test_what_is_salty_already_gets_no_salt(told: str) -> None:
    lines = ["200 g spinach", "2 tbsp soy sauce", "250 ml dashi"]
    assert salts(reading_of(lines, f"Simmer the dashi and soy with the spinach. {told}.")) == []


@pytest.mark.parametrize("forgot", ["If you have forgotten to soak them", "If you forgot to soak the beans"])
def test_what_is_done_if_somebody_forgot_is_not_done(forgot: str) -> None:
    said = f"Soak the beans overnight. Drain. Simmer them in fresh water for an hour. {forgot}, use two tins."
    assert [kind for kind, _ in kinds(reading_of(["300 g dried beans"], said))][:1] == ["soak"]
    assert [kind for kind, _ in kinds(reading_of(["300 g dried beans"], said))].count("soak") == 1


@pytest.mark.parametrize("off", ["Pour off the potatoes", "Pour the potatoes off", "Drain the potatoes"])
@pytest.mark.parametrize("then", ["", ", keeping a cup of the water"])
def test_potatoes_that_are_poured_off_stay(off: str, then: str) -> None:
    reading = reading_of(
        ["500 g potatoes", "1 tsp salt"],
        f"Boil the potatoes in water with the salt for 25 minutes. {off}{then}.",
    )
    potatoes = next(c for c in reading.recipe["components"] if c["id"] == "potatoes")
    water = next(c for c in reading.recipe["components"] if c["id"] == "water")
    assert potatoes.get("eaten_fraction", 1.0) == 1.0
    assert water["eaten_fraction"] < 0.5


@pytest.mark.parametrize("off", ["pour off the oil", "tip away the brine", "drain off the liquid"])
@pytest.mark.parametrize("opened", ["Open the tin", "Open the can"])
def test_a_tin_that_is_opened_and_tipped_out_is_drained(opened: str, off: str) -> None:
    lines = ["1 tin of tuna in brine", "600 g potatoes", "1 tsp salt"]
    said = (
        f"Boil the potatoes in water with the salt for 20 minutes. Drain. {opened}, {off} and flake the fish."
    )
    assert kinds(reading_of(lines, said)) == [("boil", "potatoes"), ("drain", "tuna")]


@pytest.mark.parametrize("pressed", ["press with the back of a spoon", "press dry", "press out the water"])
def test_boiled_leaves_are_pressed(pressed: str) -> None:
    said = (
        f"Boil the spinach in well salted water for 2 minutes. Drain in a colander. {pressed.capitalize()}."
    )
    assert kinds(reading_of(["1 kg spinach", "salt"], said)) == [("boil", "spinach"), ("press", "spinach")]


def test_a_lid_in_a_cloth_drains_no_yoghurt() -> None:
    said = (
        "Mix the yoghurt with a little rice for the bottom. Wrap the lid in a cloth and steam for 45 minutes."
    )
    assert kinds(reading_of(["500 g rice", "3 tbsp yoghurt"], said)) == []


@pytest.mark.parametrize("under", ["till they are just under", "to cover", "until it stands over them"])
def test_salt_said_behind_how_high_the_water_stands_goes_into_it(under: str) -> None:
    reading = reading_of(
        ["1.5 kg potatoes", "150 ml milk"],
        f"Put the potatoes in a big pan with water {under}, and one teaspoon of salt.",
        "Cook 25 minutes. Drain.",
    )
    assert salts(reading) == []
