"""Solutes between pieces and the liquid they share."""

from __future__ import annotations

import numpy as np
import pytest
from saltledger.foods.nutrients import INDEX
from saltledger.recipe.exchange import (
    DISSOLVED,
    SALT,
    Piece,
    capacity_ratio,
    exchange,
    full_gains,
    solution,
)
from saltledger.recipe.kitchen import SALT_PER_SODIUM, SODIUM, WATER, WEIGHT, Kitchen, nothing
from saltledger.units.spread import DRAWS


def amounts(**rows: float) -> np.ndarray:
    made = nothing()
    for tag, value in rows.items():
        made[WEIGHT if tag == "WEIGHT" else INDEX[tag]] = value
    return made


def kitchen(**pools: dict[str, float]) -> Kitchen:
    made = Kitchen([*pools, "poured_away"])
    for name, rows in pools.items():
        made.bring(name, amounts(**rows))
    return made


def whole_way(piece, full):
    return full


def test_at_equilibrium_water_phases_are_alike() -> None:
    k = kitchen(
        meat={"WATER": 700, "NA": 600, "WEIGHT": 1000},
        brine={"WATER": 2100, "NA": 40000, "ASH": 110, "WEIGHT": 2210},
    )
    exchange(k, [Piece("meat")], "brine", solutes=DISSOLVED, gain=whole_way, step=0)
    assert k.pools["meat"][SODIUM] / 700 == pytest.approx(k.pools["brine"][SODIUM] / 2100)
    assert k.pools["meat"][SODIUM, 0] == pytest.approx(40600 / 4)


def test_equilibrium_factor_of_an_unsalted_food_is_its_share_of_the_water() -> None:
    k = kitchen(
        meat={"WATER": 600, "WEIGHT": 800}, brine={"WATER": 1800, "NA": 30000, "ASH": 99, "WEIGHT": 1900}
    )
    assert full_gains(k, [Piece("meat")], "brine", SALT.rows)["meat"][0] == pytest.approx(30000 * 600 / 2400)
    assert capacity_ratio(k, [Piece("meat")], "brine") == pytest.approx(3.0)


def test_closed_off_water_takes_nothing() -> None:
    k = kitchen(meat={"WATER": 600, "NA": 500, "WEIGHT": 800}, brine={"WATER": 1800, "NA": 30000, "ASH": 99})
    exchange(k, [Piece("meat", open_share=0.0)], "brine", solutes=DISSOLVED, gain=whole_way, step=0)
    assert k.pools["meat"][SODIUM] == pytest.approx(500)


def test_salty_food_gives_to_fresh_water_and_the_ledger_says_so() -> None:
    k = kitchen(
        cod={"WATER": 300, "NA": 20000, "ASH": 60, "WEIGHT": 500}, water={"WATER": 2700, "WEIGHT": 2700}
    )
    exchange(k, [Piece("cod")], "water", solutes=DISSOLVED, gain=whole_way, step=3)
    (movement,) = k.ledger
    assert (movement.source, movement.target, movement.step) == ("cod", "water", 3)
    assert movement.sodium_mg == pytest.approx(18000)
    assert k.pools["cod"][WEIGHT] == pytest.approx(500 - 18 * SALT_PER_SODIUM)


def test_pieces_never_take_more_than_the_bath_holds() -> None:
    k = kitchen(
        ham={"WATER": 100, "NA": 9000, "WEIGHT": 200},
        loin={"WATER": 5000, "WEIGHT": 7000},
        brine={"WATER": 10, "NA": 10, "WEIGHT": 10},
    )
    pieces = [Piece("ham"), Piece("loin")]
    exchange(k, pieces, "brine", solutes=DISSOLVED, gain=lambda p, full: full * (p.name == "loin"), step=0)
    assert k.pools["loin"][SODIUM] == pytest.approx(10)
    assert k.pools["brine"].min() >= 0


def test_sugar_takes_its_carbohydrate_and_energy_along() -> None:
    k = kitchen(
        meat={"WATER": 500, "WEIGHT": 700},
        brine={"WATER": 500, "SUGAR": 100, "CHOCDF": 100, "ENERC": 387, "WEIGHT": 600},
    )
    exchange(k, [Piece("meat")], "brine", solutes=DISSOLVED, gain=whole_way, step=0)
    meat = k.pools["meat"]
    assert meat[INDEX["SUGAR"], 0] == pytest.approx(50)
    assert meat[INDEX["CHOCDF"], 0] == pytest.approx(50)
    assert meat[INDEX["ENERC"], 0] == pytest.approx(193.5)
    assert meat[WEIGHT, 0] == pytest.approx(750)


def test_juice_has_the_strength_of_the_water_it_came_from() -> None:
    pool = amounts(WATER=500, NA=1000, ASH=10, WEIGHT=700)
    juice = solution(pool, np.full(DRAWS + 1, 50.0))
    assert juice[SODIUM][0] == pytest.approx(100)
    assert juice[WATER][0] == pytest.approx(50)
