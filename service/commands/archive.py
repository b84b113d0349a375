"""`saltledger export` and `saltledger import`: the whole store as one file, for backup and for moving it."""

from __future__ import annotations

import gzip
import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import NamedTemporaryFile
from typing import IO, cast

import click

from .admin import opened


@click.command("export")
@click.argument("target", metavar="FILE", type=click.Path(dir_okay=False, allow_dash=True, path_type=Path))
@click.option("--without-keys", is_flag=True, help="Leave API keys and reviewers out.")
def export_archive(target: Path, without_keys: bool) -> None:
    """Write the whole store, history and record with it, to FILE; - writes to standard output.

    All that is kept as it stands at one moment; the service may go on meanwhile. Where FILE ends in .gz it is
    compressed. API keys and reviewers' passwords are in it as hashes: keep it as you keep the store. FILE is
    put in place only when it is whole.
    """
    from ..store import whole_archive

    with opened() as database, _written(target) as out:
        found = whole_archive.write(database, out, with_keys=not without_keys)
    click.echo(f"{found.rows} rows, {found.versions} versions of recipes.", err=True)


@click.command("import")
@click.argument("source", metavar="FILE", type=click.Path(exists=True, dir_okay=False, path_type=Path))
def import_archive(source: Path) -> None:
    """Bring the archive in FILE into the store that the settings name, which must be empty.

    SQLite or PostgreSQL, whichever it came from. What was signed, who did it and the record with its hashes
    are the very ones. Where a run is cut off, the same command goes on; until then the store serves nobody.
    """
    from ..store import whole_archive

    with opened(importing=True) as database:
        with _lines(source) as lines:
            whole = whole_archive.check(lines)
        with _lines(source) as lines:
            found = whole_archive.read(database, lines)
    assert whole.rows == found.rows
    again = f", {found.before} of them in an earlier run" if found.before else ""
    click.echo(f"{found.rows} rows{again}, {whole.versions} versions of recipes.", err=True)
    click.echo("Now run: saltledger verify --quick", err=True)


@contextmanager
def _lines(source: Path) -> Iterator[Iterator[bytes]]:
    with gzip.open(source) if source.suffix == ".gz" else source.open("rb") as file:
        yield iter(cast(IO[bytes], file))


@contextmanager
def _written(target: Path) -> Iterator[IO[bytes]]:
    with whole_file(target, private=True) as file:
        if target.suffix == ".gz":
            with gzip.open(file, "wb", compresslevel=6) as packed:
                yield cast(IO[bytes], packed)
        else:
            yield file


@contextmanager
def whole_file(target: Path, *, private: bool = False) -> Iterator[IO[bytes]]:
    """A file that takes its place under its name only once it is complete; "-" is standard output.

    private: whether nobody but its owner may read it.
    """
    if str(target) == "-":
        yield sys.stdout.buffer
        return
    with NamedTemporaryFile(dir=target.absolute().parent, prefix=f".{target.name}.", delete=False) as out:
        try:
            yield out
            out.flush()
            os.fsync(out.fileno())
        except BaseException:
            os.unlink(out.name)
            raise
    os.chmod(out.name, 0o600 if private else 0o666 & ~_umask())
    os.replace(out.name, target)


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask
