"""Overrules as the store keeps them: per recipe, remembered for its later saves, found for other recipes."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import Any

from sqlalchemy import Connection, RowMapping, insert, select, update

from ..review.chain import Actor
from ..review.overrides import Overrule, Target
from . import journal
from .schema import as_text, now, overrules, recipes

_STANDS = overrules.c.withdrawn_at.is_(None)


@dataclass(frozen=True, slots=True)
class Kept:
    """An overrule, and when it was taken back; None: it stands."""

    overrule: Overrule
    withdrawn_at: str | None


@dataclass(frozen=True, slots=True)
class Offer:
    """An overrule of another recipe's line that reads the same; offered, never applied by itself."""

    key: str
    overrule: Overrule


def standing(connection: Connection, key: str) -> list[Overrule]:
    """The overrules of a recipe alone that were not withdrawn, the oldest first."""
    query = select(overrules).join(recipes, recipes.c.id == overrules.c.recipe_id)
    query = query.where(recipes.c.key == as_text(key), _STANDS, overrules.c.reach == "recipe")
    return [_overrule(row) for row in connection.execute(query.order_by(overrules.c.id)).mappings()]


def standing_in(connection: Connection, keys: Sequence[str]) -> dict[str, list[Overrule]]:
    """The same of several recipes, by key."""
    query = select(recipes.c.key, overrules).join(recipes, recipes.c.id == overrules.c.recipe_id)
    query = query.where(recipes.c.key.in_(keys), _STANDS, overrules.c.reach == "recipe")
    found: dict[str, list[Overrule]] = {}
    for row in connection.execute(query.order_by(overrules.c.id)).mappings():
        found.setdefault(row["key"], []).append(_overrule(row))
    return found


def reaching(connection: Connection) -> list[Overrule]:
    """The overrules that hold in every recipe with their line or food, the oldest first."""
    query = select(overrules).where(overrules.c.reach.in_(("line", "food")), _STANDS)
    return [_overrule(row) for row in connection.execute(query.order_by(overrules.c.id)).mappings()]


def in_force(connection: Connection, key: str) -> list[Overrule]:
    """All overrules that may hold in a recipe: those that reach it, and its own."""
    return [*reaching(connection), *standing(connection, key)]


def history(connection: Connection, key: str) -> list[Kept]:
    """Every overrule that was made in a recipe, those taken back too, the newest first."""
    query = select(overrules).join(recipes, recipes.c.id == overrules.c.recipe_id)
    query = query.where(recipes.c.key == as_text(key)).order_by(overrules.c.id.desc())
    rows = connection.execute(query).mappings()
    return [Kept(_overrule(row), row["withdrawn_at"]) for row in rows]


def remember(connection: Connection, key: str, save_id: str, overrule: Overrule) -> Overrule:
    """Keep an overrule that a reviewer made on `save_id`; it takes the place of one for the same field."""
    recipe_id = connection.scalars(select(recipes.c.id).where(recipes.c.key == as_text(key))).one()
    moment, target = now(), overrule.target
    same = (overrules.c.recipe_id == recipe_id) & (overrules.c.target_key == target.key)
    if overrule.reach == "line":
        same |= (overrules.c.reach == "line") & (overrules.c.line_key == target.line_key)
    elif overrule.reach == "food":
        same |= (overrules.c.reach == "food") & (overrules.c.food_code == overrule.food_code)
    else:
        same &= overrules.c.reach == "recipe"
    _replace(connection, key, same & (overrules.c.field == overrule.field), moment, overrule.by)
    new = insert(overrules).values(
        recipe_id=recipe_id,
        save_id=save_id,
        target_key=target.key,
        line_key=target.line_key,
        reach=overrule.reach,
        food_code=overrule.food_code,
        target={"kind": target.kind, "what": target.what, "occurrence": target.occurrence},
        field=overrule.field,
        value=overrule.value,
        reason=as_text(overrule.reason),
        reviewer=as_text(overrule.reviewer),
        created_at=moment,
        actor=overrule.by.document,
    )
    kept = replace(overrule, created_at=moment, id=connection.scalars(new.returning(overrules.c.id)).one())
    told = {"key": key, "save_id": save_id, "id": kept.id, "created_at": moment}
    journal.add(connection, "overrule", {**told, **said(kept), "by": kept.by.document})
    return kept


def said(overrule: Overrule) -> dict[str, Any]:
    """What an overrule says, as it goes on record."""
    return {
        **_reach_said(overrule.reach, overrule.food_code),
        "target": overrule.target.key,
        "field": overrule.field,
        "value": overrule.value,
        "reason": as_text(overrule.reason),
        "reviewer": as_text(overrule.reviewer),
    }


def _reach_said(reach: str, food_code: str | None) -> dict[str, Any]:
    """How far an overrule reaches, as it goes on record; nothing where it holds in its recipe alone."""
    return {} if reach == "recipe" else {"reach": reach, "food_code": food_code}


def withdraw(connection: Connection, key: str, overrule_id: int, by: Actor) -> bool:
    """Take an overrule of `key`, or one that reaches it, back, and put that on record.

    False where there is none that stands.
    """
    recipe_id = select(recipes.c.id).where(recipes.c.key == as_text(key)).scalar_subquery()
    mine = (overrules.c.recipe_id == recipe_id) | (overrules.c.reach != "recipe")
    mine &= overrules.c.id == overrule_id
    stood = _withdraw(connection, mine, now()) > 0
    if stood:
        journal.add(connection, "withdrawal", {"key": key, "id": overrule_id, "by": by.document})
    return stood


def offers(connection: Connection, key: str, line_keys: Iterable[str]) -> dict[str, list[Offer]]:
    """What reviewers said of the same lines in recipes other than `key`, by line key, the newest first."""
    query = select(recipes.c.key, overrules).join(recipes, recipes.c.id == overrules.c.recipe_id)
    query = query.where(
        recipes.c.key != key,
        overrules.c.reach == "recipe",
        overrules.c.withdrawn_at.is_(None),
        overrules.c.line_key.in_(sorted(set(line_keys))),
    )
    found: dict[str, list[Offer]] = {}
    for row in connection.execute(query.order_by(overrules.c.id.desc())).mappings():
        found.setdefault(row["line_key"], []).append(Offer(row["key"], _overrule(row)))
    return found


def said_in(row: RowMapping) -> dict[str, Any]:
    """The same, as the store has it."""
    names = ("id", "field", "value", "reason", "reviewer", "save_id", "created_at")
    told = {**{name: row[name] for name in names}, "target": row["target_key"]}
    return {**told, **_reach_said(row["reach"], row["food_code"])}


def _replace(connection: Connection, key: str, which: Any, moment: str, by: Actor) -> None:
    """Withdraw what stands for a field, and put that on record."""
    standing_ones = which & overrules.c.withdrawn_at.is_(None)
    for number in connection.scalars(select(overrules.c.id).where(standing_ones)).all():
        journal.add(connection, "withdrawal", {"key": key, "id": number, "by": by.document})
    _withdraw(connection, which, moment)


def _withdraw(connection: Connection, which: object, moment: str) -> int:
    standing_ones = update(overrules).where(which, overrules.c.withdrawn_at.is_(None))  # type: ignore[arg-type]
    return connection.execute(standing_ones.values(withdrawn_at=moment)).rowcount


def _overrule(row: RowMapping) -> Overrule:
    return Overrule(
        Target(**row["target"]),
        row["field"],
        row["value"],
        row["reason"],
        row["reviewer"],
        row["created_at"],
        row["id"],
        Actor.of(row["actor"]),
        row["reach"],
        row["food_code"],
    )
