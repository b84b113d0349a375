"""Salty food that lies in cold water; the time is told in another clause, or by what is done next."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import kinds, step


@pytest.mark.parametrize(
    ("said", "hours"),
    [
        ("Pour cold water over the cod and leave for a day. Drain. Stew it with the onion.", 24.0),
        ("Pour fresh water over the cod. Leave for a day. Drain. Stew it with the onion.", 24.0),
        ("Cover the cod with cold water. After 24 hours stew it with the onion.", 24.0),
        ("Cover the cod with cold water. After 24 hours drain, and stew it with the onion.", 24.0),
        ("Put the cod in cold water. The next day, stew it with the onion.", 12.0),
        ("Put the cod in cold water. The next day drain it and stew it with the onion.", 12.0),
        ("Cover the cod with cold water. Next morning, fry it with the onion.", 12.0),
    ],
)
def test_what_lay_in_water_soaked(said: str, hours: float) -> None:
    found = reading(["500 g salt cod", "1 onion"], said)
    assert kinds(found)[:1] == ["soak"]
    assert step(found, "soak")["duration_h"] == hours


def test_beans_lie_there_too() -> None:
    said = "Cover the beans with cold water. After 8 hours boil them with the onion."
    assert kinds(reading(["500 g beans", "1 onion"], said)) == ["soak"]


@pytest.mark.parametrize(
    ("lines", "said", "steps"),
    [
        (
            ["1 ham"],
            "Pour cold water over the ham. Bring to the boil and simmer for 2 hours. Drain.",
            ["boil"],
        ),
        (["500 g cod", "1 onion"], "Pour cold water over the cod and stew it with the onion.", []),
        (["1 kg beef", "1 l stock"], "Simmer the beef in the stock. After 8 hours boil the stock down.", []),
    ],
)
def test_what_goes_on_the_fire_does_not(lines: list[str], said: str, steps: list[str]) -> None:
    assert kinds(reading(lines, said)) == steps
