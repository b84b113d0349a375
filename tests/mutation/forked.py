"""A pytest plugin that tries many mutants in one process: each in a fork, against the tests that reach it.

A first fork runs every test and notes which functions of the room each one calls, and for how long it runs.
A mutant within a function is then put into the function that is already imported, in a fork of its own, and
only the tests that call the function are run, the cheapest file first, up to the first failure. A mutant
that cannot be put into what is imported (`swapping.py`) is left to a run of its own, with all tests of the
room, those that reach its file first.
"""

from __future__ import annotations

import gc
import json
import os
import resource
import time
from collections.abc import Callable, Container, Iterable, Mapping
from cProfile import Profile
from dataclasses import dataclass
from functools import _lru_cache_wrapper
from pathlib import Path
from types import CodeType
from typing import Any

import pytest

from .swapping import PACKAGE, Change, Place, change_of

ASKED = "MUTANTS_ASKED"
"""Environment variable: the file of what is asked, `Asked` as JSON; the answers go beside it."""
_DEAR = {(f"{PACKAGE}.core.tables", "rows"), (f"{PACKAGE}.foods.dataset", "bundled")}
"""Caches that are left filled: they cost most, and only the room of foods can change what they hold."""

MOST_LEFT_OUT = 0.02
"""Share of the tests that may fail without any fault, as by a slow machine: they are left out."""

NOT_PUT_IN = 4
"""What a fork answers where its mutant could not be put into what is imported."""


@dataclass(frozen=True, slots=True)
class Reach:
    """What a test calls, and the CPU seconds it takes."""

    node: str
    seconds: float
    places: frozenset[Place]


def pytest_runtestloop(session: pytest.Session) -> bool | None:
    """Run the mutants in place of the tests, where mutants are asked for."""
    asked_in = os.environ.get(ASKED)
    if asked_in is None:
        return None
    asked = json.loads(Path(asked_in).read_text(encoding="utf-8"))
    out = Path(asked_in).with_suffix(".answers")
    _in_a_fork(lambda: _note_reach(session, asked["folder"], out), 3600)
    noted = json.loads(out.read_text(encoding="utf-8"))
    if len(noted["failed"]) > MOST_LEFT_OUT * len(session.items):
        raise pytest.UsageError(f"the tests fail without any fault: {' '.join(noted['failed'])}")
    reaches = [
        Reach(node, spent, frozenset((f, n) for f, n in places)) for node, spent, places in noted["reach"]
    ]
    told = []
    for fault in asked["faults"]:
        told.append(_tried(session, asked, fault, reaches))
        out.write_text(json.dumps(told), encoding="utf-8")  # each as it comes: a run may be long
    return True


def _in_a_fork(work: Callable[[], int], cpu_seconds: float) -> int:
    """What `work` returns, run in a fork; a number other than 0 and 1 where it was stopped."""
    child = os.fork()
    if child == 0:
        code = 3
        try:
            resource.setrlimit(resource.RLIMIT_CPU, (int(cpu_seconds) + 1, int(cpu_seconds) + 2))
            code = work()
        finally:
            os._exit(code)
    _, status = os.waitpid(child, 0)
    return os.waitstatus_to_exitcode(status)


def _note_reach(session: pytest.Session, folder: str, out: Path) -> int:
    found: list[Any] = []
    failed: list[str] = []
    caches = [each for each in _caches() if not each.__module__.startswith(f"{PACKAGE}.foods")]
    file = None
    for number, item in enumerate(session.items):
        # What a file's tests would have called, had no other filled a cache; of those within it the first is
        # credited, and as the others reach the same files, a mutant meets them too.
        if item.path != file:
            file = item.path
            for each in caches:
                each.cache_clear()
        before, failed_before = time.process_time(), session.testsfailed
        calls = Profile(subcalls=False, builtins=False)
        calls.enable()
        _run(session, item, session.items[number + 1 : number + 2])
        calls.disable()
        if session.testsfailed > failed_before:
            failed.append(item.nodeid)
        else:
            found.append([item.nodeid, time.process_time() - before, _places(calls, folder)])
    out.write_text(json.dumps({"failed": failed, "reach": found}), encoding="utf-8")
    return 0


def _places(calls: Profile, folder: str) -> list[Place]:
    """The functions under a folder that were called."""
    codes = [entry.code for entry in calls.getstats() if isinstance(entry.code, CodeType)]
    return sorted(
        (code.co_filename, code.co_firstlineno) for code in codes if code.co_filename.startswith(folder)
    )


def _run(session: pytest.Session, item: pytest.Item, following: list[pytest.Item]) -> None:
    item.config.hook.pytest_runtest_protocol(item=item, nextitem=following[0] if following else None)


def _tried(
    session: pytest.Session, asked: Mapping[str, Any], fault: Mapping[str, str], reaches: list[Reach]
) -> Any:
    """How one mutant fared: noticed or not, or None where it was not tried; the tests to try it by."""
    file, text = fault["file"], fault["text"]
    change = change_of(file, text)
    near = [each for each in reaches if any(where == file for where, _ in each.places)]
    here = [each for each in near if change.place in each.places]
    # A value may be asked for by a test that calls nothing of its file: those come last.
    others = [] if here else [each for each in reaches if each not in near]
    order = list(
        dict.fromkeys(node for those in (here, near, others) for node in _afforded(those, asked["seconds"]))
    )
    if change.place is not None and not here:
        # A function that no test calls was called, if at all, while it was imported, and has done its work.
        return {"noticed": None, "tests": order}
    items = {item.nodeid: item for item in session.items}
    allowed = 10 * sum(each.seconds for each in near) + 60
    code = _in_a_fork(lambda: _noticed(session, [items[node] for node in order], file, change), allowed)
    return {"noticed": None, "tests": order} if code == NOT_PUT_IN else {"noticed": code != 0, "tests": []}


def _afforded(reaches: Iterable[Reach], seconds: float) -> list[str]:
    """The tests by file, the cheapest file first, as many as the seconds allow."""
    by_file: dict[str, list[Reach]] = {}
    for reach in reaches:
        by_file.setdefault(reach.node.partition("::")[0], []).append(reach)
    found, left = [], seconds
    for each in sorted(by_file.values(), key=lambda those: sum(one.seconds for one in those)):
        for reach in each:
            left -= reach.seconds
            if left >= 0:
                found.append(reach.node)
    return found


def _noticed(session: pytest.Session, items: list[pytest.Item], file: str, change: Change) -> int:
    """1 where a test fails with the mutant in place, else 0; NOT_PUT_IN where it could not be put there."""
    if not change.put_in():
        return NOT_PUT_IN
    _forget(file)
    for number, item in enumerate(items):
        _run(session, item, items[number + 1 : number + 2])
        if session.testsfailed:
            return 1
    return 0


def _forget(file: str) -> None:
    """Empty the package's caches, so that nothing that was worked out before stands for what is now."""
    for each in _caches(but_for=set() if f"{os.sep}foods{os.sep}" in file else _DEAR):
        each.cache_clear()


def _caches(but_for: Container[tuple[str, str]] = _DEAR) -> list[Any]:
    found = [each for each in gc.get_objects() if isinstance(each, _lru_cache_wrapper)]
    named = [(getattr(each, "__module__", None) or "", getattr(each, "__name__", ""), each) for each in found]
    return [
        each for module, name, each in named if module.startswith(PACKAGE) and (module, name) not in but_for
    ]
