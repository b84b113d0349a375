"""How near the salt of foods and liquids is to what was measured, on the sources kept for checking alone.

What a range holds and how wide it is belong together, so both have a floor; so has what is most likely.
`python -m tests.bench.salt` prints them and exits 1 under a floor. No figure is ever set by these sources
(`seed_foods/evidence_sources.csv`, "checking").
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median

from saltledger.evidence.cases import cases
from saltledger.evidence.coverage import Held, hold_all

KINDS = ("brining", "dry_curing", "marinating", "desalting", "pots", "cans")
"""Kinds of measurements of what salt moves with."""


@dataclass(frozen=True, slots=True)
class Accuracy:
    """inside: share of the measurements in their range; width: median of high over low; off: median factor, 1
    or more, between what is most likely and what was measured; of: how many there are."""

    inside: float
    width: float
    off: float
    of: int

    def __str__(self) -> str:
        return (
            f"{self.of} measurements kept apart: {self.inside:.1%} inside their ranges, which are "
            f"{self.width:.2f} wide; likely figures off by a factor of {self.off:.3f}"
        )

    def short_of(self, floor: Accuracy) -> list[str]:
        """In words, what does not reach the floor."""
        found = []
        if self.inside < floor.inside:
            found.append(f"{self.inside:.1%} lie inside their ranges, wanted {floor.inside:.1%}")
        if self.width > floor.width:
            found.append(f"ranges are {self.width:.2f} wide, wanted {floor.width:.2f} at most")
        if self.off > floor.off:
            found.append(
                f"the likely figure is off by a factor of {self.off:.3f}, wanted {floor.off:.3f} at most"
            )
        if self.of < floor.of:
            found.append(f"{self.of} measurements, wanted {floor.of}")
        return found


FLOOR = Accuracy(inside=0.85, width=2.0, off=1.25, of=74)
"""What was reached when it was set, less a measurement or a few."""


def accuracy(held: Sequence[Held]) -> Accuracy:
    """What measurements say of the answers beside them; those of nothing are left out of the factors."""
    some = [each for each in held if each.case.published > 0 and each.range.likely > 0]
    factors = [each.range.likely / each.case.published for each in some]
    return Accuracy(
        inside=sum(each.inside for each in held) / len(held),
        width=median(each.width for each in some if each.width is not None),
        off=median(max(factor, 1 / factor) for factor in factors),
        of=len(held),
    )


def kept_apart() -> list[Held]:
    """Every measurement of salt kept for checking, with what the service says of it."""
    return list(hold_all(case for case in cases() if case.source.part == "checking" and case.kind in KINDS))
