"""The lock of the figures: a slip in any table is named by row and column, whoever changed what."""

import json
import shutil
from collections.abc import Iterator
from pathlib import Path

import pytest
from saltledger.core.tables import seed_foods
from saltledger.evidence import figure_lock
from saltledger.evidence.figure_lock import differences, in_words, lock_text


@pytest.fixture(scope="module")
def locked(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A copy of the tables, locked as they are."""
    folder = tmp_path_factory.mktemp("locked") / "seed_foods"
    shutil.copytree(str(seed_foods()), folder, ignore=shutil.ignore_patterns("__pycache__", "*.py"))
    (folder / "figures.lock").write_text(lock_text(), encoding="utf-8")
    return folder


@pytest.fixture
def tables(locked: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """The same, to be changed."""
    folder = tmp_path / "seed_foods"
    shutil.copytree(locked, folder)
    monkeypatch.setattr(figure_lock, "seed_foods", lambda: folder)
    figure_lock.fingerprint.cache_clear()
    yield folder
    figure_lock.fingerprint.cache_clear()


def change(tables: Path, name: str, was: str, now: str) -> list[str]:
    file = tables / name
    text = file.read_text(encoding="utf-8")
    assert was in text
    file.write_text(text.replace(was, now, 1), encoding="utf-8")
    return in_words(differences(), 5)


def test_tables_as_locked_differ_in_nothing(tables):
    assert differences() == []


@pytest.mark.parametrize(
    ("name", "was", "now", "told"),
    [
        (
            "reference_values.csv",
            "FE,pregnant_or_nursing,27",
            "FE,pregnant_or_nursing,18",
            "reference_values:fda_daily_value/daily_value/FE/pregnant_or_nursing: value was '27' and is '18'",
        ),
        (
            "curing_limits.csv",
            "us,bacon_pumped,nitrate,pumped,0,",
            "us,bacon_pumped,nitrate,pumped,700,",
            "curing_limits:us/bacon_pumped/nitrate: limit_ppm was '0' and is '700'",
        ),
        (
            "kitchen_units.txt",
            "metric_cup = 250",
            "metric_cup = 240",
            "kitchen_units.txt:metric_cup: line was 'metric_cup = 250 * millilitre' "
            "and is 'metric_cup = 240 * millilitre'",
        ),
    ],
)
def test_a_slip_is_named(tables, name, was, now, told):
    (found,) = change(tables, name, was, now)
    assert found == told


def test_a_row_that_goes_and_one_that_comes(tables):
    file = tables / "drip.csv"
    lines = file.read_text(encoding="utf-8").splitlines(keepends=True)
    file.write_text("".join(lines[:-1]), encoding="utf-8")
    (gone,) = differences()
    assert str(gone).endswith("this row is gone")
    assert gone.name.startswith("drip:")
    file.write_text("".join(lines) + lines[-1].replace(lines[-1].split(",")[0], "moss"), encoding="utf-8")
    assert [str(each) for each in differences()] == [
        f"drip:moss/{gone.row.split('/', 1)[1]}: this row is new"
    ]


def test_the_order_of_rows_counts_where_the_first_that_fits_is_taken(tables):
    file = tables / "hazard_foods.csv"
    *head, before, last = file.read_text(encoding="utf-8").splitlines()
    file.write_text("\n".join([*head, last, before]) + "\n", encoding="utf-8")
    assert in_words(differences(), 5) == [
        "hazard_foods: the order of its rows differs from what was accepted"
    ]


def test_comments_are_no_figures(tables):
    assert change(tables, "drip.csv", "#", "# A word more.\n#") == []


def test_a_changed_dataset_is_told(tables):
    file = tables / "data" / "values.csv"
    file.write_text(file.read_text(encoding="utf-8").replace("1", "2", 1), encoding="utf-8")
    assert in_words(differences(), 5) == ["data/values: its content differs from what was accepted"]


def test_two_people_who_change_two_rows_change_two_lines(tables):
    locked = lock_text().splitlines()
    change(tables, "reference_values.csv", "FE,pregnant_or_nursing,27", "FE,pregnant_or_nursing,18")
    told = [line for line in lock_text().splitlines() if line not in locked]
    assert sorted(json.loads(line)[1] for line in told) == [
        "",
        "fda_daily_value/daily_value/FE/pregnant_or_nursing",
    ]


def test_a_table_locked_twice_after_a_merge_is_looked_at_row_by_row(tables):
    lock = tables / "figures.lock"
    text = lock.read_text(encoding="utf-8")
    line = next(line for line in text.splitlines() if line.startswith('["drip.csv","",'))
    lock.write_text(f'{text}{line.replace("digest", "digest")[:-20]}0000"}},"",""]\n', encoding="utf-8")
    assert in_words(differences(), 5) == ["drip: the order of its rows differs from what was accepted"]


def test_the_fingerprint_is_of_the_figures(tables):
    before = figure_lock.fingerprint()
    figure_lock.fingerprint.cache_clear()
    change(tables, "reference_values.csv", "FE,pregnant_or_nursing,27", "FE,pregnant_or_nursing,18")
    assert figure_lock.fingerprint() != before


def test_many_differences_are_counted():
    found = [figure_lock.Difference("drip", str(n), "low", "1", "2") for n in range(9)]
    assert in_words(found, 2)[2:] == ["and 7 more"]
