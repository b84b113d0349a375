"""The wheel: complete, and working where there is no checkout and no network."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
import tomllib
import zipfile
from pathlib import Path

import pytest

TOP = Path(__file__).parents[1]


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A wheel of what is in the checkout now, built without a network."""
    out = tmp_path_factory.mktemp("wheel")
    # Built from a copy: building leaves things in the tree, and would take up what an older build left.
    source = out / "source"
    for name in ("service", "seed_foods"):
        shutil.copytree(TOP / name, source / name, ignore=shutil.ignore_patterns("__pycache__"))
    for name in ("pyproject.toml", "README.md"):
        shutil.copy(TOP / name, source)
    pip = [sys.executable, "-m", "pip", "wheel", "--no-deps", "--no-build-isolation", "--no-index"]
    subprocess.run([*pip, "--wheel-dir", str(out), str(source)], check=True, capture_output=True)
    (built,) = out.glob("*.whl")
    return built


def folders(top: str) -> set[str]:
    return {
        str(path.parent.relative_to(TOP))
        for path in (TOP / top).rglob("*.py")
        if "__pycache__" not in path.parts and "migrations" not in path.parts
    }


def test_every_package_folder_is_named_in_the_project_file() -> None:
    project = tomllib.loads((TOP / "pyproject.toml").read_text(encoding="utf-8"))
    named = {name.replace(".", "/") for name in project["tool"]["setuptools"]["packages"]}
    found = {folder.replace("service", "saltledger", 1) for folder in folders("service")}
    assert named == found | {"saltledger/seed_foods"}


def test_every_bundled_file_is_in_the_wheel(wheel: Path) -> None:
    inside = set(zipfile.ZipFile(wheel).namelist())
    assert not [name for name in inside if "/deploy/" in name]
    for top, name in (("service", "saltledger"), ("seed_foods", "saltledger/seed_foods")):
        for path in (TOP / top).rglob("*"):
            # service/deploy is for those who run the service, from a checkout.
            if (
                path.is_file()
                and not {"__pycache__", "deploy"} & set(path.parts)
                and path.name != ".gitignore"
            ):
                assert f"{name}/{path.relative_to(TOP / top)}" in inside


def test_it_works_elsewhere(wheel: Path, tmp_path: Path) -> None:
    """Installed into a new environment that sees our dependencies, but neither the checkout nor a network."""
    subprocess.run([sys.executable, "-m", "venv", "--without-pip", str(tmp_path / "venv")], check=True)
    python = str(tmp_path / "venv" / "bin" / "python")
    site = next((tmp_path / "venv").glob("lib/*/site-packages"))
    pip = [sys.executable, "-m", "pip", "install", "--no-deps", "--no-index", "--target", str(site)]
    subprocess.run([*pip, str(wheel)], check=True, capture_output=True)
    dependencies = Path(pytest.__file__).parents[1]
    # A bare path: lines of a .pth file that begin with "import" (as an editable install has) do not run.
    environment = {"PATH": os.environ["PATH"], "PYTHONPATH": f"{site}:{dependencies}", "HOME": str(tmp_path)}

    def run(*arguments: str) -> str:
        done = subprocess.run(
            [python, *arguments], check=True, capture_output=True, text=True, cwd=tmp_path, env=environment
        )
        return done.stdout

    assert run("-c", "import saltledger; print(saltledger.__file__)").startswith(str(site))
    command = ["-c", "from saltledger.commands.cli import main; main()"]
    recipe = run(*command, "demo", "--recipe")
    (tmp_path / "recipe.json").write_text(recipe, encoding="utf-8")
    answer = json.loads(run(*command, "calculate", "recipe.json", "--json"))
    assert answer["sodium"]["per_serving_mg"]["likely"] > 0
    page = "from saltledger.app import create_app; print(create_app().test_client().get('/docs').status_code)"
    assert run("-c", page).strip() == "200"
