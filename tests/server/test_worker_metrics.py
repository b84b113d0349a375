"""Places for the figures of workers: the master's, bounded, and full-size before anybody writes."""

from __future__ import annotations

import os
from pathlib import Path
from types import SimpleNamespace

import pytest
from saltledger.server import worker_metrics


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    monkeypatch.setattr(worker_metrics.Figures, "_show_to_metrics", lambda self: None)
    return tmp_path


def test_every_file_has_its_whole_room_from_the_start(folder: Path) -> None:
    kept = worker_metrics.Figures(3)
    files = [file.stat() for file in folder.glob("*/*.db")]
    assert len(files) == 3 * len(worker_metrics.KINDS)
    assert all(file.st_blocks * 512 >= file.st_size == worker_metrics.FILE_BYTES for file in files)
    kept.remove()
    assert not list(folder.iterdir())


def test_a_successor_goes_on_where_a_worker_stopped(folder: Path) -> None:
    kept = worker_metrics.Figures(2)
    first, second, third, next_one = (SimpleNamespace() for _ in range(4))
    for worker in (first, second, third):
        kept.reserve(worker)
    assert (first.place, second.place, third.place) == (0, 1, None)
    kept.release(third)
    kept.release(first)
    kept.reserve(next_one)
    assert next_one.place == 0


def test_a_worker_removes_nothing(folder: Path) -> None:
    kept = worker_metrics.Figures(1)
    child = os.fork()
    if child == 0:
        kept.remove()
        os._exit(0)
    os.waitpid(child, 0)
    assert len(list(folder.glob("*/*.db"))) == len(worker_metrics.KINDS)


def test_without_room_there_are_none_and_nothing_is_left(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "posix_fallocate", full)
    assert worker_metrics.figures_of(2) is None
    assert not list(folder.iterdir())
