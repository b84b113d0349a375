"""Saves that come as lines: what is made ready in any process, and what one process then writes.

Plain recipes, new or changed, are worked out wherever there is room and written together, in one transaction.
All else (recipes that are made of others, or others of them; a key that is there twice, or was deleted; a
version named that does not stand) goes the way of a single save.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import AbstractContextManager, contextmanager, nullcontext
from dataclasses import dataclass, replace
from functools import partial
from typing import TYPE_CHECKING, Any, cast
from urllib.parse import quote

from .. import store as stored
from ..calculator import answer_recipe, with_answers
from ..core.checkpoint import CallerGone
from ..core.errors import Fault, InvalidRequest, SaltledgerError
from ..core.tables import tables_sha256
from ..recipe.sub_recipes import named_in
from ..review.chain import fingerprint
from ..store.expectations import Condition

if TYPE_CHECKING:
    from sqlalchemy import Connection

    from ..foods.dataset import FoodTable
    from ..review.chain import Actor
    from ..review.overrides import Overrule
    from ..store.bulk import Kept, Prepared, Standing
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


@dataclass(frozen=True, slots=True)
class Plain:
    """A save that is made ready with others. standing: what it changes, None where nothing stands."""

    key: str
    recipe: Document
    etag: str | None = None
    standing: Standing | None = None


Entry = tuple[int, "Told | Alone | Prepared"]
"""A line's number, and what is to be done about it."""


def looked_up(
    connection: Connection, asked: Sequence[tuple[int, Alone]], *, strict: bool = False
) -> list[Told | Alone | Plain]:
    """What is to be done about each of some saves, by what stands under their keys.

    asked: with the number of its line; strict: whether a change must name the version that it changes.
    """
    known = stored.bulk.known(connection, [each.key for _, each in asked])
    in_prose = [each.key for _, each in asked if "written" in each.recipe and each.key in known]
    earlier = stored.bulk.requests_of(connection, in_prose)
    found: list[Told | Alone | Plain] = []
    seen: set[str] = set()
    for number, each in asked:
        kept, recipe = known.get(each.key), each.recipe
        if each.key in seen:
            found.append(each)
        elif kept is None:
            by_itself = each.etag is not None or any(named_in(recipe))
            found.append(each if by_itself else Plain(each.key, recipe))
        else:
            recipe = with_answers(recipe, earlier.get(kept.key, {}))
            found.append(_of_what_stands(number, Alone(each.key, recipe, each.etag), kept, strict=strict))
        seen.add(each.key)
    plain = [each.standing.kept for each in found if isinstance(each, Plain) and each.standing]
    standing = stored.bulk.standing(connection, plain)
    return [_followed(each, standing) for each in found]


def _of_what_stands(number: int, asked: Alone, kept: Kept, *, strict: bool) -> Told | Alone | Plain:
    same = kept.state != "deleted" and kept.content_hash == fingerprint(asked.recipe)
    if same and not kept.stale:
        return Told(saved_line(number, kept, "unchanged"))
    expected = asked.etag == kept.save_id or (asked.etag is None and not strict)
    if kept.state == "deleted" or not expected or any(named_in(asked.recipe)):
        return asked
    return Plain(asked.key, asked.recipe, asked.etag, stored.bulk.Standing(kept))


def _followed(each: Told | Alone | Plain, standing: Mapping[str, Standing]) -> Told | Alone | Plain:
    if not isinstance(each, Plain) or each.standing is None:
        return each
    found = standing.get(each.standing.kept.key)
    return Alone(each.key, each.recipe, each.etag) if found is None else replace(each, standing=found)


def made_ready(
    saves: Sequence[Plain],
    by: Actor,
    reaching: list[Overrule],
    foods: FoodTable,
    unmapped: Callable[[Document], list[str]] | None = None,
) -> Iterator[Callable[[], Prepared]]:
    """What works out each of some saves, with the overrules of other recipes that reach it and its own.

    unmapped: see `Drafting`. Each call raises InvalidRequest or another SaltledgerError of the calculation.
    """
    drafting = _drafting(foods)

    def ready(save: Plain) -> Prepared:
        standing = save.standing
        overrules = [*reaching, *(standing.overrules if standing else ())]
        draft = drafting.plain_draft(save.recipe, overrules, by)
        return stored.bulk.prepared(save.key, draft, unmapped, standing, save.etag)

    return (partial(ready, save) for save in saves)


def _drafting(foods: FoodTable) -> Drafting:
    from ..store.drafting import Drafting

    def calculate(document: Document, *, pins: Sequence[Any] = ()) -> Document:
        return answer_recipe(document, foods.pinned(pins))

    # A plain recipe asks no store for anything.
    return Drafting(cast("Database", None), calculate, tables_sha256())


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
                found[number] = self._alone(number, Alone(each.key, each.version.request, each.etag))
            else:
                found[number] = saved_line(number, kept, "changed" if each.follows else "new")
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
    """Let faults of a part of a line point into the line. Raises InvalidRequest anew."""
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
