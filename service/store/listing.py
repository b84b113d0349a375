"""Lists of saved recipes: which, in what order, and how many.

All that lists choose and order by stands on the recipe's own row, told by `tell_of` whenever its current
version or the verdict on it changes; so a page costs an index and the rows that it shows.
"""

from __future__ import annotations

from typing import Any

from sqlalchemy import Connection, Select, and_, func, or_, select, update

from ..review.urgency import urgency_of
from .records import Document, Heading, Order, Place, State, Version, Wanted
from .schema import as_text, now, recipes, versions

MOST_WORDS = 8000
"""Characters of title, key and lines that a search looks through."""

_BY: dict[Order, Any] = {
    "key": (),
    "sodium": (recipes.c.sodium_mg,),
    "urgency": (recipes.c.urgency, recipes.c.sodium_mg),
    "changed": (recipes.c.changed_at,),
}
"""What comes first is largest in these columns; the key decides between equals."""


def page(connection: Connection, wanted: Wanted, after: Place | None, limit: int) -> list[Heading]:
    """At most `limit` recipes after `after`, in the order that is wanted."""
    by = _BY[wanted.order]
    chosen = select(recipes.c.id, recipes.c.current, *by, recipes.c.key).where(*_which(wanted))
    if after is not None:
        chosen = chosen.where(_beyond(by, after))
    chosen_ids = chosen.order_by(*(column.desc() for column in by), recipes.c.key).limit(limit).subquery()
    query = headings().join(
        chosen_ids, and_(chosen_ids.c.id == versions.c.recipe_id, chosen_ids.c.current == versions.c.number)
    )
    query = query.order_by(*(chosen_ids.c[column.name].desc() for column in by), chosen_ids.c.key)
    return [Heading(**row) for row in connection.execute(query).mappings()]


def count_by_status(connection: Connection) -> dict[str, int]:
    """How many active recipes stand at each status."""
    query = select(recipes.c.status, func.count()).where(recipes.c.state == "active")
    return {row[0]: row[1] for row in connection.execute(query.group_by(recipes.c.status))}


def keys(connection: Connection) -> list[str]:
    """Every key that holds a recipe, archived ones too, in order."""
    query = select(recipes.c.key).where(recipes.c.state != "deleted")
    return list(connection.scalars(query.order_by(recipes.c.key)))


def headings() -> Select[Any]:
    """What lists show of versions, to be narrowed by the caller."""
    of_version = ("number", "save_id", "calculation_id", "title", "sodium_mg", "high_mg", "complete", "cause")
    more = ("saved_by", "status", "created_at")
    of_recipe = ("key", "state", "stops", "checks", "doubtful_mg", "changed_since_signing", "urgency")
    return (
        select(*(recipes.c[name] for name in of_recipe), *(versions.c[name] for name in (*of_version, *more)))
        .select_from(versions)
        .join(recipes, recipes.c.id == versions.c.recipe_id)
    )


def _which(wanted: Wanted) -> list[Any]:
    column = recipes.c
    asked = [column.state == wanted.state]
    if wanted.status is not None:
        asked.append(column.status == wanted.status)
    if wanted.above_mg is not None:
        asked.append(_may_be_above(wanted.above_mg))
    if wanted.complete is not None:
        asked.append(column.complete.is_(wanted.complete))
    if wanted.stops:
        asked.append(column.stops > 0)
    if wanted.checks:
        asked.append(column.checks > 0)
    if wanted.doubtful:
        asked.append(column.doubtful_mg > 0)
    if wanted.changed_since_signing:
        asked.append(column.changed_since_signing.is_(True))
    if wanted.changed_since is not None:
        asked.append(column.changed_at >= wanted.changed_since)
    asked += [column.words.contains(word, autoescape=True) for word in wanted.search.casefold().split()]
    return asked


def _may_be_above(mg: float) -> Any:
    """Sodium a serving above so many mg, or, where not all was counted, perhaps above."""
    perhaps = and_(recipes.c.complete.is_(False), recipes.c.high_mg > mg)
    return or_(recipes.c.sodium_mg > mg, perhaps)


def _beyond(by: tuple[Any, ...], after: Place) -> Any:
    """What comes after a place: less in the first column that differs, or else a later key."""
    later: Any = recipes.c.key > as_text(after.key)
    for column, value in reversed(list(zip(by, after.values, strict=True))):
        later = or_(column < value, and_(column == value, later))
    return later


def place_of(heading: Heading, order: Order) -> Place:
    """Where a page ends with this heading."""
    values = {
        "key": (),
        "sodium": (heading.sodium_mg,),
        "urgency": (heading.urgency, heading.sodium_mg),
        "changed": (heading.created_at,),
    }
    return Place(heading.key, values[order])


# What is told.


def tell_of(connection: Connection, version: Version, signed: Document | None) -> None:
    """Say of a recipe what its current version holds. signed: the answer that was signed last, if any."""
    answer = version.answer
    found = urgency_of(answer, signed=signed)
    connection.execute(
        update(recipes)
        .where(recipes.c.key == as_text(version.key))
        .values(
            state="active",
            title=as_text(version.request.get("title") or ""),
            words=_words(version),
            status=version.status,
            sodium_mg=version.sodium_mg,
            high_mg=answer["sodium"]["per_serving_mg"]["high"],
            complete=answer["sodium"].get("complete"),
            stops=found.stops,
            checks=found.checks,
            doubtful_mg=found.doubtful_mg,
            changed_since_signing=found.changed_since_signing,
            urgency=found.rank if version.status == "open" else 0,
            changed_at=version.created_at,
        )
    )


def retell(connection: Connection, version: Version) -> None:
    """Say of a recipe that has another key what is looked for in lists."""
    which = recipes.c.key == as_text(version.key)
    connection.execute(update(recipes).where(which).values(words=_words(version)))


def _words(version: Version) -> str:
    """What a search looks through: title, key and lines."""
    lines = [each.get("line") or "" for each in version.answer.get("ingredients", ())]
    text = "\n".join([version.request.get("title") or "", version.key, *lines])
    return as_text(text[:MOST_WORDS].casefold())


def set_state(connection: Connection, key: str, state: State) -> None:
    """Put a recipe among the active, archived or deleted ones."""
    connection.execute(
        update(recipes).where(recipes.c.key == as_text(key)).values(state=state, changed_at=now())
    )


def set_verdict(connection: Connection, key: str, status: str) -> None:
    """Say of a recipe what was decided: nobody is needed any more."""
    values = {"status": status, "urgency": 0, "changed_since_signing": False, "changed_at": now()}
    connection.execute(update(recipes).where(recipes.c.key == as_text(key)).values(values))


def state_of(connection: Connection, key: str) -> State | None:
    """The state of what `key` holds, None where it never held anything."""
    found: State | None = connection.scalar(select(recipes.c.state).where(recipes.c.key == as_text(key)))
    return found
