"""Lists of saved recipes: which, in what order, from where on in either direction, and how many.

All that lists choose and order by stands on the recipe's own row, told by `tell_of` whenever its current
version or the verdict on it changes; so a page costs an index and the rows that it shows.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Mapping, Sequence
from typing import Any

from sqlalchemy import (
    Connection,
    Select,
    and_,
    delete,
    func,
    insert,
    literal,
    literal_column,
    or_,
    select,
    text,
    true,
    update,
)

from ..core.documents import every_food
from ..review.overrides import line_key
from ..review.urgency import urgency_of
from . import list_walks
from .records import Document, Heading, Order, Place, State, Version, Wanted
from .schema import as_text, now, recipe_counts, recipe_lines, recipe_uses, recipes, versions

MOST_WORDS = 8000
"""Characters of title, key and lines that a search looks through."""
MOST_IN_A_WORD, MOST_BY_TITLE = 60, 200
MANY = 1000
"""Recipes that a search finds by its index; more it finds on its way through the list."""

_BY: Mapping[Order, Sequence[str]] = {
    "key": (),
    "title": ("by_title",),
    "sodium": ("sodium_mg",),
    "urgency": ("urgency", "sodium_mg"),
    "doubtful": ("doubtful_mg",),
    "changed": ("changed_at",),
}
"""What each order goes by; the key decides between equals."""
_UPWARD = ("by_title", "key")
"""Columns whose least comes first; the largest does of others."""


def page(
    connection: Connection, wanted: Wanted, place: Place | None, limit: int, *, back: bool = False
) -> list[Heading]:
    """At most `limit` recipes next to a place, in the order that is wanted.

    Those after it, or before it where `back`; without a place the first, or the last.
    """
    by = [recipes.c[name] for name in (*_BY[wanted.order], "key")]
    found_ids = _found(connection, wanted)
    index = list_walks.index_of(connection, wanted) if found_ids is None else None
    chosen = select(recipes.c.id, recipes.c.current, *by).where(*_which(wanted, found_ids))
    if index is not None:
        chosen = chosen.with_hint(recipes, f"INDEXED BY {index}", "sqlite")
    elif found_ids is not None:
        chosen = chosen.with_hint(recipes, "NOT INDEXED", "sqlite")
    chosen = chosen.order_by(*_ordered(by, back=back))
    stretches = [true()] if place is None else _beyond(by, (*place.values, as_text(place.key)), back=back)
    found: list[Heading] = []
    list_walks.go_along(connection, wanted, index)
    for stretch in stretches:
        if len(found) < limit:
            nearest = chosen.where(stretch).limit(limit - len(found))
            found += _headings_of(connection, nearest, by, back=back)
    return found[::-1] if back else found


def _headings_of(
    connection: Connection, chosen: Select[Any], by: Sequence[Any], *, back: bool
) -> list[Heading]:
    """What lists show of the recipes that are chosen, in their order."""
    chosen_ids = chosen.subquery()
    query = headings().join(
        chosen_ids, and_(chosen_ids.c.id == versions.c.recipe_id, chosen_ids.c.current == versions.c.number)
    )
    query = query.order_by(*_ordered([chosen_ids.c[column.name] for column in by], back=back))
    return [Heading(**row) for row in connection.execute(query).mappings()]


def count_by_status(connection: Connection) -> dict[str, int]:
    """How many active recipes stand at each status."""
    query = select(recipe_counts.c.status, recipe_counts.c.count).where(recipe_counts.c.state == "active")
    return {row[0]: row[1] for row in connection.execute(query.where(recipe_counts.c.count > 0))}


def count_with(connection: Connection, most: int, *, line: str | None = None, food: str | None = None) -> int:
    """How many active recipes have a line (by its key), or a food (by its code), counted up to `most`."""
    which = recipe_lines.c.line_key == line if line is not None else recipe_lines.c.food_code == food
    found = select(recipe_lines.c.recipe_id).join(recipes, recipes.c.id == recipe_lines.c.recipe_id)
    found = found.where(which, recipes.c.state == "active").distinct().limit(most)
    return connection.scalars(select(func.count()).select_from(found.subquery())).one()


def with_line_or_food(
    connection: Connection, *, line: str | None = None, food: str | None = None
) -> list[tuple[str, str]]:
    """Key and save id of each active recipe whose current version has a line (by its key), or a food (by its
    code), the most sodium a serving first."""
    which = recipe_lines.c.line_key == line if line is not None else recipe_lines.c.food_code == food
    mine = select(recipe_lines.c.recipe_id).where(which)
    query = select(recipes.c.key, versions.c.save_id).join(
        versions, and_(versions.c.recipe_id == recipes.c.id, versions.c.number == recipes.c.current)
    )
    query = query.where(recipes.c.id.in_(mine), recipes.c.state == "active")
    rows = connection.execute(query.order_by(recipes.c.sodium_mg.desc(), recipes.c.key))
    return [(row.key, row.save_id) for row in rows]


def keys_after(
    connection: Connection, key: str, limit: int, *, archived: bool = False, alone: bool = False
) -> list[str]:
    """The keys of active recipes that follow `key`, in order, at most `limit`.

    archived: those of archived ones too. alone: only of recipes that no saved recipe is an ingredient of.
    """
    states = ("active", "archived") if archived else ("active",)
    query = select(recipes.c.key).where(recipes.c.state.in_(states), recipes.c.key > as_text(key))
    if alone:
        query = query.where(recipes.c.id.not_in(select(recipe_uses.c.recipe_id)))
    return list(connection.scalars(query.order_by(recipes.c.key).limit(limit)))


def count(connection: Connection, *, archived: bool = False) -> int:
    """How many recipes are active; archived: with those that are archived."""
    states = ("active", "archived") if archived else ("active",)
    query = select(func.coalesce(func.sum(recipe_counts.c.count), 0))
    return int(connection.scalars(query.where(recipe_counts.c.state.in_(states))).one())


def headings() -> Select[Any]:
    """What lists show of versions, to be narrowed by the caller."""
    of_version = ("number", "save_id", "calculation_id", "title", "sodium_mg", "high_mg", "complete", "cause")
    more = ("saved_by", "status", "created_at")
    of_recipe = (
        "key",
        "state",
        "low_mg",
        "stops",
        "checks",
        "doubtful_mg",
        "changed_since_signing",
        "near_limit",
        "urgency",
        "stale",
        "by_title",
        "changed_at",
    )
    return (
        select(*(recipes.c[name] for name in of_recipe), *(versions.c[name] for name in (*of_version, *more)))
        .select_from(versions)
        .join(recipes, recipes.c.id == versions.c.recipe_id)
    )


def _which(wanted: Wanted, found_ids: Sequence[int] | None) -> list[Any]:
    """The conditions of a list. found_ids: what a search has found, None where its words are to be read."""
    column, least = recipes.c, list_walks.least_urgency(wanted)
    asked = (
        wanted.status is not None and column.status == wanted.status,
        wanted.above_mg is not None and _may_be_above(wanted.above_mg),
        wanted.complete is not None and column.complete.is_(wanted.complete),
        # Said as the index of them has it.
        wanted.stops and column.stops > literal_column("0"),
        wanted.checks and column.checks > 0,
        wanted.doubtful and column.doubtful_mg > literal_column("0"),
        wanted.changed_since_signing and column.changed_since_signing.is_(True),
        wanted.stale and column.stale.is_(True),
        wanted.changed_since is not None and column.changed_at >= wanted.changed_since,
        least > 0 and column.urgency >= least,
        bool(wanted.handled_by) and column.handled_by == as_text(wanted.handled_by),
        found_ids is not None and column.id.in_(found_ids),
    )
    conditions = [column.state == wanted.state, *(each for each in asked if each is not False)]
    if found_ids is None:
        # What many have is found soonest by going through the list in its order.
        spaced = literal(" ") + column.words
        conditions += [spaced.contains(f" {word}", autoescape=True) for word in words_of(wanted.search)]
    return conditions


def _found(connection: Connection, wanted: Wanted) -> Sequence[int] | None:
    """The recipes whose words begin with each of those searched for; None where nothing is, or many have
    them."""
    if not wanted.search.strip():
        return None
    words = words_of(wanted.search)
    if not words:
        return ()
    if connection.dialect.name == "sqlite":
        indexed = "SELECT rowid FROM recipe_words WHERE recipe_words MATCH :asked"
        asked = " ".join(f'"{word}"*' for word in words)
    else:
        told = "array_to_tsvector(string_to_array(words, ' '))"
        indexed = f"SELECT id FROM recipes WHERE {told} @@ CAST(:asked AS tsquery)"
        asked = " & ".join(f"'{word}':*" for word in words)
        # It would rather read every recipe: it cannot tell how few begin with a word.
        connection.execute(text("SET LOCAL enable_seqscan = off"))
    found = connection.scalars(text(f"{indexed} LIMIT {MANY}"), {"asked": asked}).all()
    if connection.dialect.name != "sqlite":
        connection.execute(text("SET LOCAL enable_seqscan = on"))
    return found if len(found) < MANY else None


def _may_be_above(mg: float) -> Any:
    """Sodium a serving above so many mg, or, where not all was counted, perhaps above."""
    perhaps = and_(recipes.c.complete.is_(False), recipes.c.high_mg > mg)
    return or_(recipes.c.sodium_mg > mg, perhaps)


def _ordered(columns: Sequence[Any], *, back: bool) -> list[Any]:
    """The order by these columns, or the reverse of it."""
    return [each.asc() if (each.name in _UPWARD) != back else each.desc() for each in columns]


def _beyond(by: Sequence[Any], values: Sequence[Any], *, back: bool) -> list[Any]:
    """What comes after a place, or before it, in stretches, the nearest first.

    What is equal in all columns but the last and further in that; then what is further in the one before it,
    and so on. Each is one stretch of the index; said as one condition, a database would read all equals up to
    the place.
    """
    further = [
        column > value if (column.name in _UPWARD) != back else column < value
        for column, value in zip(by, values, strict=True)
    ]
    equal = [column == value for column, value in zip(by, values, strict=True)]
    return [and_(*equal[:at], further[at]) for at in reversed(range(len(by)))]


def place_of(heading: Heading, order: Order) -> Place:
    """Where a page ends with this heading."""
    return Place(heading.key, tuple(getattr(heading, name) for name in _BY[order]))


# What is told.


def tell_of(connection: Connection, version: Version, signed: Document | None) -> None:
    """Say of a recipe what its current version holds. signed: the answer that was signed last, if any."""
    which = recipes.c.key == as_text(version.key)
    connection.execute(update(recipes).where(which).values(told_of(version, signed)))
    _tell_lines(connection, version)


def told_of(version: Version, signed: Document | None) -> dict[str, Any]:
    """What is told of a recipe with this current version, by column."""
    answer = version.answer
    found = urgency_of(answer, signed=signed)
    return {
        "state": "active",
        "title": as_text(version.request.get("title") or ""),
        "words": _words(version),
        "by_title": " ".join(words_of(version.request.get("title") or ""))[:MOST_BY_TITLE],
        "status": version.status,
        "sodium_mg": version.sodium_mg,
        "low_mg": answer["sodium"]["per_serving_mg"]["low"],
        "high_mg": answer["sodium"]["per_serving_mg"]["high"],
        "complete": answer["sodium"].get("complete"),
        "stops": found.stops,
        "checks": found.checks,
        "doubtful_mg": found.doubtful_mg,
        "changed_since_signing": found.changed_since_signing,
        "near_limit": found.near_limit,
        "urgency": found.rank if version.status == "open" else 0,
        "changed_at": version.created_at,
    }


def _tell_lines(connection: Connection, version: Version) -> None:
    """Say of a recipe which lines and foods it has."""
    mine = select(recipes.c.id).where(recipes.c.key == as_text(version.key))
    recipe_id = connection.scalars(mine).one()
    connection.execute(delete(recipe_lines).where(recipe_lines.c.recipe_id == recipe_id))
    rows = [{"recipe_id": recipe_id, **line} for line in lines_of(version)]
    if rows:
        connection.execute(insert(recipe_lines), rows)


def lines_of(version: Version) -> list[dict[str, str | None]]:
    """The lines and foods of a version, each pair once."""
    found = {
        (
            line_key(each["line"]) if each.get("line") else None,
            each["food"]["code"] if each.get("food") else None,
        )
        for each in every_food({"ingredients": (), **version.answer})
    }
    # What an overrule of a food maps to another food is still found by the first.
    found |= {(None, each["food_code"]) for each in version.overrules if each.get("food_code")}
    return [
        {"line_key": line, "food_code": code} for line, code in found if line is not None or code is not None
    ]


def retell(connection: Connection, version: Version) -> None:
    """Say of a recipe that has another key what is looked for in lists."""
    which = recipes.c.key == as_text(version.key)
    connection.execute(update(recipes).where(which).values(words=_words(version)))


def _words(version: Version) -> str:
    """What a search looks through: the words of title, key and lines, each once, parted by spaces."""
    lines = [each.get("line") or "" for each in version.answer.get("ingredients", ())]
    told = "\n".join([version.request.get("title") or "", version.key, *lines])
    return as_text(" ".join(words_of(told[:MOST_WORDS])))


def words_of(text: str) -> list[str]:
    """The words of a text as they are searched for: letters and digits alone, without case and accents."""
    plain = unicodedata.normalize("NFKD", text.casefold())
    plain = "".join(each for each in plain if not unicodedata.combining(each))
    words = "".join(each if each.isalnum() else " " for each in plain).split()
    return list(dict.fromkeys(word[:MOST_IN_A_WORD] for word in words))


def set_state(connection: Connection, key: str, state: State) -> None:
    """Put a recipe among the active, archived or deleted ones."""
    connection.execute(
        update(recipes).where(recipes.c.key == as_text(key)).values(state=state, changed_at=now())
    )


def set_verdict(connection: Connection, key: str, status: str, handled_by: str | None) -> None:
    """Say of a recipe what was decided, and by whom (None: as before): nobody is needed any more."""
    values = {
        "status": status,
        "urgency": 0,
        "changed_since_signing": False,
        "changed_at": now(),
    }
    connection.execute(update(recipes).where(recipes.c.key == as_text(key)).values(values))
    if handled_by is not None:
        set_handler(connection, key, handled_by)


def set_handler(connection: Connection, key: str, handled_by: str) -> None:
    """Say of a recipe who decided on it or changed it last (`Signature.handle`)."""
    values = {"handled_by": as_text(handled_by)}
    connection.execute(update(recipes).where(recipes.c.key == as_text(key)).values(values))


def state_of(connection: Connection, key: str) -> State | None:
    """The state of what `key` holds, None where it never held anything."""
    found: State | None = connection.scalar(select(recipes.c.state).where(recipes.c.key == as_text(key)))
    return found
