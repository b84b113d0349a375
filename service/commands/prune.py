"""`saltledger prune`: take out old versions that nobody decided on, and old events."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

import click

from .admin import opened

DAYS = click.IntRange(min=1)


@click.command()
@click.option(
    "--versions-older-than",
    "versions",
    type=DAYS,
    metavar="DAYS",
    help="Take out versions made so many days ago, but for what is always kept.",
)
@click.option(
    "--events-older-than",
    "events",
    type=DAYS,
    metavar="DAYS",
    help="Take out events of so many days ago that every webhook has had.",
)
@click.option("--yes", is_flag=True, help="Do it; without this it is only said what would go.")
def prune(versions: int | None, events: int | None, yes: bool) -> None:
    """Take out old versions that nobody decided on, and old events.

    Always kept: the current version of every recipe and the one before it, every version that was signed or
    sent back, and every one that an overrule, a measurement or another recipe names. The record keeps the
    fingerprints of what goes, and `verify` knows it. Nothing can be brought back: export first. Whoever
    follows the events must ask more often than their age. `webhooks --forget` lets go of an address that
    takes none any more.
    """
    if versions is None and events is None:
        raise click.UsageError("Say what is to go: --versions-older-than DAYS, --events-older-than DAYS.")
    from ..review.chain import Actor
    from ..store import pruning

    before = _moment(versions or 0)
    with opened() as database:
        with database.read() as connection:
            old = pruning.old_versions(connection, before) if versions else []
            count, last = pruning.old_events(connection, _moment(events)) if events else (0, 0)
        if yes and versions:
            took = sum(pruning.take_out_versions(database, old, before, Actor("local")))
            click.echo(f"Took out {took:,} versions.")
        if yes and events:
            click.echo(f"Took out {sum(pruning.take_out_events(database, last)):,} events.")
    if not yes:
        click.echo(f"Would take out {len(old):,} versions and {count:,} events; with --yes it is done.")


def _moment(days: int) -> str:
    from ..store.schema import stamp

    return stamp(datetime.now(UTC) - timedelta(days=days))
