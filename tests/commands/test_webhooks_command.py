"""`saltledger webhooks`: how far events were delivered, and trying again at once."""

from __future__ import annotations

from datetime import timedelta
from pathlib import Path

from click.testing import CliRunner, Result
from saltledger.app import create_app
from saltledger.commands.cli import main
from saltledger.config import Settings
from saltledger.store import deliveries
from saltledger.store.database import Database

from ..http.kept import SOUP

HOOKS = "https://hooks.example/x"


def test_it_tells_what_waits_and_tries_again(tmp_path: Path) -> None:
    url = f"sqlite:///{tmp_path}/store.sqlite3"

    def run(*asked: str) -> Result:
        return CliRunner().invoke(main, ["webhooks", *asked], env={"SALTLEDGER_DATABASE_URL": url})

    assert "Nothing was delivered yet" in run().output
    database = Database(url)
    with database.write() as connection:
        deliveries.claim(connection, HOOKS, timedelta(0))
    client = create_app(Settings(database_url=url)).test_client()
    for key in ("soup", "tea"):
        client.put(f"/v1/recipes/{key}", json=SOUP)
    with database.write() as connection:
        event = deliveries.claim(connection, HOOKS, timedelta(0))
        assert event is not None
        deliveries.refused(connection, HOOKS, event)
        deliveries.failed(connection, HOOKS)
    told = run().output
    assert f"{HOOKS}: delivered up to event 1, 1 waiting" in told
    assert "event 1 of 'soup' was refused 1 times" in told
    assert "1 times in a row" in told
    assert "in a row" not in run("--retry").output
    with database.write() as connection:
        again = deliveries.claim(connection, HOOKS, timedelta(0))
    assert again == event
    assert "Nothing was ever delivered to https://other" in run("--forget", "https://other").output
    assert HOOKS not in run("--forget", HOOKS).output
    database.close()
