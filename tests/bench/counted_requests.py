"""The requests that `one_request` has counted: `floor` or `ours`, each case so many times, in process."""

from __future__ import annotations

import gc
import sys
from typing import Any

from .floor import make_app
from .instructions import begin, counted
from .request_cases import Sender

ROUNDS = 4
CASES = "abcd"


def client_of(which: str) -> Any:
    if which == "floor":
        return make_app().test_client()
    # The floor stands on none of it.
    from saltledger.app import create_app  # noqa: PLC0415
    from saltledger.config import Settings  # noqa: PLC0415

    return create_app(Settings(cpu_seconds=3600, deadline_seconds=3600)).test_client()


def main(which: str) -> None:
    """Count ROUNDS requests of each case, in the order of CASES."""
    client, sender = client_of(which), Sender()

    def ask(body: bytes) -> None:
        answer = client.post("/v1/calculations", data=body, content_type="application/json")
        assert answer.status_code == 200, answer.text

    for body in sender.seen():
        ask(body)
    for case in CASES:  # whatever is made at first sight is made
        ask(sender.next(case))
    gc.collect()
    gc.freeze()
    begin()
    for case in CASES:
        for _ in range(ROUNDS):
            body = sender.next(case)
            counted(lambda body=body: ask(body))  # type: ignore[misc]


if __name__ == "__main__":
    main(sys.argv[1])
