"""What calculates on the command line loads no web framework."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest
from saltledger.http.examples import SHORT

WEB = {"flask", "flask_smorest", "gunicorn", "werkzeug"}


@pytest.mark.parametrize("command", ["calculate", "batch", "read"])
def test_a_calculation_loads_no_web_framework(tmp_path: Path, command: str) -> None:
    recipe = tmp_path / "recipe.json"
    method = ["Boil the potatoes in the water with the salt for 20 minutes."]
    recipe.write_text(json.dumps(SHORT if command != "read" else {**SHORT, "method": method}))
    rest = ["-"] if command == "batch" else ["--json"]
    script = (
        "import atexit, sys\n"
        "atexit.register(lambda: print(*sys.modules, file=sys.stderr))\n"
        "from saltledger.commands.cli import main\n"
        f"main({[command, str(recipe), *rest]!r}, standalone_mode=False)\n"
    )
    run = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True, check=False)
    assert json.loads(run.stdout)
    assert "saltledger.calculator" in run.stderr.split()
    assert WEB.isdisjoint(run.stderr.split())
