"""What of a food takes no part in an exchange: behind bone and skin, bound, or held by living cells."""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from ...transfer.pots import mobile_share
from ..pool_rows import FREE, POTASSIUM, ROW, SOLUTES, SUGAR


@lru_cache(maxsize=1024)
def closed_shares(
    open_share: float, of_own: float, kind: str | None = None
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Of rows of SOLUTES and of FREE, the share that takes no part: what is behind bone and skin, what is
    bound in the food (by its kind in a pot), and of a living plant's own what its cells hold back."""
    free, others = free_shares(kind)
    own = np.where(np.isin(np.arange(len(free)), (SUGAR, POTASSIUM)), of_own, 1.0)
    return 1 - open_share * free * own, 1 - open_share * others * of_own


@lru_cache(maxsize=64)
def free_shares(kind: str | None = None) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """The likely share (0 to 1) of each row of SOLUTES and of FREE that is free to leave a food."""
    tags = tuple(ROW)

    def share(tag: str) -> float:
        figure = mobile_share(tag, kind)
        return figure.spread.likely if figure else 0.0

    return tuple(np.array([share(tag) for tag in tags[rows]]) for rows in (SOLUTES, FREE))  # type: ignore[return-value]
