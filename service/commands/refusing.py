"""What goes wrong in a command, in plain words."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager

import click

from ..config import BadSetting
from ..core.errors import InvalidRequest, SaltledgerError


@contextmanager
def refusals() -> Iterator[None]:
    """Turn errors of ours into plain text on standard error and exit code 2."""
    try:
        yield
    except InvalidRequest as refused:
        for fault in refused.faults:
            click.echo(f"{fault.pointer or '(recipe)'}: {fault.message}", err=True)
        sys.exit(2)
    except (BadSetting, SaltledgerError) as refused:
        click.echo(str(refused), err=True)
        sys.exit(2)
