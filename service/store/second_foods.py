"""What is kept of the second source of foods: foods, what was asked for and who waits for it.

A kept food is never changed: a newer release of it is another row, and the older one stays for the versions
that rest on it. Every function works inside a transaction of `Database`; none asks the network.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from typing import Any, Literal

from sqlalchemy import Connection, and_, delete, func, insert, select, update

from ..foods.remote.kept import KeptFood
from .schema import as_text, kept_foods, look_ups, now, recipes, stamp, waiting

Role = Literal["matched", "offered"]
"""Whether lines are mapped to a food, or a reviewer is only offered it."""

State = Literal["waiting", "found", "nothing", "failed"]

ASKED_AGAIN = {"found": timedelta(days=36500), "nothing": timedelta(days=30)}
"""How soon words are asked for anew, by what came of them; a failure by how often it failed."""

FIRST_PAUSE, LONGEST_PAUSE = timedelta(minutes=1), timedelta(hours=6)


@dataclass(frozen=True, slots=True)
class Kept:
    """A kept food and how it is used."""

    food: KeptFood
    role: Role


@dataclass(frozen=True, slots=True)
class LookUp:
    """Where asking for some words stands. offered: codes of foods that may fit, nearest first."""

    words: str
    state: State
    offered: tuple[str, ...]
    tries: int


# Foods.


def standing(connection: Connection) -> list[Kept]:
    """The foods that are kept today, by code."""
    query = select(kept_foods.c.document, kept_foods.c.role).where(kept_foods.c.replaced_at.is_(None))
    rows = connection.execute(query.order_by(kept_foods.c.code))
    return [Kept(KeptFood.from_document(row.document), row.role) for row in rows]


def mark_of(connection: Connection) -> tuple[int, ...]:
    """What changes whenever the foods that are kept do, or what was asked for."""
    matched = func.count().filter(kept_foods.c.role == "matched")
    foods = select(matched, func.max(kept_foods.c.id), func.max(kept_foods.c.replaced_at))
    asked = select(func.max(look_ups.c.changed_at))
    return (*connection.execute(foods).one(), connection.scalar(asked))


def with_sha256(connection: Connection, sha256s: Iterable[str]) -> list[KeptFood]:
    """The foods of those fingerprints, replaced ones too."""
    query = select(kept_foods.c.document).where(kept_foods.c.sha256.in_(list(sha256s)))
    return [KeptFood.from_document(document) for document in connection.scalars(query)]


def keep(connection: Connection, foods: Iterable[KeptFood], role: Role) -> list[str]:
    """Keep foods in place of other releases of the same codes; gives the codes of those that changed.

    A food that lines are mapped to is not made one that is only offered.
    """
    changed = []
    for food in foods:
        row = connection.execute(_standing(food.code)).first()
        role_now: Role = "matched" if row is not None and row.role == "matched" else role
        if row is not None and row.sha256 == food.sha256:
            connection.execute(update(kept_foods).where(kept_foods.c.id == row.id).values(role=role_now))
            changed += [food.code] if role_now != row.role else []
            continue
        if row is not None:
            _replace(connection, row.id)
        connection.execute(
            insert(kept_foods).values(
                code=food.code,
                sha256=food.sha256,
                document=food.document(),
                role=role_now,
                kept_at=now(),
            )
        )
        changed.append(food.code)
    return changed


def drop(connection: Connection, code: str) -> bool:
    """Keep a food no longer; versions that rest on it still have it. False: it was not kept."""
    row = connection.execute(_standing(code)).first()
    if row is None:
        return False
    _replace(connection, row.id)
    return True


def _standing(code: str) -> Any:
    columns = (kept_foods.c.id, kept_foods.c.sha256, kept_foods.c.role)
    return select(*columns).where(kept_foods.c.code == code, kept_foods.c.replaced_at.is_(None))


def _replace(connection: Connection, row_id: int) -> None:
    connection.execute(update(kept_foods).where(kept_foods.c.id == row_id).values(replaced_at=now()))


# What is asked for.


def ask(connection: Connection, words: Iterable[str]) -> None:
    """Put words among those to be asked for; what was asked for already keeps its state."""
    asked = list(dict.fromkeys(as_text(each) for each in words))
    known = set(connection.scalars(select(look_ups.c.words).where(look_ups.c.words.in_(asked))))
    moment = now()
    fresh = [
        {"words": each, "state": "waiting", "offered": [], "tries": 0, "due_at": moment, "changed_at": moment}
        for each in asked
        if each not in known
    ]
    if fresh:
        connection.execute(insert(look_ups), fresh)


def waited_for_unasked(connection: Connection) -> list[str]:
    """Words that recipes wait for and that nobody has put among those to be asked for."""
    unasked = waiting.c.words.not_in(select(look_ups.c.words))
    return list(connection.scalars(select(waiting.c.words).where(unasked).distinct()))


def any_due(connection: Connection) -> bool:
    """Whether words are due to be asked for."""
    return connection.scalar(select(look_ups.c.words).where(look_ups.c.due_at <= now()).limit(1)) is not None


def claim(connection: Connection, *, lease: timedelta) -> LookUp | None:
    """The next words that are due, given to nobody else for the time of the lease; None where none are."""
    query = select(look_ups.c.words, look_ups.c.tries).where(look_ups.c.due_at <= now())
    row = connection.execute(query.order_by(look_ups.c.due_at).limit(1)).first()
    if row is None:
        return None
    until = stamp(datetime.now(UTC) + lease)
    connection.execute(update(look_ups).where(look_ups.c.words == row.words).values(due_at=until))
    return LookUp(row.words, "waiting", (), row.tries)


def settle(connection: Connection, done: LookUp) -> None:
    """Write down what came of words; a failure is asked for again, after pauses that double."""
    pause = min(FIRST_PAUSE * 2**done.tries, LONGEST_PAUSE)
    due = datetime.now(UTC) + ASKED_AGAIN.get(done.state, pause)
    connection.execute(
        update(look_ups)
        .where(look_ups.c.words == as_text(done.words))
        .values(
            state=done.state,
            offered=list(done.offered),
            tries=done.tries + 1 if done.state == "failed" else 0,
            due_at=stamp(due),
            changed_at=now(),
        )
    )


def asked(connection: Connection, words: Iterable[str] | None = None) -> Mapping[str, LookUp]:
    """Where asking stands, by words; all of them where none are named."""
    query = select(look_ups.c.words, look_ups.c.state, look_ups.c.offered, look_ups.c.tries)
    if words is not None:
        query = query.where(look_ups.c.words.in_([as_text(each) for each in words]))
    return {
        row.words: LookUp(row.words, row.state, tuple(row.offered), row.tries)
        for row in connection.execute(query)
    }


# Who waits.


def await_words(connection: Connection, key: str, words: Iterable[str]) -> None:
    """Note that the recipe of `key` waits for these words and for no others."""
    recipe_id = connection.scalars(select(recipes.c.id).where(recipes.c.key == as_text(key))).one()
    connection.execute(delete(waiting).where(waiting.c.recipe_id == recipe_id))
    asked = list(dict.fromkeys(as_text(each) for each in words))
    if asked:
        connection.execute(insert(waiting), [{"recipe_id": recipe_id, "words": each} for each in asked])


def keys_waiting(connection: Connection) -> list[tuple[str, str]]:
    """The keys of recipes that wait for words that are known by now, each with the words."""
    found = and_(look_ups.c.words == waiting.c.words, look_ups.c.state == "found")
    query = select(recipes.c.key, waiting.c.words).join(recipes, recipes.c.id == waiting.c.recipe_id)
    return [(row.key, row.words) for row in connection.execute(query.join(look_ups, found))]


def stop_waiting(connection: Connection, key: str, words: str) -> bool:
    """The recipe of `key` waits for these words no longer; False: it did not."""
    recipe_id = select(recipes.c.id).where(recipes.c.key == as_text(key)).scalar_subquery()
    gone = delete(waiting).where(waiting.c.recipe_id == recipe_id, waiting.c.words == as_text(words))
    return bool(connection.execute(gone).rowcount)
