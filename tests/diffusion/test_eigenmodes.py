import numpy as np
import pytest
from numpy.testing import assert_allclose
from saltledger.diffusion.eigenmodes import SHAPES, bessel_j, centre_table, modes
from scipy.special import j0, j1, jn_zeros

HELD = np.linspace(0.0, 0.999, 61)


def test_bessel_functions_agree_with_scipy():
    x = np.linspace(0.0, 220.0, 997)
    ours = bessel_j(x)
    assert_allclose(ours[0], j0(x), atol=1e-12)
    assert_allclose(ours[1], j1(x), atol=1e-12)


def test_sheet_roots_solve_their_equation():
    q = modes(HELD, "sheet", 30).roots
    held = HELD[:, None]
    assert_allclose(held * np.sin(q) + (1 - held) * q * np.cos(q), 0.0, atol=1e-11)


def test_cylinder_roots_solve_their_equation():
    q = modes(HELD, "cylinder", 30).roots
    held = HELD[:, None]
    assert_allclose((1 - held) * q * j0(q) + 2 * held * j1(q), 0.0, atol=1e-11)


def test_sphere_roots_solve_their_equation():
    q = modes(HELD, "sphere", 30).roots
    held = HELD[:, None]
    assert_allclose((3 * held + (1 - held) * q**2) * np.sin(q) - 3 * held * q * np.cos(q), 0.0, atol=1e-9)


def test_no_root_is_missed():
    # One root lies between each pair of bounds: an endless bath's root and that of no bath at all.
    number, slack = np.arange(1, 31), 1e-9
    bounds = {
        "sheet": ((number - 0.5) * np.pi, number * np.pi),
        "cylinder": (jn_zeros(0, 30), jn_zeros(1, 30)),
        "sphere": (number * np.pi, (number + 0.5) * np.pi),
    }
    for shape, (lower, upper) in bounds.items():
        roots = modes(HELD, shape, 30).roots
        assert np.all((roots > lower - slack) & (roots < upper + slack))


def test_an_endless_bath_has_the_textbook_roots():
    number = np.arange(1, 11)
    endless = np.array([0.0])
    assert_allclose(modes(endless, "sheet", 10).roots[0], (number - 0.5) * np.pi)
    assert_allclose(modes(endless, "cylinder", 10).roots[0], jn_zeros(0, 10))
    assert_allclose(modes(endless, "sphere", 10).roots[0], number * np.pi)


@pytest.mark.parametrize("shape", SHAPES)
def test_mean_weights_sum_to_the_whole(shape):
    # At time 0 nothing has been taken up, so what is missing is everything.
    assert_allclose(modes(np.array([0.1, 0.5]), shape, 600).mean.sum(axis=1), 1.0, atol=8e-3)


def test_tables_cannot_be_written_to():
    with pytest.raises(ValueError, match="read-only"):
        centre_table("sheet")[0, 0, 0] = 1.0
