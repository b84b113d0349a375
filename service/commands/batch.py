"""`saltledger batch`: many recipes worked out, from a file or from the store, here or on a cluster."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Iterator, Mapping
from contextlib import ExitStack, contextmanager, suppress
from pathlib import Path
from typing import IO, TYPE_CHECKING, Any, get_args

import click

from ..batch.compression import Compression, named
from .progress_bar import progress
from .refusing import refusals

if TYPE_CHECKING:
    from ..batch.executors import Executor
    from ..batch.running import Plan, Sink

# What reads tables is imported by the command when it runs: `--help` stays quick.


def spread(command: Callable[..., None]) -> Callable[..., None]:
    """The options of commands that spread their work."""
    for option in (
        click.option(
            "--cluster",
            metavar="ADDRESS",
            help="Work on the workers of this dask.distributed scheduler, such as tcp://10.0.0.5:8786.",
        ),
        click.option(
            "--workers",
            type=click.IntRange(1, 256),
            help="Processes on this machine; one for each of its cores where not stated.",
        ),
        click.option(
            "--progress/--no-progress",
            "shown",
            default=None,
            help="Draw a bar, or not; drawn on a terminal where not stated.",
        ),
        click.option("--anew", is_flag=True, help="Begin again, whatever an earlier run had answered."),
    ):
        command = option(command)
    return command


def executor_of(workers: int | None, cluster: str | None) -> Executor[Any, Any]:
    """What does the work. Raises NoCluster, UsageError."""
    if cluster is not None and workers is not None:
        raise click.UsageError("--workers are processes of this machine; leave it out with --cluster.")
    if cluster is not None:
        from ..batch.cluster import Cluster

        return Cluster(cluster)
    from ..batch.executors import Processes, usable_cores

    return Processes(workers or usable_cores())


@click.command()
@click.argument(
    "files",
    metavar="[IN] OUT",
    nargs=-1,
    required=True,
    type=click.Path(dir_okay=False, allow_dash=True, path_type=Path),
)
@click.option("--from-store", is_flag=True, help="Work out the saved recipes in place of those of IN.")
@click.option(
    "--save", "saving", is_flag=True, help="Save each recipe under its key, as POST /v1/recipes does."
)
@click.option(
    "--compress",
    type=click.Choice(get_args(Compression)),
    help="How OUT is compressed; by its name where not stated (.gz, .zst).",
)
@spread
def batch(
    *,
    files: tuple[Path, ...],
    from_store: bool,
    saving: bool,
    compress: Compression | None,
    workers: int | None,
    cluster: str | None,
    shown: bool | None,
    anew: bool,
) -> None:
    """Work out many recipes: one JSON recipe a line in IN, one answer or problem a line in OUT, in order.

    A line is a recipe as for POST /v1/calculations, or {"key": ..., "recipe": ...}, whose answer has the key.
    With --save every line has a key, and its answer says what came of the save; it is on disk by then.
    IN may be compressed by gzip or Zstandard; - is standard input, or output. A line that cannot be answered
    gives its problem, with its number in "line". Memory stays the same however long IN is.

    OUT is put in place only when it is complete. A run that is stopped, in whatever way, leaves OUT.part and
    OUT.progress; the same command goes on there and answers every line once. Exits with 1 where a line had a
    problem.
    """
    if len(files) != (1 if from_store else 2):
        raise click.UsageError("Name OUT alone." if from_store else "Name IN and OUT.")
    if from_store and saving:
        raise click.UsageError("Saved recipes are worked out anew and kept by `saltledger recalculate`.")
    from ..jobs import own_process

    target = files[-1]
    how = compress or named(target)
    with refusals(), own_process.loaded(), ExitStack() as opened:
        executor = executor_of(workers, cluster)
        if from_store:
            plan = _of_store(how)
        else:
            plan = _of_file(opened.enter_context(_opened(files[0])), how, saving=saving)
        sink = opened.enter_context(_sink(target, plan.about, anew=anew))
        if sink.tally.items:
            click.echo(f"Going on after {sink.tally.items:,} recipes of an earlier run.", err=True)
        told = opened.enter_context(progress(plan.total, sink.tally, shown=shown))
        tally = plan.run(executor, sink, told)
    problems = tally.problems
    click.echo(
        f"{tally.items} recipes, {tally.items - problems} answered, {problems} with problems.", err=True
    )
    sys.exit(1 if problems else 0)


@contextmanager
def _opened(source: Path) -> Iterator[IO[bytes]]:
    if str(source) == "-":
        yield sys.stdin.buffer
        return
    try:
        file = source.open("rb")
    except OSError as fault:
        raise click.UsageError(f"{source} cannot be read: {fault.strerror}.") from fault
    with file:
        yield file


def _of_file(file: IO[bytes], how: Compression, *, saving: bool) -> Plan[Any, Any]:
    from ..batch.compression import reading
    from ..jobs import batch_runs, saving_runs

    plan: Callable[..., Plan[Any, Any]] = saving_runs.of_file if saving else batch_runs.of_file
    with suppress(OSError):  # a pipe has no size, and no place
        size = os.fstat(file.fileno()).st_size
        file.tell()
        return plan(reading(file), how, total=size or None, position=file.tell)
    return plan(reading(file), how)


def _of_store(how: Compression) -> Plan[Any, Any]:
    from ..jobs import batch_runs

    return batch_runs.of_store(how)


@contextmanager
def _sink(target: Path, about: Mapping[str, str], *, anew: bool) -> Iterator[Sink]:
    """Where the answers go: a file that can be gone on with, or a stream."""
    from ..batch.running import Stream, written

    if str(target) == "-":
        yield Stream(sys.stdout.buffer)
    elif target.exists() and not target.is_file():  # a pipe, or a device
        with target.open("wb") as out:
            yield Stream(out)
    else:
        with written(target, about, anew=anew) as file:
            yield file
