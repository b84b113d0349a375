"""Crank, The Mathematics of Diffusion, 2nd ed. (1975): roots and curves of the plane sheet, with examples."""

import numpy as np
import pytest
from numpy.testing import assert_allclose
from saltledger.recipe.single_bath import bath_answer
from saltledger.transfer.bath_requests import BathRequest
from scipy.optimize import brentq

from tests.diffusion.pieces import mean_reached

# Crank's appendix, table 4.1: roots of tan q = -alpha q (q1 from memory, all computed by bracketing).
ROOTS = {
    0.10: (1.6385, 4.7358, 7.8681, 11.0057, 14.1450, 17.2852),
    0.20: (1.7155, 4.7648, 7.8857, 11.0183, 14.1548, 17.2932),
    0.25: (1.7582, 4.7820, 7.8962, 11.0258, 14.1607, 17.2980),
    0.30: (1.8040, 4.8014, 7.9081),
    1 / 3: (1.8366, 4.8158, 7.9171, 11.0408, 14.1724, 17.3076),
    0.40: (1.9071, 4.8490, 7.9378, 11.0558, 14.1841, 17.3172),
    0.50: (2.0288, 4.9132, 7.9787, 11.0855, 14.2074, 17.3364),
    0.60: (2.1746, 5.0036, 8.0385, 11.1295, 14.2421, 17.3649),
    0.70: (2.3522, 5.1386, 8.1334, 11.2010, 14.2989, 17.4120),
    0.80: (2.5704, 5.3540, 8.3029, 11.3348, 14.4080, 17.5034),
    0.90: (2.8363, 5.7172, 8.6587, 11.6532, 14.6869, 17.7481),
}

# Equations 4.18 and 4.37, summed to 400 terms (computed): fourier number, then alpha = inf, 9, 4, 2, 1.
BATHS = (np.inf, 9.0, 4.0, 2.0, 1.0)
CURVES = {
    0.01: (0.1128, 0.1242, 0.1380, 0.1620, 0.2071),
    0.02: (0.1596, 0.1749, 0.1934, 0.2251, 0.2830),
    0.05: (0.2523, 0.2743, 0.3004, 0.3439, 0.4193),
    0.10: (0.3568, 0.3844, 0.4165, 0.4683, 0.5528),
    0.20: (0.5041, 0.5363, 0.5726, 0.6282, 0.7116),
    0.50: (0.7640, 0.7933, 0.8237, 0.8653, 0.9165),
    1.00: (0.9313, 0.9460, 0.9595, 0.9751, 0.9893),
    2.00: (0.9942, 0.9963, 0.9979, 0.9991, 0.9998),
}


@pytest.mark.parametrize("held", ROOTS)
def test_roots_of_the_sheet(held):
    """Late uptake fades by the first root."""
    alpha, (root, *_) = 1 / held - 1, ROOTS[held]
    missing = 1 - mean_reached([1.5, 1.7], alpha)
    fades = -np.log(missing[1] / missing[0]) / 0.2
    assert fades == pytest.approx(root**2, rel=2e-3)


@pytest.mark.parametrize("fourier", CURVES)
def test_uptake_of_the_sheet(fourier):
    assert_allclose(mean_reached(fourier, BATHS), CURVES[fourier], atol=8e-4)


def test_times_of_the_endless_bath():
    # Crank gives 0.0492 on the full thickness for one half (memory), 0.1967 on half the thickness.
    assert_allclose([fourier_for(share) for share in (0.5, 0.9, 0.99)], [0.1967, 0.8481, 1.7813], atol=6e-4)


def fourier_for(share):
    return brentq(lambda fourier: float(mean_reached(fourier, np.inf)[0]) - share, 1e-6, 10.0)


@pytest.mark.parametrize(
    ("thickness_cm", "diffusivity", "hours", "expected"),
    [
        pytest.param(2.0, 2.2e-10, 24, (0.4916, 0.5596, 0.6153, 0.6993), id="D1, computed"),
        pytest.param(5.0, 1.9e-10, 168, (0.4835, None, 0.6069, 0.6913), id="D2, computed"),
    ],
)
def test_worked_examples(thickness_cm, diffusivity, hours, expected):
    fourier = diffusivity * hours * 3600 / (thickness_cm / 200) ** 2
    found = mean_reached(fourier, [np.inf, 4.0, 2.0, 1.0])
    for share, wanted in zip(found, expected, strict=True):
        assert wanted is None or share == pytest.approx(wanted, abs=8e-4)


def test_a_diffusivity_is_found_again_from_the_uptake_it_gives():
    """A consistency check, D1 of `test_worked_examples` backwards: how published values were fitted."""
    found = fourier_for(0.4916) * 0.01**2 / (24 * 3600)
    assert found == pytest.approx(2.2e-10, rel=3e-3)


@pytest.mark.parametrize(("water_g", "share"), [(700, 1 / 2), (1400, 1 / 3), (7000, 1 / 11)])
def test_equilibrium_is_the_share_of_all_water(water_g, share):
    """Crank, equation 4.36 at long times: a kilo of food with 0.7 of water in a bath of water and a
    little salt."""
    bath = {
        "food": {
            "class": "beef",
            "weight_g": 1000,
            "shape": "sheet",
            "thickness_cm": 2,
            "water_fraction": 0.7,
        },
        "bath": {"water_g": water_g, "salt_g": 1},
        "temperature_c": 5,
        "duration_h": 5000,
    }
    found = bath_answer(BathRequest.from_document(bath))
    assert found["equilibrium"]["absorption_factor"] == pytest.approx(share, rel=2e-3)
    # What the food draws in, and the film that clings, come on top.
    assert share < found["absorption_factor"]["likely"] < 1.1 * share
