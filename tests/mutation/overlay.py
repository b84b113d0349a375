"""A copy of the checkout to put faults into, with tests that run against the copy and nothing else."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from . import forked

TOP = Path(__file__).parents[2]
SECONDS = 300
_LEFT_OUT = shutil.ignore_patterns("__pycache__", "*.egg-info", ".git", ".venv", ".hypothesis", ".*_cache")
_QUICK = ("-q", "-x", "--no-header", "-p", "no:cacheprovider", "-p", "no:randomly")


class Overlay:
    """The copy: the package stands in it as an import finds it, before the checkout's own."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        shutil.copytree(TOP, folder, ignore=_LEFT_OUT, dirs_exist_ok=True)
        package = folder / "saltledger"
        (folder / "service").rename(package)
        (folder / "seed_foods").rename(package / "seed_foods")
        (folder / "service").symlink_to(package)
        (folder / "seed_foods").symlink_to(package / "seed_foods")

    def path(self, name: str) -> Path:
        return self.folder / name

    def notices(self, tests: Sequence[str]) -> bool:
        """Whether a test fails, or runs for too long."""
        named = self.folder / "tests_to_run"
        named.write_text("\n".join(tests), encoding="utf-8")
        try:
            return self._pytest([f"@{named}"], {}, SECONDS).returncode != 0
        except subprocess.TimeoutExpired:
            return True

    def tried(self, faults: Sequence[tuple[str, str]], tests: Sequence[str], seconds: float) -> list[Any]:
        """How each fault (a file from the top, and its text) fares against the tests: see `forked`."""
        asked = self.folder / "asked"
        package = self.folder / "saltledger"
        told = [{"file": str(self.path(file).resolve()), "text": text} for file, text in faults]
        asked.write_text(
            json.dumps({"folder": str(package.resolve()), "faults": told, "seconds": seconds}),
            encoding="utf-8",
        )
        done = self._pytest(["-p", forked.__name__, *tests], {forked.ASKED: str(asked)}, None)
        if done.returncode not in (0, 5):
            raise SystemExit(done.stdout.decode()[-2000:] + done.stderr.decode()[-2000:])
        answers: list[Any] = json.loads(asked.with_suffix(".answers").read_text(encoding="utf-8"))
        return answers

    def _pytest(
        self, arguments: Sequence[str], told: Mapping[str, str], seconds: float | None
    ) -> subprocess.CompletedProcess[bytes]:
        ours = {"PYTHONPATH": str(self.folder), "PYTHONDONTWRITEBYTECODE": "1", **told}
        environment = {key: value for key, value in os.environ.items() if not key.startswith("TEST_")} | ours
        command = [sys.executable, "-m", "pytest", *_QUICK, *arguments]
        return subprocess.run(
            command, check=False, cwd=self.folder, env=environment, capture_output=True, timeout=seconds
        )

    @contextmanager
    def changed(self, name: str, text: str) -> Iterator[None]:
        """A file with other text, until it is put back."""
        file = self.path(name)
        before = file.read_text(encoding="utf-8")
        file.write_text(text, encoding="utf-8")
        try:
            yield
        finally:
            file.write_text(before, encoding="utf-8")


@contextmanager
def overlay() -> Iterator[Overlay]:
    with TemporaryDirectory(prefix="mutation-") as folder:
        yield Overlay(Path(folder))
