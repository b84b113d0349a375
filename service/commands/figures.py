"""`saltledger figures`: whether the tables are those that were accepted, and what a change of them moved."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable, Iterable, Iterator, Mapping
from datetime import date
from itertools import groupby
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

if TYPE_CHECKING:
    from ..evidence.figure_lock import Difference
    from ..evidence.golden import Moved

Ask = Callable[[str, Mapping[str, Any]], Any]
MOST = 40
SEED_FOODS = Path("seed_foods")


@click.command()
@click.option("--check", is_flag=True, help="Exit with 1 where a row differs, and name it.")
@click.option("--recipes", is_flag=True, help="Work out the hundred recipes as well, and tell what moved.")
@click.option("--accept", "reason", metavar="REASON", help="Take figures and recipes as they are; say why.")
def figures(check: bool, recipes: bool, reason: str | None) -> None:
    """Hold the tables against figures.lock: every row as it was accepted, with its source and mark.

    --accept writes figures.lock, golden/figures.csv and a line of CHANGES.md in seed_foods/ of the checkout.
    """
    from ..evidence.figure_lock import differences, fingerprint, in_words

    changed = differences()
    for line in in_words(changed, MOST):
        click.echo(line, err=check)
    if reason is not None:
        _accept(reason, changed)
        return
    told = list(_told(changed)) if recipes else []
    for line in told:
        click.echo(line, err=check)
    said = f", {len(told)} recipes moved" if recipes else ""
    click.echo(f"fingerprint {fingerprint()}: {len(changed)} changes of the tables{said}")
    if check and (changed or told):
        click.echo('Put them back, or run: saltledger figures --accept "why they changed"', err=True)
        sys.exit(1)


def _told(changed: Iterable[Difference]) -> Iterator[str]:
    """A line for each recipe that moved: what moved most, before and after, and what did it."""
    from ..evidence.golden import CODE_DID, why

    answers, moved = _worked_out()
    for recipe, each in groupby(moved, lambda one: one.recipe):
        first, *rest = each
        reason = why(answers.get(recipe, {}), changed)
        if reason == CODE_DID:
            reason += "".join(f" {module}" for module in code_since_pinned())
        yield f"{first}{f' ({len(rest)} more)' if rest else ''}; {reason}"


def _accept(reason: str, changed: list[Difference]) -> None:
    from ..evidence.changes import CHANGES, HEAD, change_line
    from ..evidence.figure_lock import LOCK, fingerprint, lock_text
    from ..evidence.golden import PINNED, pinned_text

    if not SEED_FOODS.is_dir():
        raise click.ClickException("There is no folder seed_foods here; run this at the top of a checkout.")
    if not reason.strip():
        raise click.BadParameter("Say why the figures changed.", param_hint="--accept")
    answers, moved = _worked_out()
    (SEED_FOODS / LOCK).write_text(lock_text(), encoding="utf-8")
    (SEED_FOODS / PINNED).write_text(pinned_text(answers), encoding="utf-8")
    line = change_line(date.today(), fingerprint(), reason, changed, moved)
    file = SEED_FOODS / CHANGES
    before = file.read_text(encoding="utf-8") if file.exists() else HEAD
    file.write_text(before + line, encoding="utf-8")
    click.echo(line, nl=False)


def _worked_out() -> tuple[dict[str, Any], list[Moved]]:
    """The answers to the hundred recipes today, and the figures that are not what was pinned."""
    from ..evidence.golden import moved_since, recipes

    ask = asking()
    answers = {each.id: ask(each.path, each.body) for each in recipes()}
    return answers, moved_since(answers)


def asking() -> Ask:
    """A function from a path and a body to the answer, by the API of this process."""
    from ..app import create_app

    client = create_app().test_client()

    def ask(path: str, body: Mapping[str, Any]) -> Any:
        answer = client.post(path, json=body)
        if answer.status_code != 200:
            raise click.ClickException(f"{path}: {answer.status_code} {answer.get_data(as_text=True)[:500]}")
        return answer.get_json()

    return ask


def code_since_pinned() -> list[str]:
    """The modules that changed since the recipes were last pinned; empty where there is no git to ask."""
    from ..evidence.golden import PINNED

    try:
        last = _git("log", "-1", "--format=%H", "--", str(SEED_FOODS / PINNED)).strip()
        return _git("diff", "--name-only", last, "--", "service").split() if last else []
    except (OSError, subprocess.CalledProcessError):
        return []


def _git(*words: str) -> str:
    return subprocess.run(["git", *words], check=True, capture_output=True, text=True).stdout
