"""Independent numerical solutions that the closed forms are held to: finite volumes and coupled modes."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from scipy.linalg import eigh_tridiagonal, expm, solveh_banded
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


@dataclass(frozen=True, slots=True, eq=False)
class Steeped:
    """A piece in a bath, one figure a draw: D t / l^2 by the end, the grams of water that it counts for, and
    what is dissolved in them, even at the start, in any unit."""

    shape: str
    fourier: np.ndarray
    water_g: np.ndarray
    held: np.ndarray


def steeped(pieces, bath_g, bath_held, fresh_g=(), *, cells=150, steps=64):
    """What each of one or two pieces holds after its time in one stirred bath, shape (pieces, draws); then as
    long again in each of the salt-free baths whose grams of water are `fresh_g`.

    bath_g: grams of water. All draws go at once, each with its own times, waters and contents: their cells
    stand in one row, from the first piece's centre through the bath to the second's, so that Fick's law in
    finite volumes is one tridiagonal system.
    """
    waters, contents, links = zip(*(_row(piece, cells) for piece in pieces), strict=True)
    water = _joined(waters, bath_g)
    state = _stirred(_joined(contents, bath_held) / water, water, _linked(links), steps)
    for grams in fresh_g:
        water[:, cells], state[:, cells] = grams, 0.0
        state = _stirred(state, water, _linked(links), steps)
    ended = water * state
    parts = (ended[:, :cells], ended[:, cells + 1 :])[: len(pieces)]
    return np.stack([part.sum(axis=1) for part in parts])


def _row(piece, cells):
    """By cell, from the centre: water, content, and the link outwards; each of shape (draws, cells)."""
    volumes, flows = _cells(1.0, piece.shape, cells)
    size = volumes[:-1].sum()
    shares, links = volumes[:-1] / size, np.outer(piece.fourier * piece.water_g, flows / size)
    return np.outer(piece.water_g, shares), np.outer(piece.held, shares), links


def _joined(rows, bath):
    """The first piece outwards, the bath, the second piece inwards."""
    first, *second = rows
    return np.concatenate((first, bath[:, np.newaxis], *(row[:, ::-1] for row in second)), axis=1)


def _linked(links):
    """The link of each cell to the next, 0 behind the last of a draw."""
    first, *second = links
    return np.concatenate((first, *(row[:, ::-1] for row in second), np.zeros((len(first), 1))), axis=1)


def _stirred(state, water, links, steps):
    """Concentrations at the end, by Alexander's rule: two implicit stages of one matrix, second order, and
    damped where a step is long. Steps are short at first, while the surface is a jump."""
    part = 1.0 - np.sqrt(0.5)
    leaving = links + np.roll(links, 1, axis=1)
    for step in part * np.diff(np.linspace(0.0, 1.0, steps + 1) ** 3):
        beside = np.roll(-step * links.ravel(), 1)
        matrix = np.stack((beside, (water + step * leaving).ravel()))
        middle = _solved(matrix, water * state)
        state = _solved(matrix, water * (state + (1.0 / part - 1.0) * (middle - state)))
    return state


def _solved(matrix, right):
    return solveh_banded(matrix, right.ravel(), check_finite=False).reshape(right.shape)


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


@dataclass(frozen=True, slots=True, eq=False)
class Lump:
    """A well mixed part of a piece that the bath reaches at a rate of its own: film, swelling, or, without
    water of its own, juice on its way out. rate: times the time of the bath."""

    water_g: float
    rate: float
    held: float


def together(pieces, lumps, bath_g, bath_held, cells=80):
    """One draw: what each piece (Steeped, with plain numbers) and each lump holds after its time in one bath.

    A dense matrix of all cells, lumps and the bath, and its exponential by scipy: slow, and nothing but the
    law. Gives the cells of each piece from the centre, then the lumps; sum them for what a piece holds.
    """
    waters, contents, blocks = [], [], []
    for piece in pieces:
        water, held, links = (row[0] for row in _row_of_one(piece, cells))
        waters.append(water)
        contents.append(held)
        blocks.append(links)
    size = cells * len(pieces) + len(lumps) + 1
    rates = np.zeros((size, size))
    for at, (water, links) in enumerate(zip(waters, blocks, strict=True)):
        for cell in range(cells):
            here, there = at * cells + cell, at * cells + cell + 1 if cell < cells - 1 else size - 1
            beyond = water[cell + 1] if cell < cells - 1 else bath_g
            _link(rates, here, there, links[cell] / water[cell], links[cell] / beyond)
    for at, lump in enumerate(lumps):
        here = cells * len(pieces) + at
        _link(rates, here, size - 1, lump.rate, lump.rate * lump.water_g / bath_g)
    start = np.concatenate((*contents, [lump.held for lump in lumps], [bath_held]))
    ended = expm(rates) @ start
    parts = np.split(ended[:-1], [cells * (i + 1) for i in range(len(pieces))])
    return parts[:-1], parts[-1]


def _row_of_one(piece, cells):
    one = Steeped(piece.shape, *(np.atleast_1d(each) for each in (piece.fourier, piece.water_g, 0.0)))
    water, _, links = _row(one, cells)
    held = np.atleast_2d(piece.held)
    return water, held if held.shape[1] == cells else held * water / water.sum(), links


def _link(rates, here, there, out, back):
    rates[here, here] -= out
    rates[there, here] += out
    rates[here, there] += back
    rates[there, there] -= back
