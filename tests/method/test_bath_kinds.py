"""What kind of cold step food lies in (bath_kinds.py)."""

import pytest
from saltledger.method.bath_kinds import kind_of_bath

WATER, SALT = "water", "salt"


@pytest.mark.parametrize(
    ("said", "kinds", "told", "wanted"),
    [
        ("", {WATER, SALT}, {}, "brine"),
        ("", {SALT, "spice"}, {}, "dry_cure"),
        ("", {SALT, "acid"}, {}, "marinate"),
        ("", {SALT, "acid"}, {"is_paste": True}, "dry_cure"),
        ("", {"savoury", "aromatic"}, {}, "marinate"),
        ("", {SALT}, {"watery": True}, "brine"),
        ("soak", {WATER}, {}, "soak"),
        ("soak", set(), {}, "soak"),
        ("soak", {"acid"}, {}, "marinate"),
        ("soak", {WATER, SALT}, {}, "brine"),
        ("soak", set(), {"watery": True, "salty": True}, "brine"),
        ("brine", {"acid", SALT}, {}, "brine"),
        ("brine", {SALT, "oil"}, {}, "dry_cure"),
        ("pickle", {"acid"}, {}, "brine"),
        ("cure", {SALT, "oil"}, {}, "dry_cure"),
        ("cure", {SALT, "wine"}, {}, "marinate"),
        ("cure", {"sweet"}, {"watery": True}, "brine"),
        ("marinate", {WATER, SALT, "savoury"}, {}, "marinate"),
        ("marinate", {WATER}, {}, "soak"),
        ("marinade", {SALT, "spice"}, {}, "dry_cure"),
        ("marinade", {"oil", SALT}, {}, "marinate"),
    ],
)
def test_kind_hangs_on_what_is_in_it_and_on_its_name(said, kinds, told, wanted):
    assert kind_of_bath(said, kinds, **told) == wanted
