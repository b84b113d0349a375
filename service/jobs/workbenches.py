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
    from ..foods.dataset import FoodTable
    from ..foods.remote.kept import KeptFood
    from ..store.database import Database
    from ..store.saving import Workbench


def make_workbench(database: Database, foods: FoodTable | None = None, *, asking: bool = False) -> Workbench:
    """Saving and reviewing in `database`, with the service's own calculation on these foods, or the bundle's.

    asking: whether the second source is asked for what no food fits.
    """

    def calculate(document: dict[str, Any], *, pins: Sequence[KeptFood] = ()) -> dict[str, Any]:
        return answer_recipe(document, (foods or bundled()).pinned(pins))

    unmapped = second_source.unmapped_words if asking else None
    return kept.saving.Workbench(database, calculate, tables_sha256(), unmapped)
