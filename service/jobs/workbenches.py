"""Workbenches of the store with the service's own calculation."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from .. import store as kept
from ..calculator import answer_recipe
from ..core.tables import tables_sha256
from ..foods.dataset import bundled
from . import second_source

if TYPE_CHECKING:
    from sqlalchemy import Connection

    from ..evidence.local import Local, Measured
    from ..foods.dataset import FoodTable
    from ..foods.remote.kept import KeptFood
    from ..store.database import Database
    from ..store.own_measurements import Measurement
    from ..store.saving import Workbench


def make_workbench(database: Database, foods: FoodTable | None = None, *, asking: bool = False) -> Workbench:
    """Saving and reviewing in `database`, with the service's own calculation on these foods, or the bundle's.

    asking: whether the second source is asked for what no food fits.
    """

    def calculate(document: dict[str, Any], *, pins: Sequence[KeptFood] = ()) -> dict[str, Any]:
        return answer_recipe(document, (foods or bundled()).pinned(pins))

    unmapped = second_source.unmapped_words if asking else None
    return kept.saving.Workbench(database, calculate, tables_sha256(), unmapped)


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
