"""What is said of a bath besides its figures: strength, cover, size, and whether the time is enough."""

import pytest
from saltledger.core.spread import Spread
from saltledger.transfer.bath_notices import bath_notices, centre_notices, strength_notices
from saltledger.transfer.bath_requests import BathRequest

from .test_bath_requests import document


def asked(*args, **changes):
    return BathRequest.from_document(document(*args, **changes))


def said(*args, **changes):
    return {notice.code: notice for notice in bath_notices(asked(*args, **changes))}


def test_an_ordinary_brine_is_left_alone():
    assert said() == {}


@pytest.mark.parametrize(
    ("percent", "celsius", "codes"),
    [
        (20.0, 5.0, set()),
        (26.2, 5.0, set()),
        (26.5, 5.0, {"brine-saturated"}),
        (5.0, -2.9, set()),
        (5.0, -3.2, {"brine-freezes"}),
        (10.0, -6.4, set()),
        (10.0, -6.8, {"brine-freezes"}),
    ],
)
def test_a_brine_by_its_strength_and_warmth(percent, celsius, codes):
    """A handbook's table: saturated at 26.3 %, 5 % freezes at -3 C and 10 % at -6.6 C."""
    assert {notice.code for notice in strength_notices(percent, celsius)} == codes


def test_what_is_too_strong_or_too_cold_is_told_with_its_figures():
    (strong,) = strength_notices(30.0, 5.0)
    assert "30 % salt, but water holds 26.3 % at most" in strong.message
    assert (strong.severity, strong.pointer) == ("check", "/bath")
    (cold,) = strength_notices(5.0, -5.0)
    assert "at -5 °C part of it is ice" in cold.message
    assert (cold.severity, cold.pointer) == ("check", "/temperature_c")


def test_a_bath_without_salt_and_a_dry_cure_have_words_of_their_own():
    assert set(said(bath={"salt_g": 0})) == {"bath-without-salt"}
    assert set(said(bath={"water_g": 0})) == {"dry-cure-run-off"}


@pytest.mark.parametrize(("water_g", "severity"), [(200, "check"), (1500, None)])
def test_so_little_liquid_covers_nothing(water_g, severity):
    found = said(bath={"water_g": water_g, "salt_g": 10})
    assert getattr(found.get("bath-does-not-cover"), "severity", None) == severity


def test_a_stated_water_content_counts_for_the_cover():
    """Drier food needs less liquid around it."""
    bath = {"water_g": 480, "salt_g": 20}
    assert "bath-does-not-cover" in said({"water_fraction": 0.75}, bath=bath)
    assert "bath-does-not-cover" not in said({"water_fraction": 0.3}, bath=bath)


@pytest.mark.parametrize(
    ("food", "most_cm"),
    [
        ({"shape": "sphere"}, (6 * 1400 / 1.06 / 3.14159265) ** (1 / 3)),
        ({"shape": "sheet"}, 1.25 * (1400 / 1.06) ** (1 / 3)),
        ({"shape": "short_cylinder", "length_cm": 20}, (4 * 1400 / 1.06 / 3.14159265 / 20) ** 0.5),
        ({"shape": "brick", "length_cm": 20, "width_cm": 10}, 1400 / 1.06 / 20 / 10),
    ],
    ids=lambda value: value["shape"] if isinstance(value, dict) else "",
)
def test_a_piece_is_no_thicker_than_its_weight_allows(food, most_cm):
    """Meat of 1.06 g/cm3; a twentieth more is let pass, and a sheet may be a quarter thicker than a cube."""
    fits = said({**food, "thickness_cm": round(most_cm * 1.04, 3)})
    beyond = said({**food, "thickness_cm": round(most_cm * 1.06, 3)})
    assert "thickness-beyond-weight" not in fits
    assert beyond["thickness-beyond-weight"].severity == "check"
    assert food["shape"].replace("_", " ") in beyond["thickness-beyond-weight"].message


def test_of_a_long_cylinder_nothing_can_be_said():
    assert "thickness-beyond-weight" not in said({"shape": "cylinder", "thickness_cm": 25})


READY, COLOURED = Spread(60.0, 80.0, 120.0), Spread(50.0, 90.0, 200.0)


@pytest.mark.parametrize(
    ("hours", "coloured", "codes"),
    [
        (61.0, None, set()),
        (60.0, None, set()),
        (59.0, None, {"centre-not-ready"}),
        (89.0, COLOURED, {"cure-short-of-centre", "cure-centre-estimate"}),
        (90.0, COLOURED, {"cure-centre-estimate"}),
        (59.0, COLOURED, {"centre-not-ready", "cure-short-of-centre", "cure-centre-estimate"}),
    ],
)
def test_whether_the_time_brings_salt_and_colour_to_the_centre(hours, coloured, codes):
    told = {notice.code: notice for notice in centre_notices(asked(duration_h=hours), READY, coloured)}
    assert set(told) == codes
    if "cure-short-of-centre" in told:
        assert told["cure-short-of-centre"].severity == "check"
        assert "about 90 h (50 to 200 h)" in told["cure-short-of-centre"].message
    if "centre-not-ready" in told:
        assert f"After {hours:g} h" in told["centre-not-ready"].message
        assert "80 h (60 to 120 h)" in told["centre-not-ready"].message
        assert told["centre-not-ready"].severity == "check"
