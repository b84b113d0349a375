"""How thick salt fish is that soaks: as said, else as the hours tell, which the calculation knows."""

from __future__ import annotations

import pytest
from saltledger.transfer.usual import desalted_cm

from .test_method_reading import reading
from .test_plain_recipes import step

COD = "500 g salt cod"


def soaked(said: str, line: str = COD, **more: object) -> dict[str, object]:
    return step(reading([line], said, **more), "soak")


@pytest.mark.parametrize("hours", [12, 24, 36])
def test_hours_tell_how_thick_it_is(hours: int) -> None:
    assert "thickness_cm" not in soaked(f"Soak the cod in cold water for {hours} hours. Drain.")


@pytest.mark.parametrize(("choice", "times"), [("thinner", 0.5), ("thicker", 1.5)])
def test_a_person_may_say_otherwise(choice: str, times: float) -> None:
    said = "Soak the cod in cold water for 12 hours, changing the water twice. Drain."
    asked = next(q for q in reading([COD], said).questions if q.id.startswith("thickness"))
    told = next(c for c in asked.choices if c.choice == choice)
    cm = desalted_cm("fish", 12) * times
    assert f"{cm:.2g}" in told.label
    answered = soaked(said, answers={asked.id: choice})
    assert answered["thickness_cm"] == pytest.approx(cm, abs=0.01)


def test_a_stated_thickness_stands() -> None:
    said = "Soak the cod in cold water for a day. Drain."
    assert soaked(said, "500 g salt cod, 4 cm thick")["thickness_cm"] == 4
    assert soaked(f"Cut the cod in 3 cm thick pieces. {said}")["thickness_cm"] == 3


def test_small_fish_are_as_thick_as_they_are() -> None:
    assert soaked("Soak the herring overnight.", "500 g salted herring fillets")["thickness_cm"] == 1.2


def test_longer_soaks_are_of_thicker_fish() -> None:
    assert desalted_cm("fish", 12) < desalted_cm("fish", None) == 2 < desalted_cm("fish", 48)
    assert desalted_cm("fish", 24) == desalted_cm("fish", None)
