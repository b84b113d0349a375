"""One component goes into another, whole or in part, and both remember what they should of it."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np

from ...core.spread import Draws
from ...transfer.profile import CLOSED, DEPTH, Profile
from ..pool_rows import FATTY_ACIDS, FREE, SOLUTES, WEIGHT
from ..pools import Amounts, ratio
from ..state import CalculationState, Composition
from .paces import closed_shares
from .work import Work


def receive(
    target: Work, source: str, share: Draws | float, compartment: int, *, is_food: bool = False
) -> Amounts:
    """Move a share (0 to 1) of all that a place holds into a component; gives the gain, of the leading rows.

    compartment: where in the component's profile the solutes come to lie: FILM for a coat, DEPTH for a pickle
    that is pumped in and for what is mixed, CLOSED for what frying fat holds. is_food: what is bound in the
    source stays bound.
    """
    pools, history, before = target.pools, target.history, target.pool.copy()
    profile = target.profile() if history.solutes is not None or compartment != DEPTH else None
    bound, others_bound = _bound(target.state, source) if is_food else (None, None)
    held: list[Amounts] = []
    pools.ride_along(lambda: held.append(pools.amounts[target.name][FREE].copy()))
    pools.move_share(source, target.name, share, target.step.index)
    gained = np.asarray(target.pool - before)
    history.weigh_again(before[WEIGHT], target.pool[WEIGHT])
    if profile is not None:
        _place(profile, before[SOLUTES], gained[SOLUTES], compartment, bound)
        _, closed = closed_shares(1.0, target.composition.pot_kind)
        body = profile.body

        def others() -> None:
            follower = history.others_settled(body, closed)
            more = pools.amounts[target.name][FREE] - held[0]
            _place(follower, held[0], more, compartment, others_bound() if others_bound else None)

        pools.ride_along(others)
    return gained


def _bound(state: CalculationState, source: str) -> tuple[Amounts, Callable[[], Amounts]]:
    """Of SOLUTES and of FREE, the share (rows, draws) that takes no part in the source; of a liquid none.
    The second is for when the other rows have come so far."""
    history, kind = state.histories[source], state.compositions[source].pot_kind
    fresh = list(closed_shares(1.0, kind))
    if kind is None:
        fresh = [np.zeros_like(closed) for closed in fresh]
    own = fresh[0] if history.solutes is None else history.solutes.shares[:, CLOSED]
    return own, lambda: fresh[1] if history.others is None else history.others.shares[:, CLOSED]


def _place(
    profile: Profile, before: Amounts, gained: Amounts, compartment: int, bound: Amounts | None = None
) -> None:
    """Tell a profile that one compartment gained so much, or the food's depth evenly; bound: of what was
    gained, the share that takes no part."""
    if compartment == CLOSED:
        profile.shut_in(before, gained)
        return
    if bound is not None:
        profile.shut_in(before, gained * bound)
        before, gained = before + gained * bound, gained * (1 - bound)
    placed = np.zeros((gained.shape[0], DEPTH - 1 + len(profile.body), gained.shape[1]))
    if compartment == DEPTH:
        placed[:, DEPTH - 1 :] = gained[:, np.newaxis] * profile.body.shares[:, np.newaxis]
    else:
        placed[:, compartment - 1] = gained
    profile.change(before, placed)


def join(target: Work, source: str, share: Draws | float) -> None:
    """Mix a share (0 to 1) of a component into another: amounts, what was done to them, and what they are."""
    state, own_g = target.state, target.pool[WEIGHT].copy()
    moved_g = state.pools.leading[source][WEIGHT] * share
    _mix_acids(target, source, share)
    receive(target, source, share, DEPTH, is_food=True)
    target.history.join(state.histories[source], own_g, moved_g)
    part = float(np.ravel(share)[0])
    if part > 0:
        state.compositions[target.name] = _mixed(state, target.name, source, part)


def _mix_acids(target: Work, source: str, share: Draws | float) -> None:
    """Before a share of a component goes into another: how much of the fatty acids is frying fat's."""
    pools, history, other = target.pools, target.history, target.state.histories[source]

    def mix() -> None:
        own, more = (pools.amounts[place][FATTY_ACIDS] for place in (target.name, source))
        part = ratio(more * share, own + more * share)
        history.acids_taken = history.acids_taken + (other.acids_taken - history.acids_taken) * part

    pools.ride_along(mix)


def _mixed(state: CalculationState, target: str, source: str, share: float) -> Composition:
    own, other = state.compositions[target], state.compositions[source]
    more = [(food, grams * share) for food, grams in other.foods]
    lines = {each.main.code: each.words for each in (other, own) if each.main}
    return Composition.of([*own.foods, *more], lines)
