"""One piece in one bath, by the model's own compartments: what the tests hold to Crank and to numbers."""

import numpy as np
from saltledger.diffusion.compartments import PLAIN, Compartments, lag_at
from saltledger.diffusion.stirred import Stirred

ENDLESS = 1e12
"""Stands for a bath that never weakens."""


def _gained(fourier, alpha, body):
    """An unsalted piece of one gram of water: gains by compartment and time, and the bath's water."""
    body = body if isinstance(body, Compartments) else PLAIN[body]
    time, bath = np.broadcast_arrays(*(np.asarray(each, dtype=float).ravel() for each in (fourier, alpha)))
    bath = np.minimum(bath, ENDLESS)
    rooms = np.repeat(body.shares[:, np.newaxis], time.size, axis=1)
    paces = np.outer(body.rates, np.minimum(time, 1e6))[np.newaxis]
    piece = Stirred(np.zeros((1, *rooms.shape)), rooms, paces, bath[np.newaxis], bath[np.newaxis])
    return body, piece.gained()[0] * (1 + bath) / bath, bath


def mean_reached(fourier, alpha, body="sheet"):
    """Mean concentration as a share of equilibrium. alpha: bath water over food water."""
    return _gained(fourier, alpha, body)[1].sum(axis=0)


def reached_at(fourier, alpha, body="sheet", position=0.0):
    """Concentration at a place, 0 the centre and 1 the surface, as a share of equilibrium."""
    body, gained, bath = _gained(fourier, alpha, body)
    within = gained / body.shares[:, np.newaxis]
    surface = (1 + bath) / bath - gained.sum(axis=0) / bath
    return surface + lag_at(body, position) @ (within - surface)
