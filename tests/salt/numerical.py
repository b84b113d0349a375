"""Independent numerical solutions that the closed forms are held to: finite volumes, no series."""

import numpy as np
from scipy.linalg import eigh_tridiagonal

DIMENSIONS = {"sheet": 1, "cylinder": 2, "sphere": 3}


def finite_volumes(times, alpha, shape, cells=500):
    """Mean and centre over equilibrium at `times`, by finite volumes fine at the surface, bath as a cell.

    The linear system that the cells make is symmetric once scaled by volume and is solved exactly in time.
    """
    d = DIMENSIONS[shape]
    edges = 1.0 - (1.0 - np.linspace(0.0, 1.0, cells + 1)) ** 2
    middles = 0.5 * (edges[1:] + edges[:-1])
    volumes = (edges[1:] ** d - edges[:-1] ** d) / d
    reach = np.append(np.diff(middles), 1.0 - middles[-1])
    flows = edges[1:] ** (d - 1) / reach
    volumes = np.append(volumes, alpha / d)
    diagonal = -(np.append(flows, 0.0) + np.append(0.0, flows)) / volumes
    rates, states = eigh_tridiagonal(diagonal, flows / np.sqrt(volumes[1:] * volumes[:-1]))
    scale = np.sqrt(volumes)
    start = states[-1] * scale[-1]
    concentrations = (np.exp(np.outer(times, rates)) * start) @ states.T / scale * (1.0 + alpha) / alpha
    return concentrations[:, :-1] @ volumes[:-1] * d, concentrations[:, 0]
