"""Steps done by hand: coating, draining, trimming, and boiling down."""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np

from ...core.notices import STATED
from ...core.sourced import SourcedFigure
from ...core.spread import Draws
from ...diffusion.geometry import Body
from ...transfer.food_kinds import kind_of
from ...transfer.handling_figures import clings_g, coat, rinse_rate_per_min, wanted_g
from ...transfer.handwork import by_hand
from ...transfer.pots import Drained, drain_and_rinse
from ...transfer.profile import FILM
from ...transfer.usual import usual_size
from ..pool_rows import WATER, WEIGHT
from ..pools import TRACE, share_of
from ..request import StepRequest
from ..state import CalculationState
from .heat_losses import lose_alcohol
from .nature import food_class, pot_kind
from .receiving import join, receive
from .work import Work, works


def dredge(step: StepRequest, state: CalculationState) -> None:
    """A coat clings to every face of the food, as long as there is enough; the rest stays where it was."""
    assert step.bath is not None
    foods, coating = works(step, state), Work(step, state, step.bath)
    clings = _clings_g(coating, foods)
    held_g = np.maximum(coating.pool[WEIGHT], TRACE)
    left = np.ones_like(held_g)
    for work, coat_g in zip(foods, clings, strict=True):
        part = coat_g / held_g
        receive(work, step.bath, share_of(part, left), FILM)
        left = left - part
        work.history.coat = work.history.coat + coat_g / np.maximum(work.pool[WEIGHT], TRACE)


def _clings_g(coating: Work, foods: Sequence[Work]) -> list[Draws]:
    """g that cling to each food; pieces share by weight what the caller states."""
    set_out_g = coating.pool[WEIGHT]
    if coating.step.absorption_factor is not None:
        share = coating.know("sticks", coating.step.absorption_factor, "fraction", STATED)
        whole_g = np.maximum(sum(work.pool[WEIGHT] for work in foods), TRACE)
        return [share * set_out_g * work.pool[WEIGHT] / whole_g for work in foods]
    coating.check(
        "coating-share-assumed",
        f"How much of {coating.name!r} sticks is a broad guess; weigh the rest and state absorption_factor.",
    )
    film = coating.assume("coat", coat(coating.composition.foods), "g/100 cm2")
    wanted = [wanted_g(work.pool[WEIGHT], _surface_per_cm(work), film) for work in foods]
    whole_g = np.maximum(np.sum(wanted, axis=0), TRACE)
    return [clings_g(whole_g, set_out_g) * each / whole_g for each in wanted]


def _surface_per_cm(work: Work) -> Draws:
    """cm2 of surface for each cm3 of food."""
    step, kind = work.step, food_class(work)
    size = usual_size(kind, work.main.name if work.main else "")
    nominal = step.thickness_cm or size.thickness_cm.spread.likely
    body = Body(step.shape or size.shape, nominal, step.length_cm, step.width_cm)
    if step.thickness_cm is not None:
        return np.asarray(body.surface_per_cm(work.know("thickness", nominal, "cm", STATED)))
    thickness = work.assume("thickness", size.thickness_cm, "cm", shared=f"{kind}/thickness")
    return np.asarray(body.surface_per_cm(thickness))


def drain(step: StepRequest, state: CalculationState) -> None:
    """Liquid is poured off, with what is dissolved in it; a solid piece lifted from its bath holds none."""
    for work in works(step, state):
        lost = lost_share(work)
        drained = _of_a_can(work, rinsed=work.step.rinsed)
        if lost is not None:
            share = share_of(lost * work.pool[WEIGHT], work.pool[WATER])
            work.run_out(work.taker("poured_away"), share, share * work.pool[WATER])
        elif drained is not None:
            _drain_can(work, drained)
        elif step.rinsed and rinse_loose(work):
            continue
        elif pot_kind(work) is None:
            work.check(
                "drain-not-known",
                f"How much liquid {work.name!r} loses is not known; weigh it and state discarded_g.",
            )
        work.settle_measured(work.taker("poured_away"))


def rinse_loose(work: Work) -> bool:
    """Rinse flakes, curds, shreds or small pickles, which lose so much of their salt a minute; whether it is
    such food."""
    rate = rinse_rate_per_min(work.main)
    if rate is None:
        return False
    per_min = work.assume("rinse-rate", rate, "1/min")
    work.run_out("poured_away", -np.expm1(-per_min * rinse_hours(work) * 60), np.zeros_like(per_min))
    work.settle_sodium("poured_away")
    return True


def rinse_hours(work: Work) -> Draws:
    """How long food is held under the tap, h, stated or usual."""
    if work.step.duration_h is not None:
        return np.asarray(work.step.duration_h)
    return work.assume("rinse-time", by_hand("rinse_min"), "min") / 60


def rinse_can(work: Work) -> bool:
    """Rinse what was canned in liquid, drained before or not: it soon loses what clings to it, and no more,
    however long it is under the tap; whether it was."""
    if kind_of("can", work.main) == _BOILED:
        return False
    history = work.history
    if not np.any(history.tap_min):
        history.can_at_tap = history.can_was
    rinsed = drain_and_rinse(
        work.main, rinsed=True, weighed_drained=history.weighed_drained, before=history.can_at_tap
    )
    if rinsed is None:
        return False
    before = -np.expm1(-history.tap_min / _CLINGS_MIN)
    history.tap_min = history.tap_min + rinse_hours(work) * 60
    after = -np.expm1(-history.tap_min / _CLINGS_MIN)
    _drain_can(work, rinsed, lambda kept: (1 - (1 - kept) * after) / (1 - (1 - kept) * before))
    if np.any(history.tap_min):
        history.can_was = "rinsed"
    work.settle_measured("poured_away")
    return True


_BOILED = "boiled_pasta"
"""A kind of the table of cans that came out of a pot: water washes it as it does any piece."""
_CLINGS_MIN = 0.1
"""Minutes under the tap in which what clings to canned food is mostly gone: our own judgement."""


def _of_a_can(work: Work, *, rinsed: bool) -> Drained | None:
    """What a can keeps, or what was drained by an earlier step already."""
    history = work.history
    kept = drain_and_rinse(
        work.main, rinsed=rinsed, weighed_drained=history.weighed_drained, before=history.can_was
    )
    history.can_was = "rinsed" if rinsed else history.can_was or "drained"
    return kept


def _drain_can(work: Work, drained: Drained, now: Callable[[Draws], Draws] = lambda kept: kept) -> None:
    """A can: what the drained, or drained and rinsed, food keeps of the listed weight and sodium. now: of
    what it keeps in the end, what it keeps of what it has by now."""
    weight = work.assume("yield", SourcedFigure(drained.weight, drained.source), "fraction", ceiling=1.0)
    sodium = work.assume(
        "sodium-kept", SourcedFigure(drained.sodium, drained.source), "fraction", ceiling=1.0
    )
    water_share = share_of(work.pool[WEIGHT] * (1 - now(weight)), work.pool[WATER])
    # Draining and rinsing take of everything that is free what they take of salt.
    work.run_out(work.taker("poured_away"), 1 - now(sodium), water_share * work.pool[WATER])


def trim(step: StepRequest, state: CalculationState) -> None:
    """Part of a food is cut off; what is cut is taken to be like the rest."""
    for work in works(step, state):
        if step.into is None:
            state.pools.move_share(work.name, "trimmed", _known_loss(work), step.index)
        else:
            join(Work(step, state, step.into), work.name, _known_loss(work))
    state.note(
        "trim-like-the-rest",
        "info",
        "What is trimmed is taken to be like the whole; trimmed fat holds less salt than lean does.",
        step.pointer,
    )


def reduce(step: StepRequest, state: CalculationState) -> None:
    """A liquid is boiled down: water goes into the air, all else stays."""
    for work in works(step, state):
        work.give_water("evaporated", _known_loss(work) * work.pool[WEIGHT])
        lose_alcohol(work)


def lost_share(work: Work) -> Draws | None:
    """Share (0 to 1) of the weight that is weighed or stated as lost; None where it is not."""
    lost = work.discarded_share()
    kept = work.weight_ratio("yield")
    if lost is None and kept is not None:
        lost = np.clip(1 - kept, 0.0, 1.0)
    return lost


def _known_loss(work: Work) -> Draws:
    lost = lost_share(work)
    assert lost is not None, "a request without a weight for this step is refused"
    return lost
