"""Saves that come as lines: what is made ready in any process, and what one process then writes.

First versions of plain recipes are worked out wherever there is room and written together, in one
transaction. All else (a key that holds something, recipes made of others) goes the way of a single save.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from contextlib import AbstractContextManager, contextmanager, nullcontext
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, cast
from urllib.parse import quote

from .. import store as stored
from ..calculator import answer_recipe, with_answers
from ..core.checkpoint import CallerGone
from ..core.errors import Fault, InvalidRequest, SaltledgerError
from ..core.tables import tables_sha256
from ..review.chain import fingerprint
from ..store.expectations import Condition

if TYPE_CHECKING:
    from ..foods.dataset import FoodTable
    from ..review.chain import Actor
    from ..review.overrides import Overrule
    from ..store.bulk import Kept, Prepared
    from ..store.database import Database
    from ..store.drafting import Drafting
    from ..store.saving import Workbench

Document = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Alone:
    """A save that goes by itself. etag: the version that it changes, where the caller names it."""

    key: str
    recipe: Document
    etag: str | None = None


@dataclass(frozen=True, slots=True)
class Told:
    """A line that is answered already."""

    answer: Document


Entry = tuple[int, "Told | Alone | Prepared"]
"""A line's number, and what is to be done about it."""


def first_saves(
    saves: Sequence[tuple[str, Document]],
    by: Actor,
    reaching: list[Overrule],
    foods: FoodTable,
    unmapped: Callable[[Document], list[str]] | None = None,
) -> Iterator[Callable[[], Prepared]]:
    """What works out each of some first saves, with the overrules of other recipes that reach it.

    unmapped: see `Drafting`. Each call raises InvalidRequest or another SaltledgerError of the calculation.
    """
    drafting = _drafting(foods)

    def ready(key: str, recipe: Document) -> Prepared:
        return stored.bulk.prepared(key, drafting.first_draft(recipe, reaching, by), unmapped)

    for key, recipe in saves:
        yield lambda key=key, recipe=recipe: ready(key, recipe)  # type: ignore[misc]


def _drafting(foods: FoodTable) -> Drafting:
    from ..store.drafting import Drafting

    def calculate(document: Document, *, pins: Sequence[Any] = ()) -> Document:
        return answer_recipe(document, foods.pinned(pins))

    # A first version of a plain recipe asks no store for anything.
    return Drafting(cast("Database", None), calculate, tables_sha256())


def is_unchanged(recipe: Document, kept: Kept) -> bool:
    """Whether a recipe stands already as it is sent. One in prose may have answers that are kept."""
    if kept.state == "deleted" or kept.stale or "written" in recipe:
        return False
    return kept.content_hash == fingerprint(recipe)


@dataclass(frozen=True, slots=True)
class LineSaves:
    """Writes what came as lines. strict: whether a change must name the version that it changes.

    problem_of: from an error to its problem document. watching: opened around each calculation done here.
    """

    bench: Workbench
    by: Actor
    kitchen: str
    problem_of: Callable[[Exception], Document]
    strict: bool = False
    watching: Callable[[], AbstractContextManager[None]] = nullcontext

    def settle(self, entries: Sequence[Entry]) -> list[Document]:
        """What came of each line, in order; what is told as saved is on disk. Raises CallerGone."""
        told: dict[int, Document] = {}
        pending: list[tuple[int, Prepared]] = []
        for number, entry in entries:
            if isinstance(entry, Told):
                told[number] = entry.answer
            elif isinstance(entry, Alone):
                told |= self._written(pending)
                pending = []
                told[number] = self._alone(number, entry)
            else:
                pending.append((number, entry))
        told |= self._written(pending)
        return [told[number] for number, _ in entries]

    def _written(self, pending: Sequence[tuple[int, Prepared]]) -> dict[int, Document]:
        """Write what is pending, all of it at once."""
        if not pending:
            return {}
        ready = [each for _, each in pending]
        try:
            made = stored.bulk.write(self.bench.database, ready, self.by, self.kitchen)
        except SaltledgerError as error:
            return {
                number: {**self.problem_of(error), "line": number, "key": each.key}
                for number, each in pending
            }
        found = {}
        for (number, each), kept in zip(pending, made, strict=True):
            if kept is None:
                found[number] = self._alone(number, Alone(each.key, each.version.request))
            else:
                found[number] = saved_line(number, kept, "new")
        return found

    def _alone(self, number: int, asked: Alone) -> Document:
        with self.telling(number, asked.key) as told:
            with self.bench.database.read() as connection:
                current = stored.recipes.current(connection, asked.key)
            recipe = with_answers(asked.recipe, current.request if current else {})
            match = frozenset({asked.etag}) if asked.etag else None
            condition = Condition(match=match, required=self.strict)
            with below("/recipe"), self.watching():
                saved = self.bench.save(asked.key, recipe, self.by, condition, self.kitchen)
            what = "new" if saved.is_new else "changed" if saved.changed else "unchanged"
            told.update(saved_line(number, stored.bulk.kept_of(saved.version), what))
        return told

    @contextmanager
    def telling(self, number: int, key: str | None = None) -> Iterator[Document]:
        """A document to tell of a line in; what goes wrong with the line becomes its problem, so that it does
        not end the stream. Raises CallerGone."""
        told: Document = {}
        try:
            yield told
        except CallerGone:
            raise
        except Exception as error:  # problem_of logs what was not foreseen
            named = {} if key is None else {"key": key}
            told.clear()
            told.update({**self.problem_of(error), "line": number, **named})


@contextmanager
def below(pointer: str) -> Iterator[None]:
    """Let faults of a part of a line point into the line."""
    try:
        yield
    except InvalidRequest as refused:
        faults = [Fault(pointer + each.pointer, each.message) for each in refused.faults]
        raise InvalidRequest(faults) from refused


def saved_line(number: int, kept: Kept, saved: str) -> Document:
    """The answer to a line that was saved: "new", "changed" or "unchanged"."""
    return {
        "line": number,
        "key": kept.key,
        "saved": saved,
        "version": kept.number,
        "save_id": kept.save_id,
        "calculation_id": kept.calculation_id,
        "sodium_per_serving_mg": {"low": kept.low_mg, "likely": kept.sodium_mg, "high": kept.high_mg},
        "complete": kept.complete,
        "stops": kept.stops,
        "checks": kept.checks,
        "review": f"/review/{quote(kept.save_id)}",
    }
