"""Pieces by size and by the faces that are open."""

from __future__ import annotations

import numpy as np
import pytest
from saltledger.core.errors import InvalidRequest
from saltledger.recipe.pool_rows import SODIUM
from saltledger.recipe.single_bath import bath_answer
from saltledger.transfer.bath_requests import BathRequest

from tests.recipe.dishes import PORK, SALT, WATER, answered, cooked, item, part, recipe, step

SALMON = "15076"


def brined(line_or_food, *, thickness_cm=3.0, hours=4.0, kind="brine", **measures):
    bath = part("bath", item(WATER, 3000), item(SALT, 200), eaten_fraction=0)
    size = {} if thickness_cm is None else {"thickness_cm": thickness_cm}
    done = step(kind, "fillet", "bath", duration_h=hours, **size, **measures)
    return recipe([part("fillet", line_or_food), bath], [done])


def taken_mg(document):
    outcome = cooked(document)
    raw = cooked({**document, "steps": []})
    return outcome.eaten[SODIUM] - raw.eaten[SODIUM]


@pytest.mark.parametrize("kind", ["brine", "marinate", "dry_cure", "simmer"])
def test_a_fillet_on_its_skin_takes_less(kind):
    """Early uptake goes by the surface: half of it, and what clings to the skin as well."""
    hours = 0.1 if kind == "simmer" else 2
    both, one = (taken_mg(brined(item(SALMON, 800), hours=hours, kind=kind, open_faces=n)) for n in (2, 1))
    assert (one < both).all()
    assert 0.35 < one[0] / both[0] < 0.75


def test_one_face_is_half_of_a_piece_twice_as_thick():
    """But for swelling and film, which go by the piece: so the bath alone is asked, by share of rest."""

    def reached(**food):
        asked = {
            "food": {"class": "pork", "weight_g": 1000, **food},
            "bath": {"water_g": 3000, "salt_g": 150},
            "temperature_c": 3,
            "duration_h": 200,
        }
        return bath_answer(BathRequest.from_document(asked))

    one, twice = reached(thickness_cm=3, open_faces=1), reached(thickness_cm=6)
    assert one["reached"]["mean_percent"] == pytest.approx(twice["reached"]["mean_percent"], rel=0.02)
    assert one["reached"]["centre_percent"] == pytest.approx(twice["reached"]["centre_percent"], rel=0.1)


@pytest.mark.parametrize(
    ("line", "faces"),
    [
        ("800 g skin-on salmon fillets", 1),
        ("800 g salmon fillets", 2),
        ("1.2 kg pork belly, rind on", 1),
        ("1.2 kg pork belly, skinless", 2),
        ("4 chicken thighs, skin-on", 2),
    ],
)
def test_the_line_tells_of_the_skin(line, faces):
    said = answered(brined(line, thickness_cm=None, kind="dry_cure"))["assumptions"]
    found = [each for each in said if each["id"].endswith("/open-faces")]
    assert [each["value"] for each in found] == ([1] if faces == 1 else [])


def test_what_the_caller_states_goes_before_the_line():
    stated = brined("800 g skin-on salmon fillets", open_faces=2)
    plain = brined("800 g salmon fillets")
    np.testing.assert_allclose(taken_mg(stated), taken_mg(plain))


def test_round_pieces_have_no_faces():
    with pytest.raises(InvalidRequest) as refused:
        cooked(brined(item(PORK, 800), shape="cylinder", open_faces=1))
    (fault,) = refused.value.faults
    assert (fault.pointer, fault.message[:24]) == ("/steps/0/open_faces", "A cylinder has no faces;")


def test_kinds_that_use_no_faces_refuse_them():
    with pytest.raises(InvalidRequest) as refused:
        cooked(recipe([part("fillet", item(SALMON, 800))], [step("roast", "fillet", open_faces=1)]))
    assert [fault.pointer for fault in refused.value.faults] == ["/steps/0/open_faces"]
