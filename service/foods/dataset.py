"""The foods a request can use: USDA SR28, hand-kept foods beside it, kept foods of the second source, and a
caller's own on top.

SR28 is built into seed_foods/data/ (seed_foods/build.py); what kitchens use and it lacks is in extra.py.
"""

from __future__ import annotations

import hashlib
import json
from collections import ChainMap
from collections.abc import Iterable, Mapping
from functools import cache, cached_property
from typing import Any, TypeVar

from ..core.errors import NotFound
from ..core.remembered import Remembered
from ..core.tables import document, seed_foods
from .bundle import Shelf
from .food import Food, Household, Values, food_document
from .hand_kept import custom_food, extra_foods
from .matching.everyday_names import everyday_names
from .matching.folding import fold
from .matching.match_scoring import MatchScorer, search
from .matching.row_index import RowIndex
from .remote.kept import KeptFood
from .remote.second import SecondSource

__all__ = ["Food", "FoodTable", "Household", "Values", "bundled", "custom_food", "food_document"]

_T = TypeVar("_T")
_FILES = ("data/foods.csv", "data/values.csv", "extra_foods.csv", "curing_salts.csv")


MOST_LINES, MOST_MATCHES = 4096, 32_768
"""Lines that a table remembers whole, of recipes saved again; and words whose food it remembers: those
of an archive, whatever the amounts are."""


class FoodTable:
    """All foods that a request can use.

    names: every food's name, by code, in order of codes. custom: the caller's own foods. second: what is kept
    of the second source. identity: name, release and sha256 of the bundled data, as answers give them.
    lines, matches: what was made of whole lines, and which foods their words meant, while it was this table.
    """

    def __init__(
        self,
        foods: Mapping[str, Food],
        names: Mapping[str, str],
        identity: Mapping[str, str],
        custom: tuple[Food, ...] = (),
        *,
        under: FoodTable | None = None,
        second: SecondSource | None = None,
    ) -> None:
        self._foods = foods
        self.names = names
        self.identity = dict(identity)
        self.custom = custom
        self.second = second or SecondSource()
        self._under = under
        self.lines: Remembered[Any] = Remembered(MOST_LINES)
        self.matches: Remembered[Any] = Remembered(MOST_MATCHES)

    @classmethod
    def of(cls, foods: Iterable[Food], name: str = "foods") -> FoodTable:
        """A table of just these foods."""
        by_code = {food.code: food for food in foods}
        names = {code: food.name for code, food in by_code.items()}
        return cls(by_code, names, {"name": name, "release": "", "sha256": ""})

    def get(self, code: str) -> Food:
        """The food of that code. Raises NotFound."""
        try:
            return self._foods[code]
        except KeyError:
            raise NotFound("food", code) from None

    def __contains__(self, code: object) -> bool:
        return code in self.names

    def __len__(self) -> int:
        return len(self.names)

    @property
    def codes(self) -> tuple[str, ...]:
        return tuple(self.names)

    def with_custom(self, foods: Iterable[Food]) -> FoodTable:
        """This table with a caller's own foods laid over it; a code that is there already is overruled."""
        custom = {food.code: food for food in foods}
        if not custom:
            return self
        names = {code: food.name for code, food in custom.items()}
        return FoodTable(
            _Over(custom, self._foods),
            _Over(names, self.names),
            self.identity,
            tuple(custom.values()),
            under=self,
            second=self.second,
        )

    def with_second(self, second: SecondSource) -> FoodTable:
        """This table with kept foods of the second source beside its own."""
        kept = second.kept.by_code
        names = _Over({code: food.name for code, food in kept.items()}, self.names)
        foods = _Over(second.kept.foods, self._foods)
        return FoodTable(foods, names, self.identity, self.custom, under=self, second=second)

    def pinned(self, pins: Iterable[KeptFood]) -> FoodTable:
        """This table with certain releases of foods of the second source in place of those kept today."""
        pins = tuple(pins)
        return self.with_second(self.second.pinned(pins)) if pins else self

    @property
    def without_custom(self) -> FoodTable:
        """This table without the caller's own foods."""
        return self._under.without_custom if self.custom and self._under else self

    def sources(self, codes: Iterable[str]) -> list[dict[str, str]]:
        """What foods of these codes rest on: the bundled dataset, and each food of the second source.

        Each names its source, the release and a SHA-256; one of the second source its food and the day of its
        retrieval as well.
        """
        kept = (self.second.kept.by_code.get(code) for code in dict.fromkeys(codes))
        return [self.identity, *(food.identity for food in kept if food is not None)]

    @cached_property
    def fingerprint(self) -> str:
        """A SHA-256 over the bundled data, all that is kept of the second source by its roles, and whether
        somebody is asked for more."""
        kept, closed = self.second.kept, self.second.is_closed
        told = [self.identity, sorted(kept.names), [each.identity for each in kept.by_code.values()], closed]
        return hashlib.sha256(json.dumps(told, sort_keys=True).encode()).hexdigest()

    def search(self, query: str, limit: int) -> list[Food]:
        """The foods whose names fit a query best, at most `limit`: the caller's own and those of the
        second source that have every word first."""
        asked = set(fold(query))
        beside = {food.code: food.name for food in self.custom} | self.second.kept.names
        own = [code for code, name in beside.items() if asked and asked <= set(fold(name))]
        found = dict.fromkeys((*own, *search(query, limit, self.scorer)))
        return [self.get(code) for code in found][:limit]

    def _sodium_mg(self, code: str) -> float | None:
        return self.get(code).per_100g("NA")

    def _group(self, code: str) -> str:
        return self.get(code).group_code

    @cached_property
    def scorer(self) -> MatchScorer:
        """What chooses among the foods, a caller's own left out; made when first asked for."""
        if self._under:
            return self._under.scorer
        return MatchScorer(RowIndex(self.names), everyday_names(), self._sodium_mg, self._group)


class _Over(ChainMap[str, _T]):
    """One mapping over another that is not copied."""

    def __init__(self, over: Mapping[str, _T], under: Mapping[str, _T]) -> None:
        # ChainMap asks for mutable mappings only to pass writes on, and nothing writes here.
        super().__init__(over, under)  # type: ignore[arg-type]


@cache
def bundled() -> FoodTable:
    """The foods that come with the service."""
    texts = {name: seed_foods().joinpath(name).read_text("utf-8") for name in _FILES}
    shelf = Shelf(texts["data/foods.csv"], texts["data/values.csv"])
    extra = {food.code: food for food in extra_foods()}
    identity = {
        "name": document("manifest")["name"],
        "release": document("manifest")["release"],
        "sha256": hashlib.sha256("".join(texts.values()).encode()).hexdigest(),
    }
    names = shelf.names | {code: food.name for code, food in extra.items()}
    return FoodTable(_Over(extra, shelf), names, identity)
