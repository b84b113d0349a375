"""`saltledger figures`: told, checked, accepted."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from saltledger.commands import figures
from saltledger.commands.cli import main
from saltledger.evidence import figure_lock, golden
from saltledger.evidence.figure_lock import Difference

Run = Callable[..., Result]
IRON = Difference("reference_values", "fda/FE", "value", "27", "18")
PIE = {"id": "pie", "path": "/v1/calculations", "body": {"title": "Quay pie"}}


@pytest.fixture
def run(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Run:
    """The command in a checkout of one recipe, whose answer is a weight and nothing else."""
    folder = tmp_path / "seed_foods"
    (folder / "golden").mkdir(parents=True)
    (folder / "golden" / "recipes.jsonl").write_text(json.dumps(PIE) + "\n", encoding="utf-8")
    (folder / "golden" / "figures.csv").write_text("recipe,figure,value\npie,value,2\n", encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(golden, "seed_foods", lambda: folder)
    monkeypatch.setattr(golden, "evidence_counts", dict)
    monkeypatch.setattr(figures, "asking", lambda: lambda path, body: {"value": 3.0})
    monkeypatch.setattr(figure_lock, "differences", lambda: [IRON])
    monkeypatch.setattr(figure_lock, "lock_text", lambda: "the lock\n")
    return lambda *words: CliRunner().invoke(main, ["figures", *words])


def test_a_changed_row_is_named_and_the_check_fails(run):
    told = run("--check")
    assert told.exit_code == 1
    assert "reference_values:fda/FE: value was '27' and is '18'" in told.output
    assert "--accept" in told.output
    assert run().exit_code == 0


def test_what_moved_in_the_recipes_is_told_before_and_after_and_why(run):
    told = run("--recipes", "--check")
    assert "pie: value was 2 and is 3; tables that changed: reference_values" in told.output
    assert told.exit_code == 1


def test_accepting_writes_the_lock_the_recipes_and_why(run):
    assert run("--accept", "Iron as the\nrule has it.").exit_code == 0
    assert Path("seed_foods/figures.lock").read_text() == "the lock\n"
    assert "pie,value,3" in Path("seed_foods/golden/figures.csv").read_text().splitlines()
    head, line = Path("seed_foods/CHANGES.md").read_text().split("\n\n- ")
    assert head.startswith("# Changes")
    assert "Iron as the rule has it. Rows: 1 in reference_values" in line
    assert "Recipes: 1 of 100 (pie: value was 2 and is 3" in line
    run("--accept", "Again.")
    assert Path("seed_foods/CHANGES.md").read_text().count("\n- ") == 2


def test_a_reason_is_asked_for(run):
    assert run("--accept", " ").exit_code == 2
    assert not Path("seed_foods/figures.lock").exists()


def test_there_must_be_a_checkout(run, tmp_path, monkeypatch):
    (tmp_path / "elsewhere").mkdir()
    monkeypatch.chdir(tmp_path / "elsewhere")
    told = run("--accept", "Iron.")
    assert told.exit_code == 1
    assert "top of a checkout" in told.output
