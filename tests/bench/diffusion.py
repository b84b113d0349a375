"""What the curves of diffusion cost, in additions of 513 doubles, and how far they are from Crank's series.

    python -m tests.bench.diffusion

513 draws of time and bath, as a recipe has them. Each figure is the best of many runs, spread over the whole
time the bench takes, so that a busy spell of the machine strikes the yardstick as well. `before` is what the
same call cost, by the same measure, when the modes were summed at every call; `difference` is the largest
from the series of 60 modes with its roots solved for each draw.
"""

import time
from itertools import islice

import numpy as np
from saltledger.diffusion.curves import centre_reached, fourier_for, mean_reached
from saltledger.diffusion.eigenmodes import SHAPES, modes
from saltledger.diffusion.geometry import Body

DRAWS = 513
TERMS = 60
ROUNDS = 40
BEFORE = {
    "sheet": 270, "sheet, 4 solutes": 590, "sheet, soon after": 240,
    "cylinder": 285, "cylinder, 4 solutes": 650, "cylinder, soon after": 270,
    "sphere": 285, "sphere, 4 solutes": 650, "sphere, soon after": 270,
    "one mean": 48, "one centre": 50, "centres": 178, "brick": 1500, "brick, one centre": 360,
    "short cylinder": 1130, "waters in turn": 430, "time until 80 %": 6400,
}  # fmt: skip


def plain_series(fourier, alpha, shape):
    """The sum over modes whose roots are solved for every draw: what the tables stand in for."""
    found = modes(1.0 / (1.0 + alpha), shape, TERMS)
    return 1.0 - (found.mean * np.exp(-(found.roots**2) * fourier[:, None])).sum(axis=1)


def calls(fourier, alpha):
    """What is measured, by name; the first is the yardstick."""
    solutes = fourier * np.array([[1.0], [0.8], [1.2], [0.5]])
    brick = Body("brick", 5.0, length_cm=20.0, width_cm=12.0)
    short, sheet = Body("short_cylinder", 5.0, length_cm=20.0), Body("sheet", 5.0)
    named = {"addition": lambda: fourier + alpha}
    for shape in SHAPES:
        named[shape] = lambda shape=shape: mean_reached(fourier, alpha, shape)
        named[f"{shape}, 4 solutes"] = lambda shape=shape: mean_reached(solutes, alpha, shape)
        named[f"{shape}, soon after"] = lambda shape=shape: mean_reached(0.01 * fourier, alpha, shape)
    return named | {
        "one mean": lambda: mean_reached(0.3, 2.0),
        "one centre": lambda: centre_reached(0.3, 2.0),
        "centres": lambda: centre_reached(fourier, alpha),
        "brick": lambda: brick.mean_reached(fourier, alpha),
        "brick, one centre": lambda: brick.centre_reached(0.3, 2.0),
        "short cylinder": lambda: short.mean_reached(fourier, alpha),
        "waters in turn": lambda: list(islice(sheet.mean_reached_in_turns(fourier, alpha), 2)),
        "time until 80 %": lambda: fourier_for(np.full(DRAWS, 0.8), alpha),
    }


def microseconds(call):
    """One sample: the mean of as many calls as fill about two milliseconds."""
    count, begun = 0, time.perf_counter()
    while (spent := time.perf_counter() - begun) < 2e-3:
        call()
        count += 1
    return spent / count * 1e6


def best_of_rounds(named):
    best = dict.fromkeys(named, np.inf)
    for _ in range(ROUNDS):
        best = {name: min(best[name], microseconds(call)) for name, call in named.items()}
    return best


def main():
    rng = np.random.default_rng(7)
    fourier, alpha = np.exp(rng.uniform(-4, 0.7, DRAWS)), np.exp(rng.uniform(-1, 2.5, DRAWS))
    best = best_of_rounds(calls(fourier, alpha))
    yard = best.pop("addition")
    print(f"one addition of {DRAWS} doubles: {yard:.2f} us")
    print(f"{'':24}{'us':>10}{'additions':>12}{'before':>10}")
    for name, cost in best.items():
        print(f"{name:24}{cost:10.1f}{cost / yard:12.0f}{BEFORE[name]:10}")
    print(f"{'':24}{'series us':>10}{'additions':>12}{'difference':>12}")
    for shape in SHAPES:
        series = plain_series(fourier, alpha, shape)
        cost = microseconds(lambda shape=shape: plain_series(fourier, alpha, shape))
        gap = np.abs(mean_reached(fourier, alpha, shape) / series - 1.0).max()
        print(f"{shape:24}{cost:10.0f}{cost / yard:12.0f}{gap:12.1e}")


if __name__ == "__main__":
    main()
