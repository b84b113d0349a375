"""What holds of every kind of step there is, whatever its row of step_kinds.csv says: its example is done to
the canteen's loin, pickle, roots, pot, flour and gravy."""

from __future__ import annotations

import copy
import json
from dataclasses import fields
from functools import cache
from typing import Any

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from saltledger.core.errors import InvalidRequest
from saltledger.core.step_kinds import step_kinds
from saltledger.recipe.pool_rows import LABILE, ROW
from saltledger.recipe.request import StepRequest

from .dishes import CARROTS, FLOUR, OIL, PORK, SALT, SUGAR, answered, cooked, item, part, recipe
from .dishes import WATER as TAP

KINDS = tuple(step_kinds())
TIMED = tuple(name for name, kind in step_kinds().items() if "duration_h" in kind.uses)
SOLUTES = ("NA", "K", "CLD", "NITRI", "NITRA", "SUGAR", "P", "WATER", "WEIGHT", "FAT", "PROCNT")
SETTINGS = settings(
    max_examples=3, deadline=None, derandomize=True, suppress_health_check=[HealthCheck.too_slow]
)
BY_HAND = {"reduce": {"yield_fraction": 1.0}, "soak": {"water_changes": 0}}
"""What a kind states besides its time, where it stands for no change."""
HOT_SMOKE = 0.03
"""Hot smoke cooks and dries by turns: halves differ a little in what the juice takes along."""

SAMPLES: dict[str, Any] = {
    "bath": "gravy",
    "duration_h": 7.7,
    "temperature_c": 11.0,
    "core_temperature_c": 51.0,
    "thickness_cm": 2.2,
    "length_cm": 9.0,
    "width_cm": 8.0,
    "shape": "sphere",
    "open_faces": 1,
    "food_class": "fish_fatty",
    "product_class": "dry_cured",
    "scheme": "eu",
    "water_changes": 2,
    "untaken_fraction": 0.4,
    "rinsed": True,
    "weight_before_g": 1100.0,
    "weight_after_g": 700.0,
    "absorption_factor": 0.31,
    "yield_fraction": 0.61,
    "discarded_g": 130.0,
    "pick_up_percent": 17.0,
    "sodium_after_mg_per_100g": 333.0,
    "pump_percent": 23.0,
    "into": "gravy",
    "share": 0.37,
}


def kitchen(*steps: dict[str, Any]) -> dict[str, Any]:
    salts = [item(SALT, 90), item("SL0011", 30), item("SL0002", 4), item(SUGAR, 25), item("SL0026", 5)]
    return recipe(
        [
            part("loin", item(PORK, 1000), item(SALT, 8), eaten_fraction=1),
            part("pickle", item(TAP, 1500), *salts, eaten_fraction=0.3),
            part("roots", item(CARROTS, 600), item(SALT, 13), eaten_fraction=1),
            part("pot", item(TAP, 1800), item(SALT, 9), item(OIL, 30), eaten_fraction=0.5),
            part("flour", item(FLOUR, 300), item(SALT, 60), eaten_fraction=0),
            part("gravy", item(TAP, 200), eaten_fraction=1),
        ],
        copy.deepcopy(list(steps)),
    )


@cache
def example(kind: str) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(step_kinds()[kind].example)
    return found


def with_hours(kind: str, hours: float) -> dict[str, Any]:
    return {**example(kind), **BY_HAND.get(kind, {}), "duration_h": hours}


def ended(document: dict[str, Any]) -> dict[str, Any]:
    """Every place at the end, every row, every draw; what is not eaten has one of two names by its role."""
    pools = dict(cooked(document).state.pools.amounts)
    pools["not_eaten"] = pools["not_eaten"] + pools.pop("poured_away")
    return pools


def agree(one: dict[str, Any], other: dict[str, Any], rel: float) -> None:
    whole = sum(one.values())
    scale = np.maximum(np.abs(whole).max(axis=1), 1e-6)[:, np.newaxis]
    for place, held in one.items():
        off = np.abs(held - other[place]) / scale
        off[ROW["ENERC"]] /= 500  # frying fat and the food's own are of one energy as they leave
        off[LABILE] /= 2_000  # heat destroys vitamins in the food and in what it lost by turns
        row = int(off.max(axis=1).argmax())
        assert off.max() < rel, (place, list(ROW)[row], off.max())


@pytest.mark.parametrize("kind", KINDS)
def test_every_solute_is_all_there_in_every_draw(kind):
    pools = cooked(kitchen(example(kind))).state.pools
    for tag in SOLUTES:
        whole = sum(pool[ROW[tag]] for pool in pools.amounts.values())
        np.testing.assert_allclose(whole, pools.brought[ROW[tag]], rtol=1e-9, atol=1e-9)
    assert all(pool.min() > -1e-9 for pool in pools.amounts.values())


@pytest.mark.parametrize("kind", TIMED)
def test_no_time_moves_nothing(kind):
    agree(ended(kitchen(with_hours(kind, 0.0))), ended(kitchen()), 1e-8)


@pytest.mark.parametrize("kind", TIMED)
@SETTINGS
@given(share=st.floats(0.05, 0.95), times=st.floats(0.1, 2.0))
def test_a_step_split_in_two_is_the_step(kind, share, times):
    hours = times * example(kind).get("duration_h", 1.0)
    whole = ended(kitchen(with_hours(kind, hours)))
    parts = (with_hours(kind, hours * share), with_hours(kind, hours * (1 - share)))
    agree(ended(kitchen(*parts)), whole, HOT_SMOKE if kind == "smoke" else 1e-4)


@pytest.mark.parametrize("kind", TIMED)
def test_three_steps_in_a_row_are_one(kind):
    hours = example(kind).get("duration_h", 1.0)
    parts = [with_hours(kind, hours * share) for share in (0.2, 0.5, 0.3)]
    close = HOT_SMOKE if kind == "smoke" else 1e-4
    agree(ended(kitchen(*parts)), ended(kitchen(with_hours(kind, hours))), close)


@pytest.mark.parametrize("kind", KINDS)
def test_the_order_of_components_and_lines_moves_no_end_of_a_range(kind):
    document = kitchen(example(kind))
    turned = copy.deepcopy(document)
    turned["components"].reverse()
    for component in turned["components"]:
        component["ingredients"].reverse()
    np.testing.assert_allclose(cooked(turned).eaten, cooked(document).eaten, rtol=1e-9, atol=1e-9)
    one, other = (answered(each)["sodium"]["per_serving_mg"] for each in (document, turned))
    assert one == pytest.approx(other)


def of_two(kind: str) -> dict[str, Any]:
    """The same with the food as two components, of two fifths and three."""
    document = kitchen(example(kind))
    name = document["steps"][0]["food"]
    at = [each["id"] for each in document["components"]].index(name)
    for id, share in ((name, 0.4), ("other", 0.6)):
        split = copy.deepcopy(document["components"][at if id == name else -1])
        for ingredient in split["ingredients"]:
            ingredient["grams"] *= share
        if id == name:
            twin = copy.deepcopy(document["components"][at])
            document["components"][at] = split
            document["components"].append(twin)
        else:
            document["components"][-1] = {**split, "id": id}
    document["steps"][0]["food"] = [name, "other"]
    return document


@pytest.mark.parametrize(
    "kind", [kind for kind in KINDS if not {"discarded_g", "weight_after_g"} & set(example(kind))]
)
def test_one_food_as_two_components_has_the_range_of_one(kind):
    one, two = cooked(kitchen(example(kind))).eaten, cooked(of_two(kind)).eaten
    scale = np.maximum(np.abs(one).max(axis=1), 1e-6)[:, np.newaxis]
    off = np.abs(one - two) / scale
    assert off.max() < 1e-7, list(ROW)[int(off.max(axis=1).argmax())]


def _lent(amounts: Any) -> Any:
    protein, fat, carbohydrate, fibre, alcohol, energy = (
        amounts[ROW[tag]] for tag in ("PROCNT", "FAT", "CHOCDF", "FIBTG", "ALC", "ENERC")
    )
    return energy / (4 * protein + 9 * fat + 4 * np.maximum(carbohydrate - fibre, 0) + 7 * alcohol)


@pytest.mark.parametrize("kind", KINDS)
def test_energy_follows_the_macronutrients(kind):
    """Within what the dataset's own rows are off (raw carrots are at 1.24), in every draw and place."""
    for pool in ended(kitchen(example(kind))).values():
        held = pool[:, pool[ROW["ENERC"]] > 1.0]
        if held.size:
            assert (_lent(held) > 0.8).all()
            assert (_lent(held) < 1.27).all()
    whole = _lent(sum(ended(kitchen(example(kind))).values()))
    np.testing.assert_allclose(whole, _lent(sum(ended(kitchen()).values())), rtol=1e-9)


@pytest.mark.parametrize("kind", KINDS)
def test_every_field_that_a_kind_does_not_use_is_refused_by_name(kind):
    known = {field.name for field in fields(StepRequest)} - {"index", "kind", "food"}
    assert known == set(SAMPLES)
    for name in sorted(known - step_kinds()[kind].uses):
        with pytest.raises(InvalidRequest) as refused:
            cooked(kitchen({**example(kind), name: SAMPLES[name]}))
        faults = {fault.pointer: fault.message for fault in refused.value.faults}
        assert f"does not use {name}" in faults[f"/steps/0/{name}"], (name, faults)


SIZE = frozenset({"thickness_cm", "length_cm", "width_cm", "shape"})
QUIET: dict[str, frozenset[str]] = {
    "steam": SIZE,
    "roast": SIZE,
    "sous_vide": SIZE,
    "drain": frozenset({"food_class", "rinsed"}),
    "press": frozenset({"food_class", "yield_fraction"}),
    "rest": SIZE | {"duration_h", "temperature_c", "food_class", "untaken_fraction", "open_faces"},
    "reduce": frozenset({"duration_h", "temperature_c"}),
}
"""Fields that count elsewhere: sizes in an oven for what its heat brings to the centre (tests/safety),
rinsing for cans, the time of boiling down for alcohol, kind and yield where no weight tells what is pressed
out, and a rest for the bath after it (test_steps_in_a_row.py)."""
TOLD = {"product_class", "scheme", "weight_before_g", "core_temperature_c"}
"""What counts where there is a cure (tests/curing), with a weight afterwards, and in meat (tests/safety)."""


def _told(step: dict[str, Any]) -> Any:
    answer = answered(kitchen(step))
    return {key: answer[key] for key in ("per_serving", "sodium", "notices", "assumptions")}


@pytest.mark.parametrize("kind", KINDS)
def test_every_field_that_a_kind_uses_counts(kind):
    plain = _told(example(kind))
    for name in sorted(step_kinds()[kind].uses - TOLD - QUIET.get(kind, frozenset())):
        asked, before = {**example(kind), name: SAMPLES[name]}, plain
        if name in ("length_cm", "width_cm"):
            asked |= {"shape": "brick", "length_cm": 9.0, "width_cm": 8.0}
            before, asked = _told(asked), {**asked, name: 3.0}
        if asked == example(kind):
            continue
        try:
            found = _told(asked)
        except InvalidRequest as refused:
            found = [fault.message for fault in refused.faults]  # with another field it is one too many
        assert found != before, name
