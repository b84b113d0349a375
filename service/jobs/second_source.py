"""The second source at work: kept foods stand beside the bundle, and what nobody knows is asked for behind.

A calculation reads `LookUps.foods` and never waits. A thread of each process keeps that table up to date,
asks for words that are due (one process at a time for each) and works out anew the recipes that waited for
them.
"""

from __future__ import annotations

import logging
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import timedelta
from functools import cached_property
from typing import TYPE_CHECKING, Any, Protocol

from ..config import Settings, default_file
from ..core.documents import every_food
from ..core.errors import SaltledgerError
from ..foods.dataset import FoodTable, bundled
from ..foods.matching.folding import fold
from ..foods.matching.matcher import SURE
from ..foods.remote.kept import KeptFood
from ..foods.remote.second import KeptFoods, SecondSource
from ..lines import read_line
from .rounds import Rounds

if TYPE_CHECKING:
    from ..foods.remote.client import FoodDataCentral
    from ..store.database import Database
    from ..store.saving import Workbench
    from ..store.second_foods import Kept, LookUp

LOOK_EVERY_SECONDS = 2.0
LEASE = timedelta(minutes=5)
"""How long one process may take over one look-up before another takes it up."""

MOST_NEW = 1000
"""Words that one process remembers to ask for between two rounds; others are when they come again."""

log = logging.getLogger(__name__)


class Finder(Protocol):
    """The second source, as far as look-ups use it."""

    def find(self, words: str) -> list[KeptFood]:
        """Foods that fit words, nearest first. Raises SaltledgerError where it cannot be asked."""


class LookUps:
    """The foods of one process, and its share of the asking.

    database: opens the store. source: whom to ask; None: nobody, kept foods alone are used. workbench: made
    of a table of foods, for working out anew the recipes that waited.
    """

    def __init__(
        self,
        database: Callable[[], Database],
        source: Finder | None,
        workbench: Callable[[FoodTable], Workbench],
    ) -> None:
        self._open, self._source, self._make_workbench = database, source, workbench
        self._new: dict[str, None] = {}
        self._asked: Mapping[str, LookUp] = {}
        self._mark: tuple[Any, ...] | None = None
        self._table = self._table_of(())
        self._rounds = Rounds("Look-ups", self.round, LOOK_EVERY_SECONDS)

    @property
    def foods(self) -> FoodTable:
        """The bundle with what is kept today beside it."""
        if not self._rounds.begun:
            self._rounds.begin(first=self.refresh)
        return self._table

    def unknown(self, words: str) -> str:
        """Remember to ask for words that no food fits; gives where asking stands, '' where nobody asks."""
        key = key_of(words)
        if not key or self._source is None:
            return ""
        if key in self._asked:
            return self._asked[key].state
        if len(self._new) < MOST_NEW:
            self._new[key] = None
        return "waiting"

    def offered(self, words: str) -> Sequence[str]:
        """The codes of the foods that a look-up of these words found, nearest first."""
        look_up = self._asked.get(key_of(words))
        return look_up.offered if look_up else ()

    def _table_of(self, standing: Iterable[Kept]) -> FoodTable:
        return bundled().with_second(SecondSource(_kept_foods(standing), self.unknown, self.offered))

    # One round.

    def round(self) -> None:
        """Ask for what is due, take up what is kept, work out anew what waited. Raises StoreUnavailable."""
        if self._source is not None:
            self._hand_over()
            while self._ask_for_one(self._source) and not self._rounds.stopping:
                pass
        self.refresh()
        if self._source is not None:
            self._tell_who_waited()

    def refresh(self) -> None:
        """Take up the foods that are kept today and where asking stands. Raises StoreUnavailable."""
        from ..store import second_foods

        with self._open().read() as connection:
            mark = second_foods.mark_of(connection)
            if mark == self._mark:
                return
            standing, self._asked = second_foods.standing(connection), second_foods.asked(connection)
        self._table = self._table_of(standing)
        self._mark = mark

    def _hand_over(self) -> None:
        """Write down what is to be asked for, so that it is asked whatever becomes of this process."""
        from ..store import second_foods

        new = list(self._new)
        with self._open().read() as connection:
            missing = second_foods.waited_for_unasked(connection)
        if new or missing:
            with self._open().write() as connection:
                second_foods.ask(connection, (*new, *missing))
        for each in new:
            self._new.pop(each, None)

    def _ask_for_one(self, source: Finder) -> bool:
        """Ask for the next words that are due; False where none are, or the source is out of reach."""
        from ..store import second_foods

        with self._open().read() as connection:
            if not second_foods.any_due(connection):
                return False
        with self._open().write() as connection:
            due = second_foods.claim(connection, lease=LEASE)
        if due is None:
            return False
        try:
            found = source.find(due.words)
        except SaltledgerError as fault:
            log.warning("%s", fault)
            with self._open().write() as connection:
                second_foods.settle(connection, replace(due, state="failed"))
            return False
        with self._open().write() as connection:
            _write_down(connection, due, found)
        return True

    def _tell_who_waited(self) -> None:
        from ..store import second_foods

        with self._open().read() as connection:
            waiting = second_foods.keys_waiting(connection)
        for key, words in waiting:
            self._make_workbench(self._table).learn(key, words)


def _write_down(connection: Any, due: LookUp, found: list[KeptFood]) -> None:
    """Keep what was found: matched where it fits surely, else only offered."""
    from ..store import second_foods

    chosen = KeptFoods(found).choose(tuple(due.words.split()), ())
    is_sure = chosen.code is not None and chosen.confidence >= SURE
    matched = [each for each in found if is_sure and each.code == chosen.code]
    second_foods.keep(connection, (each for each in found if each not in matched), "offered")
    second_foods.keep(connection, matched, "matched")
    state: Any = "found" if found else "nothing"
    offered = tuple(each.code for each in (*matched, *(each for each in found if each not in matched)))
    second_foods.settle(connection, replace(due, state=state, offered=offered))


def key_of(words: str) -> str:
    """Words as they are asked for: folded, so that one spelling stands for all."""
    return " ".join(fold(words))


def unmapped_words(answer: Mapping[str, Any]) -> list[str]:
    """What the lines of an answer that no food fits call their food, as it is asked for."""
    return list(dict.fromkeys(filter(None, map(key_of, _unmapped(answer)))))


def _unmapped(answer: Mapping[str, Any]) -> Iterator[str]:
    return (
        read_line(each["line"]).food_words
        for each in every_food(answer)
        if each["food"] is None and each["line"]
    )


def make_source(settings: Settings) -> FoodDataCentral:
    """The second source that the settings name. Raises SaltledgerError: its cache cannot be opened."""
    from ..foods.remote.client import FoodDataCentral, Manners, open_session

    manners = Manners(fresh_days=settings.remote_foods_days)
    cache = settings.remote_foods_cache or str(default_file().with_name("foods-cache.sqlite3"))
    return FoodDataCentral(open_session(cache, manners), settings.remote_foods_url, settings.remote_foods_key)


class LazySource:
    """The second source, opened when it is first asked: in the process that asks, so after any fork."""

    def __init__(self, settings: Settings) -> None:
        self._settings = settings

    @cached_property
    def _opened(self) -> FoodDataCentral:
        return make_source(self._settings)

    def find(self, words: str) -> list[KeptFood]:
        return self._opened.find(words)


def standing_foods(database: Database) -> FoodTable:
    """For commands: the bundle with what a store keeps of the second source. Raises StoreUnavailable."""
    from ..store import second_foods

    with database.read() as connection:
        return bundled().with_second(SecondSource(_kept_foods(second_foods.standing(connection))))


def _kept_foods(standing: Iterable[Kept]) -> KeptFoods:
    by_role: dict[str, list[KeptFood]] = {"matched": [], "offered": []}
    for each in standing:
        by_role[each.role].append(each.food)
    return KeptFoods(by_role["matched"], by_role["offered"])
