"""The house: imports point one way, files have names of their own, and none grows too long."""

from __future__ import annotations

import ast
import re
from collections import defaultdict
from collections.abc import Iterator
from pathlib import Path

import saltledger

SERVICE = Path(saltledger.__file__).parent

FLOORS = (
    ("core",),
    ("units",),
    ("lines", "diffusion", "safety"),
    ("curing",),
    ("transfer",),
    ("foods",),
    ("nutrition",),
    ("method",),
    ("render",),
    ("recipe",),
    ("evidence", "review"),
    ("gate",),
    ("calculator",),
    ("batch", "store"),
    ("config",),
    ("jobs",),
    ("http", "app"),
    ("server",),
    ("commands",),
)
"""Rooms from the ground up: each imports from those below it and from itself, never from one above."""

FLOOR = {room: number for number, rooms in enumerate(FLOORS) for room in rooms}

ONE_THING = ("http/routes", "http/schemas", "http/pages")
"""A route, its schema and its page may share a name; so may a command and the room that it opens."""

MOST_LINES = 400


def modules() -> list[Path]:
    return [file for file in SERVICE.rglob("*.py") if "migrations" not in file.parts]


def room_of(parts: tuple[str, ...]) -> str:
    return parts[0].removesuffix(".py") if parts else ""


def imports(file: Path) -> Iterator[tuple[str, ...]]:
    """What a file imports from this package, as parts of its path; imports for types alone are none."""
    tree = ast.parse(file.read_text(encoding="utf-8"))
    package = file.relative_to(SERVICE).parts[:-1]
    for node in ast.walk(tree):
        if isinstance(node, ast.If) and ast.unparse(node.test) == "TYPE_CHECKING":
            node.body = []
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom) and node.level:
            base = package[: len(package) - node.level + 1]
            path = (*base, *(node.module.split(".") if node.module else ()))
            yield from ([path] if path else [(alias.name,) for alias in node.names])


def test_imports_point_down() -> None:
    wrong = {}
    for file in modules():
        own = room_of(file.relative_to(SERVICE).parts)
        others = {path for path in imports(file) if room_of(path) in FLOOR and room_of(path) != own}
        if own == "__init__":
            bad = others
        elif own in ("http", "app"):  # the app is made of the edge, and the edge describes the app
            bad = {path for path in others if FLOOR[room_of(path)] > FLOOR[own]}
        else:
            bad = {path for path in others if FLOOR[room_of(path)] >= FLOOR[own]}
        if bad:
            wrong[str(file.relative_to(SERVICE))] = sorted(".".join(path) for path in bad)
    assert wrong == {}, "what these need belongs on a lower floor"


def test_every_room_has_its_floor() -> None:
    rooms = {room_of(file.relative_to(SERVICE).parts) for file in modules()} - {"__init__"}
    assert rooms == set(FLOOR)


def test_two_files_share_a_name_only_as_route_schema_and_page_of_one_thing() -> None:
    by_name: dict[str, list[str]] = defaultdict(list)
    for file in modules():
        where = file.relative_to(SERVICE)
        if file.name != "__init__.py" and str(where.parent) not in ONE_THING:
            by_name[file.name].append(str(where))
    assert {name: where for name, where in by_name.items() if len(where) > 1} == {}


def test_no_file_grows_too_long() -> None:
    long = {
        str(file.relative_to(SERVICE)): lines
        for file in modules()
        if (lines := len(file.read_text(encoding="utf-8").splitlines())) > MOST_LINES
    }
    assert long == {}


def test_the_guide_names_only_files_that_are_there() -> None:
    root = SERVICE.parent
    names = set(re.findall(r"`([\w/]+\.(?:py|csv|yaml|txt|json))\b", (root / "DEVELOPERS.md").read_text()))
    folders = [folder for folder in ("service", "tests", "seed_foods", "openapi") if (root / folder).is_dir()]
    files = [str(file.relative_to(root)) for folder in folders for file in (root / folder).rglob("*.*")]
    missing = {name for name in names if not any(f"/{file}".endswith(f"/{name}") for file in files)}
    assert missing == set()
