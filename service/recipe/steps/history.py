"""What a component remembers of what was done to it, so that steps in a row come to one end and not to many.

Amounts are kept as shares of the component's present weight: whatever takes a part of all of it (trimming,
dividing) leaves them true.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ...core.spread import Draws
from ...diffusion.compartments import Compartments
from ...diffusion.eigenmodes import Array
from ...transfer.blend import Blend
from ...transfer.profile import Profile
from ..pools import TRACE
from .paces import pace_of_others

_OF_WEIGHT = (
    "water",
    "film",
    "drawn",
    "juice",
    "dissolved",
    "salt",
    "boiled_in",
    "fat_taken",
    "coat",
    "pumped",
    "gelatine",
    "ran_off",
    "ran_off_salt",
)


def is_nothing(amount: Draws | float) -> bool:
    """Whether it is 0 in every draw."""
    return amount == 0.0 if isinstance(amount, float) else not amount.any()


def of_weight(share: Draws | float, weight_g: Draws) -> Draws | float:
    """g of a share of a weight; 0 of what is not there, without an array."""
    return 0.0 if isinstance(share, float) and share == 0.0 else share * weight_g


@dataclass(slots=True, eq=False)
class History:
    """water: what liquids gave it, below 0: took from it. film, drawn: how much of its clinging film and of
    its swelling have come so far. juice: water and solutes that the heat is still to press out. dissolved:
    g of solutes that liquids gave; boiled_in: the same in hot ones; salt: as g of salt that draws water as
    they do. fat_taken: from frying. coat, pumped: what was rolled on and pumped in. gelatine: what a pot has
    taken out. ran_off: solutes that left with its own brine as it ran off; ran_off_salt: the same as g of
    salt. All these as shares of the present weight.

    acids_taken: of each fatty acid, the share (0 to 1) that came with frying fat; kept by what follows.
    weight_kept, fat_kept: what the heat has left so far, of 1 for raw. alcohol_min: minutes of heat so far;
    heated: how often it went over the usual time, as vitamins feel it. weighed_drained: whether its weight
    is that of a can without its liquid. can_was: "drained" or "rinsed", once a step did so;
    can_at_tap: the same when the tap was first opened; tap_min: minutes that a can was held under it.
    solutes, others: where the rows of SOLUTES and of FREE are; None while they are even.
    """

    water: Draws | float = 0.0
    film: Draws | float = 0.0
    drawn: Draws | float = 0.0
    juice: Draws | float = 0.0
    dissolved: Draws | float = 0.0
    salt: Draws | float = 0.0
    boiled_in: Draws | float = 0.0
    fat_taken: Draws | float = 0.0
    coat: Draws | float = 0.0
    pumped: Draws | float = 0.0
    gelatine: Draws | float = 0.0
    ran_off: Draws | float = 0.0
    ran_off_salt: Draws | float = 0.0
    weight_kept: Draws | float = 1.0
    fat_kept: Draws | float = 1.0
    acids_taken: Draws | float = 0.0
    alcohol_min: float = 0.0
    heated: float = 0.0
    weighed_drained: bool = False
    can_was: str = ""
    can_at_tap: str = ""
    tap_min: Draws | float = 0.0
    solutes: Profile | None = None
    others: Blend | None = None

    def weigh_again(self, before_g: Draws, after_g: Draws) -> None:
        """The same grams, as shares of another weight."""
        factor = before_g / np.maximum(after_g, TRACE)
        for name in _OF_WEIGHT:
            held = getattr(self, name)
            if isinstance(held, np.ndarray):
                setattr(self, name, held * factor)

    def lose(self, before_g: Draws, after_g: Draws) -> None:
        """So much has dried off or was pressed out: heat goes towards an end of the raw weight, and what is
        gone already is on the way there."""
        self.weight_kept = self.weight_kept * (np.maximum(after_g, TRACE) / np.maximum(before_g, TRACE))

    def join(self, other: History, own_g: Draws, moved_g: Draws) -> None:
        """Mix in what so many grams of another component remember; this one's shares stand for the mixture.

        Profiles and fatty acids are the mover's business.
        """
        whole_g = np.maximum(own_g + moved_g, TRACE)
        for name in _OF_WEIGHT:
            setattr(self, name, getattr(self, name) + getattr(other, name) * moved_g / whole_g)
        for name in ("weight_kept", "fat_kept"):
            own, theirs = getattr(self, name), getattr(other, name)
            raw_g = own_g / np.maximum(own, TRACE) + moved_g / np.maximum(theirs, TRACE)
            setattr(self, name, np.where(raw_g > TRACE, whole_g / np.maximum(raw_g, TRACE), own))
        part = float(moved_g[0] / whole_g[0])
        self.alcohol_min += (other.alcohol_min - self.alcohol_min) * part
        self.heated += (other.heated - self.heated) * part

    def settled(self, body: Compartments, closed: Array) -> Profile:
        """The profile of SOLUTES, at the size and openness that a step states."""
        if self.solutes is None:
            self.solutes = Profile(body, closed)
        self.solutes.settle(body, closed)
        return self.solutes

    def others_settled(self, body: Compartments, closed: Array) -> Blend:
        """The same of FREE; asked for when the other rows follow."""
        if self.others is None:
            self.others = Blend(body, closed, pace_of_others())
        self.others.settle(body, closed)
        return self.others
