"""Files that a long run writes: gone on with exactly, put in place whole, never mixed."""

from __future__ import annotations

from pathlib import Path

import pytest
from saltledger.batch import resuming
from saltledger.batch.resuming import OtherRun, ResumableFile, Tally, UnderWay
from saltledger.batch.running import written

ABOUT = {"input": "lines", "release, foods or tables": "a"}


def write(file: ResumableFile, number: int) -> None:
    file.write(f"{number}\n".encode(), Tally(number, 0), {"lines": number})


@pytest.fixture
def target(tmp_path: Path) -> Path:
    return tmp_path / "out.ndjson"


def stopped_after(target: Path, numbers: range, monkeypatch: pytest.MonkeyPatch, keep_s: float = 0.0) -> None:
    """A run that ends as suddenly as by kill -9: what it has kept is on disk, no more is said."""
    monkeypatch.setattr(resuming, "KEEP_SECONDS", keep_s)
    file = ResumableFile(target, ABOUT)
    for number in numbers:
        write(file, number)
    file._out.flush()
    file._out.close()
    file._progress.close()


def test_a_file_takes_its_name_when_it_is_whole(target: Path) -> None:
    target.write_text("old")
    with written(target, ABOUT, anew=False) as file:
        write(file, 1)
        assert target.read_text() == "old"
    assert target.read_text() == "1\n"
    assert list(target.parent.iterdir()) == [target]


def test_a_run_goes_on_where_it_was(target: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    stopped_after(target, range(1, 4), monkeypatch)
    with written(target, ABOUT, anew=False) as file:
        assert (file.mark, file.tally) == ({"lines": 3}, Tally(3, 0))
        write(file, 4)
    assert target.read_text() == "1\n2\n3\n4\n"


def test_what_was_not_kept_is_cut_off(target: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    stopped_after(target, range(1, 3), monkeypatch)
    part, progress = target.with_name("out.ndjson.part"), target.with_name("out.ndjson.progress")
    part.write_bytes(part.read_bytes() + b"half a li")
    progress.write_bytes(progress.read_bytes() + b'{"size": 9999, "ma')
    with written(target, ABOUT, anew=False) as file:
        assert file.mark == {"lines": 2}
    assert target.read_text() == "1\n2\n"


def test_a_file_that_lost_its_end_goes_on_earlier(target: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    stopped_after(target, range(1, 4), monkeypatch)
    part = target.with_name("out.ndjson.part")
    part.write_bytes(part.read_bytes()[:-1])
    with written(target, ABOUT, anew=False) as file:
        assert file.mark == {"lines": 2}


def test_a_run_that_kept_nothing_begins_again(target: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    stopped_after(target, range(1, 4), monkeypatch, keep_s=1000)
    with written(target, ABOUT, anew=False) as file:
        assert (file.mark, file.tally) == (None, Tally())
    assert target.read_text() == ""


def test_another_run_is_refused_by_what_differs(target: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    stopped_after(target, range(1, 3), monkeypatch)
    other = {**ABOUT, "release, foods or tables": "b"}
    with pytest.raises(OtherRun, match=r"another release, foods or tables.*--anew"):
        ResumableFile(target, other)
    with written(target, other, anew=True) as file:
        assert file.mark is None
        write(file, 7)
    assert target.read_text() == "7\n"


def test_two_runs_never_write_one_file(target: Path) -> None:
    with written(target, ABOUT, anew=False), pytest.raises(UnderWay):
        ResumableFile(target, ABOUT)


def test_a_run_that_fails_at_once_leaves_nothing(target: Path) -> None:
    with pytest.raises(RuntimeError), written(target, ABOUT, anew=False):
        raise RuntimeError
    assert list(target.parent.iterdir()) == []
