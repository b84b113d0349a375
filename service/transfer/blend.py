"""Where in a piece the nutrients are that ride along, told by where they came from.

Whatever passes at one pace is moved alike: what of it the piece had at first lies in one pattern, what a
liquid gave it in another. So a bath moves the few patterns of a pace and not each nutrient by itself, and of
each nutrient it is enough to know how much of it lies in which pattern.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial

import numpy as np
from numpy.typing import NDArray

from ..diffusion.compartments import Compartments
from ..diffusion.eigenmodes import Array
from .profile import CLOSED, DEPTH, OPEN, Profile, set_aside, with_opened

_TRACE = 1e-12


@dataclass(slots=True, eq=False)
class Patterns:
    """shut: of each row, the share that takes no part, (rows, draws). parts: of each row, the share that lies
    in each pattern, (rows, patterns, draws). places: of each pattern, the share in each compartment, (paces,
    patterns, compartments, draws), nothing in CLOSED. Each adds up to 1; draws may be 1 for all alike."""

    shut: Array
    parts: Array
    places: Array

    def __len__(self) -> int:
        return int(self.parts.shape[1])

    def rearrange(self, change: Callable[[Array], Array]) -> None:
        """Change where patterns lie; change: of shares by compartment, (patterns, compartments, draws)."""
        places = change(self.places.reshape(-1, *self.places.shape[2:]))
        self.places = places.reshape(*self.places.shape[:2], *places.shape[1:])


class Blend(Profile):
    """A profile kept as patterns for as long as nothing but baths, juice and losses of all alike happened to
    the piece; then as any other profile.

    pace_of: of each row, the number of the pace that it goes at, (rows,).
    """

    def __init__(self, body: Compartments, closed: Array, pace_of: NDArray[np.intp]) -> None:
        self.pace_of = pace_of
        self._patterns: Patterns | None = None
        self._shares: Array
        super().__init__(body, closed)

    @property
    def patterns(self) -> Patterns | None:
        """None where each row has to be told by itself."""
        return self._patterns

    @property
    def shares(self) -> Array:
        """As in Profile. Whoever asks means to change them: there are no patterns from then on."""
        if self._patterns is not None:
            kept, self._patterns = self._patterns, None
            self._shares = np.einsum("rkd,rknd->rnd", kept.parts, kept.places[self.pace_of])
            self._shares[:, CLOSED] += kept.shut
        return self._shares

    @shares.setter
    def shares(self, shares: Array) -> None:
        self._patterns, self._shares = None, shares

    def even_out(self) -> None:
        places = np.zeros((int(self.pace_of.max()) + 1, 1, DEPTH + len(self.body), 1))
        places[..., DEPTH:, :] = self.body.shares[:, np.newaxis]
        closed = self.closed
        self._patterns = Patterns(closed, 1.0 - closed[:, np.newaxis], places)
        self.opened = 0.0

    @property
    def open_share(self) -> Array:
        if self._patterns is None:
            return super().open_share
        return np.asarray(1.0 - self._patterns.shut)

    def reserve(self, share: Array) -> None:
        if self._patterns is None:
            super().reserve(share)
        else:
            self._patterns.rearrange(lambda places: set_aside(places, share, self.body))

    def _open_depth(self, share: Array) -> None:
        if self._patterns is None:
            super()._open_depth(share)
        else:
            self._patterns.rearrange(lambda places: with_opened(places, share))

    def let_go(self, share: Array) -> None:
        kept = self._patterns
        if kept is None or share.ndim > 1:
            super().let_go(share)
        else:
            self.hold(kept.shut, kept.parts * (1.0 - share), kept.places)

    def gaining(
        self, amounts: Array, gains: Callable[[Array, NDArray[np.intp]], Array]
    ) -> tuple[Array, Callable[[], None]]:
        """What each row gains of itself where open compartments gain what `gains` says, (rows, draws), and
        what then tells the profile. amounts: of the rows, (rows, draws).

        gains: asked with what compartments hold of rows, or of patterns of one pace, and with the rows whose
        pace that is, as many or one.
        """
        kept = self._patterns
        if kept is None:
            gained = gains(self.held(amounts), np.arange(len(amounts)))
            return gained.sum(axis=1), partial(self.change, amounts, gained)
        shape = (*kept.places.shape[:2], kept.places.shape[2] - OPEN.start, amounts.shape[1])
        start = np.broadcast_to(kept.places[:, :, OPEN], shape)
        firsts = [rows[:1] for rows in _by_pace(self.pace_of)]
        gained = np.stack([gains(held, rows) for held, rows in zip(start, firsts, strict=True)])
        held = amounts[:, np.newaxis] * kept.parts
        places, wholes = moved(self.body, start, gained)
        flow = np.einsum("rkd,rkd->rd", held, gained.sum(axis=2)[self.pace_of])
        after = kept.shut * amounts, held * wholes[self.pace_of], places
        return flow, partial(self.hold, *after)

    def hold(self, shut: Array, parts: Array, places: Array) -> None:
        """Take amounts, shut in and by patterns, as shares of their sum; shapes as in Patterns. Of what holds
        nothing all counts as of the first pattern."""
        whole = shut + parts.sum(axis=1)
        is_there = whole > _TRACE
        if not is_there.all():
            shut = np.where(is_there, shut, self.closed)
            first = np.zeros_like(parts)
            first[:, 0] = 1.0 - self.closed
            parts = np.where(is_there[:, np.newaxis], parts, first)
            whole = np.where(is_there, whole, 1.0)
        self._patterns = Patterns(shut / whole, parts / whole[:, np.newaxis], places)


def _by_pace(pace_of: NDArray[np.intp]) -> list[NDArray[np.intp]]:
    return [np.flatnonzero(pace_of == pace) for pace in range(int(pace_of.max()) + 1)]


def tracers(pieces: Sequence[Patterns], draws: int) -> tuple[Array, Array]:
    """Patterns of pieces that lie in one bath as rows of their own, and last one for what the bath holds.

    Gives what all open compartments hold, (paces, rows, compartments, draws), and the bath, (paces, rows,
    draws)."""
    rows = sum(len(each) for each in pieces) + 1
    cells = [each.places.shape[2] - OPEN.start for each in pieces]
    made = np.zeros((len(pieces[0].places), rows, sum(cells), draws))
    row = cell = 0
    for each, wide in zip(pieces, cells, strict=True):
        made[:, row : row + len(each), cell : cell + wide] = each.places[:, :, OPEN]
        row, cell = row + len(each), cell + wide
    in_bath = np.zeros((len(made), rows, draws))
    in_bath[:, -1] = 1.0
    return made, in_bath


def moved(body: Compartments, held: Array, gained: Array) -> tuple[Array, Array]:
    """Where tracers lie in a piece after a bath: the shares by compartments, and how much of each in all.

    held, gained: of the piece's open compartments, (paces, tracers, compartments, draws).
    """
    paces, count, cells, draws = held.shape
    after = np.zeros((paces, count, cells + OPEN.start, draws))
    np.add(held, gained, out=after[:, :, OPEN])
    np.maximum(after, 0.0, out=after)
    whole = after.sum(axis=2)
    is_there = whole > _TRACE
    if is_there.all():
        after /= whole[:, :, np.newaxis]
    else:
        even = np.zeros((after.shape[2], 1))
        even[DEPTH:] = body.shares[:, np.newaxis]
        sure = np.where(is_there, whole, 1.0)[:, :, np.newaxis]
        after = np.where(is_there[:, :, np.newaxis], after / sure, even)
    return after, whole
