from __future__ import annotations

import hashlib
from collections import Counter
from pathlib import Path

import pytest
from saltledger.calculator import answer_recipe
from saltledger.core import tables
from saltledger.core.errors import BrokenTable

SOUP = {"servings": 4, "ingredients": ["800 g potatoes", "1 litre water", "2 tsp table salt"]}


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    (tmp_path / "a.csv").write_bytes(b"id,low\nx,1\n")
    (tmp_path / "b.txt").write_bytes(b"cup = 8 oz\n")
    monkeypatch.setattr(tables, "seed_foods", lambda: tmp_path)
    return tmp_path


def fingerprint() -> str:
    return tables.tables_sha256.__wrapped__()


def test_an_answer_names_the_tables_it_rests_on() -> None:
    assert answer_recipe(SOUP)["tables"] == {"sha256": tables.tables_sha256()}


def test_other_tables_give_another_id_to_the_same_request(monkeypatch: pytest.MonkeyPatch) -> None:
    before = answer_recipe(SOUP)["id"]
    monkeypatch.setattr("saltledger.recipe.answer.tables_sha256", lambda: "other")
    assert answer_recipe(SOUP)["id"] != before


@pytest.mark.parametrize("change", [("a.csv", b"id,low\nx,2\n"), ("c.csv", b"id\n"), ("b.txt", b"")])
def test_any_change_of_a_table_shows(folder: Path, change: tuple[str, bytes]) -> None:
    before = fingerprint()
    (folder / change[0]).write_bytes(change[1])
    assert fingerprint() != before


def test_how_lines_end_and_what_is_no_table_do_not_count(folder: Path) -> None:
    before = fingerprint()
    (folder / "a.csv").write_bytes(b"id,low\r\nx,1\r\n")
    (folder / "build.py").write_text("1")
    assert fingerprint() == before == hashlib.sha256(b"a.csv\0id,low\nx,1\nb.txt\0cup = 8 oz\n").hexdigest()


@pytest.mark.parametrize("row", ["y,1,2", "y"], ids=["a cell too many", "a cell too few"])
def test_a_row_of_other_width_is_named(folder: Path, row: str) -> None:
    (folder / "wide.csv").write_text(f"id,low\nx,1\n{row}\n", encoding="utf-8")
    with pytest.raises(BrokenTable, match=r"wide.csv.*2.*more or fewer cells.*y"):
        tables.rows("wide")


NAMES = sorted(file.name[:-4] for file in tables.seed_foods().iterdir() if file.name.endswith(".csv"))


@pytest.mark.parametrize("name", NAMES)
def test_every_table_can_be_read_and_no_row_stands_twice(name: str) -> None:
    told = [tuple(row.values()) for row in tables.rows(name)]
    twice = [row for row, count in Counter(told).items() if count > 1]
    assert twice == []
