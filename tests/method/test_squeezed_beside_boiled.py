"""What is squeezed is what was spoken of last: gelatine, and not the greens that were boiled before."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import kinds, step

SPINACH = "Blanch the spinach for 2 minutes. Drain."


@pytest.mark.parametrize(
    "said",
    [
        "Soften the gelatine in cold water, squeeze, and dissolve in the hot cream.",
        "Soak the gelatine in cold water for 5 minutes, then squeeze out and melt.",
        "Let the gelatine soften in cold water, wring it out and melt it.",
    ],
)
def test_gelatine_is_squeezed_and_no_spinach(said: str) -> None:
    assert kinds(reading(["4 leaves gelatine", "500 g spinach"], f"{SPINACH} {said}")) == ["boil"]


@pytest.mark.parametrize(
    "said", ["Refresh in cold water and squeeze out.", "Cool, then squeeze dry.", "Squeeze well."]
)
def test_spinach_is(said: str) -> None:
    found = reading(["4 leaves gelatine", "500 g spinach"], f"{SPINACH} {said} Melt the gelatine.")
    assert step(found, "squeeze")["food"] == "spinach"


def test_salt_strewn_before_is_not_what_is_squeezed() -> None:
    found = reading(
        ["1 cabbage", "1 tbsp salt"], "Shred the cabbage, rub with the salt, leave for an hour and squeeze."
    )
    assert kinds(found) == ["dry_cure", "squeeze"]


def test_broth_mix_soaks() -> None:
    found = reading(
        ["4 oz broth mix", "1 lamb shank"], "Soak the broth mix in cold water overnight. Drain and rinse."
    )
    assert step(found, "soak")["food"] == "broth-mix"
