"""Times that stand in no plain "for an hour", and times of a liquor that are none of its food."""

from __future__ import annotations

from typing import Any

import pytest
from saltledger.method.forms import written_of
from saltledger.method.method_reading import read


def steps_of(lines: list[str], *method: str) -> list[dict[str, Any]]:
    document = {"title": "Supper", "servings": 4, "ingredients": lines, "method": list(method)}
    return [dict(step) for step in read(written_of(document)).recipe.get("steps", ())]


def minutes(step: dict[str, Any]) -> float | None:
    return None if step.get("duration_h") is None else round(step["duration_h"] * 60, 1)


@pytest.mark.parametrize("food", ["a thick piece", "it", "the stalk"])
@pytest.mark.parametrize("turns_out", ["bend without snapping", "taste mild", "be limp"])
def test_what_a_brine_does_after_so_long_is_how_long_it_takes(food: str, turns_out: str) -> None:
    lines = ["1 Chinese cabbage, 1.2 kg", "120 g salt", "1.5 litres water"]
    said = (
        f"Stir the salt into the water and push the cabbage under. After 2 hours {food} should {turns_out}."
    )
    brine, *_ = steps_of(lines, said, "Rinse the cabbage three times.")
    assert (brine["kind"], minutes(brine)) == ("brine", 120.0)


@pytest.mark.parametrize("laid", ["Lay", "Put", "Place"])
@pytest.mark.parametrize("it", ["it", "the water"])
def test_water_changed_where_the_fish_is_laid_in_it(laid: str, it: str) -> None:
    said = f"{laid} the cod in cold water, changing {it} three times."
    (soak,) = steps_of(["500 g salt cod"], said, "After 24 hours it should taste mild. Drain.")
    assert (soak["kind"], minutes(soak), soak["water_changes"]) == ("soak", 1440.0, 3)


@pytest.mark.parametrize(("count", "seconds"), [("thirty", 30), ("60", 60), ("twenty", 20)])
@pytest.mark.parametrize("counted", ["count to {}", "for a slow count of {}"])
def test_seconds_that_are_counted(count: str, seconds: float, counted: str) -> None:
    said = f"Drop the spinach in a pot of boiling salted water, {counted.format(count)}, then drain."
    boil, *_ = steps_of(["500 g spinach", "1 tbsp salt"], said)
    assert boil["duration_h"] == pytest.approx(seconds / 3600, abs=1e-4)


@pytest.mark.parametrize(
    ("told", "wanted"),
    [
        ("until brown on both sides, about 3 minutes each", 6.0),
        ("3 minutes a side", 6.0),
        ("for about 3 minutes", 3.0),
    ],
)
def test_a_time_for_each_of_two_sides(told: str, wanted: float) -> None:
    fry = steps_of(
        ["3 aubergines", "100 g flour", "1 l oil for frying"],
        f"Dust the aubergines with the flour. Fry in the hot oil {told}. Drain on paper.",
    )[-1]
    assert (fry["kind"], minutes(fry)) == ("fry", wanted)


@pytest.mark.parametrize("vessel", ["a fish kettle", "a wide pan", "a large pot"])
def test_the_time_of_a_liquor_is_none_of_the_fish(vessel: str) -> None:
    lines = ["For the poaching liquor", "2 litres water", "1 carrot, sliced", "25 g salt", "2 bay leaves"]
    poach, *more = steps_of(
        [*lines, "To serve", "900 g salmon fillet", "200 g yoghurt"],
        f"Place all the ingredients for the poaching liquor in {vessel}.",
        "Bring to the boil and simmer for 20 minutes.",
        "Lower in the salmon. Poach for 15 minutes. Lift the salmon out. Discard the liquor and vegetables.",
    )
    assert (poach["food"], minutes(poach), more) == ("salmon-fillet", 15.0, [])


@pytest.mark.parametrize(
    "room", ["that fits the bird snugly", "just large enough to hold the bird", "with a lid"]
)
def test_how_large_a_pot_is_puts_nothing_in_it(room: str) -> None:
    boil, *more = steps_of(
        ["1 chicken, 1.5 kg", "5 slices ginger", "2 tbsp salt"],
        f"Bring 4 litres of water to the boil in a pot {room}, with the ginger and the salt.",
        "Lower in the chicken. When it boils again turn off the heat and leave it for 50 minutes.",
        "Lift it out.",
    )
    assert (boil["kind"], minutes(boil), more) == ("boil", 50.0, [])


@pytest.mark.parametrize("limit", ["no more", "no more or they go soft", "no longer, as they go soft"])
def test_a_limit_denies_nothing(limit: str) -> None:
    found = steps_of(
        ["1 kg cucumbers", "50 g salt", "500 ml vinegar", "350 g sugar"],
        "Layer the sliced cucumbers with the salt in a bowl. Leave three hours. Drain well.",
        f"Boil the vinegar and sugar. In with the cucumbers, back to the boil, one minute, {limit}.",
        "Jar hot, seal. Keep a fortnight before opening. Fork them out, the vinegar stays in the jar.",
    )
    assert [step["kind"] for step in found] == ["dry_cure", "brine"]
