"""How the nutrients that ride along follow pieces and their bath: all that are free pass as salt does, each
at its own pace. Where pieces know them by patterns (`transfer.blend`), those are moved, else each row."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from ...core.spread import Draws
from ...diffusion.eigenmodes import Array
from ...diffusion.stirred import change, change_by_pace
from ...transfer.blend import Blend, moved, tracers
from ..pool_rows import FREE
from ..pools import TRACE, Amounts
from .history import is_nothing
from .immersed import THIN, Begun, paces_of, parted, side_by_side
from .solution import Way

MOST_PATTERNS = 5
"""With more than so many in a bath it is quicker to move each row by itself."""


def followers(
    begun: Sequence[Begun], bath: str, room_g: Draws, passed: Sequence[Amounts]
) -> Callable[[], None]:
    """How every other nutrient that is free follows, once it is asked for. passed: what went into each piece,
    rows of SOLUTION."""
    pools = begun[0].piece.work.pools
    ways = [Way(pools, bath, each.piece.work.name, each.piece.work.step.index) for each in begun]
    energies = [way.energies() for way in ways]

    def follow() -> None:
        profiles = [
            each.piece.history.others_settled(each.piece.body, each.piece.closed[1]) for each in begun
        ]
        for profile, each in zip(profiles, begun, strict=True):
            if not is_nothing(each.piece.opened):
                profile.open_cells(np.asarray(each.piece.opened))
            if each.aside is not None:
                profile.reserve(each.aside)
        before = [pools.amounts[each.piece.work.name][FREE].copy() for each in begun]
        in_bath = pools.amounts[bath][FREE].copy()
        following = _Following(begun, profiles, before, in_bath, room_g)
        flows, settle = following.by_patterns() if following.has_patterns else following.by_rows()
        whole = np.maximum(sum(each.whole_room for each in begun), TRACE)
        for at, each in enumerate(begun):
            if each.piece.factor is not None:
                flows[at] = each.piece.factor * in_bath * (each.whole_room / whole)
        if len(begun) == 1:
            ways[0].pass_companions(passed[0], energies[0], flows[0])
        else:
            for least, most in ((None, 0.0), (0.0, None)):
                for way, lent, flow, solution in zip(ways, energies, flows, passed, strict=True):
                    way.pass_companions(np.clip(solution, least, most), lent, np.clip(flow, least, most))
        settle()
        for each, profile in zip(begun, profiles, strict=True):
            if each.piece.factor is not None:
                profile.even_out()

    return follow


_Moved = tuple[list[Amounts], Callable[[], None]]
"""What goes into each piece, rows of FREE, and what tells the profiles of it."""


@dataclass(frozen=True, slots=True, eq=False)
class _Following:
    """before: what each piece holds of FREE; in_bath: what the bath holds of it."""

    begun: Sequence[Begun]
    profiles: Sequence[Blend]
    before: Sequence[Amounts]
    in_bath: Amounts
    room_g: Draws

    @property
    def has_patterns(self) -> bool:
        known = [profile.patterns for profile in self.profiles]
        return all(known) and sum(len(each) for each in known if each) < MOST_PATTERNS

    def by_rows(self) -> _Moved:
        """Each row by itself."""
        held = [profile.held(amounts) for profile, amounts in zip(self.profiles, self.before, strict=True)]
        rooms, ratios = self._rooms, self.begun[0].piece.other_ratios
        held_all, gained = side_by_side(held, 1), np.zeros((len(self.in_bath), *rooms.shape))
        for ratio in np.unique(ratios):
            rows = np.flatnonzero(ratios == ratio)
            paces = self._paces(np.array([ratio]))
            gained[rows] = change(held_all[rows], rooms, paces, self.in_bath[rows], self._bath_room(rooms))
        gains = parted(self.begun, gained, 1)

        def settle() -> None:
            for profile, was, gain in zip(self.profiles, self.before, gains, strict=True):
                profile.change(was, gain)

        return [gain.sum(axis=1) for gain in gains], settle

    def by_patterns(self) -> _Moved:
        """Each pattern by itself, and the rows by what they have in it."""
        known = [profile.patterns for profile in self.profiles if profile.patterns is not None]
        parts = [was[:, np.newaxis] * each.parts for was, each in zip(self.before, known, strict=True)]
        held = np.concatenate((*parts, self.in_bath[:, np.newaxis]), axis=1)
        pace_of, rooms = self.profiles[0].pace_of, self._rooms
        _, first = np.unique(pace_of, return_index=True)
        marked, bath = tracers(known, held.shape[2])
        paces = self._paces(self.begun[0].piece.other_ratios[first])
        gained = change_by_pace(marked, rooms, paces, bath, self._bath_room(rooms))
        gains = parted(self.begun, gained, 2)
        flows = [np.einsum("rkd,rkd->rd", held, gain.sum(axis=2)[pace_of]) for gain in gains]

        def settle() -> None:
            pieces = zip(self.profiles, known, self.before, strict=True)
            starts = parted(self.begun, marked, 2)
            for (profile, each, was), start, gain in zip(pieces, starts, gains, strict=True):
                places, wholes = moved(profile.body, start, gain)
                profile.hold(each.shut * was, held * wholes[pace_of], places)

        return flows, settle

    @property
    def _rooms(self) -> Array:
        return side_by_side([each.rooms for each in self.begun], 0)

    def _bath_room(self, rooms: Array) -> Array:
        return np.asarray(np.maximum(self.room_g, THIN * rooms.sum(axis=0))[np.newaxis])

    def _paces(self, ratios: Array) -> Array:
        """Rates times time of all open compartments, (ratios, compartments, draws), by paces over salt's."""
        return side_by_side(
            [paces_of(each.piece, each.piece.salt_fourier * ratios[:, np.newaxis]) for each in self.begun], 1
        )
