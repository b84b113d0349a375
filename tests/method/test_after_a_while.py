"""What is salted and, after a while that the same sentence tells, wrung out, rinsed or poured off."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import kinds, step


@pytest.mark.parametrize(
    ("said", "hours", "then"),
    [
        ("Salt the radishes and after half an hour squeeze.", 0.5, ["squeeze"]),
        ("Rub the salt into the radishes and after a couple of hours wring them out.", 2.0, ["squeeze"]),
        ("Salt the radishes, and after 20 minutes rinse.", 0.333, ["rinse"]),
        ("Salt the radishes, after an hour rinse them.", 1.0, ["rinse"]),
        ("Salt the radishes, and after half an hour pour off the juice.", 0.5, []),
        ("Salt the radishes and after about an hour pour the juice off.", 1.0, []),
        ("Salt the radishes, and after half an hour throw the juice away.", 0.5, []),
        ("Sprinkle the radishes with the salt, and after an hour or so drain off the liquid.", 1.0, []),
    ],
)
def test_what_is_salted_leaves_its_juice_after_a_while(said: str, hours: float, then: list[str]) -> None:
    found = reading(["500 g radishes", "2 tsp salt"], said)
    assert kinds(found) == ["dry_cure", *then]
    assert step(found, "dry_cure")["duration_h"] == pytest.approx(hours, abs=0.01)


@pytest.mark.parametrize(
    "said",
    [
        "Salt the chicken, and after half an hour pour the lemon over it. Fry.",
        "Salt the chicken and fry it, and after half an hour pour in the lemon.",
    ],
)
def test_what_is_poured_on_after_a_while_takes_no_salt_away(said: str) -> None:
    assert "rinse" not in kinds(found := reading(["500 g chicken", "1 tsp salt", "1 lemon"], said))
    assert all(each.get("eaten_fraction", 1) == 1 for each in found.recipe["components"])
