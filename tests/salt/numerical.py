"""Independent numerical solutions that the closed forms are held to: finite volumes and coupled modes."""

from functools import lru_cache

import numpy as np
from scipy.linalg import eigh_tridiagonal
from scipy.special import j1, jn_zeros

DIMENSIONS = {"sheet": 1, "cylinder": 2, "sphere": 3}


def finite_volumes(times, alpha, shape, cells=300):
    """Mean and centre over equilibrium at `times`, by finite volumes fine at the surface, bath as a cell."""
    volumes, flows = _cells(alpha, shape, cells)
    start = np.append(np.zeros(cells), 1.0)
    concentrations = np.array([_after(time, start, volumes, flows) for time in times]) * (1.0 + alpha) / alpha
    return concentrations[:, :-1] @ volumes[:-1] / volumes[:-1].sum(), concentrations[:, 0]


def fresh_waters(time, turns, alpha, shape, cells=300):
    """What is left in an evenly salted piece, as a share, after each of `turns` salt-free baths."""
    volumes, flows = _cells(alpha, shape, cells)
    state, left = np.append(np.ones(cells), 0.0), []
    for _ in range(turns):
        state = _after(time, np.append(state[:-1], 0.0), volumes, flows)
        left.append(state[:-1] @ volumes[:-1] / volumes[:-1].sum())
    return np.array(left)


def _cells(alpha, shape, cells):
    d = DIMENSIONS[shape]
    edges = 1.0 - (1.0 - np.linspace(0.0, 1.0, cells + 1)) ** 2
    middles = 0.5 * (edges[1:] + edges[:-1])
    volumes = (edges[1:] ** d - edges[:-1] ** d) / d
    reach = np.append(np.diff(middles), 1.0 - middles[-1])
    return np.append(volumes, alpha / d), edges[1:] ** (d - 1) / reach


def _after(time, start, volumes, flows):
    """The concentrations after `time`: the linear system of the cells, made symmetric by volume, solved."""
    rates, states = _spectrum(tuple(volumes), tuple(flows))
    scale = np.sqrt(volumes)
    return states @ (np.exp(time * rates) * (states.T @ (start * scale))) / scale


@lru_cache(maxsize=4)
def _spectrum(volumes, flows):
    volumes, flows = np.array(volumes), np.array(flows)
    diagonal = -(np.append(flows, 0.0) + np.append(0.0, flows)) / volumes
    return eigh_tridiagonal(diagonal, flows / np.sqrt(volumes[1:] * volumes[:-1]))


def coupled_modes(factors, alpha, times, fastest=600.0):
    """Mean and centre over equilibrium of a product body: its endless-bath modes, each coupled to the bath.

    factors: (shape, size over thickness) of the one-dimensional solutions whose product the body is. Modes
    faster than `fastest` are taken as at rest with the bath at once: good from Fourier numbers of 0.02 on.
    """
    rates, means, centres = np.zeros(1), np.ones(1), np.ones(1)
    for shape, size in factors:
        rate, mean, centre = _endless_modes(shape, size, int(9 * max(size, 1.0)) + 2)
        rates = (rates[:, None] + rate).ravel()
        means, centres = np.outer(means, mean).ravel(), np.outer(centres, centre).ravel()
    kept = rates < fastest
    rates, group = np.unique(rates[kept].round(9), return_inverse=True)
    means, centres = np.bincount(group, means[kept]), np.bincount(group, centres[kept])
    x = _secular_roots(rates, means * rates, alpha + 1.0 - means.sum())
    gaps = rates - x[:, None]
    weight = (1.0 + alpha) / (x * (means * rates / gaps**2).sum(axis=1))
    decay = np.exp(-np.outer(times, x))
    inner = 1.0 + (centres * x[:, None] / gaps).sum(axis=1)
    return 1.0 - decay @ (weight * alpha), 1.0 + decay @ (weight * inner)


def _endless_modes(shape, size, count):
    if shape == "sheet":
        roots = (np.arange(count) + 0.5) * np.pi
        return (roots / size) ** 2, 2.0 / roots**2, 2.0 * (-1.0) ** np.arange(count) / roots
    roots = jn_zeros(0, count)
    return (roots / size) ** 2, 4.0 / roots**2, 2.0 / (roots * j1(roots))


def _secular_roots(rates, strengths, rest):
    low, high = rates * (1 + 1e-13), np.append(rates[1:], 3 * rates[-1]) * (1 - 1e-13)
    for _ in range(60):
        middle = 0.5 * (low + high)
        below = rest + (strengths / (rates - middle[:, None])).sum(axis=1) < 0
        low, high = np.where(below, middle, low), np.where(below, high, middle)
    return 0.5 * (low + high)
