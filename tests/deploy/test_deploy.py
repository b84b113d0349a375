"""What an operator installs: held to the tools that read it, and to the settings there are."""

from __future__ import annotations

import re
import shutil
import subprocess
import sys
from dataclasses import fields
from pathlib import Path

import pytest
from saltledger.config import PREFIX, Settings

TOP = Path(__file__).parents[2]
DEPLOY = TOP / "service" / "deploy"
UNIT = DEPLOY / "saltledger.service"
MOST_EXPOSED = 2.0
"""Of 10, by systemd's own reckoning; below 2 is its "OK"."""


def tool(name: str) -> str:
    found = shutil.which(name) or shutil.which(name, path=str(Path(sys.executable).parent))
    if found is None:
        pytest.skip(f"{name} is not installed")
    return found


def run(*arguments: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(arguments, capture_output=True, text=True, timeout=60, check=False)


@pytest.fixture
def unit(tmp_path: Path) -> Path:
    """The unit, with a program that is there."""
    command = Path(sys.executable).with_name("saltledger")
    made = tmp_path / UNIT.name
    made.write_text(UNIT.read_text("utf-8").replace("/opt/saltledger/bin/saltledger", str(command)), "utf-8")
    return made


def test_systemd_takes_the_unit_without_a_word(unit: Path) -> None:
    done = run(tool("systemd-analyze"), "verify", "--man=no", "--recursive-errors=no", str(unit))
    assert (done.returncode, done.stderr) == (0, "")


def test_the_unit_gives_the_service_little_of_the_machine(unit: Path) -> None:
    done = run(tool("systemd-analyze"), "security", "--offline=yes", "--no-pager", str(unit))
    found = re.search(r"Overall exposure level for \S+: ([\d.]+)", done.stdout)
    assert found, done.stdout + done.stderr
    assert float(found[1]) < MOST_EXPOSED


def test_the_containerfile_passes_its_linter() -> None:
    done = run(tool("hadolint"), "--failure-threshold", "info", str(DEPLOY / "Containerfile"))
    assert (done.returncode, done.stdout) == (0, "")


@pytest.mark.parametrize("file", sorted(DEPLOY.iterdir()), ids=lambda file: file.name)
def test_only_settings_that_there_are_get_named(file: Path) -> None:
    known = {PREFIX + each.name.upper() for each in fields(Settings)}
    assert set(re.findall(rf"{PREFIX}[A-Z_]+", file.read_text("utf-8"))) <= known


def test_what_the_containerfile_copies_is_there() -> None:
    copied = re.findall(
        r"^COPY (?!--from)(.+) \S+$", (DEPLOY / "Containerfile").read_text("utf-8"), re.MULTILINE
    )
    assert all((TOP / name).exists() for line in copied for name in line.split())


def test_the_bill_of_materials_names_what_is_installed(tmp_path: Path) -> None:
    target = tmp_path / "sbom.json"
    run(tool("cyclonedx-py"), "environment", "--of", "JSON", "-o", str(target), str(Path(sys.executable)))
    text = target.read_text("utf-8")
    assert all(f'"name": "{name}"' in text for name in ("Flask", "numpy", "SQLAlchemy", "saltledger"))


def pins(name: str) -> dict[str, str]:
    found = re.findall(r"^([\w.-]+)==([^\s\\]+)", (TOP / name).read_text("utf-8"), re.MULTILINE)
    return {re.sub(r"[-_.]+", "-", package.lower()): version for package, version in found}


def test_the_hashes_are_of_the_versions_that_are_pinned() -> None:
    plain, hashed = pins(".constraints.txt"), pins(".constraints.hashed.txt")
    assert hashed.items() <= plain.items()
    assert {"flask", "limits", "numpy", "sqlalchemy", "setuptools"} <= hashed.keys()
    text = (TOP / ".constraints.hashed.txt").read_text("utf-8")
    assert text.count("==") <= text.count("--hash=sha256:")
    assert "//" not in text
