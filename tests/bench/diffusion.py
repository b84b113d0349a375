"""What pieces in one stirred bath cost, in additions of 201 doubles, as a recipe has them.

    python -m tests.bench.diffusion

Each figure is the best of many runs, spread over the whole time the bench takes, so that a busy spell of the
machine strikes the yardstick as well.
"""

import time

import numpy as np
from saltledger.core.spread import DRAWS
from saltledger.diffusion.geometry import Body
from saltledger.diffusion.stirred import Lying, Stirred

ROUNDS = 40
SATURATED_MG = 140.0


def system(body, *, pieces=1, rows=1, own_paces=False, lying=False):
    """Unsalted pieces in a bath of four times their water."""
    rng = np.random.default_rng(7)
    fourier = np.exp(rng.uniform(-4, 0.7, (rows if own_paces else 1, DRAWS + 1)))
    compartments = body.compartments
    rooms = np.tile(np.repeat(compartments.shares[:, np.newaxis], DRAWS + 1, axis=1), (pieces, 1))
    paces = np.tile(compartments.rates[:, np.newaxis] * fourier[:, np.newaxis], (1, pieces, 1))
    bath = np.full((rows, DRAWS + 1), 4.0 * pieces)
    excess = np.full(DRAWS + 1, 30.0)
    held = np.zeros((rows, *rooms.shape))
    bath_held = SATURATED_MG * bath + excess if lying else bath
    return Stirred(held, rooms, paces, bath_held, bath, Lying(0, excess, SATURATED_MG) if lying else None)


def calls():
    """What is measured, by name; the first is the yardstick."""
    sheet, brick = Body("sheet", 5.0), Body("brick", 5.0, length_cm=20.0, width_cm=12.0)
    draws = np.ones(DRAWS + 1)
    systems = {
        "a sheet": system(sheet),
        "a brick": system(brick),
        "4 solutes at one pace": system(sheet, rows=4),
        "4 solutes, each at its own": system(sheet, rows=4, own_paces=True),
        "3 pieces, 4 solutes": system(sheet, pieces=3, rows=4),
        "under undissolved salt": system(sheet, lying=True),
    }
    return {"addition": lambda: draws + draws} | {name: each.gained for name, each in systems.items()}


def microseconds(call):
    """One sample: the mean of as many calls as fill about two milliseconds."""
    count, begun = 0, time.perf_counter()
    while (spent := time.perf_counter() - begun) < 2e-3:
        call()
        count += 1
    return spent / count * 1e6


def main():
    named = calls()
    best = dict.fromkeys(named, np.inf)
    for _ in range(ROUNDS):
        best = {name: min(best[name], microseconds(call)) for name, call in named.items()}
    yard = best.pop("addition")
    print(f"one addition of {DRAWS + 1} doubles: {yard:.2f} us")
    print(f"{'':28}{'us':>10}{'additions':>12}")
    for name, cost in best.items():
        print(f"{name:28}{cost:10.1f}{cost / yard:12.0f}")


if __name__ == "__main__":
    main()
