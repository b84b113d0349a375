"""Steps in which a piece is left to running water, to itself, or to its own brine: rinse, rest, ferment."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from ...core.spread import Draws
from ...diffusion.eigenmodes import Array
from ...diffusion.geometry import Body
from ...diffusion.stirred import change
from ...safety.hazards import ferment_notices
from ...transfer.handwork import USUAL_BRINE, own_brine
from ...transfer.profile import DRAWN, FILM, JUICE
from ..pool_rows import FREE, SODIUM, SOLUTES, SOLUTION, WATER, WEIGHT
from ..pools import TRACE, Amounts, as_salt_g, dissolved_g, salt_g
from ..request import StepRequest
from ..state import CalculationState
from .cold import FILM_PACE_H, bathe, diffusivity
from .handling import rinse_can, rinse_hours, rinse_loose
from .nature import food_class, known_class, open_share, piece_of, pot_kind
from .paces import DIFFUSING, closed_shares, dead_cells, other_ratios
from .work import Work, works

TAP_C = 15.0
"""°C of running water where nobody says: common practice, no source."""

_LEAST_ROOM_G = 1e-6
"""g of water that every compartment is taken to have, so that a piece of nothing comes to nothing."""

_MOST_STRENGTH = 2.5
"""Times the usual salt, beyond which more draws no more: our own judgement."""

_FLESH = ("beef", "pork", "poultry", "fish")


def rinse(step: StepRequest, state: CalculationState) -> None:
    """Running water takes the salt that lies on the surface, and more of it from beneath as time goes."""
    for work in works(step, state):
        if rinse_loose(work) or rinse_can(work):
            continue
        _Piece.of(work, rinse_hours(work), TAP_C).wash()
        work.settle_sodium("poured_away")


def rest(step: StepRequest, state: CalculationState) -> None:
    """Nothing comes and nothing goes; in each piece salt spreads from where much is to where little is."""
    for work in works(step, state):
        if step.duration_h is None:
            work.check(
                "rest-not-known", f"State duration_h, so that salt spreads in {work.name!r} as it rests."
            )
        elif known_class(work) is not None:
            _Piece.of(work, np.asarray(step.duration_h), TAP_C).spread()


def ferment(step: StepRequest, state: CalculationState) -> None:
    """In a brine, food and brine even out as in any bath; in its own juice all stays with the food."""
    pools = state.pools.leading
    places = [*step.food, *filter(None, [step.bath])]
    whole_g = sum(float(pools[place][WEIGHT, 0]) for place in places)
    percent = 100 * sum(float(salt_g(pools[place])[0]) for place in places) / max(whole_g, TRACE)
    kinds = [known_class(work) or "" for work in works(step, state)]
    is_flesh = any(kind.split("_")[0] in _FLESH for kind in kinds)
    if is_flesh or "vegetable" in kinds:
        for notice in ferment_notices(percent, step.temperature_c, step.pointer, is_flesh=is_flesh):
            state.put(notice)
    if step.bath is not None:
        bathe(replace(step, kind="brine"), state)
    elif step.into is not None:
        for work in works(step, state):
            _give_brine(work, step.into)
    else:
        message = (
            "The brine that the salt draws stays with the food; name a component in into to keep it apart, "
            "or press or drain it, if it is not eaten."
        )
        state.note("ferment-juice-kept", "info", message, step.pointer)


def _give_brine(work: Work, target: str) -> None:
    """Dry-salted vegetables give of their own water, towards an end that they have once; the brine is as
    strong as what stays in them. What was weighed or measured afterwards is held to."""
    history, pool, figures = work.history, work.pool, own_brine(pot_kind(work))
    before_g = np.maximum(pool[WEIGHT], TRACE).copy()
    given_g = np.maximum(-history.water * before_g, 0.0)
    green_g = np.maximum(before_g * (1 - history.dissolved - history.water), TRACE)
    most = work.assume("own-brine", figures.most, "g/g", ceiling=0.8, shared=f"{pot_kind(work)}/own-brine")
    strength = salt_g(pool) / np.maximum(pool[WATER], TRACE) / USUAL_BRINE
    end_g = np.minimum(most * np.minimum(strength, _MOST_STRENGTH), 0.8) * green_g
    hours = work.step.duration_h
    done = 1.0 if hours is None else -np.expm1(-np.log(2) * hours / figures.half_h)
    water_g = np.minimum(np.maximum(end_g - given_g, 0.0) * done, pool[WATER])
    weighed = work.weight_ratio("own-brine-weighed")
    if weighed is not None:
        open_g = dissolved_g(work.profile().open_share * pool[SOLUTES])
        juice_g = np.maximum(pool[WATER] + open_g, TRACE)
        water_g = pool[WATER] * np.clip(before_g * (1 - weighed) / juice_g, 0.0, 1.0)
    held = pool[SOLUTES].copy()
    work.run_out(target, water_g / np.maximum(pool[WATER], TRACE), water_g)
    gone, after_g = held - pool[SOLUTES], np.maximum(pool[WEIGHT], TRACE)
    history.weigh_again(before_g, after_g)
    history.water = history.water - water_g / after_g
    history.dissolved = history.dissolved - dissolved_g(gone) / after_g
    history.salt = history.salt - as_salt_g(gone) / after_g
    work.settle_measured(target)


@dataclass(frozen=True, slots=True, eq=False)
class _Piece:
    """A piece by itself. fourier: D t / l^2 of rows of SOLUTES. film_pace: of what clings, rate by time."""

    work: Work
    body: Body
    fourier: Amounts
    film_pace: Draws
    closed: tuple[Array, Array]

    @classmethod
    def of(cls, work: Work, hours: Draws, usual_c: float) -> _Piece:
        step, kind = work.step, food_class(work)
        if step.temperature_c is None:
            work = replace(work, step=replace(step, temperature_c=usual_c))
        body, thickness_cm = piece_of(work, kind)
        per_m2_s = hours * 3600 / (thickness_cm / 200) ** 2
        held = np.asarray(work.pool[SOLUTES].any(axis=1))
        salt = diffusivity(work, kind, "salt") * per_m2_s
        rows = [
            diffusivity(work, kind, name) * per_m2_s if here and name != "salt" else salt
            for name, here in zip(DIFFUSING, held, strict=True)
        ]
        dead = dead_cells(work, kind)
        closed = closed_shares(open_share(step), work.composition.pot_kind, kind, dead=dead)
        return cls(work, body, np.stack(rows), FILM_PACE_H * hours + np.zeros_like(salt), closed)

    def wash(self) -> None:
        """Endless fresh water: every compartment goes towards nothing at its own rate."""
        self._settle("poured_away", lambda held, paces: held * np.expm1(-paces))

    def spread(self) -> None:
        """A rest in air: what one compartment loses the others gain."""
        nothing = np.zeros_like(self.film_pace)
        rooms = np.maximum(self._rooms(), _LEAST_ROOM_G)  # as they are now: what rides along asks later

        def gains(held: Array, paces: Array) -> Array:
            return change(held, rooms, paces, np.zeros((len(held), nothing.size)), nothing)

        self._settle(None, gains)

    def _rooms(self) -> Array:
        """g of water that each open compartment holds, (compartments, draws)."""
        work, history = self.work, self.work.history
        weight_g, depth_g = work.pool[WEIGHT], work.pool[WATER].copy()
        rooms = np.zeros((JUICE + len(self.body.compartments), weight_g.shape[0]))
        opened = 0.0 if history.solutes is None else history.solutes.opened
        opened_g = opened * (work.pool[WATER] - history.water * weight_g) * open_share(work.step)
        for at, share in (
            (FILM, np.maximum(history.film, 0.0)),
            (DRAWN, np.maximum(history.drawn, 0.0)),
            (JUICE, history.juice),
        ):
            rooms[at - 1] = share * weight_g
            depth_g -= rooms[at - 1]
        rooms[FILM - 1] += opened_g
        depth_g -= opened_g
        np.multiply.outer(self.body.compartments.shares, np.maximum(depth_g, 0.0), out=rooms[JUICE:])
        return rooms

    def _paces(self, fourier: Amounts) -> Array:
        paces = np.zeros((len(fourier), JUICE + len(self.body.compartments), fourier.shape[1]))
        paces[:, FILM - 1] = self.film_pace
        paces[:, DRAWN - 1] = fourier * self.body.compartments.rates[0]
        np.multiply(self.body.compartments.rates[:, np.newaxis], fourier[:, np.newaxis], out=paces[:, JUICE:])
        return paces

    def _settle(self, target: str | None, gains: Callable[[Array, Array], Array]) -> None:
        work, history, body = self.work, self.work.history, self.body.compartments
        profile = history.settled(body, self.closed[0])
        before, weight_g = work.pool[SOLUTES].copy(), work.pool[WEIGHT].copy()
        moved = None
        gained = gains(profile.held(before), self._paces(self.fourier))
        if target is not None:
            moved = self._give(target, gained)
        profile.change(before, gained)
        history.weigh_again(weight_g, work.pool[WEIGHT])
        ratios = other_ratios()
        way = None if target is None else work.to(target)
        lent = None if way is None else way.energies()

        def others() -> None:
            follower = history.others_settled(body, self.closed[1])
            was = work.pools.amounts[work.name][FREE].copy()
            paces = self._paces(self.fourier[SODIUM] * ratios[:, np.newaxis])
            more, settle = follower.gaining(was, lambda held, rows: gains(held, paces[rows]))
            if way is not None and lent is not None and moved is not None:
                way.pass_companions(moved, lent, -more)
            settle()

        work.pools.ride_along(others)

    def _give(self, target: str, gained: Array) -> Amounts:
        """What the compartments lost goes to a place; the memory of what liquids gave goes down with it."""
        work, history = self.work, self.work.history
        solution = np.zeros((SOLUTION.stop, gained.shape[2]))
        solution[SOLUTES] = np.minimum(-gained.sum(axis=1), work.pool[SOLUTES])
        moved = work.pools.move_solution(work.name, target, solution, work.step.index)
        after_g = np.maximum(work.pool[WEIGHT], TRACE)
        history.dissolved = history.dissolved - dissolved_g(moved[SOLUTES]) / after_g
        history.salt = history.salt - as_salt_g(moved) / after_g
        return moved
