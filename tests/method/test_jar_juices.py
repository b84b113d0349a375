"""Food that lies in the juice of a jar of pickles: a part of that line, which is poured away."""

from __future__ import annotations

import pytest

from .test_method_reading import reading
from .test_plain_recipes import eaten, kinds, step


@pytest.mark.parametrize(
    ("jar", "said"),
    [
        ("1 jar dill pickles", "Marinate the chicken in the pickle juice for 4 hours."),
        ("1 jar pickles", "Brine the chicken in the pickle brine for 4 hours."),
        ("1 jar gherkins", "Brine the chicken in the juice from the gherkins for 4 hours."),
        ("1 jar olives", "Marinate the chicken in the brine of the olives for 4 hours."),
    ],
)
def test_chicken_lies_in_the_juice_of_a_jar(jar: str, said: str) -> None:
    found = reading([jar, "1 kg chicken thighs"], f"{said} Drain and grill. Serve with the rest.")
    bath = next(kind for kind in kinds(found) if kind in ("brine", "marinate"))
    assert step(found, bath)["duration_h"] == 4.0
    assert eaten(found, 0) == pytest.approx(0.6)
    assert eaten(found, 1) == 1.0


@pytest.mark.parametrize(
    "said",
    [
        "Put the chicken in a bowl, add the pickle juice and the pickles and serve.",
        "Grill the chicken. Chop the pickles and stir them with a little of their juice.",
    ],
)
def test_juice_in_a_dish_is_eaten(said: str) -> None:
    assert eaten(reading(["1 jar pickles", "1 kg cooked chicken"], said), 0) == 1.0


def test_juice_that_is_a_line_is_that_line() -> None:
    found = reading(
        ["500 ml pickle juice", "1 jar pickles", "4 pork chops"],
        "Soak the chops in the pickle juice overnight. Drain and grill. Serve with the pickles.",
    )
    assert (eaten(found, 0), eaten(found, 1)) == (0.0, 1.0)
