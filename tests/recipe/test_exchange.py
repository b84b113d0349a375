"""Solutes between pieces and the liquid they share."""

from __future__ import annotations

import numpy as np
import pytest
from saltledger.recipe.exchange import Exchange, Piece, Uptake
from saltledger.recipe.kitchen import SALT_PER_SODIUM, Kitchen, nothing
from saltledger.recipe.rows import CARBOHYDRATE, ENERGY, ROW, SODIUM, SOLUTES, SUGAR, WEIGHT
from saltledger.recipe.solution import DISSOLVED, Solutes
from saltledger.units.spread import DRAWS

ALL = np.ones(DRAWS + 1)


def amounts(**rows: float) -> np.ndarray:
    made = nothing()
    for tag, value in rows.items():
        made[ROW[tag]] = value
    return made


def kitchen(**pools: dict[str, float]) -> Kitchen:
    made = Kitchen([*pools, "poured_away"])
    for name, rows in pools.items():
        made.bring(name, amounts(**rows))
    return made


def happen(k: Kitchen, *pieces: Piece, bath: str = "brine", solutes: Solutes = DISSOLVED, **parts) -> None:
    """Let the pieces stand to the end in the bath, or go only so far of the way (parts, by piece)."""

    def uptake(piece: Piece, full: np.ndarray) -> Uptake:
        part = parts.get(piece.name, 1.0)
        return part if isinstance(part, Uptake) else Uptake(part * np.ones_like(full), part * ALL)

    Exchange.of(k, pieces, bath, 3).happen(solutes, uptake)


def test_at_equilibrium_water_phases_are_alike() -> None:
    k = kitchen(
        meat={"WATER": 700, "NA": 600, "WEIGHT": 1000},
        brine={"WATER": 2100, "NA": 40000, "ASH": 110, "WEIGHT": 2210},
    )
    happen(k, Piece("meat"))
    assert k.pools["meat"][SODIUM] / 700 == pytest.approx(k.pools["brine"][SODIUM] / 2100)
    assert k.pools["meat"][SODIUM, 0] == pytest.approx(40600 / 4)


def test_equilibrium_factor_of_an_unsalted_food_is_its_share_of_the_water() -> None:
    k = kitchen(
        meat={"WATER": 600, "WEIGHT": 800}, brine={"WATER": 1800, "NA": 30000, "ASH": 99, "WEIGHT": 1900}
    )
    exchange = Exchange.of(k, [Piece("meat")], "brine", 0)
    full = exchange.full_gains(k.leading, SOLUTES)["meat"]
    assert full[SODIUM] == pytest.approx(30000 * 600 / 2400)
    assert exchange.alpha == pytest.approx(3.0)


def test_a_bath_with_no_food_to_go_into_is_endless() -> None:
    k = kitchen(stone={"WEIGHT": 800}, brine={"WATER": 1800, "NA": 30000, "ASH": 99, "WEIGHT": 1900})
    assert Exchange.of(k, [Piece("stone")], "brine", 0).alpha.min() > 1e12
    happen(k, Piece("stone"))
    assert k.pools["stone"][SODIUM].max() == 0


def test_closed_off_water_takes_nothing() -> None:
    k = kitchen(meat={"WATER": 600, "NA": 500, "WEIGHT": 800}, brine={"WATER": 1800, "NA": 30000, "ASH": 99})
    happen(k, Piece("meat", open_share=0.0))
    assert k.pools["meat"][SODIUM] == pytest.approx(500)


def test_salty_food_gives_to_fresh_water_and_the_ledger_says_so() -> None:
    k = kitchen(
        cod={"WATER": 300, "NA": 20000, "ASH": 60, "WEIGHT": 500}, water={"WATER": 2700, "WEIGHT": 2700}
    )
    happen(k, Piece("cod"), bath="water")
    (movement,) = k.ledger
    assert (movement.source, movement.target, movement.step) == ("cod", "water", 3)
    assert movement.sodium_mg == pytest.approx(18000)
    assert k.pools["cod"][WEIGHT] == pytest.approx(500 - 18 * SALT_PER_SODIUM)


def test_pieces_never_take_more_than_the_bath_holds() -> None:
    k = kitchen(
        ham={"WATER": 100, "NA": 9000, "K": 300, "WEIGHT": 200},
        loin={"WATER": 5000, "WEIGHT": 7000},
        brine={"WATER": 10, "NA": 10, "K": 2, "WEIGHT": 10},
    )
    free = Solutes(np.ones((5, 1)), np.ones((ROW["VITB12"] - ROW["CA"] + 1, 1)))
    happen(k, Piece("ham"), Piece("loin"), solutes=free, ham=0.0)
    assert k.pools["loin"][SODIUM] == pytest.approx(10)
    assert k.pools["loin"][ROW["K"]] == pytest.approx(2)
    assert k.pools["brine"].min() >= 0


def test_a_part_of_the_bath_is_taken_whatever_the_way_to_equilibrium() -> None:
    k = kitchen(
        meat={"WATER": 600, "NA": 90000, "WEIGHT": 900}, brine={"WATER": 600, "NA": 1000, "WEIGHT": 603}
    )
    tenth = 0.1 * ALL
    happen(k, Piece("meat"), meat=Uptake(tenth, tenth, of_bath=True))
    assert k.pools["meat"][SODIUM] == pytest.approx(90100)


def test_measured_sodium_is_taken_as_it_is() -> None:
    k = kitchen(meat={"WATER": 600, "WEIGHT": 800}, brine={"WATER": 600, "NA": 9000, "WEIGHT": 623})
    happen(k, Piece("meat"), meat=Uptake(ALL, ALL, sodium_mg=1234 * ALL))
    assert k.pools["meat"][SODIUM] == pytest.approx(1234)


def test_sugar_takes_its_carbohydrate_and_energy_along() -> None:
    k = kitchen(
        meat={"WATER": 500, "WEIGHT": 700},
        brine={"WATER": 500, "SUGAR": 100, "CHOCDF": 100, "ENERC": 387, "WEIGHT": 600},
    )
    happen(k, Piece("meat"))
    meat = k.pools["meat"]
    assert (meat[SUGAR, 0], meat[CARBOHYDRATE, 0], meat[ENERGY, 0]) == pytest.approx((50, 50, 193.5))
    assert meat[WEIGHT, 0] == pytest.approx(750)


def test_what_else_is_free_passes_by_its_share() -> None:
    k = kitchen(beet={"WATER": 500, "K": 1000, "CA": 100, "WEIGHT": 700}, pot={"WATER": 1500, "WEIGHT": 1500})
    shares = np.zeros((ROW["VITB12"] - ROW["CA"] + 1, 1))
    shares[ROW["K"] - ROW["CA"]] = 0.9
    happen(k, Piece("beet"), bath="pot", solutes=Solutes(np.ones((5, 1)), shares), beet=0.5)
    assert k.pools["pot"][ROW["K"]] == pytest.approx(0.9 * 0.5 * 750)
    assert k.pools["pot"][ROW["CA"]] == pytest.approx(0)
