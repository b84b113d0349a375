"""Published salting data: our tables hold the measured diffusivities, our ranges what was measured.

Some of these are consistency checks, no proof, and say so: the ranges of diffusivities were made from
the measurements
that they are held to, and the figures of beef were fitted to what cooks say of three and six days. What
proves the
model apart from its own figures are the measurements kept for checking (`saltledger evidence`).
"""

import numpy as np
import pytest
from saltledger.core.spread import draw, summarise
from saltledger.diffusion.geometry import Body
from saltledger.transfer.brine import saturation_percent
from saltledger.transfer.diffusivity import effective_diffusivity
from saltledger.transfer.water_uptake import pick_up

from tests.diffusion.pieces import mean_reached, reached_at


def half_m(body):
    return body.thickness_cm / 200


@pytest.mark.parametrize(
    ("food_class", "temperature_c", "measured"),
    [
        pytest.param("pork", 5, 1.90, id="loin slices; Springer Water Stress ch. 47 (2015)"),
        pytest.param("pork", 5, 2.2, id="muscle; Wood 1966, Fox 1980 (from memory)"),
        pytest.param("pork", 5, 3.0, id="lowest by 23Na imaging; Hansen et al., Meat Sci 80:851 (2008)"),
        pytest.param("fish_lean", 10, 2.07, id="pirarucu, lowest; Barretto et al. (2018)"),
        pytest.param("fish_lean", 20, 8.80, id="pirarucu, highest; Barretto et al. (2018)"),
        pytest.param("cheese", 4, 2.1, id="white brined; Floury et al. (2010), table II"),
        pytest.param("cheese", 12.5, 3.0, id="white brined; Floury et al. (2010), table II"),
        pytest.param("cheese", 20, 4.0, id="white brined; Floury et al. (2010), table II"),
        pytest.param("cheese", 14, 2.54, id="Camembert; Floury et al. (2010)"),
        pytest.param("cheese", 7.5, 3.6, id="Cuartirolo; Floury et al. (2010)"),
        pytest.param("cheese", 20, 2.66, id="Romano; Guinee and Fox (1983)"),
        pytest.param("cheese", 10, 1.16, id="Cheddar; Floury et al. (2010)"),
        pytest.param("cheese", 7, 1.06, id="Sbrinz, lowest; Floury et al. (2010)"),
    ],
)
def test_a_range_holds_the_measurements_it_was_made_of(food_class, temperature_c, measured):
    """A consistency check: a row that slips away from its own sources fails."""
    spread = effective_diffusivity(food_class, "salt", temperature_c).spread
    assert spread.low <= measured * 1e-10 <= spread.high


def test_the_temperature_law_is_that_of_white_brined_cheese():
    # 2.1 at 4 C and 4 at 20 C (Floury et al. 2010, table II): a ratio of 1.905.
    cold, warm = (effective_diffusivity("cheese", "salt", at).spread.likely for at in (4.0, 20.0))
    assert warm / cold == pytest.approx(4 / 2.1, rel=0.02)


CHEESE_BRINING = [
    # body, water fraction (both ours: usual sizes, SR28 water), hours, salt percent measured
    pytest.param(Body("short_cylinder", 11, length_cm=3), 0.52, (0.5, 3), (1.5, 2.5), id="soft, 0.1 to 1 kg"),
    pytest.param(Body("short_cylinder", 26, length_cm=10), 0.42, (24, 72), (1.6, 2.2), id="semi-hard"),
    pytest.param(Body("short_cylinder", 80, length_cm=18), 0.37, (72, 72), (0.8, 1.0), id="Emmental, 100 kg"),
]


@pytest.mark.parametrize(("body", "water", "hours", "measured"), CHEESE_BRINING)
def test_brined_cheese(body, water, hours, measured):
    """Salt after brining in 20 to 22 % at 10 to 15 C, from a dairy encyclopaedia (second hand)."""
    diffusivity = draw(effective_diffusivity("cheese", "salt", 12.5).spread, "cheese")
    low, high = (
        summarise(
            100
            * mean_reached(diffusivity * each * 3600 / half_m(body) ** 2, np.inf, body.compartments)
            * water
            * (21 / 79)
        )
        for each in hours
    )
    assert low.low <= measured[1]
    assert high.high >= measured[0]
    assert low.low <= np.mean(measured) <= high.high


def test_small_cheddar_pieces_even_out_and_whole_blocks_do_not():
    """Salt diffusion in Cheddar cheese, J Dairy Sci: curd of 2 by 2 by 6 cm is even in about 48 h, a whole
    block is not at 24 weeks. Salt strewn on (alpha near 0.1), block of 28 by 36 by 18 cm: ours."""
    curd, block = Body("brick", 2, length_cm=6, width_cm=2), Body("brick", 18, length_cm=36, width_cm=28)
    warm = effective_diffusivity("cheese", "salt", 20.0).spread
    cool = effective_diffusivity("cheese", "salt", 8.0).spread
    assert reached_at(warm.likely * 48 * 3600 / 0.01**2, 0.1, curd.compartments) > 0.95
    assert reached_at(cool.likely * 24 * 168 * 3600 / 0.09**2, 0.1, block.compartments) < 0.95
    assert reached_at(cool.low * 24 * 168 * 3600 / 0.09**2, 0.1, block.compartments) < 0.6


def test_chicken_breast_in_a_ten_to_one_brine():
    """Salt and water 1:10, about 1 C, 6 h: 3.77 g of salts per 100 g (Braz J Food Technol, ITAL).

    The salt was half sodium, half potassium chloride, whose diffusivities in water differ by a quarter:
    within the
    range of one salt. The thickness of the cuts is not given: 1.5 cm and 75 % water are ours."""
    diffusivity = draw(effective_diffusivity("poultry", "salt", 1.0).spread, "poultry")
    reached = mean_reached(diffusivity * 6 * 3600 / 0.0075**2, np.inf)
    gained = summarise(reached * 75.0 * 0.1)
    assert gained.low <= 3.77 <= gained.high


@pytest.mark.parametrize(
    ("food_class", "percent", "measured"),
    [
        pytest.param("poultry", 9.1, 10.5, id="U1, lower: Braz J Food Technol (ITAL)"),
        pytest.param("poultry", 9.1, 11.0, id="U1, upper: Braz J Food Technol (ITAL)"),
        pytest.param("fish_fatty", 10.0, 10.0, id="U3, lower: Birkeland et al., J Food Sci 70:E418 (2005)"),
        pytest.param("fish_fatty", 10.0, 12.0, id="U3, upper: Birkeland et al., J Food Sci 70:E418 (2005)"),
        pytest.param("pork", 17.7, 0.0, id="U4: Springer Water Stress ch. 47 (2015)"),
    ],
)
def test_weight_gained(food_class, percent, measured):
    """A consistency check, for the ranges were made of these measurements."""
    spread = pick_up(food_class, percent).spread
    assert spread.low <= measured <= spread.high


def test_pork_gains_below_200_kg_m3_and_loses_above():
    """Springer Water Stress ch. 47 (2015): 50 to 280 kg of salt in a cubic metre of brine."""
    at_rest = 17.71  # 200 g in a litre, interpolated in a handbook table (16 %: 178.6, 18 %: 203.7)
    gains = [pick_up("pork", at_rest + shift).spread.likely for shift in (-8.0, 0.0, 7.0)]
    assert gains[0] > 0 > gains[2]
    assert gains[1] == pytest.approx(0.0, abs=0.1)


def test_cod_gains_most_in_the_weakest_of_four_brines():
    """Nguyen et al., J Food Eng 100:225 (2010): 6, 15, 18 and 24 %."""
    gains = [pick_up("fish_lean", percent).spread.likely for percent in (6, 15, 18, 24)]
    assert gains == sorted(gains, reverse=True)


def test_six_days_cure_a_flat_cut_and_three_do_not():
    """A consistency check: the figures of beef were fitted to this. Common practice, no source: cold
    brine of 4 US quarts, a flat cut of beef, here 4 cm thick and 1.8 kg.

    Six days take the cure to the centre, three leave a strip that it has not reached.
    """
    body, alpha = Body("sheet", 4.0), 3785 / (1800 * 0.7)
    diffusivity = effective_diffusivity("beef", "salt", 3.0).spread.likely
    fourier = diffusivity * np.array([3, 6]) * 86400 / half_m(body) ** 2
    mean, centre = mean_reached(fourier, alpha), reached_at(fourier, alpha)
    assert mean[0] < 0.7
    assert mean[1] > 0.8
    assert centre[0] < 0.4
    assert centre[1] > 0.65


@pytest.mark.parametrize(
    ("temperature_c", "per_100g_water"), [(0, 35.7), (10, 35.8), (21.1, 36.0), (100, 39.1)]
)
def test_solubility(temperature_c, per_100g_water):
    percent = saturation_percent(temperature_c)
    assert 100 * percent / (100 - percent) == pytest.approx(per_100g_water, abs=0.06)
