"""`saltledger verify`: is everything as it was saved, overruled and signed, and does it come out the same?"""

from __future__ import annotations

import sys
from typing import TYPE_CHECKING, Any

import click

from .admin import opened

if TYPE_CHECKING:
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
        today = _today(database)
        found = verifying.verify(connection, today, frozenset(names), recalculating=not quick)
        found.altered += [cut] if head and (cut := verifying.cut_off(connection, head)) else []
    _tell(found)
    sys.exit(1 if found.altered or found.differs else 0)


def _today(database: Database) -> Today:
    """The service's own calculation: each version on the kept foods that it rests on."""
    from ..core.tables import tables_sha256
    from ..foods.dataset import bundled
    from ..jobs.second_source import standing_foods
    from ..jobs.workbenches import make_workbench
    from ..store.verifying import Today

    bench = make_workbench(database, standing_foods(database))

    def calculate(version: Version, document: dict[str, Any]) -> dict[str, Any]:
        with bench.made_of(version.key, version):
            return bench.calculate(document, pins=bench.pins(version))

    return Today(calculate, bundled().identity["sha256"], tables_sha256())


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
