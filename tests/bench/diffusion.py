"""How much the curves of diffusion cost beside the plain series of Crank with roots found each time.

    python -m tests.bench.diffusion

Both answer 201 draws of time and bath. Prints microseconds a call, the ratio, and the largest difference.
"""

import timeit

import numpy as np
from saltledger.salt.bodies import Body
from saltledger.salt.diffusion import fourier_for, mean_reached
from saltledger.salt.modes import SHAPES, modes

DRAWS = 201
TERMS = 60


def plain_series(fourier, alpha, shape):
    """The sum over modes whose roots are solved for every draw: what the tables stand in for."""
    found = modes(1.0 / (1.0 + alpha), shape, TERMS)
    return 1.0 - (found.mean * np.exp(-(found.roots**2) * fourier[:, None])).sum(axis=1)


def microseconds(call, number):
    call()
    return min(timeit.repeat(call, number=number, repeat=5)) / number * 1e6


def main():
    rng = np.random.default_rng(7)
    fourier, alpha = np.exp(rng.uniform(-4, 0.7, DRAWS)), np.exp(rng.uniform(-1, 2.5, DRAWS))
    print(f"{'':16}{'ours us':>10}{'series us':>12}{'ratio':>8}{'difference':>14}")
    for shape in SHAPES:
        ours = microseconds(lambda shape=shape: mean_reached(fourier, alpha, shape), 300)
        plain = microseconds(lambda shape=shape: plain_series(fourier, alpha, shape), 3)
        gap = np.abs(mean_reached(fourier, alpha, shape) - plain_series(fourier, alpha, shape)).max()
        print(f"{shape:16}{ours:10.0f}{plain:12.0f}{plain / ours:8.0f}{gap:14.1e}")
    brick = Body("brick", 5.0, length_cm=20.0, width_cm=12.0)
    print(f"{'brick':16}{microseconds(lambda: brick.mean_reached(fourier, alpha), 100):10.0f}")
    print(f"{'time until 80 %':16}{microseconds(lambda: fourier_for(np.full(DRAWS, 0.8), alpha), 50):10.0f}")


if __name__ == "__main__":
    main()
