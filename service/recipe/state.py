"""What the steps of a recipe work with: the pools, the book of assumptions, and each component's nature."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from ..core.assumptions import AssumptionLog
from ..core.notices import Notice, Severity
from ..foods.dataset import Food
from ..nutrition.retention import is_done
from ..transfer.food_kinds import food_class_of
from ..transfer.pots import pot_kind_of
from .pools import Pools
from .request import StepRequest
from .steps.history import History


@dataclass(frozen=True, slots=True, eq=False)
class Composition:
    """What a component is made of, as listed: its foods and their likely weights in g, heaviest first.

    main: the heaviest food; None where nothing was mapped and weighed. food_class and pot_kind: what it is
    to a cold bath and to the heat; None where the tables have none like it. words: the name of the heaviest
    food and the lines it stands in.
    """

    foods: tuple[tuple[Food, float], ...] = ()
    main: Food | None = None
    food_class: str | None = None
    pot_kind: str | None = None
    words: str = ""

    @classmethod
    def of(
        cls, foods: Sequence[tuple[Food, float]], lines: Mapping[str, str] = MappingProxyType({})
    ) -> Composition:
        """lines: by a food's code, what the recipe says of it."""
        heaviest_first = tuple(sorted(foods, key=lambda pair: (-pair[1], pair[0].code)))
        if not heaviest_first:
            return cls()
        main = heaviest_first[0][0]
        kinds = food_class_of(main.group_code, main.name), pot_kind_of(main)
        return cls(heaviest_first, main, *kinds, f"{main.name} {lines.get(main.code, '')}")

    @property
    def done_share(self) -> float:
        """The share (0 to 1) of the weight that had been cooked before, by the names of the foods."""
        whole = sum(grams for _, grams in self.foods)
        done = sum(grams for food, grams in self.foods if is_done(food.name, food.group_code))
        return done / whole if whole > 0 else 0.0


@dataclass(slots=True)
class CalculationState:
    """The kitchen while it works."""

    pools: Pools
    log: AssumptionLog
    compositions: dict[str, Composition]
    served: frozenset[str] = frozenset()
    steps: tuple[StepRequest, ...] = ()
    """All of the recipe, in order: what is only browned now is known by what comes after."""
    histories: dict[str, History] = field(default_factory=lambda: defaultdict(History))
    """By component."""
    finished: dict[str, NDArray[np.float64]] = field(default_factory=dict)
    """What every component holds when the steps are done, likely case, by the rows of a pool."""

    notices: dict[Notice, None] = field(default_factory=dict)
    """In the order they were given, each once."""

    def note(self, code: str, severity: Severity, message: str, pointer: str) -> None:
        """Give a notice, once."""
        self.put(Notice(code, severity, message, pointer))

    def put(self, notice: Notice) -> None:
        """Give a notice that is made already, once."""
        self.notices[notice] = None
