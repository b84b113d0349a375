"""The line "salt", of no amount, that salts a pot whose food is in it already, and the dish as well."""

from __future__ import annotations

import pytest
from saltledger.method.forms import written_of
from saltledger.method.method_reading import read

LINES = ["1 kg potatoes", "50 g butter", "salt"]


def salts(method: str, lines: list[str] = LINES) -> dict[str, list[str]]:
    """The salt of each component."""
    made = read(written_of({"title": "t", "servings": 4, "ingredients": lines, "method": [method]})).recipe
    said = {
        c["id"]: [i if isinstance(i, str) else i["line"] for i in c["ingredients"]]
        for c in made["components"]
    }
    return {name: [line for line in each if "salt" in line] for name, each in said.items()}


@pytest.mark.parametrize("salted", ["salt it", "salt the water", "salt it well", "salt generously"])
@pytest.mark.parametrize(
    "begins", ["Cover the potatoes with cold water, {}", "Put the potatoes in a pot of cold water, {}"]
)
@pytest.mark.parametrize(
    "seasons", ["Mash with the butter and a little salt.", "Mash with the butter. Season with salt."]
)
def test_salt_is_of_the_pot_and_of_the_dish(begins: str, salted: str, seasons: str) -> None:
    found = salts(f"{begins.format(salted)} and boil for 20 minutes. Drain. {seasons}")
    assert found["water"]
    assert found["dish"] == ["salt"]


def test_salt_of_the_pot_alone_stays_there() -> None:
    found = salts(
        "Cover the potatoes with cold water, salt it and boil for 20 minutes. Drain and butter them."
    )
    assert found["water"]
    assert not found["dish"]


@pytest.mark.parametrize("amount", ["half a teaspoon", "a half teaspoon", "1/2 teaspoon"])
def test_salt_and_pepper_together_are_weighed(amount: str) -> None:
    found = salts(
        f"Boil the potatoes and drain. Mash with {amount} of salt and pepper.", [*LINES[:2], "salt, pepper"]
    )
    assert found["dish"] == ["0.25 teaspoon salt"]
