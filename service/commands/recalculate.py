"""`saltledger recalculate`: every saved recipe worked out again, here or on a cluster."""

from __future__ import annotations

import sys

import click

from .batch import executor_of, spread
from .progress_bar import progress
from .refusing import refusals


@click.command()
@click.option(
    "--moved-by",
    "share",
    type=click.FloatRange(0, 10),
    default=0.05,
    show_default=True,
    help="Mark for review what moved by more than this share of its sodium per serving.",
)
@click.option("--dry-run", is_flag=True, help="Only say what would be marked.")
@spread
def recalculate(
    *,
    share: float,
    dry_run: bool,
    workers: int | None,
    cluster: str | None,
    shown: bool | None,
    anew: bool,
) -> None:
    """Work every saved recipe out again with today's dataset and factors.

    Each stands on what its kitchen has measured itself. Where sodium per serving moved by more than the share
    a new version is kept and waits for review. Where it moved less, what was signed stands. Recipes that are
    ingredients of others come first. A run that was stopped is gone on with where it was. On a cluster every
    worker needs SALTLEDGER_DATABASE_URL of this store. Exits with 1 where a recipe could not be worked out.
    """
    from ..batch.resuming import Tally
    from ..jobs import own_process
    from ..jobs.recalculation import Recalculation

    failed = moved = done = 0
    with refusals(), own_process.loaded():
        executor = executor_of(workers, cluster)
        run = Recalculation(share, keep=not dry_run, anew=anew)
        if done := run.done:
            click.echo(f"Going on after {done:,} recipes of an earlier run.", err=True)
        with progress(run.total, Tally(done), shown=shown) as told:
            for found in run.run(executor):
                done += 1
                if found.fault is not None:
                    failed += 1
                    click.echo(f"{found.key}: cannot be worked out: {found.fault}", err=True)
                elif found.moved:
                    moved += 1
                    click.echo(f"{found.key}: {found.before_mg:.0f} mg -> {found.after_mg:.0f} mg a serving")
                told(Tally(done, failed), done)
    verb = "would be marked" if dry_run else "marked"
    click.echo(f"{done} recipes, {moved} {verb} for review, {failed} could not be worked out.", err=True)
    sys.exit(1 if failed else 0)
