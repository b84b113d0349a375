"""A CMS's save hook in Python: save a recipe, say what needs a person, learn of the sign-off.

    python cms_hook.py save KEY RECIPE.json [ETAG]   prints the ETag to keep beside the recipe
    python cms_hook.py follow [AFTER]                waits for the next event after number AFTER

LEDGER_URL is where the service is; LEDGER_KEY an API key with the scopes calculate and save, if it asks for
one.
"""

from __future__ import annotations

import json
import os
import sys
from pathlib import Path
from typing import Any

import requests

URL = os.environ.get("LEDGER_URL", "http://127.0.0.1:8080")


class ChangedMeanwhile(Exception):
    """Somebody else, a reviewer perhaps, changed the recipe since this ETag; read it again first."""


def session() -> requests.Session:
    made = requests.Session()
    if key := os.environ.get("LEDGER_KEY"):
        made.headers["Authorization"] = f"Bearer {key}"
    return made


def save(
    ledger: requests.Session, key: str, recipe: dict[str, Any], etag: str | None = None
) -> tuple[str, dict[str, Any]]:
    """Save a recipe; sending it twice does no harm. Gives the new ETag and what was saved."""
    condition = {"If-Match": etag} if etag else {}
    response = ledger.put(f"{URL}/v1/recipes/{key}", json=recipe, headers=condition, timeout=30)
    if response.status_code == 412:
        raise ChangedMeanwhile(response.json()["detail"])
    if response.status_code == 422:
        for fault in response.json()["errors"]:
            print(f"{fault['pointer']}: {fault['message']}", file=sys.stderr)
    response.raise_for_status()
    return response.headers["ETag"], response.json()


def for_the_editor(saved: dict[str, Any]) -> list[str]:
    """What to show beside the save button."""
    sodium = saved["calculation"]["sodium"]["per_serving_mg"]
    figure = f"{sodium['likely']:.0f} mg of sodium a serving ({sodium['low']:.0f} to {sodium['high']:.0f})"
    notices = [each for each in saved["calculation"]["notices"] if each["severity"] != "info"]
    return [figure, *(f"{each['severity']}: {each['message']}" for each in notices)]


def next_events(ledger: requests.Session, after: int) -> list[dict[str, Any]]:
    """What happened after event number `after`; waits up to 20 seconds for something to happen."""
    response = ledger.get(f"{URL}/v1/events", params={"after": after, "wait": 20}, timeout=40)
    response.raise_for_status()
    events: list[dict[str, Any]] = response.json()["events"]
    return events


def main(arguments: list[str]) -> None:
    ledger = session()
    match arguments:
        case ["save", key, file, *etag]:
            recipe = json.loads(Path(file).read_text(encoding="utf-8"))
            tag, saved = save(ledger, key, recipe, *etag[:1])
            print(tag)
            print(*for_the_editor(saved), sep="\n", file=sys.stderr)
        case ["follow", *after]:
            for event in next_events(ledger, int(after[0]) if after else 0):
                print(event["id"], event["kind"], event["key"], event.get("by", ""))
        case _:
            sys.exit(__doc__)


if __name__ == "__main__":
    main(sys.argv[1:])
