"""`saltledger batch`: an answer for each line, whatever happens on the way."""

from __future__ import annotations

import gzip
import io
import json
import subprocess
import time
from pathlib import Path
from typing import Any

import pytest
import zstandard
from click.testing import CliRunner, Result
from saltledger.batch import compression
from saltledger.batch.resuming import KEEP_SECONDS
from saltledger.commands.cli import main
from saltledger.commands.verify import _today
from saltledger.http.examples import SHORT
from saltledger.jobs.workbenches import make_workbench
from saltledger.review.chain import Actor
from saltledger.store.database import Database
from saltledger.store.verifying import verify

from ..serving import COMMAND

GOOD = json.dumps(SHORT).encode()
SECONDS = 60


def run(*arguments: object, stdin: bytes | None = None) -> Result:
    return CliRunner().invoke(main, ["batch", *map(str, arguments)], input=stdin)


def keyed(number: int) -> bytes:
    recipe = {**SHORT, "title": f"dish {number}", "servings": 2 + number % 5}
    return json.dumps({"key": f"dish-{number}", "recipe": recipe}).encode() + b"\n"


def answers(data: bytes) -> list[dict[str, Any]]:
    return [json.loads(line) for line in data.splitlines()]


def test_there_is_an_answer_for_each_line(tmp_path: Path) -> None:
    source, target = tmp_path / "in.ndjson", tmp_path / "out.ndjson"
    source.write_bytes(GOOD + b"\nnot json\n" + GOOD)
    result = run(source, target)
    assert result.exit_code == 1
    assert result.stderr == "3 recipes, 2 answered, 1 with problems.\n"
    assert [answer.get("line") for answer in answers(target.read_bytes())] == [None, 2, None]
    assert sorted(path.name for path in tmp_path.iterdir()) == ["in.ndjson", "out.ndjson"]


def test_without_problems_it_exits_with_0_and_writes_to_standard_output() -> None:
    result = run("-", "-", stdin=GOOD)
    assert result.exit_code == 0
    assert json.loads(result.stdout)["title"] == SHORT["title"]


def test_keys_are_kept_in_answers_and_problems() -> None:
    bad = b'{"key": "bad", "recipe": {"servings": 0, "ingredients": ["salt"]}}\n'
    first, second = answers(run("-", "-", stdin=keyed(1) + bad).stdout_bytes)
    assert (first["key"], first["title"], "line" in first) == ("dish-1", "dish 1", False)
    assert (second["key"], second["line"], second["errors"][0]["pointer"]) == ("bad", 2, "/recipe/servings")


def test_processes_answer_as_one_does() -> None:
    lines = b"".join(keyed(number) for number in range(70)) + b"{\n"
    alone, together = run("-", "-", "--workers", 1, stdin=lines), run("-", "-", "--workers", 3, stdin=lines)
    assert alone.stdout_bytes == together.stdout_bytes
    assert len(answers(alone.stdout_bytes)) == 71


@pytest.mark.parametrize("suffix", [".gz", ".zst"])
def test_compressed_lines_are_read_and_written(tmp_path: Path, suffix: str) -> None:
    source, target = tmp_path / f"in{suffix}", tmp_path / f"out{suffix}"
    lines = b"".join(keyed(number) for number in range(40))
    source.write_bytes(compression.packed(lines, compression.SUFFIXES[suffix]))
    assert run(source, target, "--workers", 1).exit_code == 0
    data = target.read_bytes()
    if suffix == ".gz":
        unpacked = gzip.decompress(data)
    else:
        unpacked = (
            zstandard.ZstdDecompressor().stream_reader(io.BytesIO(data), read_across_frames=True).read()
        )
    assert unpacked == run("-", "-", stdin=lines).stdout_bytes


@pytest.mark.parametrize("workers", [1, 2])
def test_an_input_that_breaks_off_says_so_and_keeps_what_was_answered(tmp_path: Path, workers: int) -> None:
    source, target = tmp_path / "in.gz", tmp_path / "out.ndjson"
    lines = b"".join(keyed(number) for number in range(100))
    whole = gzip.compress(lines[:-400]) + gzip.compress(lines[-400:])
    source.write_bytes(whole[:-5])
    result = run(source, target, "--workers", workers)
    assert result.exit_code == 2
    assert "use a whole copy" in result.stderr
    source.write_bytes(whole)
    again = run(source, target, "--workers", workers)
    assert "Going on after 96 recipes of an earlier run." in again.stderr
    assert [each["key"] for each in answers(target.read_bytes())] == [f"dish-{n}" for n in range(100)]


def test_an_old_file_stays_whole_where_a_run_fails(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    target = tmp_path / "out.ndjson"
    target.write_text("old", encoding="utf-8")

    def fail(*arguments: object) -> None:
        raise OSError("disk full")

    monkeypatch.setattr("saltledger.batch.resuming.os.replace", fail)
    assert run("-", target, stdin=GOOD).exception is not None
    assert target.read_text(encoding="utf-8") == "old"
    monkeypatch.undo()
    assert "Going on after 1 recipes" in run("-", target, stdin=GOOD).stderr
    assert len(answers(target.read_bytes())) == 1


def test_a_line_too_long_does_not_end_it(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SALTLEDGER_BODY_BYTES", "1024")
    result = run("-", "-", stdin=GOOD + b"\n" + b"x" * 5_000 + b"\n" + GOOD + b"\n" + b"y" * 5_000)
    assert [each.get("status") for each in answers(result.stdout_bytes)] == [None, 413, None, 413]


def test_a_run_that_is_killed_goes_on_and_answers_every_line_once(tmp_path: Path) -> None:
    source, target, whole = (tmp_path / name for name in ("in.ndjson", "out.ndjson.zst", "whole.ndjson"))
    lines: list[bytes] = []
    progress = tmp_path / "out.ndjson.zst.progress"
    command = [*COMMAND, "batch", "-", str(target), "--workers", "2"]
    with subprocess.Popen(command, stdin=subprocess.PIPE, stderr=subprocess.DEVNULL) as first:
        assert first.stdin is not None
        deadline = time.monotonic() + SECONDS
        while not progress.exists() or progress.read_bytes().count(b"\n") < 2:
            assert time.monotonic() < deadline
            more = [keyed(number) for number in range(len(lines), len(lines) + 32)]
            first.stdin.write(b"".join(more))
            first.stdin.flush()
            lines += more
            time.sleep(KEEP_SECONDS)
        first.kill()
    lines += [keyed(number) for number in range(len(lines), len(lines) + 8)]
    source.write_bytes(b"".join(lines))
    assert not target.exists()
    again = subprocess.run(
        [*COMMAND, "batch", str(source), str(target), "--workers", "2"],
        capture_output=True,
        text=True,
        timeout=SECONDS,
        check=True,
    )
    assert "Going on after" in again.stderr
    assert run(source, whole, "--workers", 1).exit_code == 0
    assert _unpacked(target) == whole.read_bytes()
    assert [each["key"] for each in answers(whole.read_bytes())] == [f"dish-{n}" for n in range(len(lines))]


def _unpacked(file: Path) -> bytes:
    with file.open("rb") as opened:
        return compression.reading(opened).read()


def test_saved_recipes_are_worked_out_from_the_store(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    url = f"sqlite:///{tmp_path}/store.sqlite3"
    monkeypatch.setenv("SALTLEDGER_DATABASE_URL", url)
    database = Database(url)
    bench = make_workbench(database)
    for number in range(35):
        bench.save(f"dish-{number:02}", {**SHORT, "title": f"dish {number}"}, Actor("local"))
    bench.save(
        "tray",
        {"title": "Tray", "servings": 2, "ingredients": [{"recipe": "dish-03", "servings": 2}]},
        Actor("local"),
    )
    database.close()
    result = run("--from-store", tmp_path / "out.ndjson", "--workers", 2)
    assert result.exit_code == 0, result.stderr
    found = answers((tmp_path / "out.ndjson").read_bytes())
    assert [each["key"] for each in found] == [f"dish-{number:02}" for number in range(35)] + ["tray"]
    alone = json.loads(run("-", "-", stdin=json.dumps({**SHORT, "title": "dish 3"}).encode()).stdout)
    assert {**found[3], "key": None} == {**alone, "key": None}


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("in",), "Name IN and OUT."),
        (("--from-store", "in", "out"), "Name OUT alone."),
        (("nowhere.ndjson", "-"), "nowhere.ndjson cannot be read"),
        (("-", "-", "--workers", "2", "--cluster", "tcp://127.0.0.1:1"), "leave it out with --cluster"),
    ],
)
def test_what_makes_no_sense_is_refused_in_words(arguments: tuple[str, ...], words: str) -> None:
    result = run(*arguments, stdin=b"")
    assert result.exit_code == 2
    assert words in result.stderr


def test_a_bar_is_drawn_where_it_is_wanted() -> None:
    result = run("-", "-", "--progress", "--workers", 1, stdin=b"".join(keyed(n) for n in range(70)))
    assert "recipes, " in result.stderr
    assert "a second" in result.stderr


@pytest.mark.parametrize("workers", [1, 2])
def test_recipes_are_saved_where_that_is_wanted(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, workers: int
) -> None:
    url = f"sqlite:///{tmp_path}/store.sqlite3"
    monkeypatch.setenv("SALTLEDGER_DATABASE_URL", url)
    lines = [keyed(number) for number in range(70)]
    lines[3] = b'{"key": "bad", "recipe": {"servings": 0, "ingredients": ["salt"]}}\n'
    lines[5] = GOOD + b"\n"
    lines[60] = lines[2].replace(b'"servings": ', b'"servings": 1')
    first = answers(run("-", "-", "--save", "--workers", workers, stdin=b"".join(lines)).stdout_bytes)
    assert [each["line"] for each in first] == list(range(1, 71))
    assert [each.get("status") for each in (first[3], first[5])] == [422, 422]
    assert (first[60]["key"], first[60]["saved"], first[60]["version"]) == ("dish-2", "changed", 2)
    assert {each.get("saved") for each in first} == {"new", "changed", None}
    again = answers(run("-", "-", "--save", "--workers", workers, stdin=b"".join(lines[6:50])).stdout_bytes)
    assert {each["saved"] for each in again} == {"unchanged"}
    assert [each["save_id"] for each in again] == [each["save_id"] for each in first[6:50]]
    database = Database(url)
    with database.read() as connection:
        checked = verify(connection, _today(database, connection), frozenset({"dish-7", "dish-2"}))
    database.close()
    assert (checked.versions, checked.altered, checked.differs) == (68, [], [])
