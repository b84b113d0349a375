"""Where in a piece its solutes are: the memory that lets one bath, pot or rest follow another.

A piece has these compartments, in this order along the axis of its profile:

    CLOSED   what takes no part: behind bone, skin or fat, or bound in the food
    FILM     liquid that clings to the surface and fills opened cells, there within minutes
    DRAWN    liquid that the food has drawn in, swelling
    JUICE    water that the heat is going to press out, and has not yet
    DEPTH..  the food itself from its slowest part to its surface (`diffusion.compartments`)
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from ..diffusion.compartments import Compartments
from ..diffusion.eigenmodes import Array

CLOSED, FILM, DRAWN, JUICE, DEPTH = range(5)
OPEN = slice(FILM, None)
"""All that takes part."""

_TRACE = 1e-12

Rows = slice | NDArray[np.intp]
_ALL = slice(None)


def in_a_row(rows: Rows) -> Rows:
    """The same rows, as a slice where one follows the other: a slice of an array is no copy."""
    if isinstance(rows, slice) or not rows.size:
        return rows
    first, last = int(rows[0]), int(rows[-1])
    return slice(first, last + 1) if last - first + 1 == rows.size else rows


class Profile:
    """Shares of what a piece holds of each solute by compartment, (rows, compartments, draws); each column
    adds up to 1. Fresh food is even. Changes in place."""

    shares: Array
    opened: Array | float
    """Of the piece's own water, the share (0 to 1) that is in cells which the knife opened: part of FILM."""

    def __init__(self, body: Compartments, closed: Array) -> None:
        """closed: the share (0 to 1) of each row that takes no part, shape (rows,) or (rows, draws)."""
        self.body, self.closed = body, _by_draws(closed)
        self.even_out()

    def _even(self) -> Array:
        shares = np.zeros((len(self.closed), DEPTH + len(self.body), self.closed.shape[1]))
        shares[:, CLOSED] = self.closed
        shares[:, DEPTH:] = (1.0 - self.closed)[:, np.newaxis] * self.body.shares[:, np.newaxis]
        return shares

    def settle(self, body: Compartments, closed: Array) -> None:
        """Bring the profile to the size and the openness that the next step states. closed: as
        in the beginning."""
        if body is not self.body:
            self._reshape(body)
        closed = _by_draws(closed)
        if closed is not self.closed and not np.array_equal(closed, self.closed):
            self._open(closed)

    def _reshape(self, body: Compartments) -> None:
        """The same concentrations from the slowest part to the surface, in other compartments."""
        inner = self.shares[:, DEPTH:]
        within = inner / self.body.shares[:, np.newaxis]
        before, after = (np.cumsum(each.shares) - 0.5 * each.shares for each in (self.body, body))
        at = np.clip(np.interp(after, before, np.arange(len(before))), 0, len(before) - 1 - 1e-9)
        low = at.astype(int)
        part = (at - low)[:, np.newaxis]
        high = np.minimum(low + 1, len(before) - 1)
        moved = (within[:, low] * (1.0 - part) + within[:, high] * part) * body.shares[:, np.newaxis]
        whole, was = moved.sum(axis=1, keepdims=True), inner.sum(axis=1, keepdims=True)
        even = np.broadcast_to(body.shares[:, np.newaxis], moved.shape)
        moved = np.where(whole > _TRACE, moved / np.maximum(whole, _TRACE), even) * was
        self.shares, self.body = np.concatenate((self.shares[:, :DEPTH], moved), axis=1), body

    def _open(self, closed: Array) -> None:
        """Less closed: what was, comes out evenly. More: a like part of everything is shut in."""
        shut = self.shares[:, CLOSED]
        freed = shut * np.clip(1.0 - closed / np.maximum(self.closed, _TRACE), 0.0, 1.0)
        lost = np.clip((closed - self.closed) / np.maximum(1.0 - self.closed, _TRACE), 0.0, 1.0)
        shares = self.shares * (1.0 - lost)[:, np.newaxis]
        shares[:, CLOSED] = shut - freed + lost * (1.0 - shut)
        shares[:, DEPTH:] += freed[:, np.newaxis] * self.body.shares[:, np.newaxis]
        self.shares, self.closed = shares, closed

    def reserve(self, share: Array) -> None:
        """Set aside for JUICE so large a share (-1 to 1; (draws,)) of what else is open; below 0, give back
        of it."""
        self.shares = set_aside(self.shares, share, self.body)

    def open_cells(self, share: Array) -> None:
        """Let so large a share (0 to 1; (draws,)) of the food's own water, or what is open already, be in
        opened cells."""
        more = np.maximum(share - self.opened, 0.0) / np.maximum(1.0 - np.asarray(self.opened), _TRACE)
        self.opened = np.maximum(share, self.opened)
        if more.any():
            self._open_depth(more)

    def _open_depth(self, share: Array) -> None:
        self.shares = with_opened(self.shares, share)

    def held(self, amounts: Array, rows: Rows = _ALL) -> Array:
        """What the open compartments hold of amounts (rows, draws): (rows, compartments - 1, draws)."""
        return np.asarray(self.shares[in_a_row(rows), OPEN] * amounts[:, np.newaxis])

    def change(self, amounts: Array, gained: Array, rows: Rows = _ALL) -> None:
        """After each open compartment gained so much, (rows, compartments - 1, draws); amounts: what the
        piece held before, (rows, draws).

        rows: what amounts and gains are of, where the piece holds nothing else.
        """
        after = self.shares[in_a_row(rows)] * amounts[:, np.newaxis]
        after[:, OPEN] += gained
        np.maximum(after, 0.0, out=after)
        self._share_out(after, rows)

    def shut_in(self, amounts: Array, gained: Array) -> None:
        """After so much came in that takes no part; amounts: what the piece held before; (rows, draws)."""
        after = self.shares * amounts[:, np.newaxis]
        after[:, CLOSED] += gained
        self._share_out(after)

    def let_go(self, share: Array) -> None:
        """After a share (0 to 1; (draws,) or (rows, draws)) of all that is open has left."""
        after = self.shares * (1.0 - share)[..., np.newaxis, :]
        after[:, CLOSED] = self.shares[:, CLOSED]
        self._share_out(after)

    def empty_film(self, share: Array) -> None:
        """After a share (0 to 1; (draws,)) of what clings and fills opened cells has left."""
        after = np.array(np.broadcast_to(self.shares, (*self.shares.shape[:2], share.size)))
        after[:, FILM] *= 1.0 - share
        self._share_out(after)

    def _share_out(self, held: Array, rows: Rows = _ALL) -> None:
        """Take amounts by compartment as shares of their sum; what holds nothing is even."""
        whole = held.sum(axis=1, keepdims=True)
        is_there = whole > _TRACE
        if is_there.all():
            held /= whole
        else:
            np.divide(held, whole, out=held, where=is_there)
            held = np.where(is_there, held, self._even()[rows])
        if rows is _ALL:
            self.shares = held
            return
        if self.shares.shape[2] != held.shape[2]:
            self.shares = np.repeat(self.shares, held.shape[2], axis=2)
        self.shares[in_a_row(rows)] = held

    def even_out(self) -> None:
        """Forget where things are: of what was measured no more is known than how much there is."""
        self.shares, self.opened = self._even(), 0.0

    @property
    def open_share(self) -> Array:
        """Of what a piece holds of each row, what takes part: (rows, draws)."""
        return np.asarray(1.0 - self.shares[:, CLOSED])


def _by_draws(closed: Array) -> Array:
    return closed if closed.ndim == 2 else closed[:, np.newaxis]


def with_opened(shares: Array, share: Array) -> Array:
    """Shares by compartment after so large a share (0 to 1; (draws,)) of what lies in the depth came to lie
    in opened cells. shares: (rows, compartments, draws)."""
    after = np.repeat(shares, share.size, axis=2) if shares.shape[2] != share.size else shares.copy()
    after[:, FILM] += after[:, DEPTH:].sum(axis=1) * share
    after[:, DEPTH:] *= 1.0 - share
    return after


def set_aside(shares: Array, share: Array, body: Compartments) -> Array:
    """Shares by compartment after so large a share (-1 to 1) of what else is open was set aside for JUICE;
    below 0, after so much of it was given back. shares: (rows, compartments, draws); share: (draws,)."""
    if not share.any():
        return shares
    taken, closed, juice = np.maximum(share, 0.0), shares[:, CLOSED], shares[:, JUICE]
    given = juice * np.maximum(-share, 0.0)
    after = shares * (1.0 - taken)
    after[:, CLOSED] = closed
    # The columns add up to 1.
    after[:, JUICE] = juice + (1.0 - closed - juice) * taken - given
    if given.any():
        after[:, DEPTH:] += given[:, np.newaxis] * body.shares[:, np.newaxis]
    return np.asarray(after)
