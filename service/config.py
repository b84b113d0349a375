"""The settings: one frozen object, read once from environment variables that begin with SALTLEDGER_."""

from __future__ import annotations

import math
import os
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, fields
from difflib import get_close_matches
from ipaddress import ip_network
from pathlib import Path
from typing import Any, Literal, get_args

from .core.errors import SaltledgerError

PREFIX = "SALTLEDGER_"
MEBIBYTE = 1024 * 1024

RemoteFoods = Literal["off", "kept", "ask"]
Access = Literal["loopback", "keys", "open"]
Traces = Literal["off", "on"]
ReadyFor = Literal["saves", "calculations"]
IfMatch = Literal["optional", "required"]


class BadSetting(SaltledgerError):
    """An environment variable that is unknown or cannot be used; carries every fault found."""

    def __init__(self, faults: list[str]) -> None:
        self.faults = tuple(faults)
        super().__init__(self.faults)

    def __str__(self) -> str:
        return "\n".join(self.faults)


def _setting(default: Any, read: Callable[[str], Any], help: str, *, secret: bool = False) -> Any:
    return field(default=default, repr=not secret, metadata={"read": read, "help": help})


def _text(value: str) -> str:
    return value.strip()


def _whole(low: int, high: int) -> Callable[[str], int]:
    def read(value: str) -> int:
        if not value.strip().isdecimal() or not low <= int(value) <= high:
            raise ValueError(f"wanted a whole number from {low} to {high}")
        return int(value)

    return read


def _seconds(low: float, high: float) -> Callable[[str], float]:
    def read(value: str) -> float:
        try:
            found = float(value)
        except ValueError:
            found = math.nan
        if not low <= found <= high:
            raise ValueError(f"wanted a number of seconds from {low:g} to {high:g}")
        return found

    return read


def _networks(value: str) -> str:
    for each in filter(None, map(str.strip, value.split(","))):
        ip_network(each)  # raises ValueError
    return value.strip()


def _one_of(*choices: str) -> Callable[[str], str]:
    def read(value: str) -> str:
        if value not in choices:
            raise ValueError(f"wanted one of {', '.join(choices)}")
        return value

    return read


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """Every setting with its default; `SALTLEDGER_BODY_BYTES` sets `body_bytes`, and so on."""

    host: str = _setting("127.0.0.1", _text, "address that `serve` listens on")
    port: int = _setting(8080, _whole(1, 65535), "port that `serve` listens on")
    workers: int = _setting(2, _whole(1, 64), "worker processes of `serve`")
    threads: int = _setting(4, _whole(1, 64), "threads of each worker process")
    worker_seconds: int = _setting(
        30, _whole(2, 600), "how long a worker may give no sign of life before another takes its place"
    )
    connections: int = _setting(
        500, _whole(10, 20000), "connections of each worker; one more takes the place of who waits longest"
    )
    batches: int = _setting(4, _whole(1, 64), "batches that each worker answers at a time")
    batch_processes: int = _setting(
        2,
        _whole(1, 64),
        "processes over which each worker spreads the lines of a long request, while it has one; 1 for none",
    )
    head_seconds: int = _setting(10, _whole(1, 600), "how long the head of a request may take to come")
    body_seconds: int = _setting(
        10, _whole(1, 600), "how long a body may be slower than BODY_RATE, and an answer be read slower"
    )
    body_rate: int = _setting(4096, _whole(1, 1024 * MEBIBYTE), "bytes a second at which a body must come")
    access: Access = _setting(
        "loopback",
        _one_of(*get_args(Access)),
        "who may call: loopback (this machine without a key, until there is one), keys (callers bring an API "
        "key), open (everybody who can reach it)",
    )
    body_bytes: int = _setting(MEBIBYTE, _whole(1024, 64 * MEBIBYTE), "largest request body")
    batch_bytes: int = _setting(
        1024 * MEBIBYTE, _whole(1024, 1024 * 1024 * MEBIBYTE), "largest body of a batch"
    )
    work_ms: int = _setting(
        700,
        _whole(1, 1_000_000),
        "most that one recipe, target or comparison may cost, in milliseconds, estimated beforehand",
    )
    cpu_seconds: float = _setting(
        0.9, _seconds(0.05, 3600), "processor's time after which a calculation is stopped"
    )
    deadline_seconds: float = _setting(
        10.0, _seconds(0.05, 3600), "time after which a calculation is stopped, however busy the machine"
    )
    spool_bytes: int = _setting(
        2048 * MEBIBYTE,
        _whole(1024, 1024 * 1024 * MEBIBYTE),
        "of batches, the most that each worker keeps in temporary files before it is answered",
    )
    rate_per_minute: int = _setting(
        0, _whole(0, 1_000_000), "requests a minute of one key, or one address without; 0 for no limit"
    )
    rate_store: str = _setting(
        "", _text, "Redis URL where all workers count them together; empty: each by itself", secret=True
    )
    answers_bytes: int = _setting(
        4 * MEBIBYTE,
        _whole(0, 1024 * MEBIBYTE),
        "answers that each worker keeps, packed, to give them again to equal requests; 0 for none",
    )
    answers_store: str = _setting(
        "", _text, "Redis URL where all workers keep answers as well; empty: each by itself", secret=True
    )
    log_level: str = _setting(
        "info", _one_of("debug", "info", "warning", "error"), "least severity that is logged"
    )
    database_url: str = _setting(
        "", _text, "SQLAlchemy URL of the store; empty for the default SQLite file", secret=True
    )
    traces: Traces = _setting(
        "off", _one_of(*get_args(Traces)), "OpenTelemetry spans, one a request: on or off"
    )
    ready_for: ReadyFor = _setting(
        "saves",
        _one_of(*get_args(ReadyFor)),
        "what /health/ready is to mean: saves (the store can be reached), or calculations alone",
    )
    if_match: IfMatch = _setting(
        "optional",
        _one_of(*get_args(IfMatch)),
        "whether saving over a recipe takes If-Match: optional, or required (428 without it)",
    )
    remote_foods: RemoteFoods = _setting(
        "off",
        _one_of(*get_args(RemoteFoods)),
        "the second source of foods, USDA FoodData Central: off, kept (foods that were fetched before), ask "
        "(what a line calls a food that nothing fits, and no more of it, is sent there, after the answer)",
    )
    remote_foods_key: str = _setting("", _text, "data.gov key for it; needed to ask", secret=True)
    remote_foods_url: str = _setting("https://api.nal.usda.gov/fdc/v1", _text, "where it is asked")
    remote_foods_cache: str = _setting(
        "",
        _text,
        "where its answers are kept: a file, a redis:// URL; empty for a file beside the store's",
        secret=True,
    )
    remote_foods_days: int = _setting(30, _whole(1, 3650), "days for which its answers are fresh")
    webhook_url: str = _setting("", _text, "where events are sent as they happen; empty for nowhere")
    webhook_secret: str = _setting(
        "", _text, "what they are signed with: whsec_ and base64 of 24 to 64 bytes", secret=True
    )
    webhook_private: Literal["refused", "allowed"] = _setting(
        "refused", _one_of("refused", "allowed"), "whether they may go to an address of a private network"
    )
    proxies: int = _setting(
        0, _whole(0, 8), "reverse proxies in front, whose X-Forwarded headers are believed"
    )
    trusted_proxies: str = _setting(
        "127.0.0.0/8, ::1/128",
        _networks,
        "addresses and networks of the last of these proxies; from elsewhere the headers are not believed",
    )

    @classmethod
    def from_environment(cls, environment: Mapping[str, str] | None = None) -> Settings:
        """The settings that the environment states, defaults for the rest.

        Raises BadSetting: a variable that begins with SALTLEDGER_ and is not a setting, or whose value
        cannot be used; every such variable is named.
        """
        known = {PREFIX + each.name.upper(): each for each in fields(cls)}
        stated: dict[str, Any] = {}
        faults = []
        source = os.environ if environment is None else environment
        for name, value in sorted(source.items()):
            if not name.startswith(PREFIX):
                continue
            if name not in known:
                faults.append(_unknown(name, known))
                continue
            try:
                stated[known[name].name] = known[name].metadata["read"](value)
            except ValueError as fault:
                faults.append(f"{name}: {fault}.")
        if faults:
            raise BadSetting(faults)
        return cls(**stated)


def _unknown(name: str, known: Mapping[str, Any]) -> str:
    names = [each.removeprefix(PREFIX) for each in known]
    near = get_close_matches(name.removeprefix(PREFIX), names, n=1)
    remedy = f"did you mean {PREFIX}{near[0]}?" if near else f"unset it; settings are {', '.join(known)}."
    return f"{name} is not a setting; {remedy}"


def describe() -> list[tuple[str, str, str]]:
    """Each setting as (variable, default, what it does), for help texts."""
    return [
        (PREFIX + each.name.upper(), str(each.default) or "(empty)", each.metadata["help"])
        for each in fields(Settings)
    ]


def default_file() -> Path:
    """The SQLite file; it need not exist."""
    state = os.environ.get("STATE_DIRECTORY")  # as systemd gives it to a service
    return (Path(state) if state else _state_home() / "saltledger") / "saltledger.sqlite3"


def default_url() -> str:
    """The same as a database URL."""
    return f"sqlite:///{default_file()}"


def _state_home() -> Path:
    return Path(os.environ.get("XDG_STATE_HOME") or Path.home() / ".local" / "state")
