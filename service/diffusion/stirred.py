"""Compartments that share one stirred bath: what each holds some time later, exactly.

All is linear: a compartment of capacity C (g of water that its content counts in) that holds a goes at its
rate R towards C times what a gram of the bath's water holds; what it gains the bath loses. A compartment of
capacity 0 only gives. Time does not appear: rates are those of the whole time, rate times time, so that two
halves after one another give what the whole gives.

The exponential of that system is taken by a rational function with poles, the best there is on the half line
from 0 to minus infinity (Cody, Meinardus and Varga 1969, by Caratheodory and Fejer's method: Trefethen,
Weideman and Schmelzer, BIT 46:653, 2006); between the poles the system is solved in closed form, whatever
the number of pieces. Within 1e-9 of what there is; conservation is exact.
"""

from __future__ import annotations

import numpy as np

from .eigenmodes import Array

_POLES = np.array(
    [
        -5.161191251645943 + 11.375156254838243j,
        -0.8944046821711842 + 8.582756902505864j,
        1.7154060337877302 + 6.038934929043315j,
        3.28375290009884 + 3.5943867748123672j,
        4.0277324837297535 + 1.1938560673334335j,
    ]
)
_RESIDUES = np.array(
    [
        -0.005784903977335338 + 0.0006858507045167331j,
        0.2725869854616625 + 0.014211728317987423j,
        -2.5655849971270768 - 1.2163857358593981j,
        7.117165209500308 + 8.819533323105892j,
        -4.818382059006333 - 21.05459759714486j,
    ]
)
"""exp(x) - 1 is twice the real part of the sum of residue / pole * x / (x - pole), to 5e-10 for x <= 0."""

_HALVINGS = 40


def change(held: Array, capacity: Array, rates: Array, bath_held: Array, bath_capacity: Array) -> Array:
    """What each compartment gains, in the shape of `held`.

    held: (rows, compartments, draws), amounts. capacity: (compartments, draws). rates: (rows or 1,
    compartments, draws), rate times time. bath_held: (rows, draws). bath_capacity: (draws,), 0 for a rest in
    air, where what one compartment loses the others gain.
    """
    in_bath = bath_held / np.where(bath_capacity > 0, bath_capacity, 1.0)
    rooms = rates * capacity
    flow = rooms * in_bath[:, np.newaxis] - rates * held
    along, across = _resolvents(rates)
    with_rows = "prnd" if len(rates) == len(flow) else "pnd"
    along, across = (each if with_rows == "prnd" else each[:, 0] for each in (along, across))
    pull = np.einsum(f"rnd,{with_rows}->prd", flow, along) - 1j * np.einsum(
        f"rnd,{with_rows}->prd", flow, across
    )
    room = np.einsum(f"rnd,{with_rows}->prd", rooms, along) - 1j * np.einsum(
        f"rnd,{with_rows}->prd", rooms, across
    )
    room = room + bath_capacity
    room[room == 0] = 1.0
    bath = pull / room * (2.0 * _RESIDUES / _POLES)[:, np.newaxis, np.newaxis]
    gained = np.einsum(f"prd,{with_rows}->rnd", bath.real, along)
    gained += np.einsum(f"prd,{with_rows}->rnd", bath.imag, across)
    gained *= rooms
    gained += flow * _mean_decay(rates)
    return np.asarray(gained)


def _resolvents(rates: Array) -> tuple[Array, Array]:
    """Real part, and imaginary part with its sign changed, of 1 / (rate + pole): one array for each pole."""
    real, imaginary = (part[:, np.newaxis, np.newaxis, np.newaxis] for part in (_POLES.real, _POLES.imag))
    along = rates + real
    size = along * along
    size += imaginary * imaginary
    np.reciprocal(size, out=size)
    along *= size
    size *= imaginary
    return along, size


def _mean_decay(rates: Array) -> Array:
    """(1 - exp(-rate)) / rate: what a first flow comes to where the surface stays as it is."""
    safe = np.maximum(rates, 1e-12)
    return np.asarray(-np.expm1(-safe) / safe)


def saturated(
    held: Array, capacity: Array, rates: Array, excess: Array, strength: float
) -> tuple[Array, Array]:
    """While undissolved solute lies in a bath its strength stands still: gains, and the share of the time.

    held, capacity, rates: (compartments, draws). excess: (draws,), what there is beyond what dissolves.
    strength: what a unit of capacity holds in a saturated bath. Ends when the excess is used up, or with the
    time.
    """
    gap = capacity * strength - held

    def taken(root: Array) -> Array:
        return np.asarray((gap * -np.expm1(-rates * (root * root))).sum(axis=0))

    low, high = np.zeros_like(excess), np.ones_like(excess)
    is_used_up = (taken(high) > excess) & (excess > 0)
    for _ in range(_HALVINGS):
        middle = 0.5 * (low + high)
        is_over = taken(middle) > excess
        low, high = np.where(is_over, low, middle), np.where(is_over, middle, high)
    part = np.where(is_used_up, np.square(0.5 * (low + high)), np.where(excess > 0, 1.0, 0.0))
    return gap * -np.expm1(-rates * part), part
