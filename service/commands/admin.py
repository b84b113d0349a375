"""The commands that keep the store: API keys and reviewers; and the store for all that need it."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

import click

from ..config import Settings
from ..core.errors import SaltledgerError

if TYPE_CHECKING:
    from ..store.database import Database


# The store is imported by the command that needs it: `--help` stays quick.

SCOPES = ("calculate", "save", "review", "sign")


@click.group()
def keys() -> None:
    """Make, list and revoke API keys."""


@keys.command("create")
@click.option("--label", required=True, help="Who uses it; written beside what they save.")
@click.option(
    "--scope",
    "scopes",
    multiple=True,
    type=click.Choice(SCOPES),
    help="What it may do; may be given several times. Calculate and save where not stated; to sign versions "
    "off a key needs the scope sign, which no other holds.",
)
@click.option("--kitchen", help="The kitchen it belongs to: keys of one kitchen share its measurements.")
def create_key(label: str, scopes: tuple[str, ...], kitchen: str | None) -> None:
    """Make a key and show it, this once."""
    from ..store import keys as store

    with opened() as database, database.write() as connection:
        made, text = store.create(connection, label, scopes or ("calculate", "save"), kitchen)  # type: ignore[arg-type]
    click.echo(
        f"Key {made.public_id} ({made.label}): {_listed(made.scopes)}. It is shown this once:", err=True
    )
    click.echo(text)


@keys.command("list")
def list_keys() -> None:
    """List the keys, without their secrets."""
    from ..store import keys as store

    with opened() as database, database.read() as connection:
        for key in store.every(connection):
            state = f"revoked {key.revoked_at[:10]}" if key.revoked_at else "open"
            click.echo(
                f"{key.public_id}  {key.created_at[:10]}  {state:<18}  {_listed(key.scopes)}  {key.label}"
                + (f"  of {key.kitchen}" if key.kitchen else "")
            )


@keys.command("grant")
@click.argument("key_id")
@click.argument("scope", type=click.Choice(SCOPES))
def grant_scope(key_id: str, scope: str) -> None:
    """Let the key KEY_ID do one thing more."""
    from ..store import keys as store

    with opened() as database, database.write() as connection:
        if not store.grant(connection, key_id, scope):  # type: ignore[arg-type]
            raise click.ClickException(f"There is no open key {key_id!r}; see `saltledger keys list`.")
    click.echo(f"{key_id} may {scope} now.")


@keys.command("revoke")
@click.argument("key_id")
def revoke_key(key_id: str) -> None:
    """Close the key KEY_ID for good; running services know within seconds."""
    from ..store import keys as store

    with opened() as database, database.write() as connection:
        if not store.revoke(connection, key_id):
            raise click.ClickException(f"There is no open key {key_id!r}; see `saltledger keys list`.")
    click.echo(f"Revoked {key_id}.")


@click.group()
def reviewers() -> None:
    """Let people in to the review pages."""


@reviewers.command("add")
@click.argument("login")
@click.option("--name", required=True, help="The name they sign with.")
@click.option(
    "--password-stdin", is_flag=True, help="Read the password from standard input instead of asking."
)
def add_reviewer(login: str, name: str, password_stdin: bool) -> None:
    """Add a reviewer, who logs in as LOGIN."""
    from ..store import reviewers as store

    password = _password(password_stdin)
    with opened() as database, database.write() as connection:
        store.add(connection, login, name, password)
    click.echo(f"Added {login}, who signs as {name}.")


@reviewers.command("password")
@click.argument("login")
@click.option(
    "--password-stdin", is_flag=True, help="Read the password from standard input instead of asking."
)
def change_password(login: str, password_stdin: bool) -> None:
    """Give the reviewer LOGIN a new password and log them out everywhere."""
    from ..store import reviewers as store

    password = _password(password_stdin)
    with opened() as database, database.write() as connection:
        if not store.set_password(connection, login, password):
            raise click.ClickException(f"There is no reviewer {login!r}; see `saltledger reviewers list`.")
    click.echo(f"Changed the password of {login}.")


@reviewers.command("remove")
@click.argument("login")
def remove_reviewer(login: str) -> None:
    """Let the reviewer LOGIN in no more. What they signed stays signed."""
    from ..store import reviewers as store

    with opened() as database, database.write() as connection:
        if not store.remove(connection, login):
            raise click.ClickException(
                f"There is no active reviewer {login!r}; see `saltledger reviewers list`."
            )
    click.echo(f"Removed {login}.")


@reviewers.command("list")
def list_reviewers() -> None:
    """List the reviewers."""
    from ..store import reviewers as store

    with opened() as database, database.read() as connection:
        for each in store.every(connection):
            click.echo(f"{each.login}  {'active' if each.active else 'removed'}  {each.name}")


@contextmanager
def opened(*, importing: bool = False) -> Iterator[Database]:
    """The store that the settings name, and plain words for what goes wrong with it.

    importing: whether it is opened to bring an archive in.
    """
    from ..config import default_url
    from ..store.database import Database

    try:
        database = Database(Settings.from_environment().database_url or default_url(), importing=importing)
        try:
            yield database
        finally:
            database.close()
    except (SaltledgerError, ValueError) as fault:
        raise click.ClickException(str(fault)) from fault


def _password(from_stdin: bool) -> str:
    if from_stdin:
        return sys.stdin.readline().rstrip("\n")
    asked: str = click.prompt("Password", hide_input=True, confirmation_prompt=True)
    return asked


def _listed(scopes: frozenset[str]) -> str:
    return ", ".join(scope for scope in SCOPES if scope in scopes)


@click.command()
@click.option("--retry", is_flag=True, help="Make every try that waits due now.")
@click.option("--forget", metavar="URL", help="Let go of an address that takes none any more.")
def webhooks(retry: bool, forget: str | None) -> None:
    """Show how far events were delivered to each address.

    What a receiver refused of one recipe (400, 409, 413 or 422) is listed below it; the events of other
    recipes go on meanwhile. Pauses between tries double from 5 seconds to an hour, and never end.
    """
    from ..store import deliveries

    with opened() as database:
        if retry:
            with database.write() as connection:
                deliveries.retry_now(connection)
        if forget is not None:
            with database.write() as connection:
                if not deliveries.forget(connection, forget):
                    raise click.ClickException(f"Nothing was ever delivered to {forget}.")
        with database.read() as connection:
            found = deliveries.standing(connection)
    if not found:
        click.echo("Nothing was delivered yet: SALTLEDGER_WEBHOOK_URL names the address.")
    for each in found:
        click.echo(f"{each.url}: delivered up to event {each.delivered}, {each.waiting} waiting")
        if each.tries:
            click.echo(
                f"  no answer that takes it, {each.tries} times in a row; next try {each.due_at[:19]}Z"
            )
        for key, event_id, tries, due_at in each.held:
            click.echo(
                f"  event {event_id} of {key!r} was refused {tries} times; next try {due_at[:19]}Z, "
                "that recipe's later events wait"
            )
