"""Every solute by the same law, each at its own pace, in the cold and in a pot; and the weight of salts."""

from __future__ import annotations

import numpy as np
import pytest
from saltledger.recipe.pool_rows import ROW, WEIGHT
from saltledger.recipe.pools import weight_of
from saltledger.recipe.single_bath import bath_answer
from saltledger.transfer.bath_requests import BathRequest
from saltledger.transfer.diffusivity import ratio_to_salt

from ..dishes import PORK, SALT, WATER, cooked, item, part, recipe, step

KCL, BLEND, SALTPETRE, SUGAR = "SL0011", "SL0012", "SL0007", "19335"
FLESH = "15015"
"""Cod, which holds no sugar."""
TIMES = {"brine": 2.0, "simmer": 0.02}


def bathed(kind, *salts, hours, food=PORK, **measures):
    measures = {name: value for name, value in measures.items() if value is not None}
    bath = part("bath", item(WATER, 50_000), *(item(*each) for each in salts), eaten_fraction=0)
    done = step(kind, "piece", "bath", duration_h=hours, thickness_cm=4, shape="sheet", **measures)
    return cooked(recipe([part("piece", item(food, 500)), bath], [done])).state.pools


@pytest.mark.parametrize("kind", TIMES)
@pytest.mark.parametrize("salt", [SALT, KCL, BLEND, SUGAR])
def test_what_a_bath_loses_weighs_as_much_as_what_is_gone(kind, salt):
    """Water and what is dissolved in it, potassium chloride as what it is; beside fat nothing else moves."""

    def rest_g(hours):
        pools = bathed(kind, (salt, 2500), hours=hours, food=FLESH, absorption_factor=0.02 if hours else None)
        bath = pools.leading["poured_away"]
        return bath[WEIGHT] - weight_of(bath) - pools.amounts["poured_away"][ROW["FAT"]]

    np.testing.assert_allclose(rest_g(TIMES[kind]), rest_g(0.0), atol=1e-6)


@pytest.mark.parametrize("kind", TIMES)
@pytest.mark.parametrize(
    ("salt", "tag", "solute"),
    [
        (KCL, "K", "potassium"),
        (SUGAR, "SUGAR", "sugar"),
        (SALTPETRE, "NITRA", "nitrate"),
        (SALT, "CLD", "chloride"),
    ],
)
def test_early_uptake_goes_by_the_root_of_the_pace(kind, salt, tag, solute):
    """M/M of salt is the root of the ratio of diffusivities, less what film and swelling bring to both."""

    def into(code, tag):
        pools = bathed(kind, (code, 1000), hours=TIMES[kind], food=FLESH)
        none = bathed(kind, hours=TIMES[kind], food=FLESH)
        brought = pools.brought[ROW[tag], 0] - none.brought[ROW[tag], 0]
        return float(pools.amounts["eaten"][ROW[tag], 0] - none.amounts["eaten"][ROW[tag], 0]) / brought

    likely = into(salt, tag) / into(SALT, "NA")
    root = np.sqrt(ratio_to_salt(solute))
    assert min(root, 1.0) * 0.97 < likely < max(root, 1.0) * 1.06
    assert (likely < 1) == (root < 1)


def test_chloride_comes_in_with_the_ions_that_it_goes_with():
    asked = {
        "food": {"class": "pork", "weight_g": 1400, "thickness_cm": 6},
        "bath": {"water_g": 3000, "salt_g": 75, "potassium_chloride_g": 75},
        "temperature_c": 3,
        "duration_h": 72,
    }
    found = {each["solute"]: each for each in bath_answer(BathRequest.from_document(asked))["solutes"]}
    assert list(found) == ["sodium", "potassium", "chloride"]
    sodium, potassium, chloride = (found[name]["in_food_mg_per_100g"]["likely"] for name in found)
    positive = sodium / 22.98977 + potassium / 39.0983
    assert chloride / 35.453 == pytest.approx(positive, rel=0.03)
    assert potassium / 39.0983 > sodium / 22.98977 * 75 * 58.4428 / 74.5513 / 75


def test_a_salt_substitute_alone_is_a_brine():
    """It swells meat as salt does, dissolves in it, and brings no sodium."""
    asked = {
        "food": {"class": "poultry", "weight_g": 500, "thickness_cm": 3},
        "bath": {"water_g": 1500, "salt_g": 0, "potassium_chloride_g": 90},
        "temperature_c": 3,
        "duration_h": 24,
    }
    found = bath_answer(BathRequest.from_document(asked))
    assert [each["solute"] for each in found["solutes"]] == ["potassium", "chloride"]
    assert found["salt_percent_in_food"]["high"] == 0
    (swollen,) = [each["value"] for each in found["assumptions"] if each["id"] == "pick-up"]
    assert swollen > 8


def test_the_chlorides_of_the_table_are_those_of_their_salts():
    for code, grams in (("02047", 58.4428), (KCL, 74.5513)):
        held = cooked(recipe([part("salt", item(code, grams))], [])).state.pools.amounts["eaten"]
        assert held[ROW["CLD"], 0] == pytest.approx(35_453, rel=0.02)
