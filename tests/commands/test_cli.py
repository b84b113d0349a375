"""The commands, run as a person runs them."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from flask.testing import FlaskClient
from saltledger import __version__
from saltledger.commands.cli import main
from saltledger.http.examples import SHORT, WRITTEN, recipe_example


def run(*arguments: str, stdin: bytes | None = None) -> Result:
    return CliRunner().invoke(main, arguments, input=stdin)


@pytest.fixture
def recipe(tmp_path: Path) -> Path:
    path = tmp_path / "soup.json"
    path.write_text(json.dumps(SHORT), encoding="utf-8")
    return path


def test_calculate_gives_a_table(recipe: Path) -> None:
    result = run("calculate", str(recipe))
    assert result.exit_code == 0, result.output
    assert "Tern Quay potato soup" in result.output
    assert "4 servings of" in result.output
    assert re.search(r"per serving\s+low\s+likely\s+high\s+% DV", result.output)
    assert re.search(
        r"Sodium per serving: [\d,]+ mg\. The plain sum over the list: [\d,]+ mg\.", result.output
    )


def test_calculate_as_json_is_the_answer_of_the_edge(recipe: Path, client: FlaskClient) -> None:
    result = run("calculate", str(recipe), "--json")
    assert result.exit_code == 0
    assert json.loads(result.stdout) == client.post("/v1/calculations", json=SHORT).get_json()


def test_calculate_reads_standard_input() -> None:
    assert run("calculate", "-", "--json", stdin=json.dumps(SHORT).encode()).exit_code == 0


@pytest.mark.parametrize(
    ("body", "faults"),
    [
        (b"{", ["(recipe): This is not JSON"]),
        (
            b'{"servings": 0, "ingredients": ["salt"], "x": 1}',
            ["/servings: Found the number 0", "/x: There is no"],
        ),
        (b'{"servings": 1, "ingredients": []}', ["(recipe): The recipe has no ingredients"]),
        (b'{"servings": 1, "ingredients": [{"food": "nope", "grams": 1}]}', ["/ingredients/0/food: "]),
    ],
)
def test_a_recipe_with_faults_exits_with_2_and_names_them(body: bytes, faults: list[str]) -> None:
    result = run("calculate", "-", stdin=body)
    assert result.exit_code == 2
    assert result.stdout == ""
    lines = result.stderr.splitlines()
    assert len(lines) == len(faults)
    assert all(line.startswith(fault) for line, fault in zip(lines, faults, strict=True))


def test_a_file_that_is_not_there() -> None:
    result = run("calculate", "nowhere.json")
    assert result.exit_code == 2
    assert "nowhere.json" in result.stderr


def test_the_demo_shows_range_contrast_ledger_and_what_to_try() -> None:
    result = run("demo")
    assert result.exit_code == 0, result.output
    assert "Tern Quay" in result.output
    assert "times too high" in result.output
    assert re.search(r"brine\s+poured away\s+served\s+█+[▏▎▍▌▋▊▉]?", result.output)
    assert re.search(r"brine\s+chicken-legs\s+0\s+[█▏▎▍▌▋▊▉]", result.output)
    assert "curl" in result.output


def test_the_demo_recipe_is_what_the_command_to_try_sends() -> None:
    assert json.loads(run("demo", "--recipe").stdout) == WRITTEN
    assert json.loads(run("demo", "--recipe", "--structured").stdout) == recipe_example()


def test_the_demo_reads_and_maps_every_line() -> None:
    answer = json.loads(run("calculate", "-", "--json", stdin=run("demo", "--recipe").stdout_bytes).stdout)
    assert all(each["food"] and each["grams"] for each in answer["ingredients"])
    assert not [notice for notice in answer["notices"] if notice["severity"] == "stop"]
    listed = answer["sodium"]["as_listed_per_serving_mg"]
    assert listed > 5 * answer["sodium"]["per_serving_mg"]["likely"]


def test_a_reading_marks_the_method_and_asks(tmp_path: Path) -> None:
    file = tmp_path / "recipe.json"
    file.write_text(json.dumps(WRITTEN), encoding="utf-8")
    text = run("read", str(file)).stdout
    assert "[1: Put in the chicken legs" in text
    assert "Brine: chicken legs in brine, 8 h" in text
    assert "How salty is the cooking water" in text
    assert json.loads(run("read", str(file), "--json").stdout)["steps"][0]["method"] == 0
    assert run("read", "-", stdin=b'{"@type": "Product"}').exit_code == 2


def test_a_bad_setting_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SALTLEDGER_PORTS", "1")
    result = run("serve")
    assert result.exit_code == 2
    assert "SALTLEDGER_PORTS is not a setting" in result.stderr


def test_help_tells_every_command_and_setting() -> None:
    text = run("--help").output
    assert all(command in text for command in ("serve", "calculate", "demo", "batch", "openapi", "keys"))
    assert "SALTLEDGER_DATABASE_URL" in run("serve", "--help").output
    assert __version__ in run("--version").output


def test_openapi_writes_only_in_a_checkout(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    assert "top of a checkout" in run("openapi", "--write").output
    (tmp_path / "openapi").mkdir()
    assert run("openapi", "--write").exit_code == 0
    assert (tmp_path / "openapi" / "openapi.yaml").read_text(encoding="utf-8") == run("openapi").stdout
