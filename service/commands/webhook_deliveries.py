"""`saltledger webhooks`: how far events were delivered, what waits and why, and trying again at once."""

from __future__ import annotations

import click

from .admin import opened


@click.command()
@click.option("--retry", is_flag=True, help="Make every try that waits due now.")
def webhooks(retry: bool) -> None:
    """Show how far events were delivered to each address.

    What a receiver refused of one recipe (400, 409, 413 or 422) is listed below it; the events of other
    recipes go on meanwhile. Pauses between tries double from 5 seconds to an hour, and never end.
    """
    from ..store import deliveries

    with opened() as database:
        if retry:
            with database.write() as connection:
                deliveries.retry_now(connection)
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
