"""Salt that is brushed, wiped or dusted off what lay in it."""

from __future__ import annotations

import pytest
from saltledger.method.forms import written_of
from saltledger.method.method_reading import read

DUCK = ["4 duck legs", "50 g coarse salt", "4 sprigs thyme", "800 g duck fat"]
CURED = "Rub the legs with the salt and thyme and refrigerate for 18 hours. "
COOKED = " Melt the fat and cook the legs in it for three hours."


def cure_eaten(method: str) -> float | None:
    lines = {"title": "t", "servings": 4, "ingredients": DUCK, "method": [method]}
    components = read(written_of(lines)).recipe["components"]
    return next((c["eaten_fraction"] for c in components if c["id"] == "cure"), None)


@pytest.mark.parametrize(
    "off",
    [
        "Brush off the salt with a dry cloth.",
        "Brush off all the salt you can see with a cloth.",
        "Brush the salt off the legs with kitchen paper.",
        "Dust off the salt.",
        "Wipe off the salt.",
        "Next day brush off most of the salt, with a pastry brush.",
    ],
)
def test_salt_that_is_brushed_off_is_not_eaten(off: str) -> None:
    assert cure_eaten(CURED + off + COOKED) == 0


@pytest.mark.parametrize(
    "on", ["Brush the legs with oil.", "Dust the legs with flour.", "Brush some fat on them."]
)
def test_what_is_brushed_on_takes_no_salt_off(on: str) -> None:
    assert cure_eaten(CURED + on + COOKED) != 0
