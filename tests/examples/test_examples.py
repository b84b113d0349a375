"""The examples work as they stand: a CMS's hook in two languages, and the whole way with curl."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from ..serving import Service, needs, served

HERE = Path(__file__).parent
HOOKS = {"python": [sys.executable, str(HERE / "cms_hook.py")], "node": ["node", str(HERE / "cms_hook.mjs")]}
SOUP = {"title": "Quay soup", "servings": 4, "ingredients": ["1 litre water", "2 tsp table salt"]}


@pytest.fixture(scope="module")
def service(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Service]:
    folder = tmp_path_factory.mktemp("examples")
    with served(f"sqlite:///{folder}/store.sqlite3", folder / "log", "--workers", "1") as service:
        yield service


def run(command: list[str], url: str) -> subprocess.CompletedProcess[str]:
    needs(command[0])
    environment = {**os.environ, "LEDGER_URL": url}
    return subprocess.run(command, capture_output=True, text=True, env=environment, timeout=120, check=False)


@pytest.mark.parametrize("language", HOOKS)
def test_a_hook_saves_and_follows(service: Service, tmp_path: Path, language: str) -> None:
    hook, key = HOOKS[language], f"soup-{language}"
    file = tmp_path / "recipe.json"
    file.write_text(json.dumps(SOUP))
    saved = run([*hook, "save", key, str(file)], service.url)
    assert saved.returncode == 0, saved.stderr
    assert "mg of sodium a serving" in saved.stderr
    tag = saved.stdout.strip()
    file.write_text(json.dumps({**SOUP, "servings": 6}))
    changed = run([*hook, "save", key, str(file), tag], service.url)
    assert changed.returncode == 0, changed.stderr
    file.write_text(json.dumps({**SOUP, "servings": 8}))
    refused = run([*hook, "save", key, str(file), tag], service.url)
    assert refused.returncode != 0
    assert "is newer than what you have" in refused.stderr
    followed = run([*hook, "follow"], service.url)
    assert f"recipe.saved {key} local" in followed.stdout


@pytest.mark.parametrize("language", HOOKS)
def test_a_hook_says_what_is_wrong_with_a_recipe(service: Service, tmp_path: Path, language: str) -> None:
    file = tmp_path / "recipe.json"
    file.write_text(json.dumps({**SOUP, "servings": 0}))
    refused = run([*HOOKS[language], "save", "soup", str(file)], service.url)
    assert refused.returncode != 0
    assert "/servings: Found the number 0" in refused.stderr


def test_the_whole_way_with_curl(service: Service) -> None:
    needs("curl")
    done = run(["sh", str(HERE / "save_and_review.sh"), service.url], service.url)
    assert done.returncode == 0, done.stdout + done.stderr
    assert '"status":"signed"' in done.stdout
    assert '"kind":"recipe.signed"' in done.stdout
    assert '"after":"1 1/2 tsp table salt"' in done.stdout
