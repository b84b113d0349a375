"""A kitchen's own measurements as the store keeps them: added, listed and taken back, never changed.

Every question names its kitchen: there is none that sees two.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import asdict, dataclass
from typing import Any

from sqlalchemy import Connection, RowMapping, delete, func, insert, select, update

from .schema import as_text, measurements, now, recipe_kitchens


@dataclass(frozen=True, slots=True)
class Measurement:
    """One measurement. request: the recipe it was taken of, as calculated; save_id: of which kept version.

    amount: in the unit that `what` names; uncertainty_percent: half of its 90 % range. id 0: not kept yet.
    """

    request: dict[str, Any]
    what: str
    amount: float
    uncertainty_percent: float
    measured_by: str
    kept_by: str
    save_id: str | None = None
    component: str | None = None
    after_step: int | None = None
    measured_on: str | None = None
    note: str = ""
    confirmed: bool = False
    id: int = 0
    created_at: str = ""
    withdrawn_at: str | None = None


_TEXTS = ("measured_by", "kept_by", "note")


def keep(connection: Connection, kitchen: str, made: Measurement) -> Measurement:
    """Keep a measurement of a kitchen, and give it as it is kept."""
    values = {key: value for key, value in asdict(made).items() if key != "id"}
    values |= {key: as_text(values[key]) for key in _TEXTS}
    values |= {"kitchen": kitchen, "created_at": now(), "withdrawn_at": None}
    row = connection.execute(insert(measurements).values(values).returning(measurements)).mappings().one()
    return _measurement(row)


def standing(connection: Connection, kitchen: str, most: int = 500) -> list[Measurement]:
    """The measurements of a kitchen that were not taken back, the oldest first; of many, the newest."""
    mine = (measurements.c.kitchen == kitchen) & measurements.c.withdrawn_at.is_(None)
    query = select(measurements).where(mine).order_by(measurements.c.id.desc()).limit(most)
    return [_measurement(row) for row in connection.execute(query).mappings()][::-1]


def standing_at(connection: Connection, kitchen: str, moment: str) -> list[Measurement]:
    """The measurements of a kitchen that stood at a moment, as the store writes it; the oldest first."""
    of = measurements.c
    was_taken_back = of.withdrawn_at.is_not(None) & (of.withdrawn_at <= moment)
    query = select(measurements).where((of.kitchen == kitchen) & (of.created_at <= moment) & ~was_taken_back)
    return [_measurement(row) for row in connection.execute(query.order_by(of.id)).mappings()]


def kitchens_at(connection: Connection, key: str, moment: str) -> list[str]:
    """The kitchens that had measured something by a moment: first that whose recipe `key` is now."""
    of = measurements.c
    found = connection.scalars(select(of.kitchen).where(of.created_at <= moment).distinct())
    owner = kitchen_of(connection, key)
    return sorted(found, key=lambda kitchen: (kitchen != owner, kitchen))


def take_back(connection: Connection, kitchen: str, number: int) -> bool:
    """Take a measurement of a kitchen back; False where it has none of this number that stands."""
    mine = (measurements.c.kitchen == kitchen) & (measurements.c.id == number)
    query = update(measurements).where(mine, measurements.c.withdrawn_at.is_(None))
    return connection.execute(query.values(withdrawn_at=now())).rowcount > 0


def state(connection: Connection, kitchen: str) -> tuple[int, int]:
    """What changes whenever a kitchen's measurements do: the highest number, and how many stand."""
    mine = measurements.c.kitchen == kitchen
    standing_ones = func.count().filter(measurements.c.withdrawn_at.is_(None))
    last, count = connection.execute(
        select(func.coalesce(func.max(measurements.c.id), 0), standing_ones).where(mine)
    ).one()
    return int(last), int(count)


def own(connection: Connection, key: str, kitchen: str) -> None:
    """Note whose recipe is kept under a key: whoever saved it last."""
    own_all(connection, [key], kitchen)


def own_all(connection: Connection, keys: Iterable[str], kitchen: str) -> None:
    """The same for several keys, one at the least."""
    named = [as_text(key) for key in keys]
    connection.execute(delete(recipe_kitchens).where(recipe_kitchens.c.key.in_(named)))
    connection.execute(insert(recipe_kitchens), [{"key": key, "kitchen": kitchen} for key in named])


def follow(connection: Connection, key: str, to: str) -> None:
    """A recipe has another key; whose kitchen it is stays as it was."""
    which = recipe_kitchens.c.key == as_text(key)
    connection.execute(update(recipe_kitchens).where(which).values(key=as_text(to)))


def kitchen_of(connection: Connection, key: str) -> str | None:
    """Whose recipe is kept under a key; None where nobody's."""
    query = select(recipe_kitchens.c.kitchen).where(recipe_kitchens.c.key == as_text(key))
    return connection.scalars(query).first()


def _measurement(row: RowMapping) -> Measurement:
    return Measurement(**{key: row[key] for key in Measurement.__dataclass_fields__})
