"""A kitchen's own figures, worked out of the measurements that the store keeps of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from .. import store as kept

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sqlalchemy import Connection

    from ..evidence.local import Local, Measured
    from ..foods.dataset import FoodTable
    from ..store.own_measurements import Measurement


def measured_of(each: Measurement) -> Measured:
    """A measurement as the mathematics takes it."""
    from ..evidence.local import Measured  # a service that measures nothing never needs it

    return Measured(
        each.request,
        each.what,  # type: ignore[arg-type]
        each.amount,
        each.uncertainty_percent / 100,
        each.component,
        each.after_step,
    )


def own_figures(found: Sequence[Measurement], foods: FoodTable) -> Local | None:
    """The figures that measurements give; None where they say nothing."""
    from ..evidence.local import local_of

    local = local_of([(measured_of(each), each.confirmed) for each in found], foods)
    return local if local.keys else None


def figures_of_kitchen(connection: Connection, kitchen: str, foods: FoodTable) -> Local | None:
    """The figures of a kitchen; None where it has measured nothing."""
    standing = kept.own_measurements.standing(connection, kitchen)
    return own_figures(standing, foods) if standing else None
