"""Files that appear under their name only once they are whole."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import NamedTemporaryFile
from typing import IO


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
