"""`saltledger verify`: is everything as it was saved, overruled and signed, and does it come out the same?"""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING, Any

import click

from .admin import opened

if TYPE_CHECKING:
    from collections.abc import Iterator
    from contextlib import AbstractContextManager

    from sqlalchemy import Connection

    from ..store.database import Database
    from ..store.records import Version
    from ..store.verifying import Today, Verified


@click.command()
@click.argument("names", nargs=-1, metavar="[KEY|SAVE_ID]...")
@click.option(
    "--head", help="An entry that you kept, as NUMBER:SHA256; the journal must still have it, unaltered."
)
@click.option("--quick", is_flag=True, help="Check the record alone, and work nothing out again.")
def verify(names: tuple[str, ...], head: str | None, quick: bool) -> None:
    """Check the record of saves, overrules and verdicts, and work versions out again.

    All versions, or those of the keys or saves that are named. Exits with 1 where anything was altered or
    comes out otherwise, and says what. Keep the last line somewhere else: with --head it shows whether the
    end of the record was cut off.
    """
    from ..store import verifying

    with opened() as database, database.read() as connection:
        today = _today(database, connection)
        found = verifying.verify(connection, today, frozenset(names), recalculating=not quick)
        found.altered += [cut] if head and (cut := verifying.cut_off(connection, head)) else []
    _tell(found)
    sys.exit(1 if found.altered or found.differs else 0)


def _today(database: Database, connection: Connection) -> Today:
    """The service's own calculation: each version on the kept foods and the measurements it rests on."""
    from ..core.assumptions import local_rows
    from ..core.tables import tables_sha256
    from ..foods.dataset import bundled
    from ..jobs.second_source import standing_foods
    from ..jobs.workbenches import make_workbench, own_figures
    from ..store import own_measurements
    from ..store.verifying import Today

    foods = standing_foods(database)
    bench = make_workbench(database, foods)

    def calculate(version: Version, document: dict[str, Any]) -> dict[str, Any]:
        with bench.made_of(version.key, version):
            return bench.calculate(document, pins=bench.pins(version))

    def figures(version: Version) -> Iterator[AbstractContextManager[None]]:
        for kitchen in own_measurements.kitchens_at(connection, version.key, version.created_at):
            standing = own_measurements.standing_at(connection, kitchen, version.created_at)
            yield local_rows(own_figures(standing, foods))

    return Today(calculate, bundled().identity["sha256"], tables_sha256(), figures)


def _tell(found: Verified) -> None:
    for line in found.altered:
        click.echo(f"ALTERED  {line}")
    for line in found.differs:
        click.echo(f"DIFFERS  {line}")
    for line in found.unchecked:
        click.echo(f"OTHER DATA  {line}")
    click.echo(
        f"{found.entries} entries, {found.versions} versions, {found.recalculated} worked out again: "
        f"{len(found.altered)} altered, {len(found.differs)} differ."
    )
    if found.head is not None:
        click.echo(f"head {found.head.number}:{found.head.hash}")
